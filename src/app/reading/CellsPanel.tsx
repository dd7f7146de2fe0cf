/** The cells in doubt, one after the other: each large beside its own pixels, with the colours it may have as choices. */
import { useEffect, useMemo, useRef, type KeyboardEvent, type ReactNode } from "react";
import { din99FromLab } from "../../colour/din99.ts";
import type { CellPlace, Corrected } from "../../intake/correctChart.ts";
import { CellClose } from "./CellClose.tsx";
import { ColourMark } from "./ColourMark.tsx";
import type { ChartInHand } from "./reading.ts";
import type { SheetPictures } from "./useSheetPictures.ts";
import { cellWords, colourWords, countWords } from "./words.ts";

interface CellsPanelProps {
  readonly chart: ChartInHand;
  readonly pictures: SheetPictures | null;
  /** The cell in hand; row 1 at the bottom, column 1 at the right. */
  readonly cell: CellPlace | null;
  /** Cells still in doubt, least sure first. */
  readonly left: readonly CellPlace[];
  readonly isAlike: boolean;
  /** How many cells look like the one in hand; null where nobody has counted. */
  readonly alike: number | null;
  readonly onAlike: (isAlike: boolean) => void;
  readonly onVisit: (direction: 1 | -1) => void;
  readonly onSet: (id: string, isAlike: boolean) => void;
  /** It is none of the chart's colours: one more, as it looks there. */
  readonly onNew: (isAlike: boolean) => void;
  readonly onDone: () => void;
}

export function CellsPanel(props: CellsPanelProps): ReactNode {
  const { chart, pictures, cell, left, isAlike, alike, onAlike, onVisit, onSet, onNew, onDone } = props;
  const { state } = chart;
  const list = useRef<HTMLDivElement>(null);
  const { columns, rows } = state.looks;
  const at = cell ? ([rows - cell[0], columns - cell[1]] as const) : null;
  const now = at ? (state.rows[at[0]]![at[1]] ?? "-") : "-";
  const candidates = useMemo(() => (cell ? candidatesOf(state, cell) : []), [state, cell]);
  const place = cell ? cell.join(" ") : "";
  // Each cell begins with what it was read as.
  useEffect(() => {
    const element = list.current;
    if (!element || element !== document.activeElement?.closest(".cell-choices")) return;
    element.querySelector<HTMLElement>("[aria-pressed=true]")?.focus({ preventScroll: true });
  }, [place]);

  if (!cell || !at)
    return (
      <div className="reading-panel">
        <h3 id="cells-title" tabIndex={-1}>
          {left.length === 0 ? (
            "No cell is in doubt"
          ) : (
            <>
              Cells to look at <span className="count">{left.length}</span>
            </>
          )}
        </h3>
        {left.length === 0 ? (
          <>
            {chart.isDrawn && <p>This chart was drawn by a program and read off its drawing, cell by cell.</p>}
            <p className="reading-hint">
              A cell can be put right all the same: press it on the picture, or go to the picture with Tab and choose it
              with the arrow keys.
            </p>
            <button id="cells-done" type="button" className="button" onClick={onDone}>
              On to the colours
            </button>
          </>
        ) : (
          <>
            <p>{countWords(left.length, "cell")} could be read more than one way.</p>
            <button type="button" className="button strong" onClick={() => onVisit(1)}>
              Look at them one by one
            </button>
          </>
        )}
      </div>
    );

  const isDoubtful = left.some(([row, column]) => row === cell[0] && column === cell[1]);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const digit = /^(?:Digit|Numpad)([1-9])$/.exec(event.code)?.[1];
    const chosen = digit ? candidates[Number(digit) - 1] : undefined;
    const buttons = [...(list.current?.querySelectorAll<HTMLElement>("button") ?? [])];
    const focused = buttons.indexOf(document.activeElement as HTMLElement);
    if (chosen !== undefined) onSet(chosen, isAlike || event.shiftKey);
    else if (event.key === "Enter" && event.shiftKey && candidates[focused] !== undefined)
      onSet(candidates[focused], true);
    else if (event.key === "PageDown") onVisit(1);
    else if (event.key === "PageUp") onVisit(-1);
    else if (event.key === "ArrowDown" || event.key === "ArrowRight") buttons[(focused + 1) % buttons.length]?.focus();
    else if (event.key === "ArrowUp" || event.key === "ArrowLeft")
      buttons[(focused + buttons.length - 1) % buttons.length]?.focus();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div className="reading-panel" onKeyDown={onKeyDown}>
      <div className="cell-head">
        <h3 id="cells-title" tabIndex={-1}>
          Row {cell[0]}, stitch {cell[1]}
        </h3>
        <span className="count">{left.length === 0 ? "none left in doubt" : `${left.length} left`}</span>
      </div>
      <CellClose chart={chart} place={at} pictures={pictures} />
      <p id="cell-question">
        {isDoubtful ? "Which is it? Read, not surely, as " : "Which is it? Now "}
        <b>{colourWords(now, state.colours[now])}</b>.
      </p>
      <div ref={list} className="cell-choices" role="group" aria-labelledby="cell-question">
        {candidates.map((id, index) => (
          <button
            key={id}
            type="button"
            className="cell-choice"
            aria-pressed={id === now}
            onClick={(event) => onSet(id, isAlike || event.shiftKey)}
          >
            {index < 9 && <kbd aria-hidden="true">{index + 1}</kbd>}
            <ColourMark colour={state.colours[id] ?? null} symbol={state.symbols[id]} />
            <span>{colourWords(id, state.colours[id])}</span>
          </button>
        ))}
        <button type="button" className="cell-choice" onClick={(event) => onNew(isAlike || event.shiftKey)}>
          <span>another colour, as it is there</span>
        </button>
      </div>
      <div className="choice">
        <label>
          <input type="checkbox" role="switch" checked={isAlike} onChange={() => onAlike(!isAlike)} />
          <span>All cells like this{alike !== null && `, ${alike}`}</span>
        </label>
      </div>
      <div className="cell-walk">
        <button type="button" className="button" onClick={() => onVisit(-1)} disabled={left.length === 0}>
          Previous
        </button>
        <button type="button" className="button" onClick={() => onVisit(1)} disabled={left.length === 0}>
          Next
        </button>
        {left.length === 0 && (
          <button type="button" className="button strong" onClick={onDone}>
            On to the colours
          </button>
        )}
      </div>
      <p className="reading-hint">
        Digits choose, Enter takes the marked one, with Shift for all cells like this; Page Down and Page Up go to the
        next in doubt and back. Ctrl+Z takes back.
      </p>
    </div>
  );
}

/** What it was read as first, then the others by how near they come to what is there; no stitch last. */
function candidatesOf({ rows: texts, colours, looks }: Corrected, [row, column]: CellPlace): string[] {
  const { columns, rows, labs } = looks;
  const cell = (rows - row) * columns + columns - column;
  const now = texts[rows - row]![columns - column]!;
  const there = din99FromLab([labs[cell * 3]!, labs[cell * 3 + 1]!, labs[cell * 3 + 2]!]);
  const away = (id: string): number => {
    const [L, a, b] = din99FromLab(colours[id]!.lab);
    return Math.hypot(L - there[0], a - there[1], b - there[2]);
  };
  const others = Object.keys(colours)
    .filter((id) => id !== now)
    .map((id) => [id, away(id)] as const)
    .sort((one, other) => one[1] - other[1])
    .map(([id]) => id);
  return now === "-" ? ["-", ...others] : [now, ...others, "-"];
}

/** "row 12, stitch 30, read as rust; 11 left". */
export const visitWords = ({ state }: ChartInHand, [row, column]: CellPlace, left: number): string => {
  const id = state.rows[state.looks.rows - row]![state.looks.columns - column]!;
  return `${cellWords(row, column)}, read as ${colourWords(id, state.colours[id])}; ${left} left in doubt.`;
};
