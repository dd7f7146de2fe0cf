/** A chart: a grid of stitches with a chart colour each, read as knitters read it: row 1 at the bottom, column 1 at the right. */
import { assert } from "../base/assert.ts";

export type Want = "soft" | "clear" | "strong";

export interface ChartBand {
  /** Rows from 1 at the bottom, inclusive. */
  rows: [number, number];
  want?: Want;
  name?: string;
  /** Chart colours that are its ground; another one lies on them. */
  ground?: string[];
  /** Width of the repeat in stitches. */
  repeat?: number;
  /** The column of one line about which it mirrors, .5 between two; null: it leans. */
  axis?: number | null;
  /** Rows of the band that it is again; null: of none. */
  echoOf?: [number, number] | null;
  /** Whether its patterned rows are seeding: single stitches, strewn. */
  seeding?: boolean;
  /** How it lies over the band below is meant so. */
  meant?: boolean;
}

export interface Chart {
  id: string;
  name?: string;
  worked?: "round" | "flat";
  /** Top row first, one character a stitch, "-" for no stitch. */
  rows: string[];
  bands?: ChartBand[];
}

/** The cell of a place where there is no stitch. */
export const NO_STITCH = 255;

export interface Grid {
  readonly width: number;
  readonly height: number;
  /** Chart colours in the order of their first stitch in knitting order. */
  readonly ids: readonly string[];
  /** Index into `ids` or NO_STITCH, at `(row - 1) * width + (column - 1)`. */
  readonly cells: Uint8Array;
}

/** The chart as cells. The chart was validated: rows of one length, at most 255 colours. */
export function gridOf(chart: Pick<Chart, "rows">): Grid {
  const height = chart.rows.length;
  const width = chart.rows[0]?.length ?? 0;
  const ids: string[] = [];
  const indexOf = new Map<string, number>();
  const cells = new Uint8Array(width * height).fill(NO_STITCH);
  for (let row = 1; row <= height; row++) {
    const text = chart.rows[height - row]!;
    assert(text.length === width, "chart rows have one length");
    for (let column = 1; column <= width; column++) {
      const id = text[width - column]!;
      if (id === "-") continue;
      let index = indexOf.get(id);
      if (index === undefined) {
        index = ids.length;
        assert(index < NO_STITCH, "a chart has at most 255 colours");
        indexOf.set(id, index);
        ids.push(id);
      }
      cells[(row - 1) * width + (column - 1)] = index;
    }
  }
  return { width, height, ids, cells };
}

/** The grid's rows as text, top row first. */
export function rowsOfGrid(grid: Grid): string[] {
  const rows: string[] = [];
  for (let row = grid.height; row >= 1; row--) {
    let text = "";
    for (let column = grid.width; column >= 1; column--) {
      const index = cellAt(grid, row, column);
      text += index === NO_STITCH ? "-" : grid.ids[index]!;
    }
    rows.push(text);
  }
  return rows;
}

export function cellAt(grid: Grid, row: number, column: number): number {
  return grid.cells[(row - 1) * grid.width + (column - 1)]!;
}

/** Rows `from` to `to`, inclusive, as a grid of their own with the same ids. */
export function cropRows(grid: Grid, from: number, to: number): Grid {
  return {
    width: grid.width,
    height: to - from + 1,
    ids: grid.ids,
    cells: grid.cells.slice((from - 1) * grid.width, to * grid.width),
  };
}
