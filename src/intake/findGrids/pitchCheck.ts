/** Whether a grid's steps are stitches, or a part of one, or several: signs in the cells and motifs recur too. */
import type { Straight } from "./straight.ts";

/** The stitches of a grid in its own columns or rows: from `offset` on, one every `step`. */
export interface Restep {
  readonly step: number;
  readonly offset: number;
}

/** How columns and rows are to be counted instead; 1 and 0 where they are right. `straight`: a part of the grid within the chart. */
export function stepsOf(straight: Straight, noise: number): { across: Restep; down: Restep } {
  const { columns, rows, side } = straight;
  const stride = columns * side * 3;
  return {
    across: restep(coverage(straight, columns, rows, 3, stride, noise), columns, side),
    down: restep(coverage(straight, rows, columns, stride, 3, noise), rows, side),
  };
}

/**
 * For each place along an axis, in samples, the part of its length where something is drawn there: a line of the grid runs from
 * end to end, the strokes of signs do not.
 */
function coverage(
  { side, rgb }: Straight,
  count: number,
  lines: number,
  step: number,
  jump: number,
  noise: number,
): Float64Array {
  const length = count * side;
  const out = new Float64Array(length + 1);
  const reach = Math.max(2, Math.round(side * 0.25));
  const height = lines * side;
  const least = noise * noise;
  const strip = Math.max(2, Math.round(side / 4));
  const profile = new Float64Array(length * 3);
  let strips = 0;
  for (let row = 0; row + strip <= height; row += strip) {
    strips++;
    profile.fill(0);
    for (let along = row; along < row + strip; along++)
      for (let at = 0; at < length; at++) {
        const place = along * jump + at * step;
        for (let channel = 0; channel < 3; channel++) profile[at * 3 + channel]! += rgb[place + channel]! / strip;
      }
    for (let at = reach; at <= length - reach; at++) {
      let [product, square] = [0, 0];
      for (let channel = 0; channel < 3; channel++) {
        const here = (profile[at * 3 + channel]! + profile[at * 3 - 3 + channel]!) / 2;
        const before = profile[(at - reach) * 3 + channel]!;
        const after = profile[(at + reach - 1) * 3 + channel]!;
        product += (here - before) * (here - after);
        // A step is one where it is steep.
        square += (profile[(at + 1) * 3 + channel]! - profile[(at - 2) * 3 + channel]!) ** 2;
      }
      if (product > least || square > 2 * least) out[at]!++;
    }
  }
  return out.map((seen) => seen / Math.max(1, strips));
}

function restep(covered: Float64Array, count: number, side: number): Restep {
  const near = (place: number): number => {
    const at = Math.round(place);
    return Math.max(covered[at - 1] ?? 0, covered[at] ?? 0, covered[at + 1] ?? 0);
  };
  /** What is drawn at a class of places, the first and last stitches left out: what two of five do not reach, and the mean. */
  const classOf = (offset: number, step: number): { low: number; mean: number; size: number } => {
    const values: number[] = [];
    for (let at = offset; at <= count - 0.5; at += step) if (at >= 0.5) values.push(near(at * side));
    values.sort((one, other) => one - other);
    return {
      low: values[Math.floor(values.length * 0.4)] ?? 0,
      mean: values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length),
      size: values.length,
    };
  };
  const whole = classOf(0, 1);
  for (let step = 2; step <= MOST_STEPS && step * 3 <= count; step++) {
    const classes = Array.from({ length: step }, (_, offset) => classOf(offset, step));
    const order = classes.map((_, offset) => offset).sort((one, other) => classes[other]!.low - classes[one]!.low);
    const [best, second] = [order[0]!, order[1]!];
    if (classes[best]!.low >= FULL && classes[second]!.low < Math.min(FULL, 0.8 * classes[best]!.low))
      return { step, offset: best };
  }
  if (whole.low >= FULL) {
    // Lines at every step; there may be as full ones between, with less drawn beside them.
    for (const parts of [2, 3]) {
      if (side / parts < LEAST_APART) break;
      const between = Array.from({ length: parts - 1 }, (_, part) => classOf((part + 1) / parts, 1));
      const aside = [0.5 / parts, 1 - 0.5 / parts].map((place) => classOf(place, 1).low);
      const low = Math.min(...between.map((one) => one.low));
      if (low >= FULL && low > 0.8 * whole.low && Math.max(...aside) < 0.75 * low)
        return { step: 1 / parts, offset: 0 };
    }
    return SAME;
  }
  // Without lines borders are seen where colours change, and nothing is seen between them.
  const aside = [0.3, 0.4, 0.6, 0.7].map((place) => classOf(place, 1).mean).sort((one, other) => one - other);
  const background = aside[1]!;
  for (let step = 2; step <= MOST_STEPS && step * 3 <= count; step++) {
    const classes = Array.from({ length: step }, (_, offset) => classOf(offset, step).mean - background);
    const best = classes.indexOf(Math.max(...classes));
    if (
      classes[best]! > Math.max(SEEN_PART, 0.5 * background) &&
      classes.every((mean, offset) => offset === best || mean < ABSENT * classes[best]!)
    )
      return { step, offset: best };
  }
  for (const parts of [2, 3]) {
    if (side / parts < LEAST_APART) break;
    const between = Array.from({ length: parts - 1 }, (_, part) => classOf((part + 1) / parts, 1).mean);
    const empty = [0.25 / (parts - 1), 1 - 0.25 / (parts - 1)].map((place) => classOf(place, 1).mean);
    const drawn = Math.min(...between) - Math.max(...empty);
    if (drawn > PRESENT * Math.max(SEEN_PART, whole.mean - Math.max(...empty))) return { step: 1 / parts, offset: 0 };
  }
  return SAME;
}

const SAME: Restep = { step: 1, offset: 0 };
/** Part of its length that three of five grid lines show. */
const FULL = 0.72;
const MOST_STEPS = 6;
/** Samples between lines that can be told apart. */
const LEAST_APART = 5;
/** Parts of a border's length. */
const SEEN_PART = 0.05;
/** Parts of what the true borders show. */
const ABSENT = 0.12;
const PRESENT = 0.3;
