/** How often each colour is knitted: by row and over rows. */
import { cellAt, NO_STITCH, type Grid } from "./chart.ts";

/** The colours of a row in the order of their first use, right to left. */
export function rowColours(grid: Grid, row: number): number[] {
  const colours = new Set<number>();
  for (let column = 1; column <= grid.width; column++) colours.add(cellAt(grid, row, column));
  colours.delete(NO_STITCH);
  return [...colours];
}

/** Stitches of each colour over the rows from `fromRow` to `toRow`, once across the chart. */
export function countStitches(grid: Grid, fromRow = 1, toRow = grid.height): number[] {
  const stitches = grid.ids.map(() => 0);
  for (let row = fromRow; row <= toRow; row++) {
    for (let column = 1; column <= grid.width; column++) {
      const colour = cellAt(grid, row, column);
      if (colour !== NO_STITCH) stitches[colour]!++;
    }
  }
  return stitches;
}
