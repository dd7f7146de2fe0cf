/** A grid that lies a little off, moved onto the lines and the changes of colour between the cells: signs are compared by place. */
import type { Pixels } from "../../raster/pixels.ts";
import type { ChartGrid } from "../chartGrid.ts";

/** Part of a cell on both sides of a line that is looked at, and steps in which. */
const REACH = 0.36;
const STEPS = 18;
/** Places along a cell's side that are looked at, and the rank of the one that counts: what most of the side has is no sign. */
const PLACES = 8;
const RANK = 2;
/** Cells that are taken together along a line. */
const BLOCK = 8;
/** Sides of cells that are enough to be looked at, each way. */
const ENOUGH = 5000;
/** Bytes, all channels together, of change that counts for nothing: grain. */
const GRAIN = 6;
/** And so much that more is no surer: one dark sign that touches a line must not outweigh many faint lines. */
const LOUD = 40;
/** Lines beside that speak for one, and blocks. */
const LINES_BESIDE = 4;
const BLOCKS_BESIDE = 1;
/** Change, summed as above, that a single line must show to be heard by itself. */
const OWN_VOICE = 300;

/** Counts stay. Nothing moves by more than a quarter of a cell; where nothing is drawn, nothing moves. */
export function settledGrid(pixels: Pixels, grid: ChartGrid): ChartGrid {
  const across = smoothed(offsetsOf(pixels, grid, false));
  const down = smoothed(offsetsOf(pixels, grid, true));
  const { columns, rows, corners } = grid;
  const moved = new Float32Array(corners.length);
  const at = (row: number, column: number): number => (row * (columns + 1) + column) * 2;
  for (let row = 0; row <= rows; row++)
    for (let column = 0; column <= columns; column++) {
      const [left, right] = [at(row, Math.max(0, column - 1)), at(row, Math.min(columns, column + 1))];
      const [over, under] = [at(Math.max(0, row - 1), column), at(Math.min(rows, row + 1), column)];
      const wide = Math.min(columns, column + 1) - Math.max(0, column - 1);
      const high = Math.min(rows, row + 1) - Math.max(0, row - 1);
      const u = between(across, column, row);
      const v = between(down, row, column);
      for (let axis = 0; axis < 2; axis++)
        moved[at(row, column) + axis] =
          corners[at(row, column) + axis]! +
          (u * (corners[right + axis]! - corners[left + axis]!)) / wide +
          (v * (corners[under + axis]! - corners[over + axis]!)) / high;
    }
  return { columns, rows, corners: moved };
}

/** How far lines lie from where the grid has them, in cells: line by line, block by block along it. */
interface Offsets {
  readonly lines: number;
  readonly blocks: number;
  /** Cells along a line. */
  readonly cells: number;
  readonly off: Float64Array;
  /** How much of it there is to see. */
  readonly seen: Float64Array;
}

function offsetsOf(pixels: Pixels, grid: ChartGrid, down: boolean): Offsets {
  const { columns, rows, corners } = grid;
  const [lines, cells] = down ? [rows + 1, columns] : [columns + 1, rows];
  const blocks = Math.max(1, Math.round(cells / BLOCK));
  const off = new Float64Array(lines * blocks);
  const seen = new Float64Array(lines * blocks);
  const stride = Math.max(1, Math.floor((lines * cells) / ENOUGH));
  const profile = new Float64Array(STEPS);
  const colours = new Float64Array(PLACES * (STEPS + 1) * 3);
  const ranked = new Float64Array(PLACES);
  const corner = (line: number, cell: number): number =>
    (down ? line * (columns + 1) + cell : cell * (columns + 1) + line) * 2;
  for (let line = 0; line < lines; line++)
    for (let block = 0; block < blocks; block++) {
      profile.fill(0);
      const [from, to] = [Math.round((block * cells) / blocks), Math.round(((block + 1) * cells) / blocks)];
      for (let cell = from + ((line * 7) % Math.min(stride, to - from)); cell < to; cell += stride) {
        const [one, two] = [corner(line, cell), corner(line, cell + 1)];
        const [before, after] = [corner(Math.max(0, line - 1), cell), corner(Math.min(lines - 1, line + 1), cell)];
        const steps = Math.min(lines - 1, line + 1) - Math.max(0, line - 1);
        const [wayX, wayY] = [
          (corners[after]! - corners[before]!) / steps,
          (corners[after + 1]! - corners[before + 1]!) / steps,
        ];
        for (let place = 0; place < PLACES; place++) {
          const part = (place + 0.5) / PLACES;
          const x = corners[one]! + part * (corners[two]! - corners[one]!);
          const y = corners[one + 1]! + part * (corners[two + 1]! - corners[one + 1]!);
          for (let step = 0; step <= STEPS; step++) {
            const away = REACH * ((2 * step) / STEPS - 1);
            take(pixels, x + away * wayX, y + away * wayY, colours, (place * (STEPS + 1) + step) * 3);
          }
        }
        for (let step = 0; step < STEPS; step++) {
          for (let place = 0; place < PLACES; place++) {
            const sample = (place * (STEPS + 1) + step) * 3;
            ranked[place] =
              Math.abs(colours[sample + 3]! - colours[sample]!) +
              Math.abs(colours[sample + 4]! - colours[sample + 1]!) +
              Math.abs(colours[sample + 5]! - colours[sample + 2]!);
          }
          profile[step]! += Math.min(LOUD, Math.max(0, ranked.sort()[RANK]! - GRAIN));
        }
      }
      const { place, weight } = middleOf(profile);
      off[line * blocks + block] = place;
      seen[line * blocks + block] = weight;
    }
  return { lines, blocks, cells, off, seen };
}

/** Between the four pixels around a point. */
function take({ width, height, rgba }: Pixels, x: number, y: number, out: Float64Array, to: number): void {
  const px = Math.min(width - 1.001, Math.max(0, x - 0.5));
  const py = Math.min(height - 1.001, Math.max(0, y - 0.5));
  const [left, top] = [Math.floor(px), Math.floor(py)];
  const [u, v] = [px - left, py - top];
  const from = (top * width + left) * 4;
  const below = top + 1 < height ? width * 4 : 0;
  const beside = left + 1 < width ? 4 : 0;
  for (let channel = 0; channel < 3; channel++) {
    const at = from + channel;
    out[to + channel] =
      (rgba[at]! * (1 - u) + rgba[at + beside]! * u) * (1 - v) +
      (rgba[at + below]! * (1 - u) + rgba[at + below + beside]! * u) * v;
  }
}

/** Around which place the change lies, in cells from the grid's line: a line's two sides, or one step of colour. */
function middleOf(profile: Float64Array): { place: number; weight: number } {
  let middle = (STEPS - 1) / 2;
  let weight = 0;
  const floor = Float64Array.from(profile).sort()[STEPS >> 2]!;
  for (let round = 0; round < ROUNDS; round++) {
    const half = STEPS * (round === 0 ? 0.5 : NARROW);
    let moment = 0;
    weight = 0;
    for (let step = 0; step < STEPS; step++) {
      const window = 1 - ((step - middle) / half) ** 2;
      if (window <= 0) continue;
      const value = window * (profile[step]! - floor);
      if (value <= 0) continue;
      weight += value;
      moment += value * (step - middle);
    }
    if (weight <= 0) return { place: 0, weight: 0 };
    middle += moment / weight;
  }
  return { place: ((middle - (STEPS - 1) / 2) * 2 * REACH) / STEPS, weight };
}

const ROUNDS = 5;
/** Half the window around the middle, as a part of what is looked at. */
const NARROW = 0.36;

/** What neighbours say together, then what a line says by itself all along. */
function smoothed({ lines, blocks, cells, off, seen }: Offsets): Offsets {
  const smooth = new Float64Array(off.length);
  for (let line = 0; line < lines; line++)
    for (let block = 0; block < blocks; block++) {
      const near: [number, number][] = [];
      for (let beside = -LINES_BESIDE; beside <= LINES_BESIDE; beside++)
        for (let along = -BLOCKS_BESIDE; along <= BLOCKS_BESIDE; along++) {
          const [one, two] = [line + beside, block + along];
          if (one < 0 || two < 0 || one >= lines || two >= blocks) continue;
          const at = one * blocks + two;
          // One line alone, very thick or beside many signs, must not decide.
          near.push([off[at]!, Math.min(seen[at]!, OWN_VOICE) / (1 + beside * beside * 0.1 + along * along)]);
        }
      const usual = weightedMedian(near);
      const scatter = weightedMedian(near.map(([each, weight]) => [Math.abs(each - usual), weight]));
      smooth[line * blocks + block] = usual / (1 + (scatter / UNSURE) ** 2);
    }
  const settled = new Float64Array(off.length);
  for (let line = 0; line < lines; line++) {
    const own: [number, number][] = [];
    for (let block = 0; block < blocks; block++) {
      const at = line * blocks + block;
      own.push([off[at]! - smooth[at]!, seen[at]!]);
    }
    const weight = own.reduce((sum, [, each]) => sum + each, 0);
    const rim = line === 0 || line === lines - 1;
    const said = rim ? 0 : (weightedMedian(own) * weight) / (weight + OWN_VOICE);
    const shift = Math.max(-OWN_MOST, Math.min(OWN_MOST, said));
    for (let block = 0; block < blocks; block++)
      settled[line * blocks + block] = Math.max(-MOST, Math.min(MOST, smooth[line * blocks + block]! + shift));
  }
  return { lines, blocks, cells, off: settled, seen };
}

/** Part of a cell: neighbours that disagree by so much are half believed. */
const UNSURE = 0.05;
/** Part of a cell by which a line stands from its neighbours at most: half a pixel, in the smallest cells that have signs. */
const OWN_MOST = 0.06;
/** Part of a cell by which lines move at most. */
const MOST = 0.25;

function weightedMedian(list: [number, number][]): number {
  const sorted = list.filter(([, weight]) => weight > 0).sort((one, other) => one[0] - other[0]);
  const half = sorted.reduce((sum, [, weight]) => sum + weight, 0) / 2;
  let sum = 0;
  for (const [index, [value, weight]] of sorted.entries()) {
    sum += weight;
    if (sum > half) return value;
    if (sum === half) return (value + (sorted[index + 1]?.[0] ?? value)) / 2;
  }
  return 0;
}

/** The offset of a line at one of its crossings, between the middles of its blocks. */
function between({ blocks, cells, off }: Offsets, line: number, crossing: number): number {
  const place = Math.min(blocks - 1, Math.max(0, (crossing / cells) * blocks - 0.5));
  const [first, part] = [Math.floor(place), place % 1];
  const next = Math.min(blocks - 1, first + 1);
  return off[line * blocks + first]! * (1 - part) + off[line * blocks + next]! * part;
}
