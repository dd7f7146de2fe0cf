/** The mean look of cells of one kind, and how unlike two such looks are when they are laid upon each other as well as may be. */
import type { Patches } from "./patches.ts";

/** Everything that is asked of the picture; `inside` gives for each of the chart's cells its patch. */
export interface Looking {
  readonly patches: Patches;
  readonly inside: readonly number[];
  /** For each cell and channel what its linear light is multiplied by to be even, and white where the paper is. */
  readonly gains: Float32Array;
}

export interface Shape {
  readonly side: number;
  /** Lightness, encoded bytes, sample by sample. */
  readonly luma: Float64Array;
  /** Lightness of the ground: between the signs and the lines. */
  readonly ground: number;
  /** Root mean square around its own mean, bytes: how much of a sign there is. */
  readonly size: number;
  /** Root mean square of its slope, bytes to a pixel of the picture. */
  readonly slope: number;
  /** Cells of which it is the mean. */
  readonly count: number;
}

/** Cells that are enough for a mean. */
const ENOUGH = 120;

export function shapeOf({ patches, inside, gains }: Looking, cells: readonly number[]): Shape {
  const { side, bytes, size } = patches;
  const each = side * side;
  const luma = new Float64Array(each);
  const stride = Math.max(1, Math.floor(cells.length / ENOUGH));
  let count = 0;
  for (let index = 0; index < cells.length; index += stride, count++) {
    const cell = cells[index]!;
    const [red, green, blue] = LUMA.map((part, channel) => part * gains[cell * 3 + channel]! ** (1 / 2.2)) as [
      number,
      number,
      number,
    ];
    for (let sample = 0, at = inside[cell]! * each * 3; sample < each; sample++, at += 3)
      luma[sample]! += red * bytes[at]! + green * bytes[at + 1]! + blue * bytes[at + 2]!;
  }
  for (let sample = 0; sample < each; sample++) luma[sample]! /= count;
  const fine = side / Math.sqrt(size[0] * size[1]);
  return { side, luma, count, ground: groundOf(side, luma), ...sizeOf(side, luma, fine) };
}

/** Parts of the channels in lightness. Source: ITU-R BT.601. */
const LUMA = [0.299, 0.587, 0.114];

/** Part of its size by which a sign's mean differs from itself where it was blurred or inked otherwise. */
const BLURRED = 0.3;
/** Pixels by which a stroke's edge lies elsewhere where it was drawn to whole pixels, both ends of it rounded. */
const ROUNDED = 0.65;
/** How far apart two shapes must be before it is no use to lay them upon each other. */
const SURELY = 4;
/** Parts of a cell by which one is shifted against the other at first, and at most. */
const FIRST = 0.06;
const MOST = 0.12;
const ROUNDS = 3;
/** How many times as strong a stroke may be as the same stroke elsewhere: a line of one pixel is at times one of two. */
const STRONGER = 1.5;
/** Bytes by which the ground may be lit otherwise. */
const LIT = 10;

/**
 * How surely two shapes are two; they are from 1, whatever the light and wherever in the cell they lie. Of two painters' signs,
 * halves of one sign came to less than 0.9, two signs to 1.2 and more. `noise` is that of one cell, bytes; `least` what is never two.
 */
export function unlike(one: Shape, other: Shape, { noise, least }: { noise: number; least: number }): number {
  const [size, slope] = one.size > other.size ? [one.size, one.slope] : [other.size, other.slope];
  const alike = Math.max(least, BLURRED * size, ROUNDED * slope);
  const chance = noise * noise * (1 / one.count + 1 / other.count);
  const apart = ({ squares, offset }: Fit): number =>
    Math.sqrt(Math.max(0, squares - chance) + Math.max(0, Math.abs(offset) - LIT) ** 2) / alike;
  const window = windowOf(one.side);
  let best = fit(one, other, window, 0, 0);
  if (apart(best) < 1 || apart(best) > SURELY) return apart(best);
  for (const y of [-FIRST, 0, FIRST])
    for (const x of [-FIRST, 0, FIRST]) {
      const tried = fit(one, other, window, x * one.side, y * one.side);
      if (tried.squares < best.squares) best = tried;
    }
  for (let round = 0; round < ROUNDS; round++) {
    const most = MOST * one.side;
    const [x, y] = [best.nextX, best.nextY].map((step) => Math.max(-most, Math.min(most, step))) as [number, number];
    const tried = fit(one, other, window, x, y);
    if (tried.squares >= best.squares) break;
    best = tried;
  }
  return apart(best);
}

interface Fit {
  /** Weighted mean of what is left. */
  readonly squares: number;
  readonly offset: number;
  readonly nextX: number;
  readonly nextY: number;
}

/** Both shifted by half, towards each other, their grounds on each other, one as strong as the other; and the shift that would have left less. */
function fit(one: Shape, other: Shape, window: Float64Array, x: number, y: number): Fit {
  const { side } = one;
  const [first, second] =
    x === 0 && y === 0 ? [one.luma, other.luma] : [moved(one, x / 2, y / 2), moved(other, -x / 2, -y / 2)];
  let [firstSquares, common, secondSquares] = [0, 0, 0];
  for (let at = 0; at < first.length; at++) {
    const [a, b] = [first[at]! - one.ground, second[at]! - other.ground];
    firstSquares += window[at]! * a * a;
    secondSquares += window[at]! * b * b;
    common += window[at]! * a * b;
  }
  // As strong as leaves least, each moved by half of it.
  const strength =
    common <= 0
      ? 1
      : Math.max(1 / STRONGER, Math.min(STRONGER, Math.sqrt(firstSquares / Math.max(1e-9, secondSquares))));
  const [weaken, strengthen] = [1 / Math.sqrt(strength), Math.sqrt(strength)];
  let [weight, sum, squares] = [0, 0, 0];
  let [sx, sy, sxx, syy, sxy, sxr, syr] = [0, 0, 0, 0, 0, 0, 0];
  for (let row = 1; row < side - 1; row++)
    for (let column = 1; column < side - 1; column++) {
      const at = row * side + column;
      const part = window[at]!;
      if (part === 0) continue;
      const rest = weaken * (first[at]! - one.ground) - strengthen * (second[at]! - other.ground);
      const dx = (weaken * (first[at + 1]! - first[at - 1]!) + strengthen * (second[at + 1]! - second[at - 1]!)) / 4;
      const dy =
        (weaken * (first[at + side]! - first[at - side]!) + strengthen * (second[at + side]! - second[at - side]!)) / 4;
      weight += part;
      sum += part * rest;
      squares += part * rest * rest;
      sx += part * dx;
      sy += part * dy;
      sxx += part * dx * dx;
      syy += part * dy * dy;
      sxy += part * dx * dy;
      sxr += part * dx * rest;
      syr += part * dy * rest;
    }
  const mean = sum / weight;
  const [xx, yy, xy] = [sxx - (sx * sx) / weight, syy - (sy * sy) / weight, sxy - (sx * sy) / weight];
  const [xr, yr] = [sxr - sx * mean, syr - sy * mean];
  const whole = xx * yy - xy * xy;
  const sure = whole > 1e-6 * (xx + yy) ** 2 && whole > 0;
  return {
    squares: Math.max(0, squares / weight - mean * mean),
    offset: one.ground - other.ground + mean,
    nextX: x - (sure ? (xr * yy - yr * xy) / whole : 0),
    nextY: y - (sure ? (yr * xx - xr * xy) / whole : 0),
  };
}

/** What lies so many samples further right and down, between samples. */
function moved({ side, luma }: Shape, x: number, y: number): Float64Array {
  const out = new Float64Array(side * side);
  const [left, top] = [Math.floor(x), Math.floor(y)];
  const [u, v] = [x - left, y - top];
  const inside = (place: number): number => Math.max(0, Math.min(side - 1, place));
  for (let row = 0; row < side; row++) {
    const [upper, lower] = [inside(row + top) * side, inside(row + top + 1) * side];
    for (let column = 0; column < side; column++) {
      const [before, after] = [inside(column + left), inside(column + left + 1)];
      out[row * side + column] =
        (luma[upper + before]! * (1 - u) + luma[upper + after]! * u) * (1 - v) +
        (luma[lower + before]! * (1 - u) + luma[lower + after]! * u) * v;
    }
  }
  return out;
}

/** The median between signs and lines: half of the ring is never a sign's. */
function groundOf(side: number, luma: Float64Array): number {
  const ring = luma.filter((_, place) => {
    const [x, y] = [(place % side) + 0.5, Math.floor(place / side) + 0.5];
    const away = Math.min(x, y, side - x, side - y) / side;
    return away > RING_FROM && away < RING_TO;
  });
  return ring.sort()[ring.length >> 1] ?? luma[luma.length >> 1]!;
}

/** Parts of the cell from its sides between which signs hardly reach and lines no more. */
const RING_FROM = 0.1;
const RING_TO = 0.24;

function sizeOf(side: number, luma: Float64Array, fine: number): { size: number; slope: number } {
  const window = windowOf(side);
  let [weight, sum, squares, slopes] = [0, 0, 0, 0];
  for (let row = 1; row < side - 1; row++)
    for (let column = 1; column < side - 1; column++) {
      const place = row * side + column;
      const part = window[place]!;
      weight += part;
      sum += part * luma[place]!;
      squares += part * luma[place]! ** 2;
      slopes +=
        (part * ((luma[place + 1]! - luma[place - 1]!) ** 2 + (luma[place + side]! - luma[place - side]!) ** 2)) / 8;
    }
  const mean = sum / weight;
  return { size: Math.sqrt(Math.max(0, squares / weight - mean * mean)), slope: Math.sqrt(slopes / weight) * fine };
}

/** Part of the cell at each side where lines and their blur are, and from where on all counts. */
const DEAF = 0.16;
const CLEAR = 0.26;

const windows = new Map<number, Float64Array>();

function windowOf(side: number): Float64Array {
  const known = windows.get(side);
  if (known) return known;
  const line = Float64Array.from({ length: side }, (_, place) => {
    const away = Math.min(place + 0.5, side - place - 0.5) / side;
    const part = Math.min(1, Math.max(0, (away - DEAF) / (CLEAR - DEAF)));
    return part * part * (3 - 2 * part);
  });
  const window = Float64Array.from(
    { length: side * side },
    (_, place) => line[Math.floor(place / side)]! * line[place % side]!,
  );
  windows.set(side, window);
  return window;
}
