/** Charts whose lines are darker than their cells, as charts of signs are: every cell is a light patch with dark all around it. */
import type { Level } from "./levels.ts";
import { sheetThrough, type Sheet, type Tie } from "./sheet.ts";

export interface RuledGrid {
  /** In cells from the chart's top left crossing, to pixels of the picture. */
  readonly sheet: Sheet;
  readonly columns: number;
  readonly rows: number;
  /** The part of its cells that was seen as a patch of its own. */
  readonly share: number;
  /** Middles of cells that the sheet goes through. */
  readonly ties: readonly Tie[];
}

/** The charts of a level, those of most cells first. Patches of like size that stand side by side are counted like stitches. */
export function ruledGrids(level: Level): RuledGrid[] {
  const patches = patchesOf(level);
  const grids: RuledGrid[] = [];
  for (const [low, high] of commonSizes(patches)) {
    const alike = patches.filter(({ width, height }) => width * height >= low && width * height <= high);
    const lattices = latticesOf(alike).sort((one, other) => other.length - one.length);
    const taken = new Set<Patch>();
    for (const lattice of lattices) {
      if (lattice.some(({ patch }) => taken.has(patch))) continue;
      const whole = spread(lattice, alike);
      for (const { patch } of whole) taken.add(patch);
      const grid = gridOn(whole, level.scale);
      if (grid) grids.push(grid);
    }
  }
  return grids.sort((one, other) => other.columns * other.rows * other.share - one.columns * one.rows * one.share);
}

interface Patch {
  /** The middle of its box. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Light patches that nothing light joins to one another, by two passes with a table of what was joined. */
function patchesOf({ width, height, rgba }: Level): Patch[] {
  const light = lightParts(rgba, width, height);
  const labels = new Int32Array(width * height);
  const parents: number[] = [0];
  const rootOf = (label: number): number => {
    let root = label;
    while (parents[root] !== root) root = parents[root]!;
    while (parents[label] !== root) [label, parents[label]] = [parents[label]!, root];
    return root;
  };
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) {
      if (!light[at]) continue;
      const left = x > 0 ? labels[at - 1]! : 0;
      const up = y > 0 ? labels[at - width]! : 0;
      if (left && up) {
        const [one, other] = [rootOf(left), rootOf(up)];
        labels[at] = Math.min(one, other);
        parents[Math.max(one, other)] = Math.min(one, other);
      } else if (left || up) labels[at] = left || up;
      else {
        labels[at] = parents.length;
        parents.push(parents.length);
      }
    }
  const boxes = new Map<number, { left: number; right: number; top: number; bottom: number; count: number }>();
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) {
      if (!labels[at]) continue;
      const root = rootOf(labels[at]!);
      const box = boxes.get(root);
      if (!box) boxes.set(root, { left: x, right: x, top: y, bottom: y, count: 1 });
      else {
        box.count++;
        if (x < box.left) box.left = x;
        if (x > box.right) box.right = x;
        box.bottom = y;
      }
    }
  const patches: Patch[] = [];
  for (const { left, right, top, bottom, count } of boxes.values()) {
    const [across, down] = [right - left + 1, bottom - top + 1];
    if (across < LEAST_SIDE || down < LEAST_SIDE || across > MOST_SIDE || down > MOST_SIDE) continue;
    if (across > MOST_STRETCH * down || down > MOST_STRETCH * across || count < LEAST_FILLED * across * down) continue;
    patches.push({ x: (left + right + 1) / 2, y: (top + bottom + 1) / 2, width: across, height: down });
  }
  return patches;
}

/** 1 where a pixel is no darker than what is around it by more than a line would be. */
function lightParts(rgba: Uint8ClampedArray, width: number, height: number): Uint8Array {
  const grey = new Uint8Array(width * height);
  for (let at = 0, from = 0; at < grey.length; at++, from += 4)
    grey[at] = (77 * rgba[from]! + 151 * rgba[from + 1]! + 28 * rgba[from + 2]!) >> 8;
  const sums = new Float64Array((width + 1) * (height + 1));
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++) {
      row += grey[y * width + x]!;
      sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1]! + row;
    }
  }
  const light = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const [top, bottom] = [Math.max(0, y - WINDOW), Math.min(height, y + WINDOW + 1)];
    for (let x = 0; x < width; x++) {
      const [left, right] = [Math.max(0, x - WINDOW), Math.min(width, x + WINDOW + 1)];
      const sum =
        sums[bottom * (width + 1) + right]! -
        sums[top * (width + 1) + right]! -
        sums[bottom * (width + 1) + left]! +
        sums[top * (width + 1) + left]!;
      const mean = sum / ((bottom - top) * (right - left));
      light[y * width + x] = grey[y * width + x]! >= mean * LIGHT ? 1 : 0;
    }
  }
  return light;
}

/** Ranges of areas within which most patches lie, the fullest first. */
function commonSizes(patches: readonly Patch[]): [number, number][] {
  const bins = new Map<number, number>();
  for (const { width, height } of patches) {
    const bin = Math.round(Math.log(width * height) / BIN);
    for (let near = bin - 1; near <= bin + 1; near++) bins.set(near, (bins.get(near) ?? 0) + 1);
  }
  const order = [...bins].sort((one, other) => other[1] - one[1]);
  const chosen: number[] = [];
  for (const [bin, count] of order) {
    if (count < LEAST_CELLS || chosen.length >= MOST_SIZES) break;
    if (chosen.every((other) => Math.abs(other - bin) > 3)) chosen.push(bin);
  }
  return chosen.map((bin) => [Math.exp((bin - REACH) * BIN), Math.exp((bin + REACH) * BIN)]);
}

interface Placed {
  readonly patch: Patch;
  readonly column: number;
  readonly row: number;
}

/** More of the chart beyond rows where no patch was seen: what lies where the sheet has its cells belongs to it. */
function spread(lattice: readonly Placed[], patches: readonly Patch[]): Placed[] {
  const placed = new Map(lattice.map((one) => [one.row * PLACES + one.column, one]));
  const known = new Set(lattice.map(({ patch }) => patch));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const all = [...placed.values()];
    const sheet = sheetThrough(tiesOf(all, 1));
    const back = placesBack(sheet, all);
    const [left, right] = [Math.min(...all.map(({ column }) => column)), Math.max(...all.map(({ column }) => column))];
    const [top, bottom] = [Math.min(...all.map(({ row }) => row)), Math.max(...all.map(({ row }) => row))];
    let added = 0;
    for (const patch of patches) {
      if (known.has(patch)) continue;
      const place = back(patch.x, patch.y);
      if (!place) continue;
      const [column, row] = [Math.round(place[0]), Math.round(place[1])];
      if (Math.abs(place[0] - column) > ASTRAY || Math.abs(place[1] - row) > ASTRAY) continue;
      if (column < left - FURTHER || column > right + FURTHER || row < top - FURTHER || row > bottom + FURTHER)
        continue;
      if (placed.has(row * PLACES + column)) continue;
      placed.set(row * PLACES + column, { patch, column, row });
      known.add(patch);
      added++;
    }
    if (added === 0) break;
  }
  return [...placed.values()];
}

/** From pixels to a cell's middle in whole columns and rows, by steps towards it. */
function placesBack(sheet: Sheet, all: readonly Placed[]): (x: number, y: number) => [number, number] | null {
  const middle = all[all.length >> 1]!;
  return (x, y) => {
    let [column, row] = [middle.column as number, middle.row as number];
    for (let step = 0; step < 8; step++) {
      const [px, py] = sheet.at(column, row);
      const [ax, ay] = sheet.at(column + 0.5, row);
      const [dx, dy] = sheet.at(column, row + 0.5);
      const [a, b, c, d] = [(ax - px) * 2, (dx - px) * 2, (ay - py) * 2, (dy - py) * 2];
      const determinant = a * d - b * c;
      if (!(Math.abs(determinant) > 1e-6)) return null;
      const [ex, ey] = [x - px, y - py];
      column += (d * ex - b * ey) / determinant;
      row += (a * ey - c * ex) / determinant;
      if (Math.abs(ex) + Math.abs(ey) < 0.05) break;
    }
    return Number.isFinite(column) && Number.isFinite(row) ? [column, row] : null;
  };
}

function tiesOf(placed: readonly Placed[], scale: number): Tie[] {
  const every = Math.ceil(placed.length / MOST_TIES);
  return placed
    .filter((_, index) => index % every === 0)
    .map(({ patch, column, row }) => ({ column, row, x: patch.x * scale, y: patch.y * scale, weight: 1 }));
}

/** Patches told their columns and rows from neighbour to neighbour, group by group. */
function latticesOf(patches: readonly Patch[]): Placed[][] {
  if (patches.length < LEAST_CELLS) return [];
  const usual = (pick: (patch: Patch) => number): number => {
    const values = patches.map(pick).sort((one, other) => one - other);
    return values[values.length >> 1]!;
  };
  const cell =
    Math.max(
      usual(({ width }) => width),
      usual(({ height }) => height),
    ) + 2;
  const grid = new Map<number, number[]>();
  const keyOf = (x: number, y: number): number => Math.floor(y / cell) * 100_000 + Math.floor(x / cell);
  for (const [index, { x, y }] of patches.entries()) {
    const key = keyOf(x, y);
    const list = grid.get(key);
    if (list) list.push(index);
    else grid.set(key, [index]);
  }
  const nearest = (x: number, y: number, within: number): number => {
    let [best, distance] = [-1, within];
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++)
        for (const index of grid.get(keyOf(x + dx * cell, y + dy * cell)) ?? []) {
          const away = Math.hypot(patches[index]!.x - x, patches[index]!.y - y);
          if (away < distance) [best, distance] = [index, away];
        }
    return best;
  };
  const placed = new Array<Placed | null>(patches.length).fill(null);
  const lattices: Placed[][] = [];
  for (let start = 0; start < patches.length; start++) {
    if (placed[start]) continue;
    const group: Placed[] = [(placed[start] = { patch: patches[start]!, column: 0, row: 0 })];
    // Steps are a patch and the line beside it, and are learnt from neighbours as the page leans.
    const steps = new Map<Placed, readonly [number, number, number, number]>();
    const { width, height } = patches[start]!;
    steps.set(group[0]!, [width + 2, 0, 0, height + 2]);
    for (const here of group) {
      const [ax, ay, dx, dy] = steps.get(here)!;
      for (const [u, v] of NEIGHBOURS) {
        const [x, y] = [here.patch.x + u * ax + v * dx, here.patch.y + u * ay + v * dy];
        const found = nearest(x, y, NEAR * Math.min(Math.hypot(ax, ay), Math.hypot(dx, dy)) * Math.hypot(u, v));
        if (found < 0 || placed[found]) continue;
        const there = (placed[found] = { patch: patches[found]!, column: here.column + u, row: here.row + v });
        group.push(there);
        const [sx, sy] = [there.patch.x - here.patch.x, there.patch.y - here.patch.y];
        const mix = (old: number, now: number): number => old + LEARNT * (now - old);
        steps.set(
          there,
          v === 0 && Math.abs(u) === 1
            ? [mix(ax, sx / u), mix(ay, sy / u), dx, dy]
            : u === 0 && Math.abs(v) === 1
              ? [ax, ay, mix(dx, sx / v), mix(dy, sy / v)]
              : [ax, ay, dx, dy],
        );
      }
    }
    if (group.length >= LEAST_CELLS) lattices.push(group);
  }
  return lattices;
}

/** Side by side first; over one dark cell where there is no other way. */
const NEIGHBOURS: readonly (readonly [number, number])[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
  [2, 0],
  [-2, 0],
  [0, 2],
  [0, -2],
];

function gridOn(lattice: readonly Placed[], scale: number): RuledGrid | null {
  const inColumn = new Map<number, number>();
  const inRow = new Map<number, number>();
  for (const { column, row } of lattice) {
    inColumn.set(column, (inColumn.get(column) ?? 0) + 1);
    inRow.set(row, (inRow.get(row) ?? 0) + 1);
  }
  const [left, right] = endsOf(inColumn);
  const [top, bottom] = endsOf(inRow);
  const [columns, rows] = [right - left + 1, bottom - top + 1];
  const inside = lattice.filter(({ column, row }) => column >= left && column <= right && row >= top && row <= bottom);
  if (columns < 2 || rows < 2 || inside.length < LEAST_CELLS) return null;
  const seen = new Set(inside.map(({ column, row }) => row * PLACES + column));
  // A patch lies in the middle of its cell.
  const ties = tiesOf(inside, scale).map((tie) => ({
    ...tie,
    column: tie.column - left + 0.5,
    row: tie.row - top + 0.5,
  }));
  return { sheet: sheetThrough(ties), columns, rows, share: seen.size / (columns * rows), ties };
}

/** First and last of what holds more than a stray patch. */
function endsOf(counts: ReadonlyMap<number, number>): [number, number] {
  const most = Math.max(...counts.values());
  const full = [...counts].filter(([, count]) => count >= Math.max(2, STRAY * most)).map(([at]) => at);
  return full.length === 0 ? [0, -1] : [Math.min(...full), Math.max(...full)];
}

/** Pixels of the level around a pixel, for what is usual there. */
const WINDOW = 20;
/** Parts of the mean: ours, by charts of signs that were painted, scanned and photographed. */
const LIGHT = 0.97;
/** Pixels of the level. */
const LEAST_SIDE = 4;
const MOST_SIDE = 160;
const MOST_STRETCH = 2.2;
/** Part of its box that is light: a sign may take the rest. */
const LEAST_FILLED = 0.35;
/** Of the logarithm of areas; bins to both sides that count as the same. */
const BIN = 0.12;
const REACH = 3;
const MOST_SIZES = 2;
const LEAST_CELLS = 12;
/** Parts of a step. */
const NEAR = 0.3;
const LEARNT = 0.3;
/** Part of the fullest row's cells. */
const STRAY = 0.12;
const MOST_TIES = 1500;
/** More than a chart has columns. */
const PLACES = 100_000;
/** Cells. */
const ASTRAY = 0.25;
const FURTHER = 4;
const MOST_ROUNDS = 40;
