/** Whether a grid's steps are stitches, or a part of one, or several: signs in the cells and motifs recur too. */
import type { Straight } from "./straight.ts";

/** The stitches of a grid in its own columns or rows: from `offset` on, one every `step`. */
export interface Restep {
  readonly step: number;
  readonly offset: number;
}

/** How columns and rows are to be counted instead; 1 and 0 where they are right. `straight`: a part of the grid within the chart. */
export function stepsOf(straight: Straight, noise: number): { across: Restep; down: Restep } {
  const { columns, rows, side, pitch } = straight;
  const stride = columns * side * 3;
  return {
    across: restep((part) => coverage(straight, columns, rows, 3, stride, { noise, part, blur: side / pitch[0] }), {
      count: columns,
      side,
      pitch: pitch[0],
    }),
    down: restep((part) => coverage(straight, rows, columns, stride, 3, { noise, part, blur: side / pitch[1] }), {
      count: rows,
      side,
      pitch: pitch[1],
    }),
  };
}

/**
 * For each place along an axis, in samples, the part of its length where something is drawn there: a line of the grid runs from
 * end to end, the strokes of signs do not. What is drawn differs from what lies a quarter of a step beside it, or of `part` of one.
 */
function coverage(
  { side, rgb }: Straight,
  count: number,
  lines: number,
  step: number,
  jump: number,
  { noise, part, blur }: { noise: number; part: number; blur: number },
): Float64Array {
  const length = count * side;
  const out = new Float64Array(length + 1);
  const reach = Math.max(2, Math.round(side * 0.25 * part));
  const height = lines * side;
  const least = noise * noise;
  // As many samples as the picture's own pixels are wide.
  const near = Math.max(1, Math.min(reach - 1, Math.round(blur)));
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
        square += (profile[(at + near) * 3 + channel]! - profile[(at - 1 - near) * 3 + channel]!) ** 2;
      }
      if (product > least || square > 2 * least) out[at]!++;
    }
  }
  return out.map((seen) => seen / Math.max(1, strips));
}

function restep(
  coverageBy: (part: number) => Float64Array,
  { count, side, pitch }: { count: number; side: number; pitch: number },
): Restep {
  let covered = coverageBy(1);
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
    if (
      classes[best]!.low >= FULL &&
      classes[second]!.low < LESS * classes[best]!.low &&
      Math.max(...classes.map(({ mean }, offset) => (offset === best ? 0 : mean))) < LESS * classes[best]!.mean
    )
      return { step, offset: best };
  }
  // Lines at every step; there may be as full ones between, with less drawn beside them.
  for (const parts of FINER) {
    if (whole.low < LEAST_LOW || pitch / parts < LEAST_APART) continue;
    covered = coverageBy(1 / parts);
    const on = Array.from({ length: parts }, (_, part) => classOf(part / parts, 1).low);
    const off = Array.from({ length: parts }, (_, part) => classOf((part + 0.5) / parts, 1).low).sort((a, b) => a - b);
    const low = Math.min(...on);
    if (low >= LEAST_LOW && low > (parts > 3 ? 0.75 : 0.85) * Math.max(...on) && off[off.length >> 1]! < 0.6 * low)
      return { step: 1 / parts, offset: 0 };
  }
  covered = coverageBy(1);
  if (whole.low >= FULL) return SAME;
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
/** Part of that which what stands between them shows at most. */
const LESS = 0.7;
const MOST_STEPS = 6;
/** Into how many a step may have to be cut: heavy lines stand every five or ten. */
const FINER = [10, 8, 6, 5, 4, 3, 2];
/** Part of its length that lines show at least, where a chart has gaps. */
const LEAST_LOW = 0.35;
/** Pixels between lines that can be told apart. */
const LEAST_APART = 3.2;
/** Parts of a border's length. */
const SEEN_PART = 0.05;
/** Parts of what the true borders show. */
const ABSENT = 0.12;
const PRESENT = 0.3;
