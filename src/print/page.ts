/** Paper, margins, and how a chart is cut into sheets without losing or doubling a stitch. */
import { assert } from "../base/assert.ts";
import type { Operation } from "./drawing.ts";

export type Paper = "A4" | "Letter";

export interface Page {
  readonly widthMm: number;
  readonly heightMm: number;
  /** What lies on it: "rows 1–60, sheet 1 of 3". */
  readonly label: string;
  readonly operations: readonly Operation[];
}

/** Portrait, in mm. Source: ISO 216 (A4); ANSI/ASME Y14.1 size A (Letter, 8.5 × 11 in). */
export const PAPER_MM: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
};

/** Home printers leave up to 6 mm of a sheet blank, and a hole punch wants some more. Birthplace: our choice. */
export const MARGIN_MM = 12;

/** Rows and columns inclusive, from 1 at the bottom right. */
export interface Tile {
  readonly rows: readonly [number, number];
  readonly columns: readonly [number, number];
}

export interface TilingOptions {
  readonly rows: readonly [number, number];
  readonly width: number;
  readonly rowsPerSheet: number;
  readonly columnsPerSheet: number;
  /** Rows after which a cut is welcome: the last of a band. */
  readonly welcome?: readonly number[];
}

/** Sheets in the order of knitting: from the bottom up, and from right to left. Every stitch lies on exactly one. */
export function tilesOf({ rows, width, rowsPerSheet, columnsPerSheet, welcome = [] }: TilingOptions): Tile[] {
  return cut(rows[0], rows[1], rowsPerSheet, welcome).flatMap((tileRows) =>
    cut(1, width, columnsPerSheet, []).map((columns) => ({ rows: tileRows, columns })),
  );
}

/** As few stretches as possible, of about one length: cut where it is welcome, else after a ten or a five. */
function cut(from: number, to: number, capacity: number, welcome: readonly number[]): [number, number][] {
  assert(capacity >= 1 && to >= from, "a sheet holds at least one row and column");
  const stretches: [number, number][] = [];
  let first = from;
  for (let left = Math.ceil((to - from + 1) / capacity); left > 1; left--) {
    const earliest = Math.max(first, to - (left - 1) * capacity);
    const latest = Math.min(first + capacity - 1, to - (left - 1));
    const balanced = Math.round(first - 1 + (to - first + 1) / left);
    const last = bestCut(earliest, latest, Math.min(latest, Math.max(earliest, balanced)), welcome);
    stretches.push([first, last]);
    first = last + 1;
  }
  stretches.push([first, to]);
  return stretches;
}

function bestCut(earliest: number, latest: number, balanced: number, welcome: readonly number[]): number {
  const places = Array.from({ length: latest - earliest + 1 }, (_, index) => earliest + index);
  const nearest = (wanted: (place: number) => boolean): number | undefined =>
    places.filter(wanted).sort((a, b) => Math.abs(a - balanced) - Math.abs(b - balanced))[0];
  return (
    nearest((place) => welcome.includes(place)) ??
    nearest((place) => place % 10 === 0) ??
    nearest((place) => place % 5 === 0) ??
    balanced
  );
}

/** "rows 1–60, sheet 1 of 3"; the stitches are named where the chart is also cut across. */
export function tileLabel(tile: Tile, width: number, sheet: number, sheets: number): string {
  const across = tile.columns[0] === 1 && tile.columns[1] === width ? "" : `, stitches ${range(tile.columns)}`;
  return `rows ${range(tile.rows)}${across}, sheet ${sheet} of ${sheets}`;
}

export const range = ([from, to]: readonly [number, number]): string => (from === to ? `${from}` : `${from}–${to}`);
