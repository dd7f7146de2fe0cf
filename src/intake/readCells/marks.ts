/** What stands in a cell besides its ground, as a few numbers that can be compared: where it is darker, lighter, of other hue. */
import type { Grounds } from "./grounds.ts";
import type { Patches } from "./patches.ts";

export interface Marks {
  /** Numbers to the cell. */
  readonly length: number;
  /** Cell by cell; their distance is about a root mean square in bytes over the window. */
  readonly values: Float32Array;
  /** Which of the numbers are of the cell's middle. */
  readonly core: readonly number[];
  /** The same with the ground added: how the cell looks, whichever of its colours is taken for the ground. */
  readonly looks: Float32Array;
  /** Lightness and two hues between signs and lines, whatever was taken for the ground: bytes, three to the cell. */
  readonly tones: Float32Array;
}

/** Squares to a side in which lightness, and the two hues together, are compared: fine enough for a ring beside a square. */
const FINE = 8;
const COARSE = 3;
/** Part of the cell at each side that has no say, and from where on all is heard: lines and neighbours end before. */
const DEAF = 0.16;
const CLEAR = 0.28;
/** Samples to a side below which nothing in a cell can be told from its blur. */
const FEWEST_SAMPLES = 7;

/** Null where cells are too small. `gains` is by what each cell's linear light is multiplied, channel by channel. */
export function marksOf(
  patches: Patches,
  grounds: Grounds,
  cells: readonly number[],
  gains: Float32Array,
): Marks | null {
  const { side, bytes } = patches;
  if (side < FEWEST_SAMPLES) return null;
  const length = FINE * FINE + 2 * COARSE * COARSE;
  const values = new Float32Array(cells.length * length);
  const looks = new Float32Array(cells.length * length);
  const window = windowOf(side);
  const [fine, coarse] = [poolOf(side, FINE, window), poolOf(side, COARSE, window)];
  const each = side * side;
  const luma = new Float32Array(each);
  // What one byte more all over a cell would add to each number.
  const shares = new Float32Array(length);
  const ones = new Float32Array(each).fill(1);
  pool(ones, fine, shares, 0);
  pool(ones, coarse, shares, FINE * FINE);
  pool(ones, coarse, shares, FINE * FINE + COARSE * COARSE);
  const red = new Float32Array(each);
  const blue = new Float32Array(each);
  const ring = ringOf(side);
  const tones = new Float32Array(cells.length * 3);
  for (const [index, cell] of cells.entries()) {
    // Light times a factor is, encoded, nearly its byte times the factor to the power of 1 / 2.2.
    const [raiseRed, raiseGreen, raiseBlue] = [0, 1, 2].map((channel) => gains[index * 3 + channel]! ** (1 / 2.2)) as [
      number,
      number,
      number,
    ];
    const [r, g, b] = [grounds.colours[cell * 3]!, grounds.colours[cell * 3 + 1]!, grounds.colours[cell * 3 + 2]!];
    for (let sample = 0, at = cell * each * 3; sample < each; sample++, at += 3) {
      const [dr, dg, db] = [
        (bytes[at]! - r) * raiseRed,
        (bytes[at + 1]! - g) * raiseGreen,
        (bytes[at + 2]! - b) * raiseBlue,
      ];
      luma[sample] = 0.299 * dr + 0.587 * dg + 0.114 * db;
      red[sample] = dr - luma[sample]!;
      blue[sample] = db - luma[sample]!;
    }
    pool(luma, fine, values, index * length);
    pool(red, coarse, values, index * length + FINE * FINE);
    pool(blue, coarse, values, index * length + FINE * FINE + COARSE * COARSE);
    const plain = 0.299 * r * raiseRed + 0.587 * g * raiseGreen + 0.114 * b * raiseBlue;
    const ground: readonly number[] = [plain, r * raiseRed - plain, b * raiseBlue - plain];
    for (let at = 0; at < length; at++) {
      const part = partOf(at);
      looks[index * length + at] = values[index * length + at]! + ground[part]! * shares[at]!;
    }
    for (const sample of ring) {
      tones[index * 3]! += (luma[sample]! + ground[0]!) / ring.length;
      tones[index * 3 + 1]! += (red[sample]! + ground[1]!) / ring.length;
      tones[index * 3 + 2]! += (blue[sample]! + ground[2]!) / ring.length;
    }
  }
  const core = Array.from({ length: FINE * FINE }, (_, at) => at).filter((at) =>
    [at % FINE, Math.floor(at / FINE)].every((place) => place >= FINE / 4 && place < (3 * FINE) / 4),
  );
  return { length, values, looks, tones, core };
}

/** Lightness, or one of the two hues. */
const partOf = (at: number): number => (at < FINE * FINE ? 0 : at < FINE * FINE + COARSE * COARSE ? 1 : 2);

/** Parts of the cell from its sides between which signs hardly reach and lines no more. */
const RING_FROM = 0.1;
const RING_TO = 0.24;

function ringOf(side: number): number[] {
  return Array.from({ length: side * side }, (_, sample) => sample).filter((sample) => {
    const [x, y] = [(sample % side) + 0.5, Math.floor(sample / side) + 0.5];
    const away = Math.min(x, y, side - x, side - y) / side;
    return away > RING_FROM && away < RING_TO;
  });
}

function windowOf(side: number): Float64Array {
  const line = Float64Array.from({ length: side }, (_, at) => {
    const away = Math.min(at + 0.5, side - at - 0.5) / side;
    const part = Math.min(1, Math.max(0, (away - DEAF) / (CLEAR - DEAF)));
    return part * part * (3 - 2 * part);
  });
  return Float64Array.from({ length: side * side }, (_, at) => line[Math.floor(at / side)]! * line[at % side]!);
}

interface Pool {
  /** For each sample the squares it falls into and how much of it, four at most. */
  readonly squares: Int32Array;
  readonly parts: Float64Array;
}

/** Each square is the mean of the samples around its middle, the nearer the more, so that half a sample's shift tells little. */
function poolOf(side: number, squares: number, window: Float64Array): Pool {
  const pool: Pool = { squares: new Int32Array(side * side * 4).fill(-1), parts: new Float64Array(side * side * 4) };
  const total = new Float64Array(squares * squares);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const [u, v] = [((x + 0.5) / side) * squares - 0.5, ((y + 0.5) / side) * squares - 0.5];
      const [left, top] = [Math.floor(u), Math.floor(v)];
      for (let corner = 0; corner < 4; corner++) {
        const [sx, sy] = [left + (corner & 1), top + (corner >> 1)];
        if (sx < 0 || sy < 0 || sx >= squares || sy >= squares) continue;
        const part = (1 - Math.abs(u - sx)) * (1 - Math.abs(v - sy));
        const at = (y * side + x) * 4 + corner;
        pool.squares[at] = sy * squares + sx;
        pool.parts[at] = part * window[y * side + x]!;
        total[sy * squares + sx]! += part;
      }
    }
  for (let at = 0; at < pool.parts.length; at++)
    if (pool.squares[at]! >= 0) pool.parts[at]! /= total[pool.squares[at]!]! * squares;
  return pool;
}

function pool(samples: Float32Array, { squares, parts }: Pool, out: Float32Array, from: number): void {
  for (let sample = 0, at = 0; sample < samples.length; sample++)
    for (let corner = 0; corner < 4; corner++, at++) {
      const square = squares[at]!;
      if (square >= 0) out[from + square]! += samples[sample]! * parts[at]!;
    }
}
