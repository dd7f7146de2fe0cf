/** Reads each cell of a lattice: the colour most of it has, and how much of it has it. */
import { stepBetween, type Edges } from "./edges.ts";
import type { Lattice } from "./grid.ts";

export interface Cells {
  readonly columns: number;
  readonly rows: number;
  /** Encoded red, green and blue, 0 to 255, three to the cell, top row first. */
  readonly colours: Float32Array;
  /** The part of the cell that has its colour, 0 to 1. */
  readonly even: Float32Array;
}

export function readCells({ bytes, width, height }: Edges, { x, y }: Lattice): Cells {
  const columns = x.at.length - 1;
  const rows = y.at.length - 1;
  const colours = new Float32Array(columns * rows * 3);
  const even = new Float32Array(columns * rows);
  const xs = Array.from({ length: columns }, (_, column) => samplesOf(x.begins[column]!, x.ends[column + 1]!, width));
  const ys = Array.from({ length: rows }, (_, row) => samplesOf(y.begins[row]!, y.ends[row + 1]!, height));
  const places = new Int32Array(MOST_SAMPLES ** 2);
  const light = new Float64Array(MOST_SAMPLES ** 2);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let count = 0;
      for (const sampleY of ys[row]!) {
        for (const sampleX of xs[column]!) {
          const at = (sampleY * width + sampleX) * 4;
          places[count] = at;
          // The order of lightness, with a little of each channel, finds a middle pixel; any weights near these do.
          light[count++] = 2 * bytes[at]! + 5 * bytes[at + 1]! + bytes[at + 2]!;
        }
      }
      const middle = places[isUniform(bytes, places, count) ? 0 : middleOf(light, count)]!;
      let alike = 0;
      const sum: [number, number, number] = [0, 0, 0];
      for (let sample = 0; sample < count; sample++) {
        const at = places[sample]!;
        if (stepBetween(bytes, at, middle) > ALIKE) continue;
        alike++;
        for (let channel = 0; channel < 3; channel++) sum[channel]! += bytes[at + channel]!;
      }
      const cell = row * columns + column;
      even[cell] = alike / count;
      for (let channel = 0; channel < 3; channel++) colours[cell * 3 + channel] = sum[channel]! / alike;
    }
  }
  return { columns, rows, colours, even };
}

/** The largest difference of the three channels between two cells, in bytes. */
export function apart(colours: Float32Array, one: number, other: number): number {
  return Math.max(
    Math.abs(colours[one * 3]! - colours[other * 3]!),
    Math.abs(colours[one * 3 + 1]! - colours[other * 3 + 1]!),
    Math.abs(colours[one * 3 + 2]! - colours[other * 3 + 2]!),
  );
}

/** Pixels spread over the inside of a cell, away from its sides where there is room. */
function samplesOf(begin: number, end: number, limit: number): number[] {
  const inset = (end - begin) * (end - begin > 3 ? INSET : 0);
  const from = Math.min(limit - 1, Math.max(0, Math.ceil(begin + inset - 0.25)));
  const to = Math.min(limit, Math.max(from + 1, Math.floor(end - inset + 0.25)));
  const count = Math.min(MOST_SAMPLES, to - from);
  return Array.from({ length: count }, (_, index) => from + Math.floor(((index + 0.5) * (to - from)) / count));
}

/** Whether every pixel looked at is alike to the first: most cells of a drawn chart are, and need no sorting. */
function isUniform(bytes: Uint8ClampedArray, places: Int32Array, count: number): boolean {
  for (let sample = 1; sample < count; sample++)
    if (stepBetween(bytes, places[0]!, places[sample]!) > ALIKE) return false;
  return true;
}

function middleOf(light: Float64Array, count: number): number {
  const order = Array.from({ length: count }, (_, index) => index).sort((one, other) => light[one]! - light[other]!);
  return order[count >> 1]!;
}

/** Bytes: compression leaves pixels of one colour this far apart at most. Our choice, on JPEG of quality 80. */
const ALIKE = 22;
/** Part of the cell left out on each side. */
const INSET = 0.16;
/** Along each axis of a cell; 49 samples in all settle its colour. */
const MOST_SAMPLES = 7;
