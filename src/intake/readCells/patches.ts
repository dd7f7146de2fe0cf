/** Every cell of a chart as a small square picture of its own, whatever its shape and size were in the large one. */
import type { Pixels } from "../../raster/pixels.ts";
import type { ChartGrid } from "../chartGrid.ts";

export interface Patches {
  readonly columns: number;
  readonly rows: number;
  /** Samples to a side of a cell. */
  readonly side: number;
  /** Encoded red, green, blue; sample by sample from the cell's top left, cell by cell along the rows. */
  readonly bytes: Uint8Array;
  /** Pixels that a cell is wide and high: the median over the chart. */
  readonly size: readonly [number, number];
}

/** Samples to a side at least and at most: a sign is known by sixteen. */
const FEWEST = 4;
const MOST = 16;
/** Bytes that all patches may take together. */
const ROOM = 60e6;
/** Pixels each way that one sample is the mean of at most, where cells have more of them: as many as noise needs. */
const WIDEST_SAMPLE = 4;

/** `blended` lets samples lie between pixels; else each is one pixel, as it is. */
export function takePatches(pixels: Pixels, grid: ChartGrid, { blended }: { readonly blended: boolean }): Patches {
  const { columns, rows } = grid;
  const size = cellSize(grid);
  const byRoom = Math.floor(Math.sqrt(ROOM / (3 * columns * rows)));
  const side = Math.max(FEWEST, Math.min(MOST, byRoom, Math.round(Math.min(...size))));
  const bytes = new Uint8Array(columns * rows * side * side * 3);
  const step = Math.min(...size) / side;
  const wide = Math.max(1, Math.min(WIDEST_SAMPLE, Math.round(step)));
  let at = 0;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const corner = (down: number, across: number): number => ((row + down) * (columns + 1) + column + across) * 2;
      const [a, b, c, d] = [corner(0, 0), corner(0, 1), corner(1, 0), corner(1, 1)];
      const { corners } = grid;
      for (let down = 0; down < side; down++) {
        const v = (down + 0.5) / side;
        const [leftX, leftY] = [mix(corners[a]!, corners[c]!, v), mix(corners[a + 1]!, corners[c + 1]!, v)];
        const [rightX, rightY] = [mix(corners[b]!, corners[d]!, v), mix(corners[b + 1]!, corners[d + 1]!, v)];
        for (let across = 0; across < side; across++) {
          const u = (across + 0.5) / side;
          const [x, y] = [mix(leftX, rightX, u), mix(leftY, rightY, u)];
          if (!blended) meanAround(pixels, x, y, 1, bytes, at);
          else if (wide === 1) between(pixels, x, y, bytes, at);
          else meanAround(pixels, x, y, wide, bytes, at);
          at += 3;
        }
      }
    }
  return { columns, rows, side, bytes, size };
}

const mix = (from: number, to: number, part: number): number => from + (to - from) * part;

/** The median width and height of the cells, pixels. */
export function cellSize({ columns, rows, corners }: ChartGrid): [number, number] {
  const wide: number[] = [];
  const high: number[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const at = (row * (columns + 1) + column) * 2;
      const below = at + (columns + 1) * 2;
      wide.push(Math.hypot(corners[at + 2]! - corners[at]!, corners[at + 3]! - corners[at + 1]!));
      high.push(Math.hypot(corners[below]! - corners[at]!, corners[below + 1]! - corners[at + 1]!));
    }
  return [middle(wide), middle(high)];
}

const middle = (numbers: number[]): number => numbers.sort((one, other) => one - other)[numbers.length >> 1]!;

/** Between the four pixels around a point; the picture's edge goes on outside it. */
function between({ width, height, rgba }: Pixels, x: number, y: number, out: Uint8Array, at: number): void {
  const px = Math.min(width - 1, Math.max(0, x - 0.5));
  const py = Math.min(height - 1, Math.max(0, y - 0.5));
  const [left, top] = [Math.floor(px), Math.floor(py)];
  const [u, v] = [px - left, py - top];
  const from = (top * width + left) * 4;
  const across = left + 1 < width ? 4 : 0;
  const down = top + 1 < height ? width * 4 : 0;
  for (let channel = 0; channel < 3; channel++) {
    const upper = mix(rgba[from + channel]!, rgba[from + across + channel]!, u);
    const lower = mix(rgba[from + down + channel]!, rgba[from + down + across + channel]!, u);
    out[at + channel] = mix(upper, lower, v) + 0.5;
  }
}

/** The mean of a square of whole pixels about a point. */
function meanAround(
  { width, height, rgba }: Pixels,
  x: number,
  y: number,
  wide: number,
  out: Uint8Array,
  at: number,
): void {
  const left = Math.min(width - wide, Math.max(0, Math.round(x - wide / 2)));
  const top = Math.min(height - wide, Math.max(0, Math.round(y - wide / 2)));
  let [red, green, blue] = [0, 0, 0];
  for (let row = top; row < top + wide; row++)
    for (let from = (row * width + left) * 4, end = from + wide * 4; from < end; from += 4) {
      red += rgba[from]!;
      green += rgba[from + 1]!;
      blue += rgba[from + 2]!;
    }
  const count = wide * wide;
  out[at] = red / count + 0.5;
  out[at + 1] = green / count + 0.5;
  out[at + 2] = blue / count + 0.5;
}
