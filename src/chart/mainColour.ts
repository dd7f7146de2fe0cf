/** The main colour of a chart, which is the garment's, and its contrast colours. */
import { NO_STITCH, type Grid } from "./chart.ts";
import { countStitches } from "./counts.ts";
import type { BandStructure } from "./structure.ts";

export interface ChartColours {
  /** The colour that is ground under most stitches, its own and those that lie on it; plain rows are their own ground. Null without a stitch. */
  readonly main: number | null;
  /** The others, most stitches first. */
  readonly contrasts: readonly number[];
}

export function mainColour(grid: Grid, bands: readonly BandStructure[]): ChartColours {
  const under = grid.ids.map(() => 0);
  for (const { rows } of bands) {
    for (const { row, ground, pattern } of rows) {
      const colour = pattern.length === 0 ? plainOf(grid, row) : ground;
      if (under[colour] !== undefined) under[colour] += grid.width;
    }
  }
  const stitches = countStitches(grid);
  const order = [...grid.ids.keys()].sort((a, b) => stitches[b]! - stitches[a]!);
  const main =
    order.length === 0 ? null : order.reduce((best, colour) => (under[colour]! > under[best]! ? colour : best));
  return { main, contrasts: order.filter((colour) => colour !== main) };
}

const plainOf = ({ width, cells }: Grid, row: number): number =>
  cells.subarray((row - 1) * width, row * width).find((cell) => cell !== NO_STITCH) ?? NO_STITCH;
