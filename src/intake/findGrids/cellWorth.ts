/** Which cells of a laid-out sheet look like a chart's stitches and which like what is around it. */
import { UNKNOWN, type Drawn } from "./lineLooks.ts";
import type { Sides } from "./sides.ts";
import { HARDLY_SEEN } from "./straight.ts";

export interface Taken {
  /** 1 where a cell is taken for a chart's, 0 where it is taken for none; null where nothing is known yet. */
  readonly inside: Uint8Array | null;
  readonly lined: boolean;
  readonly noise: number;
}

/**
 * How much more each cell looks like a chart than like what is around one: the logarithm of how often the one has what is seen
 * here to how often the other has. What holds for every page is known before; what this chart and this page are like is counted
 * on the cells that are taken for the one and the other.
 */
export function worthOfCells(
  sides: Sides,
  seen: Uint8Array,
  drawn: Drawn,
  { inside, lined, noise }: Taken,
): Float64Array {
  const { columns, rows, spread } = sides;
  const uneven = Math.max(LEAST_UNEVEN, 2 * noise);
  const before = lined ? LINED_SIDES : UNLINED_SIDES;
  const [upright, level, flat] = [new Ratio(before), new Ratio(before), new Ratio(FLAT)];
  const colours = inside && new ColourRatio(sides, inside);
  const sidesAt = (cell: number): number => {
    const side = cell + Math.floor(cell / columns);
    const { upright, level } = drawn;
    const around = [upright[side], upright[side + 1], level[cell], level[cell + columns]];
    return around.filter((is) => is === 1).length;
  };
  for (let row = 0, cell = 0; inside && row < rows; row++)
    for (let column = 0; column < columns; column++, cell++) {
      if (seen[cell] === HARDLY_SEEN) continue;
      const is = inside[cell]! as 0 | 1;
      // A side between both is neither's.
      if (column > 0 && inside[cell - 1] === is) upright.count(is, drawn.upright[row * (columns + 1) + column]!);
      if (row > 0 && inside[cell - columns] === is) level.count(is, drawn.level[cell]!);
      flat.count(is, spread[cell]! <= uneven ? 1 : 0);
      colours!.count(is && sidesAt(cell) > 0 ? 1 : 0, cell);
    }
  const across = new Float64Array(columns * rows);
  const down = new Float64Array(columns * rows);
  for (let row = 0, cell = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, cell++) {
      const side = row * (columns + 1) + column;
      across[cell] = (upright.of(drawn.upright[side]!) + upright.of(drawn.upright[side + 1]!)) / 2;
      down[cell] = (level.of(drawn.level[cell]!) + level.of(drawn.level[cell + columns]!)) / 2;
    }
  // Without lines every row of a chart has steps somewhere, and every column; a strip of page beside it has them one way only.
  const alongRow = lined ? null : meansAlong(across, columns, rows, 1);
  const alongColumn = lined ? null : meansAlong(down, columns, rows, columns);
  return Float64Array.from(seen, (is, cell) => {
    if (is === HARDLY_SEEN) return UNSEEN;
    // With lines a sign may hide one side of a cell; a strip of page between two edges has two.
    const edges =
      lined && sidesAt(cell) >= 3
        ? across[cell]! + down[cell]!
        : 2 * Math.min((alongRow ?? across)[cell]!, (alongColumn ?? down)[cell]!);
    const colour = (colours?.of(cell) ?? 0) * (lined ? 0.5 : 1);
    return Math.max(MISSING, Math.min(MOST_WORTH, edges + flat.of(spread[cell]! <= uneven ? 1 : 0) + colour));
  });
}

/** Means over some cells to both sides, along rows (`step` 1) or columns (`step` the cells of a row). */
function meansAlong(values: Float64Array, columns: number, rows: number, step: number): Float64Array {
  const out = new Float64Array(values.length);
  const [count, lines, jump] = step === 1 ? [columns, rows, columns] : [rows, columns, 1];
  for (let line = 0; line < lines; line++)
    for (let at = 0; at < count; at++) {
      const [from, to] = [Math.max(0, at - NEAR), Math.min(count - 1, at + NEAR)];
      let sum = 0;
      for (let near = from; near <= to; near++) sum += values[line * jump + near * step]!;
      out[line * jump + at * step] = sum / (to - from + 1);
    }
  return out;
}

/** What share of charts' and of other things has something, and how many cells that knowledge is worth. */
interface Before {
  readonly inside: number;
  readonly outside: number;
  readonly weight: number;
}

class Ratio {
  private readonly seen: [number, number];
  private readonly all: [number, number];
  constructor({ inside, outside, weight }: Before) {
    this.seen = [outside * weight, inside * weight];
    this.all = [weight, weight];
  }
  count(inside: 0 | 1, is: number): void {
    if (is === UNKNOWN) return;
    this.seen[inside] += is;
    this.all[inside]++;
  }
  /** `is`: 1, 0, or `UNKNOWN`. */
  of(is: number): number {
    if (is === UNKNOWN) return 0;
    const [out, into] = [this.seen[0] / this.all[0], this.seen[1] / this.all[1]];
    return is ? Math.log(into / out) : Math.log((1 - into) / (1 - out));
  }
}

/** How often colours near a cell's are met in the chart and around it; one that a single column has is not the chart's for that. */
class ColourRatio {
  private readonly bins: Int32Array;
  private readonly counts: readonly [Map<number, number>, Map<number, number>] = [new Map(), new Map()];
  private readonly columnsOf = new Map<number, [number, number]>();
  private readonly all: [number, number] = [0, 0];
  private readonly known = new Map<number, number>();
  private readonly width: number;
  constructor({ means, columns }: Sides, inside: Uint8Array) {
    this.width = columns;
    this.bins = Int32Array.from(inside, (_, cell) => {
      const [red, green, blue] = [means[cell * 3]!, means[cell * 3 + 1]!, means[cell * 3 + 2]!];
      const light = Math.floor((red + 2 * green + blue) / 4 / LIGHT_BIN);
      return (
        (light * BINS + Math.floor((red - green + 256) / COLOUR_BIN)) * BINS +
        Math.floor((blue - green + 256) / COLOUR_BIN)
      );
    });
  }
  count(inside: 0 | 1, cell: number): void {
    const bin = this.bins[cell]!;
    this.counts[inside].set(bin, (this.counts[inside].get(bin) ?? 0) + 1);
    this.all[inside]++;
    if (!inside) return;
    const column = cell % this.width;
    const span = this.columnsOf.get(bin);
    if (!span) this.columnsOf.set(bin, [column, column]);
    else if (column < span[0]) span[0] = column;
    else if (column > span[1]) span[1] = column;
  }
  of(cell: number): number {
    const bin = this.bins[cell]!;
    let value = this.known.get(bin);
    if (value === undefined) this.known.set(bin, (value = this.worthOf(bin)));
    return value;
  }
  private worthOf(bin: number): number {
    const sums = [0, 0];
    let [first, last] = [Infinity, -Infinity];
    for (let light = -1; light <= 1; light++)
      for (let warm = -1; warm <= 1; warm++)
        for (let cold = -1; cold <= 1; cold++) {
          const near = bin + (light * BINS + warm) * BINS + cold;
          sums[0]! += this.counts[0].get(near) ?? 0;
          sums[1]! += this.counts[1].get(near) ?? 0;
          const span = this.columnsOf.get(near);
          if (span) [first, last] = [Math.min(first, span[0]), Math.max(last, span[1])];
        }
    if (first === last) sums[1] = 0;
    const all = this.all[0] + this.all[1];
    const usual = (sums[0]! + sums[1]!) / all;
    const share = (at: 0 | 1): number => (sums[at]! + usual * COLOUR_WEIGHT) / (this.all[at] + COLOUR_WEIGHT);
    if (usual === 0) return 0;
    return Math.max(-MOST_COLOUR, Math.min(MOST_COLOUR, Math.log(share(1) / share(0))));
  }
}

/** Ours, on painted charts: how often sides are drawn in charts, and around them by writing, edges of pages and desks. */
const LINED_SIDES: Before = { inside: 0.95, outside: 0.12, weight: 2000 };
const UNLINED_SIDES: Before = { inside: 0.4, outside: 0.08, weight: 300 };
const FLAT: Before = { inside: 0.8, outside: 0.7, weight: 50 };
/** Logarithms of likelihoods: what a cell may speak for the chart at most; every fifth may be no stitch. */
const MOST_WORTH = 3;
const MISSING = Math.log(0.2);
const UNSEEN = -1;
const MOST_COLOUR = 1.5;
/** Cells to both sides. */
const NEAR = 3;
/** Cells. */
const COLOUR_WEIGHT = 20;
/** Bytes: light is less even than colour. */
const LIGHT_BIN = 16;
const COLOUR_BIN = 9;
const BINS = 64;
/** Bytes. */
const LEAST_UNEVEN = 20;
