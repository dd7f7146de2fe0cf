/** Drawing on a chart: the words that all its acts share. An act takes a grid and gives another; nothing is changed in place. */
import { assert } from "../base/assert.ts";
import { NO_STITCH, type Grid } from "./chart.ts";

/** [row, column], from 1 at the bottom right. */
export type Stitch = readonly [number, number];

/** Rows and columns from 1 at the bottom right, inclusive. */
export interface Region {
  readonly rows: readonly [number, number];
  readonly columns: readonly [number, number];
}

/** What an act is held to: a rectangle, or of it only the stitches that are marked. */
export interface Selection extends Region {
  /** 1 for each cell of the whole grid that is chosen, all of them in the rectangle; null: the rectangle. */
  readonly mask: Uint8Array | null;
}

/**
 * The rows as cells over given colours, in their order, so that a cell means the same before and after a stitch is
 * drawn. Every character of the rows is one of `ids` or "-".
 *
 * @param rows top row first, of one length
 */
export function gridOver(rows: readonly string[], ids: readonly string[]): Grid {
  assert(ids.length <= NO_STITCH, "a chart has at most 255 colours");
  const height = rows.length;
  const width = rows[0]?.length ?? 0;
  const cells = new Uint8Array(width * height);
  const valueOf = new Map(ids.map((id, index) => [id.charCodeAt(0), index]));
  valueOf.set("-".charCodeAt(0), NO_STITCH);
  for (let row = 1; row <= height; row++) {
    const text = rows[height - row]!;
    assert(text.length === width, "chart rows have one length");
    for (let column = 1, to = (row - 1) * width; column <= width; column++, to++) {
      const value = valueOf.get(text.charCodeAt(width - column));
      assert(value !== undefined, "every stitch has a colour of the pattern");
      cells[to] = value;
    }
  }
  return { width, height, ids, cells };
}

export const isOn = ({ width, height }: Pick<Grid, "width" | "height">, [row, column]: Stitch): boolean =>
  row >= 1 && row <= height && column >= 1 && column <= width;

export const cellIndex = ({ width }: Pick<Grid, "width">, [row, column]: Stitch): number =>
  (row - 1) * width + (column - 1);

export const wholeOf = ({ width, height }: Pick<Grid, "width" | "height">): Selection => ({
  rows: [1, height],
  columns: [1, width],
  mask: null,
});

/** The rectangle that has two stitches as its corners, whichever. */
export const regionBetween = ([row, column]: Stitch, [otherRow, otherColumn]: Stitch): Selection => ({
  rows: [Math.min(row, otherRow), Math.max(row, otherRow)],
  columns: [Math.min(column, otherColumn), Math.max(column, otherColumn)],
  mask: null,
});

/** The part of a region that lies on the grid, or null where none does. */
export function regionOn({ width, height }: Pick<Grid, "width" | "height">, { rows, columns }: Region): Region | null {
  const on = {
    rows: [Math.max(1, rows[0]), Math.min(height, rows[1])],
    columns: [Math.max(1, columns[0]), Math.min(width, columns[1])],
  } as const;
  return on.rows[0] <= on.rows[1] && on.columns[0] <= on.columns[1] ? on : null;
}

export const rowsOf = ({ rows: [from, to] }: Region): number => to - from + 1;
export const columnsOf = ({ columns: [from, to] }: Region): number => to - from + 1;

export function holds(grid: Grid, { rows, columns, mask }: Selection, stitch: Stitch): boolean {
  const [row, column] = stitch;
  const inside = row >= rows[0] && row <= rows[1] && column >= columns[0] && column <= columns[1];
  return inside && (mask === null || mask[cellIndex(grid, stitch)] === 1);
}

/** 1 for each cell of the grid that is chosen. */
export function maskOf(grid: Grid, selection: Selection): Uint8Array {
  if (selection.mask) return selection.mask;
  const mask = new Uint8Array(grid.width * grid.height);
  const [from, to] = selection.columns;
  for (let row = selection.rows[0]; row <= selection.rows[1]; row++)
    mask.fill(1, (row - 1) * grid.width + from - 1, (row - 1) * grid.width + to);
  return mask;
}

/** All stitches of one colour, within a selection where there is one; null where there is none such. */
export function sameColour(grid: Grid, value: number, inside: Selection = wholeOf(grid)): Selection | null {
  const mask = new Uint8Array(grid.cells.length);
  const chosen = maskOf(grid, inside);
  let [top, bottom, left, right] = [0, Infinity, 0, Infinity];
  for (let at = 0; at < mask.length; at++) {
    if (chosen[at] !== 1 || grid.cells[at] !== value) continue;
    mask[at] = 1;
    const row = Math.floor(at / grid.width) + 1;
    const column = (at % grid.width) + 1;
    top = row;
    bottom = Math.min(bottom, row);
    left = Math.max(left, column);
    right = Math.min(right, column);
  }
  return top === 0 ? null : { rows: [bottom, top], columns: [right, left], mask };
}
