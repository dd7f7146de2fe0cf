/** The part of a picture that a sheet covers, laid straight: every stitch a square of the same few samples. */
import type { Level } from "./levels.ts";
import type { Sheet } from "./sheet.ts";

export interface Straight {
  /** The first column and row of the sheet that it shows. */
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
  /** Samples to a stitch, each way. */
  readonly side: number;
  /** Pixels of the level it was taken from to a stitch, across and down. */
  readonly pitch: readonly [number, number];
  /** Encoded red, green and blue, three to the sample. */
  readonly rgb: Uint8ClampedArray;
  /** How much of a cell lies in the picture: `SEEN`, `HARDLY_SEEN`, or 0 for a part. */
  readonly seen: Uint8Array;
}

export function straighten(
  levels: readonly Level[],
  sheet: Sheet,
  box: { readonly left: number; readonly top: number; readonly columns: number; readonly rows: number },
  leastSide = LEAST_SIDE,
): Straight {
  const { left, top, columns, rows } = box;
  const crossings = new Float64Array((columns + 1) * (rows + 1) * 2);
  for (let row = 0, to = 0; row <= rows; row++)
    for (let column = 0; column <= columns; column++, to += 2) {
      const [x, y] = sheet.at(left + column, top + row);
      crossings[to] = x;
      crossings[to + 1] = y;
    }
  const middle = ((rows >> 1) * (columns + 1) + (columns >> 1)) * 2;
  const beside = middle + (columns > columns >> 1 ? 2 : -2);
  const under = middle + (columns + 1) * 2;
  const steps = [beside, under].map((at) =>
    Math.hypot(crossings[at]! - crossings[middle]!, crossings[at + 1]! - crossings[middle + 1]!),
  );
  const pitch = Math.max(...steps);
  const level = levels.findLast(({ scale }) => pitch / scale >= leastSide) ?? levels[0]!;
  // About a pixel to the sample, so that no thin line falls between two.
  const most = Math.floor(Math.sqrt(MOST_SAMPLES / (columns * rows)));
  const side = Math.max(
    5,
    Math.min(most, Math.max(SMALL_SIDE, leastSide === LEAST_SIDE ? 0 : leastSide, Math.round(pitch / level.scale))),
  );
  const { width, height, scale, rgba } = level;
  const rgb = new Uint8ClampedArray(columns * side * rows * side * 3);
  const seen = new Uint8Array(columns * rows);
  const stride = columns * side * 3;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const at = (row * (columns + 1) + column) * 2;
      const under = at + (columns + 1) * 2;
      const [x00, y00, x10, y10] = [crossings[at]!, crossings[at + 1]!, crossings[at + 2]!, crossings[at + 3]!];
      const [x01, y01] = [crossings[under]!, crossings[under + 1]!];
      const [x11, y11] = [crossings[under + 2]!, crossings[under + 3]!];
      const part =
        insidePart(Math.min(x00, x01), Math.max(x10, x11), width * scale) *
        insidePart(Math.min(y00, y10), Math.max(y01, y11), height * scale);
      seen[row * columns + column] = part > 0.8 ? SEEN : part < 0.2 ? HARDLY_SEEN : 0;
      for (let sampleY = 0; sampleY < side; sampleY++) {
        const v = (sampleY + 0.5) / side;
        let to = (row * side + sampleY) * stride + column * side * 3;
        const [lx, ly] = [x00 + (x01 - x00) * v, y00 + (y01 - y00) * v];
        const [rx, ry] = [x10 + (x11 - x10) * v, y10 + (y11 - y10) * v];
        for (let sampleX = 0; sampleX < side; sampleX++, to += 3) {
          const u = (sampleX + 0.5) / side;
          const x = Math.max(0, Math.min(width - 1.001, (lx + (rx - lx) * u) / scale - 0.5));
          const y = Math.max(0, Math.min(height - 1.001, (ly + (ry - ly) * u) / scale - 0.5));
          const [x0, y0] = [x | 0, y | 0];
          const [fx, fy] = [x - x0, y - y0];
          const from = (y0 * width + x0) * 4;
          const right = x0 + 1 < width ? 4 : 0;
          const below = y0 + 1 < height ? width * 4 : 0;
          for (let channel = 0; channel < 3; channel++) {
            const place = from + channel;
            const upper = rgba[place]! + (rgba[place + right]! - rgba[place]!) * fx;
            const lower = rgba[place + below]! + (rgba[place + below + right]! - rgba[place + below]!) * fx;
            rgb[to + channel] = upper + (lower - upper) * fy;
          }
        }
      }
    }
  return { left, top, columns, rows, side, pitch: [steps[0]! / scale, steps[1]! / scale], rgb, seen };
}

export const SEEN = 1;
export const HARDLY_SEEN = 2;

/** The part of a stretch that lies between 0 and the limit. */
function insidePart(from: number, to: number, limit: number): number {
  return Math.max(0, Math.min(limit, to) - Math.max(0, from)) / Math.max(1e-6, to - from);
}

/** Samples to a stitch. */
const LEAST_SIDE = 9;
const SMALL_SIDE = 8;
const MOST_SAMPLES = 6_000_000;
