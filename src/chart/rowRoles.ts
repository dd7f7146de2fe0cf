/** What a row is in its band: plain, seeded with single stitches, a line of dashes or part of a motif; its ground and what lies on it. */
import type { Band } from "./bands.ts";
import { NO_STITCH, type Grid } from "./chart.ts";
import { rowColours } from "./counts.ts";

export type RowKind = "plain" | "seeding" | "dashes" | "motif";

export interface RowRole {
  readonly row: number;
  readonly kind: RowKind;
  /** Index of the colour, or NO_GROUND. */
  readonly ground: number;
  /** Colours that lie on it, in the order of their first use, right to left. */
  readonly pattern: readonly number[];
}

/** The roles of a band's rows, lowest first. */
export function rowRoles(
  grid: Grid,
  { rows, groundOfRow, declared }: Pick<Band, "rows" | "groundOfRow" | "declared">,
): RowRole[] {
  return groundOfRow.map((ground, index): RowRole => {
    const row = rows[0] + index;
    const colours = rowColours(grid, row);
    const pattern = colours.filter((colour) => colour !== ground);
    return { row, kind: colours.length < 2 ? "plain" : kindOf(grid, row, ground, declared?.seeding), ground, pattern };
  });
}

/** Seeds are at most so much of their row: one stitch in three and they begin to make a texture. Our choice. */
const STREWN = 1 / 3;

function kindOf(grid: Grid, row: number, ground: number, seeding: boolean | undefined): RowKind {
  if (seeding ?? isSeeded(grid, row, ground)) return "seeding";
  return hasEvenDashes(grid, row) ? "dashes" : "motif";
}

/** Single stitches of the pattern with ground all round them, corners too. */
function isSeeded({ width, height, cells }: Grid, row: number, ground: number): boolean {
  const inRow = cells.subarray((row - 1) * width, row * width);
  const isSeed = (cell: number): boolean => cell !== ground && cell !== NO_STITCH;
  if (inRow.reduce((sum, cell) => sum + Number(isSeed(cell)), 0) > STREWN * width) return false;
  for (let column = 0; column < width; column++) {
    const seed = inRow[column]!;
    if (!isSeed(seed)) continue;
    const left = (column + 1) % width;
    const right = (column + width - 1) % width;
    if (isSeed(inRow[left]!) || isSeed(inRow[right]!)) return false;
    for (const other of [row - 1, row + 1]) {
      if (other < 1 || other > height) continue;
      const start = (other - 1) * width;
      if ([left, column, right].some((at) => cells[start + at] === seed)) return false;
    }
  }
  return true;
}

/** One and one, two and two: runs of one length round the row. */
function hasEvenDashes({ width, cells }: Grid, row: number): boolean {
  const at = (column: number): number => cells[(row - 1) * width + (column % width)]!;
  let first = 0;
  while (first < width && at(first) === at(first + width - 1)) first += 1;
  let length = 0;
  let dash = 0;
  for (let column = first; column < first + width; column++) {
    length += 1;
    if (at(column) === at(column + 1)) continue;
    if (dash > 0 && length !== dash) return false;
    dash = length;
    length = 0;
  }
  return true;
}
