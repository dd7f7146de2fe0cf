/** One round as it is knitted: which strand every stitch is worked with, and what each strand travels behind. */
import { assert } from "../base/assert.ts";
import { cellAt, NO_STITCH, type Grid } from "../chart/chart.ts";
import { carriedPositions } from "../chart/counts.ts";
import type { Worked } from "../chart/floats.ts";

export interface StrandUse {
  readonly strand: string;
  /** Stitches worked with it. */
  readonly stitches: number;
  /** Stitch positions it is carried behind. */
  readonly carried: number;
}

/** Use of every strand in one round, in the order of first use. `strands` has the strand of each stitch, right to left. */
export function useOfRound(strands: readonly string[], worked: Worked): StrandUse[] {
  const names = [...new Set(strands)];
  assert(names.length < NO_STITCH, "a round has fewer strands than a grid can hold");
  const indexOf = new Map(names.map((name, index) => [name, index]));
  const cells = Uint8Array.from(strands, (strand) => indexOf.get(strand)!);
  const row: Grid = { width: strands.length, height: 1, ids: names, cells };
  const carried = carriedPositions(row, 1, worked);
  const stitches = names.map(() => 0);
  for (const cell of cells) stitches[cell]!++;
  return names.map((strand, index) => ({ strand, stitches: stitches[index]!, carried: carried[index]! }));
}

/**
 * Chart columns of a round's stitches, right to left: the row's stitches again and again from `startColumn` on.
 * Places without a stitch are skipped, so that a chart that narrows keeps its repeats. Empty for a row without stitches.
 */
export function columnsOfRound(grid: Grid, row: number, stitches: number, startColumn = 1): number[] {
  const first = (((startColumn - 1) % grid.width) + grid.width) % grid.width;
  const tile: number[] = [];
  for (let offset = 0; offset < grid.width; offset++) {
    const column = ((first + offset) % grid.width) + 1;
    if (cellAt(grid, row, column) !== NO_STITCH) tile.push(column);
  }
  if (tile.length === 0) return [];
  return Array.from({ length: stitches }, (_, index) => tile[index % tile.length]!);
}
