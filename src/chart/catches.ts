/** Where long floats are caught: behind which stitches, so that no strand hangs free too far and no catch stands above another. */
import { NO_STITCH, type Grid } from "./chart.ts";
import { floatsInRow, type Float, type Worked } from "./floats.ts";

export interface Catch {
  readonly row: number;
  /** The column of the stitch behind which the strand is caught. */
  readonly column: number;
  /** Index of the colour that is caught. */
  readonly colour: number;
}

export interface CatchPlan {
  /** Row by row from the lowest, each right to left. */
  readonly catches: readonly Catch[];
  /** Catches that stand above one in the row below, or under one in the row above where the rows begin again, because there is no other place for them. */
  readonly stacked: readonly Catch[];
}

/**
 * Catches for every float longer than `limit`, as few as will do, and one more where that keeps it off the columns of the row below.
 * They lie as evenly as they can; a neighbouring column of the row below, and a stitch behind which another strand is caught, are avoided too.
 * Stacked catches show through and make a gutter: common practice (trade.md 3).
 * @param limit stitches that a strand may pass uncaught, at least 1
 * `longest`: floats of more stitches are not caught, because other ways are better; every one is where it is missing. `again`: the rows are knitted
 * once more above themselves, so that the lowest stands on the uppermost.
 */
export function catchesIn(
  grid: Grid,
  [from, to]: readonly [number, number],
  limit: number,
  {
    worked = "round",
    longest = Infinity,
    again = false,
  }: { readonly worked?: Worked; readonly longest?: number; readonly again?: boolean } = {},
): CatchPlan {
  const catches: Catch[] = [];
  const stacked: Catch[] = [];
  let below: ReadonlySet<number> = new Set();
  for (let row = from; row <= to; row++) {
    const here: Catch[] = [];
    // Where the rows begin again the lowest stands on the uppermost.
    const above = new Set(again && row === to ? catches.flatMap((one) => (one.row === from ? [one.column] : [])) : []);
    const isNext = (column: number): boolean => below.has(column) || above.has(column);
    for (const float of floatsInRow(grid, row, worked)) {
      if (float.length <= limit || float.length > longest) continue;
      const columns = columnsPassed(grid, float);
      const taken = new Set(here.map(({ column }) => column));
      const costOf = (column: number): number =>
        (isNext(column) ? STACKED : 0) +
        (taken.has(column) ? CROWDED : 0) +
        (isNext(before(column, grid.width)) || isNext(after(column, grid.width)) ? BESIDE : 0);
      for (const column of placesIn(columns, limit, costOf)) here.push({ row, column, colour: float.colour });
    }
    here.sort((a, b) => a.column - b.column);
    catches.push(...here);
    stacked.push(...here.filter(({ column }) => isNext(column)));
    below = new Set(here.map(({ column }) => column));
  }
  return { catches, stacked };
}

/** A catch above another is worse than one more catch, that is worse than one beside another, and all are worse than unevenness. Our choice. */
const STACKED = 10_000;
const CROWDED = 2_000;
const MORE = 1_000;
const BESIDE = 100;

const before = (column: number, width: number): number => (column === 1 ? width : column - 1);
const after = (column: number, width: number): number => (column === width ? 1 : column + 1);

/** The columns that a float passes, in the direction right to left; places without a stitch are passed over. */
export function columnsPassed({ width, cells }: Grid, { row, fromColumn, length }: Float): number[] {
  const columns: number[] = [];
  for (let column = fromColumn; columns.length < length; column = after(column, width))
    if (cells[(row - 1) * width + column - 1] !== NO_STITCH) columns.push(column);
  return columns;
}

/** Least catches that a float needs: each parts it into two strands that pass at most `limit` stitches. */
export const catchesNeeded = (length: number, limit: number): number => Math.ceil((length + 1) / (limit + 1)) - 1;

/** The best places by dynamic programming over the last catch; of equals the most even. */
function placesIn(columns: readonly number[], limit: number, costOf: (column: number) => number): number[] {
  const { length } = columns;
  const needed = catchesNeeded(length, limit);
  let best: { readonly cost: number; readonly places: readonly number[] } | null = null;
  for (let count = needed; count <= Math.min(needed + 1, length); count++) {
    const even = (length + 1) / (count + 1);
    // paths[k]: with so many catches the last of which is behind stitch k, stitches from 1.
    let paths = new Map<number, { cost: number; places: readonly number[] }>([[0, { cost: 0, places: [] }]]);
    for (let nth = 1; nth <= count; nth++) {
      const next: typeof paths = new Map();
      for (const [last, path] of paths) {
        for (let at = last + 1; at <= Math.min(length, last + 1 + limit); at++) {
          const cost = path.cost + costOf(columns[at - 1]!) + Math.abs(at - nth * even);
          if (cost < (next.get(at)?.cost ?? Infinity)) next.set(at, { cost, places: [...path.places, at] });
        }
      }
      paths = next;
    }
    for (const [last, path] of paths) {
      const cost = path.cost + (count - needed) * MORE;
      if (length - last <= limit && cost < (best?.cost ?? Infinity)) best = { cost, places: path.places };
    }
  }
  return (best?.places ?? []).map((at) => columns[at - 1]!);
}

/**
 * Columns for the ladders of a very long float: extra stitches of the carried strand on the inside, about every `apart` stitches.
 * Trade sources: 3 to 5 stitches from one to the next; floats of 26 and of 106 stitches are worked so (trade.md 3).
 */
export function laddersIn(grid: Grid, float: Float, apart = 4): number[] {
  const count = Math.max(1, Math.round(float.length / apart) - 1);
  const columns = columnsPassed(grid, float);
  return Array.from(
    { length: count },
    (_, index) => columns[Math.round(((index + 1) * (float.length + 1)) / (count + 1)) - 1]!,
  );
}
