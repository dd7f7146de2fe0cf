/** Rows and columns of stitches that come in or go out, where the keys are or what is chosen lies. */
import { useState, type ReactNode } from "react";
import { columnsOf, rowsOf, regionBetween } from "../../chart/draw.ts";
import { useBench } from "../shell/bench.ts";
import { rowsWords } from "../shell/words.ts";
import { CountField, countIn } from "./CountField.tsx";
import type { Desk } from "./useDesk.ts";

/** At once; a slip of the finger must not make a chart that nobody can read. Our choice. */
const MOST = 200;

export function LinesPart({ desk }: { readonly desk: Desk }): ReactNode {
  const { commit } = useBench();
  const { grid, chart, cursor, selection, value } = desk;
  const [typed, setTyped] = useState("1");
  const count = countIn(typed, 1, MOST);
  const { rows, columns } = selection ?? regionBetween(cursor, cursor);
  const id = grid.ids[value] ?? "-";
  const stitchesAt = columns[0] === columns[1] ? `stitch ${columns[0]}` : `stitches ${columns[0]}–${columns[1]}`;
  const of = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;
  const insertRows = (at: number, where: string): void => {
    if (count === null) return;
    const fresh = Array.from({ length: count }, () => id.repeat(grid.width));
    commit([{ kind: "insertRows", chart: chart.id, at, rows: fresh }], `${of(count, "row", "rows")} inserted ${where}`);
  };
  const insertColumns = (at: number, where: string): void => {
    if (count === null) return;
    const stitches = Array.from({ length: grid.height }, () => id.repeat(count));
    commit(
      [{ kind: "insertColumns", chart: chart.id, at, stitches }],
      `${of(count, "stitch", "stitches")} inserted ${where}`,
    );
  };
  return (
    <details className="desk-part">
      <summary>Rows and stitches</summary>
      <p className="desk-hint">
        At {rowsWords(rows)} and {stitchesAt}. New ones are in the colour that is taken up.
      </p>
      <CountField name="How many" value={typed} least={1} most={MOST} onType={setTyped} />
      <div className="desk-acts">
        <button type="button" className="button" onClick={() => insertRows(rows[1] + 1, `above ${rowsWords(rows)}`)}>
          Insert rows above
        </button>
        <button type="button" className="button" onClick={() => insertRows(rows[0], `below ${rowsWords(rows)}`)}>
          Insert rows below
        </button>
        <button
          type="button"
          className="button"
          disabled={rowsOf({ rows, columns }) === grid.height}
          onClick={() => {
            desk.choose(null);
            commit([{ kind: "removeRows", chart: chart.id, rows: [...rows] }], `${rowsWords(rows)} taken out`);
          }}
        >
          Take out {rowsWords(rows)}
        </button>
      </div>
      <div className="desk-acts">
        <button type="button" className="button" onClick={() => insertColumns(columns[1] + 1, `left of ${stitchesAt}`)}>
          Insert stitches to the left
        </button>
        <button type="button" className="button" onClick={() => insertColumns(columns[0], `right of ${stitchesAt}`)}>
          Insert stitches to the right
        </button>
        <button
          type="button"
          className="button"
          disabled={columnsOf({ rows, columns }) === grid.width}
          onClick={() => {
            desk.choose(null);
            commit(
              [{ kind: "removeColumns", chart: chart.id, columns: [...columns] }],
              `${stitchesAt} taken out of every row`,
            );
          }}
        >
          Take out {stitchesAt}
        </button>
      </div>
    </details>
  );
}
