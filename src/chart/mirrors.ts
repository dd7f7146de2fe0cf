/** The lines about which a strip of rows mirrors: upright ones, on a stitch or between two; level ones, on a row or between two. */
import type { Grid } from "./chart.ts";
import { mirrorSums } from "./recurrence.ts";
import { horizontalPeriod } from "./repeats.ts";
import { sameTile } from "./sameTile.ts";
import { columnClasses, mirroredTile, rowClasses, tileOf, type Rows } from "./strip.ts";

export interface Mirrors {
  /**
   * Upright axes as columns from 1 at the right edge, .5 between two stitches, from 1 up to but not including the
   * repeat's width + 1. Two in every repeat that has any; none in a motif that leans.
   */
  readonly across: readonly number[];
  /** Level axes as chart rows, .5 between two: the centre; of rows that recur upwards every axis of the lowest repeat. */
  readonly up: readonly number[];
  /** The same whatever the colours: a motif that is shaded from dark below to light above mirrors in shape alone. */
  readonly upInShape: readonly number[];
  /** Whether it is the same when the chart is turned upside down, as what mirrors both ways is, and an S too. */
  readonly turned: boolean;
}

/** @param repeat the repeat's width and height, which bound the axes that are named */
export function mirrorsOf(
  grid: Grid,
  rows: Rows,
  repeat: { readonly stitches: number; readonly rows: number },
): Mirrors {
  const tile = tileOf(grid, rows, repeat.stitches);
  return {
    across: axesOf(columnClasses(grid, rows).subarray(0, repeat.stitches), 1),
    up: levelAxes(rowClasses(grid, rows, "stitches"), rows[0], repeat.rows),
    upInShape: levelAxes(rowClasses(grid, rows, "shape"), rows[0], repeat.rows),
    turned: sameTile(mirroredTile(tile, { across: true, up: true }), tile, "same colours") !== null,
  };
}

/**
 * Where every row from `fromRow` to `toRow` mirrors when the chart tiles: columns counted from 1 at the right edge,
 * .5 between two stitches, from 1 up to but not including the repeat's width + 1. None for a motif that leans.
 */
export function mirrorAxes(grid: Grid, fromRow: number, toRow: number): number[] {
  return axesOf(columnClasses(grid, [fromRow, toRow]).subarray(0, horizontalPeriod(grid, fromRow, toRow)), 1);
}

/** A sum s and s + length name the two axes of one reflection. */
function axesOf(sequence: Int32Array, first: number): number[] {
  const sums = mirrorSums(sequence);
  return [...sums, ...sums.map((sum) => sum + sequence.length)].map((sum) => first + sum / 2);
}

function levelAxes(names: Int32Array, from: number, repeat: number): number[] {
  if (repeat < names.length) return axesOf(names.subarray(0, repeat), from);
  return names.every((name, index) => name === names[names.length - 1 - index]) ? [from + (names.length - 1) / 2] : [];
}
