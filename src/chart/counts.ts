/** How often each colour is knitted: by row and over rows. */
import { NO_STITCH, type Grid } from "./chart.ts";

/** The colours of a row in the order of their first use, right to left. */
export function rowColours(grid: Grid, row: number): number[] {
  const met = new Uint8Array(NO_STITCH + 1);
  met[NO_STITCH] = 1;
  const colours: number[] = [];
  for (let at = (row - 1) * grid.width; at < row * grid.width; at++) {
    const cell = grid.cells[at]!;
    if (met[cell]) continue;
    met[cell] = 1;
    colours.push(cell);
  }
  return colours;
}

/** Stitches of each colour over the rows from `fromRow` to `toRow`, once across the chart. */
export function countStitches(grid: Grid, fromRow = 1, toRow = grid.height): number[] {
  const stitches = grid.ids.map(() => 0);
  for (let row = fromRow; row <= toRow; row++) {
    for (let at = (row - 1) * grid.width; at < row * grid.width; at++) {
      const colour = grid.cells[at]!;
      if (colour !== NO_STITCH) stitches[colour]!++;
    }
  }
  return stitches;
}
