/** What is chosen or in the hand, and what can be done with it. */
import { useRef, useState, type ReactNode } from "react";
import { NO_STITCH } from "../../chart/chart.ts";
import { regionBetween } from "../../chart/draw.ts";
import { moved } from "../../chart/draw/move.ts";
import { CountField, countIn, useCounts } from "./CountField.tsx";
import { DeskIcon } from "./DeskIcon.tsx";
import { toChart } from "./DeskSurface.tsx";
import { capital } from "../shell/words.ts";
import { chosenWords, regionSize, regionWords, valueName } from "./deskWords.ts";
import type { Desk } from "./useDesk.ts";

export function ChosenPart({ desk }: { readonly desk: Desk }): ReactNode {
  const { selection, held, value, grid, colours } = desk;
  const colour = valueName(value, grid.ids, colours);
  const copied = useRef("");
  const copy = (): void => {
    const text = desk.copyText();
    if (text === null) return;
    copied.current = text;
    // Where the browser lends no clipboard the piece is still here to be pasted.
    void navigator.clipboard?.writeText(text).catch(() => undefined);
    desk.tell(selection?.mask && !held ? `Copied: the rectangle around them, ${regionSize(selection)}.` : "Copied.");
  };
  const paste = async (): Promise<void> => {
    const text = copied.current || (await navigator.clipboard?.readText().catch(() => "")) || "";
    if (text === "") desk.tell("Nothing was copied here. Ctrl V on the chart pastes from elsewhere.");
    else desk.paste(text);
    toChart();
  };
  const thenChart = (act: () => unknown) => (): void => {
    act();
    toChart();
  };
  const button = (words: string, act: () => void, isOff = false): ReactNode => (
    <button type="button" className="button" disabled={isOff} onClick={act}>
      {words}
    </button>
  );
  return (
    <details className="desk-part" open={selection !== null || held !== null}>
      <summary>Chosen</summary>
      <p className="desk-hint">
        {held
          ? "In the hand: drag it or use the arrow keys, Enter lays it down."
          : selection
            ? selection.mask
              ? `${capital(chosenWords(selection))}, within ${regionWords(selection)}`
              : regionWords(selection)
            : "Nothing is chosen. Drag with Choose, or hold Shift and use the arrow keys."}
      </p>
      {held && (
        <div className="desk-acts">
          {button("Lay it down", thenChart(desk.layDown))}
          {button("Let go", thenChart(desk.stepBack))}
        </div>
      )}
      <div className="desk-acts">
        {button("All", desk.chooseAll)}
        {button(`All in ${colour}`, desk.chooseColour)}
        {button(
          "None",
          thenChart(() => desk.choose(null)),
          !selection,
        )}
      </div>
      <div className="desk-acts">
        {button("Copy", copy, !selection && held?.kind !== "piece")}
        {button("Paste", () => void paste())}
        {button("Pick up", thenChart(desk.pickUp), !selection || held !== null)}
      </div>
      <div className="desk-acts">
        {(
          [
            ["across", "Mirror left to right"],
            ["up", "Mirror upside down"],
            ["left", "Turn left"],
            ["right", "Turn right"],
            ["about", "Turn by a half"],
          ] as const
        ).map(([act, words]) => (
          <button
            key={act}
            type="button"
            className="tool edged"
            aria-label={words}
            title={words}
            disabled={!selection && !held}
            onClick={() => desk.change(act)}
          >
            <DeskIcon name={act} />
          </button>
        ))}
      </div>
      {selection && !held && (
        <>
          <div className="desk-acts">
            {value !== NO_STITCH && button(`Make it ${colour}`, () => desk.fillChosen(value))}
            {button("No stitch here", desk.takeOut)}
          </div>
          <MoveByNumbers desk={desk} />
          <TileByNumbers desk={desk} />
        </>
      )}
      <ReplaceColour desk={desk} />
    </details>
  );
}

function MoveByNumbers({ desk }: { readonly desk: Desk }): ReactNode {
  const { grid, selection, chart } = desk;
  const [up, setUp] = useState("0");
  const [left, setLeft] = useState("0");
  const rows = countIn(up, -grid.height, grid.height);
  const columns = countIn(left, -grid.width, grid.width);
  const isNone = rows === null || columns === null || (rows === 0 && columns === 0);
  const move = (): void => {
    if (!selection || rows === null || columns === null) return;
    const after = moved(grid, selection, [rows, columns], chart.worked !== "flat");
    if (desk.keep(after.grid, `${chosenWords(selection)} moved`)) desk.choose(after.selection);
  };
  return (
    <div className="count-line">
      <CountField name="Rows up" value={up} least={-grid.height} most={grid.height} onType={setUp} />
      <CountField name="Stitches left" value={left} least={-grid.width} most={grid.width} onType={setLeft} />
      <button type="button" className="button" disabled={isNone} onClick={move}>
        Move
      </button>
    </div>
  );
}

/** Over the whole chart, or the rows and stitches that she says. */
function TileByNumbers({ desk }: { readonly desk: Desk }): ReactNode {
  const { grid } = desk;
  const { counts, grid: countGrid } = useCounts([
    { key: "fromRow", name: "Rows from", most: grid.height, first: 1 },
    { key: "toRow", name: "to", most: grid.height, first: grid.height },
    { key: "fromStitch", name: "Stitches from", most: grid.width, first: 1 },
    { key: "toStitch", name: "to", most: grid.width, first: grid.width },
  ]);
  const lay = (): void => {
    const [fromRow, toRow, fromStitch, toStitch] = counts!;
    desk.tile(regionBetween([fromRow!, fromStitch!], [toRow!, toStitch!]));
  };
  return (
    <fieldset className="count-lines">
      <legend>Lay it over and over</legend>
      {countGrid}
      <button type="button" className="button" disabled={counts === null} onClick={lay}>
        Lay it over these
      </button>
    </fieldset>
  );
}

function ReplaceColour({ desk }: { readonly desk: Desk }): ReactNode {
  const { grid, colours, value, selection } = desk;
  const [from, setFrom] = useState(NO_STITCH);
  const values = [...grid.ids.keys(), NO_STITCH].filter((one) => one !== value && grid.cells.includes(one));
  const chosen = values.includes(from) ? from : values[0];
  if (chosen === undefined) return null;
  return (
    <div className="count-line">
      <label className="count-field">
        <span>Replace {selection ? "in what is chosen" : "in the chart"}</span>
        <select className="field" value={chosen} onChange={(event) => setFrom(Number(event.target.value))}>
          {values.map((one) => (
            <option key={one} value={one}>
              {valueName(one, grid.ids, colours)}
            </option>
          ))}
        </select>
      </label>
      <button type="button" className="button" onClick={() => desk.replace(chosen, value)}>
        by {valueName(value, grid.ids, colours)}
      </button>
    </div>
  );
}
