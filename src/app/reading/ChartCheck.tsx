/** A chart held against its picture and put right: its cells, its grid, its colours; every act can be taken back. */
import { useCallback, useEffect, useMemo, useState, type KeyboardEvent, type ReactNode } from "react";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { gridBetween } from "../../intake/findGrids.ts";
import {
  addColour,
  doubtfulCells,
  likeCells,
  setCells,
  type CellPlace,
  type Corrected,
} from "../../intake/correctChart.ts";
import { regrid } from "../../intake/regridChart.ts";
import type { LaidGrid, LayOptions } from "../worker/chartApi.ts";
import { CellsPanel, visitWords } from "./CellsPanel.tsx";
import { ColoursPanel } from "./ColoursPanel.tsx";
import { GridHandles } from "./GridHandles.tsx";
import { GridPanel } from "./GridPanel.tsx";
import { draftOf, draftWrong, gridWithLine, type GridDraft, type Side } from "./laying.ts";
import { withPart } from "./parts.ts";
import { changed, corrected, partAt, sheetName, withoutUnused, type ChartInHand, type ChartPart } from "./reading.ts";
import type { ShownCells } from "./sheetDraw.ts";
import { SheetView, type ShownPlace } from "./SheetView.tsx";
import type { Reading } from "./useReading.ts";
import { useSheetPictures } from "./useSheetPictures.ts";
import { cellWords, colourWords, countWords } from "./words.ts";

/** "picture" is a part of its own where parts take turns. */
type Part = "picture" | "cells" | "grid" | "colours";

interface ChartCheckProps {
  readonly reading: Reading;
  readonly chart: ChartInHand;
  readonly say: (sentence: string) => void;
  /** A chart put together is several again. */
  readonly onApart: (chart: ChartInHand) => void;
}

const PART_NAMES: Readonly<Record<Part, string>> = {
  picture: "Picture",
  cells: "Cells",
  grid: "Grid",
  colours: "Colours",
};

/** Cells of a chart whose likenesses are counted while she walks over it. Our choice. */
const COUNTED_AT_ONCE = 12_000;

/** The width in reading.css below which the parts take turns: where nothing is in doubt, the picture is the first. */
const IN_TURN = "(max-width: 699px)";

/** The cells at half strength, so that picture and reading are both seen. */
const FIRST_COVER = 0.5;

export function ChartCheck({ reading, chart, say, onApart }: ChartCheckProps): ReactNode {
  const { sheets, act, lay, progress } = reading;
  const { state, key, parts } = chart;
  const [part, setPart] = useState<Part>(() =>
    doubtfulCells(state).length === 0 && matchMedia(IN_TURN).matches ? "picture" : "cells",
  );
  const [cell, setCell] = useState<CellPlace | null>(null);
  const [isAlike, setAlike] = useState(false);
  const [cover, setCover] = useState(FIRST_COVER);
  const [shownPart, setShownPart] = useState(0);
  const [draft, setDraft] = useState<GridDraft | null>(null);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  useEffect(() => {
    setCell(null);
    setDraft(null);
    setWrong([]);
    setShownPart(0);
    setAlike(false);
  }, [key]);

  const { columns, rows } = state.looks;
  // A grid that was laid anew may have left the cell outside.
  const inHand = cell && cell[0] <= rows && cell[1] <= columns ? cell : null;
  const at = useMemo(
    () => (inHand ? ([rows - inHand[0], columns - inHand[1]] as const) : null),
    [inHand, rows, columns],
  );
  const ofCell = at && partAt(chart, at[0], at[1]);
  const place: ChartPart | null = parts[shownPart] ?? parts[0] ?? null;
  useEffect(() => {
    if (ofCell) setShownPart(parts.indexOf(ofCell));
  }, [ofCell, parts]);
  const sheet = sheets.find(({ key: one }) => one === place?.sheet) ?? null;
  const pictures = useSheetPictures(sheet);

  const left = useMemo(() => doubtfulCells(state), [state]);
  const cells = useMemo((): ShownCells | null => {
    if (!place) return null;
    const { grid, top, left: from } = place;
    const texts = state.rows.slice(top, top + grid.rows).map((row) => row.slice(from, from + grid.columns));
    return { rows: texts, colours: state.colours, symbols: state.symbols, grid };
  }, [state, place]);
  const shown = useCallback(
    ([row, column]: CellPlace): ShownPlace[] => {
      if (!place) return [];
      const [down, across] = [rows - row - place.top, columns - column - place.left];
      const isIn = down >= 0 && across >= 0 && down < place.grid.rows && across < place.grid.columns;
      return isIn ? [[down, across]] : [];
    },
    [place, rows, columns],
  );
  const doubtful = useMemo(() => left.flatMap(shown), [left, shown]);
  // In a large chart all cells are gone through only when she wants to know.
  const isCounted = isAlike || columns * rows <= COUNTED_AT_ONCE;
  const like = useMemo(
    () => (isCounted && inHand ? likeCells(state, inHand[0], inHand[1]) : null),
    [isCounted, inHand, state],
  );
  const alike = useMemo(() => (isAlike && like ? like.flatMap(shown) : NONE), [isAlike, like, shown]);
  const chosen = useMemo(() => (inHand ? (shown(inHand)[0] ?? null) : null), [inHand, shown]);

  const visit = (direction: 1 | -1, of = state): void => {
    const list = doubtfulCells(of);
    const now = list.findIndex(([row, column]) => inHand && row === inHand[0] && column === inHand[1]);
    const next =
      list[now < 0 ? (direction === 1 ? 0 : list.length - 1) : (now + direction + list.length) % list.length];
    setCell(next ?? null);
    if (next) say(visitWords({ ...chart, state: of }, next, list.length));
    if (now < 0 || !next)
      requestAnimationFrame(() => focusOn(next ? ".cell-choices [aria-pressed=true]" : "#cells-title"));
  };
  const choose = ([row, column]: ShownPlace): void => {
    if (!place) return;
    const next: CellPlace = [rows - (row + place.top), columns - (column + place.left)];
    setCell(next);
    setPart("cells");
    const id = state.rows[row + place.top]![column + place.left]!;
    say(`${cellWords(...next)}: ${colourWords(id, state.colours[id])}.`);
  };
  const onSet = (id: string, all: boolean, from = state): void => {
    if (!inHand) return;
    const places = all ? (like ?? likeCells(state, inHand[0], inHand[1])) : [inHand];
    const wasDoubtful = left.some(([row, column]) => row === inHand[0] && column === inHand[1]);
    const is = colourWords(id, from.colours[id]);
    const name =
      places.length > 1 ? `${countWords(places.length, "cell")} made ${is}` : `${cellWords(...inHand)} made ${is}`;
    const after = setCells(from, places, id);
    act(name, (charts) => corrected(charts, key, () => after));
    if (!wasDoubtful) return say(`${name}.`);
    const rest = doubtfulCells(after);
    if (rest.length === 0) {
      say(`${name}. No cell is left in doubt.`);
      setCell(null);
      requestAnimationFrame(() => focusOn("#cells-done"));
    } else visit(1, after);
  };

  const onNew = (all: boolean): void => {
    if (!at) return;
    const { labs } = state.looks;
    const cellAt = (at[0] * columns + at[1]) * 3;
    const lab: Lab = [labs[cellAt]!, labs[cellAt + 1]!, labs[cellAt + 2]!];
    const added = addColour(state, { hex: hexFromLab(lab), lab });
    if (added) onSet(added.id, all, added.state);
    else say("The chart has as many colours as there are letters for.");
  };

  const current = useMemo(() => (place ? draftOf(place.grid) : null), [place]);
  const shownDraft = draft ?? current;
  const draftGrid = useMemo(() => {
    if (part !== "grid" || !place) return null;
    if (!draft) return place.grid;
    return draftWrong(draft) ? null : gridBetween(draft.corners, draft.columns, draft.rows);
  }, [part, place, draft]);
  const relay = async (grid: LaidGrid, options: LayOptions, name: string): Promise<void> => {
    if (!sheet) return;
    setWrong([]);
    const answer = await lay(sheet, grid, options);
    if (!answer) return;
    const { value, told } = answer;
    if (!value) return setWrong(told);
    let goesTogether = true;
    act(name, (charts) => {
      const now = charts.find((one) => one.key === key);
      const next =
        now &&
        withPart(now, shownPart, (one) => {
          const laid = value.chart.grid ?? one.parts[0]!.grid;
          const state = withoutUnused(regrid(one.state, value, "place"));
          return { ...one, state, isDrawn: false, parts: [{ ...one.parts[0]!, grid: laid }] };
        });
      goesTogether = Boolean(next);
      return next ? changed(charts, key, () => next) : charts;
    });
    if (!goesTogether) return setWrong([APART]);
    setDraft(null);
    say(`${name}: ${value.looks.columns} stitches, ${value.looks.rows} rows.`);
  };
  const onLine = (side: Side, by: 1 | -1): void => {
    const next = place && gridWithLine(place.grid, side, by);
    const one = side === "top" || side === "bottom" ? "row" : "column";
    if (next) void relay(next, { snap: false }, `one ${one} ${by > 0 ? "more" : "less"} at the ${side}`);
  };
  const onAct = (name: string, how: (state: Corrected) => Corrected): void => {
    act(name, (charts) => corrected(charts, key, how));
    say(`${name}.`);
  };

  const onKey = (event: KeyboardEvent): boolean => {
    if (event.key === "PageDown" || event.key === "PageUp") {
      setPart("cells");
      visit(event.key === "PageDown" ? 1 : -1);
    } else if (event.key === "Enter" && inHand) focusOn(".cell-choices [aria-pressed=true]");
    else return false;
    return true;
  };
  return (
    <div className="chart-check" data-part={part}>
      <div className="check-picture">
        {pictures && sheet ? (
          <SheetView
            pictures={pictures}
            name={sheetName(sheet)}
            cells={cells}
            cover={cover}
            chosen={chosen}
            doubtful={doubtful}
            alike={alike}
            draft={draftGrid}
            label={
              part === "grid"
                ? "The sheet with the grid. Plus and minus come nearer and go farther, arrow keys move the sheet, Tab goes to the handles."
                : `The sheet with the cells over it${inHand ? `, at ${cellWords(...inHand)}` : ""}. Arrow keys move from cell to cell, Enter goes to its colours, Page Down to the next in doubt, plus and minus come nearer.`
            }
            onChoose={choose}
            onKey={onKey}
            tools={
              <>
                <label className="cover">
                  <span>Picture</span>
                  <input
                    type="range"
                    min={0}
                    max={100}
                    step={5}
                    value={Math.round(cover * 100)}
                    aria-label="How thickly the read cells lie over the picture, per cent"
                    onChange={(event) => setCover(Number(event.target.value) / 100)}
                  />
                  <span>cells</span>
                </label>
                {parts.length > 1 && (
                  <label className="cover">
                    <span>On</span>
                    <select
                      className="field"
                      value={shownPart}
                      aria-label="Which part of the chart is shown"
                      onChange={(event) => {
                        setCell(null);
                        setDraft(null);
                        setShownPart(Number(event.target.value));
                      }}
                    >
                      {parts.map((one, index) => {
                        const its = sheets.find(({ key: sheetKey }) => sheetKey === one.sheet);
                        return (
                          <option key={index} value={index}>
                            {its ? sheetName(its) : `part ${index + 1}`}
                          </option>
                        );
                      })}
                    </select>
                  </label>
                )}
              </>
            }
          >
            {(look) =>
              part === "grid" && draftGrid && shownDraft && pictures ? (
                <GridHandles draft={shownDraft} size={pictures} look={look} onChange={setDraft} />
              ) : null
            }
          </SheetView>
        ) : (
          <div className="sheet-waiting" role="status">
            {sheet ? "Opening the picture…" : "There is no picture of this chart."}
          </div>
        )}
      </div>
      <div className="check-side">
        <div className="check-parts tool-group" role="group" aria-label="What is put right">
          {(["picture", "cells", "grid", "colours"] as const).map((one) => (
            <button
              key={one}
              type="button"
              className="button"
              data-part={one}
              aria-pressed={part === one}
              onClick={() => setPart(one)}
            >
              {PART_NAMES[one]}
              {one === "cells" && left.length > 0 && (
                <span className="count">
                  {left.length}
                  <span className="unseen"> in doubt</span>
                </span>
              )}
            </button>
          ))}
        </div>
        {wrong.map((sentence) => (
          <p key={sentence} role="alert" className="reading-wrong">
            {sentence}
          </p>
        ))}
        {(part === "cells" || part === "picture") && (
          <CellsPanel
            chart={chart}
            pictures={pictures}
            cell={inHand}
            left={left}
            isAlike={isAlike}
            alike={like?.length ?? null}
            onAlike={setAlike}
            onVisit={(direction) => visit(direction)}
            onSet={onSet}
            onNew={onNew}
            onDone={() => {
              setPart("colours");
              requestAnimationFrame(() => focusOn(".read-colours input"));
            }}
          />
        )}
        {part === "grid" &&
          (!place || !shownDraft || !pictures ? (
            <p className="reading-panel">
              {place ? "Opening the picture…" : "This chart has no picture to lay a grid on."}
            </p>
          ) : (
            <GridPanel
              draft={shownDraft}
              part={
                parts.length > 1 && sheet
                  ? { name: sheetName(sheet), count: parts.length, onApart: () => onApart(chart) }
                  : null
              }
              isMoved={draft !== null}
              isRead
              size={pictures}
              isBusy={progress !== null}
              onDraft={setDraft}
              onBack={() => setDraft(null)}
              onLay={(snap) => void relay({ ...shownDraft }, { snap }, "the grid laid anew")}
              onLine={onLine}
            />
          ))}
        {part === "colours" && (
          <ColoursPanel
            chart={chart}
            isBusy={progress !== null}
            onAct={onAct}
            onSay={say}
            onAgain={
              parts.length === 1 && place
                ? (colours) => void relay(place.grid, { snap: false, colours }, `read again with ${colours} colours`)
                : null
            }
          />
        )}
      </div>
    </div>
  );
}

const NONE: readonly ShownPlace[] = [];

const APART =
  "Read so, the part no longer goes together with the others: expected as many rows or columns as they share and lie beside. Take the chart apart to change it more.";

const focusOn = (selector: string): void => document.querySelector<HTMLElement>(`.reading ${selector}`)?.focus();
