/** What recurs across a chart and up it: the repeat, and how often the chart's width holds it. */
import type { Grid } from "./chart.ts";
import { smallestPeriod, smallestTile } from "./recurrence.ts";
import { columnClasses, rowClasses, type Rows } from "./strip.ts";

export interface Repeat {
  /** Stitches after which every row recurs. */
  readonly stitches: number;
  /** Rows after which the rows recur upwards; all of them where they do not. */
  readonly rows: number;
  /** Whole repeats in the chart's width … */
  readonly times: number;
  /** … and the stitches left over, as a chart has them that balances its edges. */
  readonly over: number;
}

/**
 * The smallest repeat of some rows. What does not go into the width a whole number of times must be seen at
 * least twice, otherwise any strip that begins as it ends would have one; our choice.
 */
export function repeatOf(grid: Grid, rows: Rows): Repeat {
  const stitches = seenTwice(columnClasses(grid, rows));
  return repeatNamed(grid, { stitches, rows: seenTwice(rowClasses(grid, rows, "stitches")) });
}

function seenTwice(sequence: Int32Array): number {
  const period = smallestPeriod(sequence);
  return 2 * period <= sequence.length ? period : sequence.length;
}

/** A repeat of known size in the chart's width. */
export const repeatNamed = ({ width }: Grid, { stitches, rows }: Pick<Repeat, "stitches" | "rows">): Repeat => ({
  stitches,
  rows,
  times: Math.floor(width / stitches),
  over: width % stitches,
});

/** The smallest width in stitches that divides the chart's and after which every row from `fromRow` to `toRow` recurs. */
export const horizontalPeriod = (grid: Grid, fromRow: number, toRow: number): number =>
  Math.max(1, smallestTile(columnClasses(grid, [fromRow, toRow])));
