/** Where the middle of a band's motif lies: the line that a knitter would put over the middle of the motif below. */
import { remainder } from "../base/divisors.ts";
import { NO_STITCH, type Grid } from "./chart.ts";
import type { BandStructure } from "./structure.ts";

export interface Centre {
  /** Column of one centre, .5 between two stitches; the others follow a repeat apart. */
  readonly column: number;
  /** Stitches from one centre to the next. */
  readonly repeat: number;
}

/**
 * Of the two lines about which a repeat mirrors the one where more of the figure lies: seeds and diamonds have their middle on themselves and
 * not between; where both have as much, the one that has more of the uppermost row in which they differ: a zigzag has it at its peaks. Her own axis stands. null for plain rows and for a motif that leans: it has no middle.
 */
export function centreOf(
  grid: Grid,
  { band, kind, rows, repeat, mirrors }: Pick<BandStructure, "band" | "kind" | "rows" | "repeat" | "mirrors">,
): Centre | null {
  if (kind === "plain") return null;
  const { stitches } = repeat;
  const said = band.declared?.axis;
  if (said !== undefined) return said === null ? null : { column: said, repeat: stitches };
  const [first, second] = mirrors.across;
  if (first === undefined || second === undefined) return null;
  const figures = rows.map(({ row, ground }) => {
    const start = (row - 1) * grid.width;
    return Float64Array.from(grid.cells.subarray(start, start + stitches), (cell) =>
      Number(cell !== ground && cell !== NO_STITCH),
    );
  });
  const all = new Float64Array(stitches);
  for (const figure of figures) figure.forEach((stitch, column) => (all[column]! += stitch));
  for (const figure of [all, ...figures.toReversed()]) {
    const side = further(figureFrom(figure, first), figureFrom(figure, second));
    if (side !== 0) return { column: side < 0 ? first : second, repeat: stitches };
  }
  return { column: first, repeat: stitches };
}

/** Stitches of the figure nearer to an axis than each distance: of the quarter beside it first, then nearer and nearer. */
function figureFrom(figure: Float64Array, axis: number): number[] {
  const { length } = figure;
  const within = (reach: number): number => {
    let sum = 0;
    for (let column = Math.ceil(axis - reach); column <= axis + reach; column++)
      sum += figure[remainder(column - 1, length)]!;
    return sum;
  };
  return Array.from({ length: Math.floor(length / 4) + 1 }, (_, nearer) => within(Math.max(0.5, length / 4 - nearer)));
}

function further(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((sum, index) => sum !== other[index]);
  return at < 0 ? 0 : other[at]! - one[at]!;
}
