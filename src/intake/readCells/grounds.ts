/** The colour that most of a cell has, away from its lines and whatever stands in it. */
import type { Patches } from "./patches.ts";

export interface Grounds {
  /** Encoded red, green and blue, 0 to 255 with fractions, three to the cell. */
  readonly colours: Float32Array;
  /** The part of the cell's inside that has this colour, 0 to 1. */
  readonly even: Float32Array;
  /** Root mean square of what has it, bytes. */
  readonly spread: Float32Array;
}

/** Part of the cell left out on each side, for lines, their blur, and a grid that lies a little off. */
const MARGIN = 0.17;
/** Bytes, the largest of the three channels: what is nearer has one colour. Noise and compression stay below it. */
const ALIKE = 26;
/** Of many samples so many are asked which has most of the others near it. */
const ASKED = 40;
/** Part of the inside from which a colour is the ground, whatever is around it. */
const MOSTLY = 0.85;

export function groundsOf(patches: Patches): Grounds {
  const { columns, rows, side, bytes } = patches;
  const cells = columns * rows;
  const grounds: Grounds = {
    colours: new Float32Array(cells * 3),
    even: new Float32Array(cells),
    spread: new Float32Array(cells),
  };
  const inside = placesOf(side, (away) => away > insideFrom(side));
  const ring = side < LARGE ? [] : placesOf(side, (away) => away > RING_FROM && away < RING_TO);
  const edge = placesOf(side, (away) => away < 1 / side);
  const each = side * side * 3;
  const unsure: number[] = [];
  const around = new Float32Array(ring.length > 0 ? cells * 3 : 0);
  for (let cell = 0; cell < cells; cell++) {
    const from = cell * each;
    const own = usual(bytes, from, inside);
    settle(grounds, cell, own, bytes, from, inside);
    if (ring.length === 0) continue;
    around.set(own, cell * 3);
    if (grounds.even[cell]! >= MOSTLY) continue;
    const beside = usual(bytes, from, ring);
    if (isBetween(beside, usual(bytes, from, edge), own)) continue;
    around.set(beside, cell * 3);
    if (!near(beside, own, ALIKE)) unsure.push(cell);
  }
  // A large sign covers more of its cell than the ground does; but what is around it is the ground of other cells too.
  const stride = Math.max(1, Math.floor(cells / VOTERS));
  const votes = (colour: Rgb): number => {
    let count = 0;
    for (let cell = 0; cell < cells; cell += stride)
      if (near(colour, [around[cell * 3]!, around[cell * 3 + 1]!, around[cell * 3 + 2]!], SAME_GROUND)) count++;
    return count;
  };
  for (const cell of unsure) {
    const at = cell * 3;
    const beside: Rgb = [around[at]!, around[at + 1]!, around[at + 2]!];
    const own: Rgb = [grounds.colours[at]!, grounds.colours[at + 1]!, grounds.colours[at + 2]!];
    if (votes(beside) > votes(own)) settle(grounds, cell, beside, bytes, cell * each, inside);
  }
  return grounds;
}

type Rgb = readonly [number, number, number];

/** Cells that are asked what is around, and bytes within which it is the same in any light of one page. */
const VOTERS = 300;
const SAME_GROUND = 40;

const near = (one: Rgb, other: Rgb, bytes: number): boolean =>
  Math.abs(one[0] - other[0]) <= bytes && Math.abs(one[1] - other[1]) <= bytes && Math.abs(one[2] - other[2]) <= bytes;

/** The colour that most of the samples have. */
function usual(bytes: Uint8Array, from: number, places: ArrayLike<number>): Rgb {
  const count = places.length;
  let [lowRed, lowGreen, lowBlue, topRed, topGreen, topBlue] = [255, 255, 255, 0, 0, 0];
  let [sumRed, sumGreen, sumBlue] = [0, 0, 0];
  for (let index = 0; index < count; index++) {
    const at = from + places[index]!;
    const [r, g, b] = [bytes[at]!, bytes[at + 1]!, bytes[at + 2]!];
    sumRed += r;
    sumGreen += g;
    sumBlue += b;
    if (r < lowRed) lowRed = r;
    if (r > topRed) topRed = r;
    if (g < lowGreen) lowGreen = g;
    if (g > topGreen) topGreen = g;
    if (b < lowBlue) lowBlue = b;
    if (b > topBlue) topBlue = b;
  }
  if (topRed - lowRed <= ALIKE && topGreen - lowGreen <= ALIKE && topBlue - lowBlue <= ALIKE)
    return [sumRed / count, sumGreen / count, sumBlue / count];
  let [best, most] = [from + places[0]!, -1];
  const stride = Math.max(1, Math.floor(count / ASKED));
  for (let index = 0; index < count; index += stride) {
    const at = from + places[index]!;
    const [r, g, b] = [bytes[at]!, bytes[at + 1]!, bytes[at + 2]!];
    let friends = 0;
    for (let other = 0; other < count; other++) {
      const its = from + places[other]!;
      if (
        Math.abs(bytes[its]! - r) <= ALIKE &&
        Math.abs(bytes[its + 1]! - g) <= ALIKE &&
        Math.abs(bytes[its + 2]! - b) <= ALIKE
      )
        friends++;
    }
    if (friends > most) [best, most] = [at, friends];
  }
  return [bytes[best]!, bytes[best + 1]!, bytes[best + 2]!];
}

/** Times the mean of what is near moves to where there is most of it. */
const ROUNDS = 3;

/** The ground of a cell is about so: exactly where, how much of the cell it is, and how even. */
function settle(
  { colours, even, spread }: Grounds,
  cell: number,
  about: Rgb,
  bytes: Uint8Array,
  from: number,
  inside: ArrayLike<number>,
): void {
  let [r, g, b] = about;
  let [alike, squares] = [0, 0];
  for (let round = 0; round <= ROUNDS; round++) {
    let [red, green, blue] = [0, 0, 0];
    alike = 0;
    squares = 0;
    for (let index = 0; index < inside.length; index++) {
      const at = from + inside[index]!;
      const [dr, dg, db] = [bytes[at]! - r, bytes[at + 1]! - g, bytes[at + 2]! - b];
      if (Math.abs(dr) > ALIKE || Math.abs(dg) > ALIKE || Math.abs(db) > ALIKE) continue;
      alike++;
      red += dr;
      green += dg;
      blue += db;
      squares += dr * dr + dg * dg + db * db;
    }
    if (alike === 0 || round === ROUNDS) break;
    const step = Math.abs(red) + Math.abs(green) + Math.abs(blue);
    r += red / alike;
    g += green / alike;
    b += blue / alike;
    if (step < 0.3 * alike && alike === inside.length) {
      squares -= (red * red + green * green + blue * blue) / alike;
      break;
    }
  }
  colours[cell * 3] = r;
  colours[cell * 3 + 1] = g;
  colours[cell * 3 + 2] = b;
  even[cell] = alike / inside.length;
  spread[cell] = Math.sqrt(Math.max(0, squares) / 3 / Math.max(1, alike));
}

/** Whether what is around is only the blur between a line at the cell's edge and what is inside. */
function isBetween(colour: Rgb, edge: Rgb, inside: Rgb): boolean {
  const way = inside.map((part, channel) => part - edge[channel]!);
  const whole = Math.hypot(...way);
  if (whole < ALIKE) return false;
  const along = way.reduce((sum, part, channel) => sum + part * (colour[channel]! - edge[channel]!), 0) / whole ** 2;
  return along > BLUR && along < 1 - BLUR;
}

/** Part of the way from which a colour is a mixture. */
const BLUR = 0.12;

/** Samples to a side of a cell in which there is room for something between signs and lines, and where that is. */
const LARGE = 12;
const RING_FROM = 0.11;
const RING_TO = 0.22;

const insideFrom = (side: number): number =>
  Math.min(Math.floor((side - 1) / 2), Math.ceil(MARGIN * side - 0.25)) / side;

/** Where samples begin in their patch that lie so far from the cell's sides, in cells. */
function placesOf(side: number, chosen: (away: number) => boolean): Int32Array {
  const places: number[] = [];
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++)
      if (chosen(Math.min(x + 0.5, y + 0.5, side - x - 0.5, side - y - 0.5) / side)) places.push((y * side + x) * 3);
  return Int32Array.from(places);
}
