/** Rows and columns that come into a chart or go out of it, and what she says of its bands with them. */
import type { Chart, ChartBand } from "./chart.ts";
import { comeIn, goneOut, renumberedRange, type Renumbering } from "./renumbering.ts";

export type LinesEdit =
  /** `at`: number of the first new row, from 1 to one above the top. `rows`: top row first, as wide as the chart. */
  | { readonly kind: "insertRows"; readonly chart: string; readonly at: number; readonly rows: readonly string[] }
  | { readonly kind: "removeRows"; readonly chart: string; readonly rows: readonly [number, number] }
  /** `at`: number of the first new column, from 1 to one beyond the left edge. `stitches`: one text a chart row, top row first, equally long. */
  | {
      readonly kind: "insertColumns";
      readonly chart: string;
      readonly at: number;
      readonly stitches: readonly string[];
    }
  | { readonly kind: "removeColumns"; readonly chart: string; readonly columns: readonly [number, number] };

export function chartWithLines(chart: Chart, edit: LinesEdit): Chart {
  const lines = renumberingOf(edit);
  const rows = rowsWithLines(chart.rows, edit);
  const ofBand = isOfRows(edit)
    ? (band: ChartBand) => bandWithRows(band, lines)
    : (band: ChartBand) => bandWithColumns(band, lines, rows[0]!.length);
  return { ...chart, rows, ...(chart.bands && { bands: chart.bands.flatMap(ofBand) }) };
}

export const isOfRows = ({ kind }: LinesEdit): boolean => kind === "insertRows" || kind === "removeRows";

/** Of the chart's rows or of its columns: see `isOfRows`. */
export function renumberingOf(edit: LinesEdit): Renumbering {
  switch (edit.kind) {
    case "insertRows":
      return comeIn(edit.at, edit.rows.length);
    case "removeRows":
      return goneOut(edit.rows);
    case "insertColumns":
      return comeIn(edit.at, edit.stitches[0]!.length);
    case "removeColumns":
      return goneOut(edit.columns);
  }
}

function rowsWithLines(rows: readonly string[], edit: LinesEdit): string[] {
  const height = rows.length;
  const width = rows[0]!.length;
  switch (edit.kind) {
    case "insertRows":
      return rows.toSpliced(height - edit.at + 1, 0, ...edit.rows);
    case "removeRows":
      return rows.toSpliced(height - edit.rows[1], edit.rows[1] - edit.rows[0] + 1);
    case "insertColumns": {
      const cut = width - edit.at + 1;
      return rows.map((text, index) => text.slice(0, cut) + edit.stitches[index]! + text.slice(cut));
    }
    case "removeColumns":
      return rows.map((text) => text.slice(0, width - edit.columns[1]) + text.slice(width - edit.columns[0] + 1));
  }
}

/** A band grows by rows that come in between its own. Of an echo whose rows have gone nothing is said any more. */
function bandWithRows(band: ChartBand, lines: Renumbering): ChartBand[] {
  const rows = renumberedRange(lines, band.rows);
  if (!rows) return [];
  const { echoOf, ...others } = band;
  if (!echoOf) return [{ ...band, rows }];
  const again = renumberedRange(lines, echoOf);
  return [again ? { ...band, rows, echoOf: again } : { ...others, rows }];
}

/** A line of mirroring stays with the stitches beside it; where they go, it lies where they were. */
function bandWithColumns(band: ChartBand, lines: Renumbering, width: number): ChartBand[] {
  if (typeof band.axis !== "number") return [band];
  const axis = (lines.upTo(Math.floor(band.axis)) + lines.from(Math.ceil(band.axis))) / 2;
  // Right of the first column is left of the last: the round closes there.
  return [{ ...band, axis: axis < 1 ? width + 0.5 : axis }];
}
