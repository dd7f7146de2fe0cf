/** Which colours touch in a strip of rows, and how often: where a figure meets what is beside it. */
import { cellAt, NO_STITCH, type Grid } from "./chart.ts";

export interface TouchingPair {
  /** Colour indices, a < b. */
  readonly a: number;
  readonly b: number;
  /** Sides of stitches along which the two meet, once across the chart. */
  readonly contacts: number;
}

/**
 * The pairs of colours that meet along a side, corners not counted, most contacts first. The chart tiles
 * horizontally; above and below the rows nothing is looked at.
 */
export function touchingPairs(grid: Grid, fromRow: number, toRow: number): TouchingPair[] {
  const colours = grid.ids.length;
  const contacts = new Uint32Array(colours * colours);
  const meet = (one: number, other: number): void => {
    if (one === other || one === NO_STITCH || other === NO_STITCH) return;
    contacts[Math.min(one, other) * colours + Math.max(one, other)]!++;
  };
  for (let row = fromRow; row <= toRow; row++) {
    for (let column = 1; column <= grid.width; column++) {
      const here = cellAt(grid, row, column);
      meet(here, cellAt(grid, row, (column % grid.width) + 1));
      if (row < toRow) meet(here, cellAt(grid, row + 1, column));
    }
  }
  const pairs: TouchingPair[] = [];
  for (let a = 0; a < colours; a++) {
    for (let b = a + 1; b < colours; b++) {
      const count = contacts[a * colours + b]!;
      if (count > 0) pairs.push({ a, b, contacts: count });
    }
  }
  return pairs.toSorted((one, other) => other.contacts - one.contacts);
}
