/** One round as it is knitted: which strand every stitch is worked with, and what each strand travels behind. */
import { cellAt, NO_STITCH, type Grid } from "../chart/chart.ts";
import type { Worked } from "../chart/floats.ts";

export interface StrandUse {
  readonly strand: string;
  /** Stitches worked with it. */
  readonly stitches: number;
  /** Stitch positions it is carried behind. */
  readonly carried: number;
}

/**
 * Use of every strand in one round, in the order of first use. `strands` has the strand of each stitch, right to left. A strand
 * is carried behind all that others knit between its uses, in the round also over the join: the lengths of its floats together.
 * Source: trade.md 1.3, carried_positions.
 */
export function useOfRound(strands: readonly string[], worked: Worked): StrandUse[] {
  const uses = new Map<string, { stitches: number; first: number; last: number }>();
  for (let at = 0; at < strands.length; at++) {
    const use = uses.get(strands[at]!);
    if (!use) uses.set(strands[at]!, { stitches: 1, first: at, last: at });
    else {
      use.stitches += 1;
      use.last = at;
    }
  }
  return Array.from(uses, ([strand, { stitches, first, last }]) => ({
    strand,
    stitches,
    carried: (worked === "round" ? strands.length : last - first + 1) - stitches,
  }));
}

/**
 * Chart columns of a round's stitches, right to left: the row's stitches again and again from `startColumn` on.
 * Places without a stitch are skipped, so that a chart that narrows keeps its repeats. Empty for a row without stitches.
 * @param gaps after so many stitches of the round so many stitches of the row are passed over
 */
export function columnsOfRound(
  grid: Grid,
  row: number,
  stitches: number,
  startColumn = 1,
  gaps: readonly { readonly after: number; readonly columns: number }[] = [],
): number[] {
  const first = (((startColumn - 1) % grid.width) + grid.width) % grid.width;
  const tile: number[] = [];
  for (let offset = 0; offset < grid.width; offset++) {
    const column = ((first + offset) % grid.width) + 1;
    if (cellAt(grid, row, column) !== NO_STITCH) tile.push(column);
  }
  if (tile.length === 0) return [];
  const columns: number[] = [];
  let [passed, next] = [0, 0];
  for (let index = 0; index < stitches; index++) {
    while (next < gaps.length && gaps[next]!.after <= index) passed += gaps[next++]!.columns;
    columns.push(tile[(index + passed) % tile.length]!);
  }
  return columns;
}
