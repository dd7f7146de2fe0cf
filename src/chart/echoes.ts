/** Whether a band is the same band again, elsewhere in the chart. */
import { cellAt, NO_STITCH, type Grid } from "./chart.ts";
import { horizontalPeriod } from "./repeats.ts";

/**
 * Whether two strips of rows are the same up to a horizontal shift (round the tube) and a renaming of colours:
 * one colour of the first for one of the second throughout. A place without a stitch stays one.
 */
export function sameBand(
  grid: Grid,
  a: { rows: readonly [number, number] },
  b: { rows: readonly [number, number] },
): boolean {
  const height = a.rows[1] - a.rows[0];
  if (b.rows[1] - b.rows[0] !== height) return false;
  const period = horizontalPeriod(grid, a.rows[0], a.rows[1]);
  if (horizontalPeriod(grid, b.rows[0], b.rows[1]) !== period) return false;
  for (let shift = 0; shift < period; shift++) {
    if (sameAtShift(grid, a.rows[0], b.rows[0], height, period, shift)) return true;
  }
  return false;
}

function sameAtShift(grid: Grid, fromA: number, fromB: number, height: number, period: number, shift: number): boolean {
  const newName = new Map([[NO_STITCH, NO_STITCH]]);
  const oldName = new Map([[NO_STITCH, NO_STITCH]]);
  for (let step = 0; step <= height; step++) {
    for (let column = 0; column < period; column++) {
      const a = cellAt(grid, fromA + step, column + 1);
      const b = cellAt(grid, fromB + step, ((column + shift) % period) + 1);
      if ((newName.get(a) ?? b) !== b || (oldName.get(b) ?? a) !== a) return false;
      newName.set(a, b);
      oldName.set(b, a);
    }
  }
  return true;
}
