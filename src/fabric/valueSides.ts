/** On which side of its ground a figure lies in value, row by row: where it crosses over, a row disappears in the middle of a motif. */
import type { Band } from "../chart/bands.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { NO_GROUND } from "../chart/grounds.ts";
import type { Cloth } from "./cloth.ts";

export interface ValueSides {
  /** L* of the figure less L* of its ground, by stitches over the band; null where nothing lies on a ground. */
  readonly deltaL: number | null;
  /** Rows in which the figure lies on the other side than in the band as a whole, lowest first. */
  readonly crossed: readonly number[];
}

export function valueSides(
  { grid, cells, inks }: Cloth,
  { rows, groundOfRow }: Pick<Band, "rows" | "groundOfRow">,
): ValueSides {
  const byRow = groundOfRow.map((ground, index) => {
    const row = rows[0] + index;
    const figure = { sum: 0, stitches: 0 };
    const under = { sum: 0, stitches: 0 };
    if (ground !== NO_GROUND)
      for (let at = (row - 1) * grid.width; at < row * grid.width; at++) {
        if (grid.cells[at] === NO_STITCH) continue;
        const part = grid.cells[at] === ground ? under : figure;
        part.sum += inks[cells[at]!]!.lab[0];
        part.stitches += 1;
      }
    const deltaL =
      figure.stitches > 0 && under.stitches > 0 ? figure.sum / figure.stitches - under.sum / under.stitches : null;
    return { row, deltaL, stitches: figure.stitches };
  });
  const told = byRow.flatMap(({ row, deltaL, stitches }) => (deltaL === null ? [] : [{ row, deltaL, stitches }]));
  if (told.length === 0) return { deltaL: null, crossed: [] };
  const stitches = told.reduce((sum, one) => sum + one.stitches, 0);
  const deltaL = told.reduce((sum, one) => sum + one.deltaL * one.stitches, 0) / stitches;
  return { deltaL, crossed: told.flatMap((one) => (one.deltaL * deltaL < 0 ? [one.row] : [])) };
}
