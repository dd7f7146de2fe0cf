/** What a hand draws: strokes, lines and rectangles, mirrored and in every repeat where that is wanted. */
import { remainder } from "../../base/divisors.ts";
import type { Grid } from "../chart.ts";
import { cellIndex, isOn, regionOn, type Region, type Stitch } from "../draw.ts";

export interface Manner {
  /** The column of the line about which what is drawn is mirrored, .5 between two stitches; null: it is not. */
  readonly mirror: number | null;
  /** For each row from the lowest the stitches after which what is drawn comes again; null: it does not. */
  readonly repeats: readonly number[] | null;
}

export const PLAIN_MANNER: Manner = { mirror: null, repeats: null };

/** The grid with some stitches drawn in one colour. Stitches off the grid, and outside the mask where there is one, are passed over. */
export function drawn(grid: Grid, stitches: Iterable<Stitch>, value: number, mask: Uint8Array | null = null): Grid {
  const cells = grid.cells.slice();
  for (const stitch of stitches) {
    if (!isOn(grid, stitch)) continue;
    const at = cellIndex(grid, stitch);
    if (mask === null || mask[at] === 1) cells[at] = value;
  }
  return { ...grid, cells };
}

/** The stitches of a straight line, both ends included, each touching the next by a side or a corner. Bresenham 1965, IBM Syst. J. 4: 25. */
export function lineBetween([row, column]: Stitch, [toRow, toColumn]: Stitch): Stitch[] {
  const rows = Math.abs(toRow - row);
  const columns = Math.abs(toColumn - column);
  const [rowStep, columnStep] = [Math.sign(toRow - row), Math.sign(toColumn - column)];
  const stitches: Stitch[] = [[row, column]];
  let error = columns - rows;
  while (row !== toRow || column !== toColumn) {
    const twice = 2 * error;
    if (twice > -rows) {
      error -= rows;
      column += columnStep;
    }
    if (twice < columns) {
      error += columns;
      row += rowStep;
    }
    stitches.push([row, column]);
  }
  return stitches;
}

/** The stitches under a hand that was seen at some of them: neighbours are joined by lines. */
export function strokeThrough(seen: readonly Stitch[]): Stitch[] {
  const stitches = seen.slice(0, 1);
  for (let at = 1; at < seen.length; at++) {
    const [, ...next] = lineBetween(seen[at - 1]!, seen[at]!);
    stitches.push(...next);
  }
  return stitches;
}

/** The four sides of a rectangle, each stitch once. */
export function outlineOf({ rows: [bottom, top], columns: [right, left] }: Region): Stitch[] {
  const stitches: Stitch[] = [];
  for (let column = right; column <= left; column++) {
    stitches.push([bottom, column]);
    if (top > bottom) stitches.push([top, column]);
  }
  for (let row = bottom + 1; row < top; row++) {
    stitches.push([row, right]);
    if (left > right) stitches.push([row, left]);
  }
  return stitches;
}

/** Every stitch of a rectangle that lies on the grid. */
export function* stitchesOf(grid: Grid, region: Region): Generator<Stitch> {
  const on = regionOn(grid, region);
  if (!on) return;
  for (let row = on.rows[0]; row <= on.rows[1]; row++)
    for (let column = on.columns[0]; column <= on.columns[1]; column++) yield [row, column];
}

/** The stitches and, where wanted, their mirror images, and all of these in every repeat of their row. May have one twice. */
export function* inManner(grid: Grid, stitches: Iterable<Stitch>, { mirror, repeats }: Manner): Generator<Stitch> {
  for (const [row, column] of stitches) {
    const columns = mirror === null ? [column] : [column, 2 * mirror - column];
    const repeat = repeats?.[row - 1] ?? 0;
    for (const one of columns) {
      if (repeat < 1) yield [row, one];
      else for (let at = remainder(one - 1, repeat) + 1; at <= grid.width; at += repeat) yield [row, at];
    }
  }
}
