/** Finds the key beside charts: swatches of colour, or signs in boxes, outside the grids. */
import { labFromLinear, type Lab } from "../colour/lab.ts";
import { LINEAR_OF_BYTE } from "../colour/srgb.ts";
import type { Pixels } from "../raster/pixels.ts";
import type { Box } from "../raster/raster.ts";
import type { Legend, LegendEntry } from "./cellLooks.ts";
import { cornersOfGrid, gridOfLines, type ChartGrid } from "./chartGrid.ts";
import { groundsOf } from "./readCells/grounds.ts";
import { cellSize, takePatches } from "./readCells/patches.ts";
import { SYMBOL_SIDE } from "./readChart.ts";

/** Swatches of one size in a row or a column, none of them in a chart; no entries where there are none. */
export function findLegend(pixels: Pixels, grids: readonly ChartGrid[]): Legend {
  if (grids.length === 0) return { entries: [] };
  const cell = Math.min(...grids.flatMap((grid) => cellSize(grid)));
  // A swatch is about as large as a cell: six samples to its side are enough.
  const step = Math.max(1, Math.floor((SMALLEST * cell) / SAMPLES));
  const regions = plainRegions(pixels, step, grids, cell);
  const chosen = largestFamily(regions);
  const entries = chosen.map((box): LegendEntry => ({ box, ...swatchOf(pixels, box) }));
  return { entries: entries.filter(({ lab, sign }) => lab !== null || sign !== null) };
}

/** Sizes of a swatch in cells, and samples to the side of the smallest. */
const SMALLEST = 0.6;
const LARGEST = 4;
const SAMPLES = 6;
/** Bytes between neighbouring samples that are one area. */
const ALIKE = 14;
/** Part of its frame that a swatch fills; a sign in it takes some. */
const FILLED = 0.5;
/** Width to height. */
const SLIMMEST = 0.5;

/** Areas of one colour that fill an upright frame of about a cell's size and lie outside the charts. */
function plainRegions(pixels: Pixels, step: number, grids: readonly ChartGrid[], cell: number): Box[] {
  const { width, height, rgba } = pixels;
  const [wide, high] = [Math.floor(width / step), Math.floor(height / step)];
  const done = inCharts(grids, wide, high, step, cell);
  const same = (one: number, other: number): boolean => {
    for (let channel = 0; channel < 3; channel++)
      if (Math.abs(rgba[one + channel]! - rgba[other + channel]!) > ALIKE) return false;
    return true;
  };
  const at = (place: number): number => (Math.floor(place / wide) * step * width + (place % wide) * step) * 4;
  const found: Box[] = [];
  const most = ((LARGEST * cell) / step) ** 2;
  const least = ((SMALLEST * cell) / step) ** 2 * FILLED;
  const waiting = new Int32Array(wide * high);
  for (let start = 0; start < wide * high; start++) {
    if (done[start]) continue;
    let [head, tail] = [0, 0];
    waiting[tail++] = start;
    done[start] = 1;
    let [left, right, top, bottom] = [wide, 0, high, 0];
    while (head < tail) {
      const place = waiting[head++]!;
      const [x, y] = [place % wide, Math.floor(place / wide)];
      [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), Math.max(bottom, y)];
      for (const other of [x > 0 ? place - 1 : -1, x + 1 < wide ? place + 1 : -1, place - wide, place + wide]) {
        if (other < 0 || other >= wide * high || done[other] || !same(at(place), at(other))) continue;
        done[other] = 1;
        waiting[tail++] = other;
      }
    }
    if (tail < least || tail > most) continue;
    const [across, down] = [right - left + 1, bottom - top + 1];
    if (Math.min(across, down) < SLIMMEST * Math.max(across, down) || tail < FILLED * across * down) continue;
    if (Math.max(across, down) * step > LARGEST * cell || Math.min(across, down) * step < SMALLEST * cell) continue;
    found.push({ x: left * step, y: top * step, width: across * step, height: down * step });
  }
  return found;
}

/** Samples inside the charts' corners, or no further than a little outside, count as seen. */
function inCharts(grids: readonly ChartGrid[], wide: number, high: number, step: number, cell: number): Uint8Array {
  const inside = new Uint8Array(wide * high);
  const pad = 0.3 * cell;
  for (const grid of grids) {
    const corners = cornersOfGrid(grid);
    const sides = corners.map(([x0, y0], index) => {
      const [x1, y1] = corners[(index + 1) % corners.length]!;
      const length = Math.hypot(x1 - x0, y1 - y0) || 1;
      // On the inner side of it (the corners go round clockwise) u·x + v·y is at least w.
      const [u, v] = [-(y1 - y0) / length, (x1 - x0) / length];
      return { u, v, w: u * x0 + v * y0 - pad };
    });
    for (let y = 0; y < high; y++) {
      let [from, to] = [0, wide - 1];
      for (const { u, v, w } of sides) {
        const least = w - v * y * step;
        if (u > 1e-9) from = Math.max(from, Math.ceil(least / u / step));
        else if (u < -1e-9) to = Math.min(to, Math.floor(least / u / step));
        else if (least > 0) to = -1;
      }
      if (to >= from) inside.fill(1, y * wide + from, y * wide + to + 1);
    }
  }
  return inside;
}

/** Part by which the sizes of swatches of one key differ at most, and pixels beside it. */
const SAME_SIZE = 0.2;
const SAME_PIXELS = 3;
/** A key has two swatches at least. */
const FEWEST = 2;

/** The most areas of one size that stand in rows or columns. */
function largestFamily(regions: readonly Box[]): Box[] {
  let best: Box[] = [];
  for (const one of regions) {
    const near = (first: number, second: number): boolean =>
      Math.abs(first - second) <= SAME_SIZE * first + SAME_PIXELS;
    const alike = regions.filter((other) => near(one.width, other.width) && near(one.height, other.height));
    const lined = alike.filter((box) =>
      alike.some(
        (other) =>
          other !== box &&
          (Math.abs(other.x - box.x) < SAME_SIZE * box.width + SAME_PIXELS ||
            Math.abs(other.y - box.y) < SAME_SIZE * box.height + SAME_PIXELS),
      ),
    );
    if (lined.length >= FEWEST && lined.length > best.length) best = lined;
  }
  return best.toSorted((one, other) =>
    Math.abs(one.y - other.y) > one.height / 2 ? one.y - other.y : one.x - other.x,
  );
}

/** Part of a swatch whose colour differs, from which there is a sign in it. */
const SIGNED = 0.06;

function swatchOf(pixels: Pixels, { x, y, width, height }: Box): { lab: Lab | null; sign: string[] | null } {
  const patches = takePatches(pixels, gridOfLines([x, x + width], [y, y + height]), { blended: true });
  const grounds = groundsOf(patches);
  const [red, green, blue] = grounds.colours as unknown as [number, number, number];
  const linear = (byte: number): number => LINEAR_OF_BYTE[Math.round(byte)]!;
  const lab = labFromLinear([linear(red), linear(green), linear(blue)]);
  const { side, bytes } = patches;
  const depth = Array.from({ length: side * side }, (_, at) =>
    Math.max(Math.abs(bytes[at * 3]! - red), Math.abs(bytes[at * 3 + 1]! - green), Math.abs(bytes[at * 3 + 2]! - blue)),
  );
  const most = Math.max(...depth);
  if (grounds.even[0]! > 1 - SIGNED || most < 40) return { lab, sign: null };
  const sign = Array.from({ length: SYMBOL_SIDE }, (_, row) =>
    Array.from({ length: SYMBOL_SIDE }, (_, column) => {
      const place =
        Math.floor(((row + 0.5) * side) / SYMBOL_SIDE) * side + Math.floor(((column + 0.5) * side) / SYMBOL_SIDE);
      return String(Math.min(9, Math.floor((10 * depth[place]!) / most)));
    }).join(""),
  );
  return { lab, sign };
}
