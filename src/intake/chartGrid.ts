/** Where the stitches of a chart lie in a picture: the corners of every cell, however the page lay before the camera. */
import { assert } from "../base/assert.ts";

export type Point = readonly [number, number];

export interface ChartGrid {
  readonly columns: number;
  readonly rows: number;
  /**
   * x and y of the crossings of the grid's lines, in pixels from the picture's top left corner (a pixel's middle is at .5);
   * line by line from the top, each from the left: (rows + 1) × (columns + 1) × 2 numbers.
   */
  readonly corners: Float32Array;
}

/** The crossing of line `row` (0 at the top) with line `column` (0 at the left). */
export function crossing({ columns, corners }: ChartGrid, row: number, column: number): Point {
  const at = (row * (columns + 1) + column) * 2;
  return [corners[at]!, corners[at + 1]!];
}

/** The chart's own corners, clockwise from the top left. */
export function cornersOfGrid(grid: ChartGrid): [Point, Point, Point, Point] {
  const { columns, rows } = grid;
  return [crossing(grid, 0, 0), crossing(grid, 0, columns), crossing(grid, rows, columns), crossing(grid, rows, 0)];
}

/** A grid on lines that run straight across and down, which need not be evenly spaced. */
export function gridOfLines(across: ArrayLike<number>, down: ArrayLike<number>): ChartGrid {
  assert(across.length > 1 && down.length > 1, "a grid has two lines each way at least");
  const corners = new Float32Array(across.length * down.length * 2);
  let at = 0;
  for (let row = 0; row < down.length; row++)
    for (let column = 0; column < across.length; column++) {
      corners[at++] = across[column]!;
      corners[at++] = down[row]!;
    }
  return { columns: across.length - 1, rows: down.length - 1, corners };
}
