/** Finds every chart of a picture: where the lines of its grid cross, however the page lay before the camera. */
import { assert } from "../base/assert.ts";
import type { Problem } from "../base/problem.ts";
import type { Pixels } from "../raster/pixels.ts";
import { crossing, type ChartGrid, type Point } from "./chartGrid.ts";
import { edgeField, type EdgeField } from "./findGrids/edgeField.ts";
import { extentOf, type Box } from "./findGrids/extent.ts";
import { frameOn, growSheet, refinedSheet, type Grown } from "./findGrids/grow.ts";
import { levelsOf, type Level } from "./findGrids/levels.ts";
import { seedsAt } from "./findGrids/seeds.ts";
import { sidesOf } from "./findGrids/sides.ts";
import { sheetOfCorners, type Sheet } from "./findGrids/sheet.ts";
import { straighten } from "./findGrids/straight.ts";
import { exactGrids, type ExactGrid } from "./findGrids/exact.ts";
import type { Frame } from "./findGrids/frame.ts";
import { foldLift } from "./findGrids/fold.ts";

export interface FoundGrid {
  readonly grid: ChartGrid;
  /** 0 to 1 that grid, counts and place are right. */
  readonly confidence: number;
  readonly lined: boolean;
  /** Upright, whole-pixel cells, flat colours. */
  readonly exact: boolean;
  readonly doubts: Problem[];
}

export interface FindOptions {
  readonly onStep?: (share: number) => void;
  readonly within?: readonly Point[];
}

export function findGrids(pixels: Pixels, options: FindOptions = {}): { grids: FoundGrid[]; why: string | null } {
  const exact = exactGrids(pixels);
  if (exact.grids.length > 0) return { grids: exact.grids.map(foundExactly), why: null };
  const levels = levelsOf(pixels);
  options.onStep?.(0.1);
  const fields = new Map<Level, EdgeField>();
  const fieldOf = (level: Level): EdgeField => {
    let field = fields.get(level);
    if (!field) fields.set(level, (field = edgeField(level)));
    return field;
  };
  const grids: FoundGrid[] = [];
  for (let chart = 0; chart < MOST_CHARTS; chart++) {
    const found = nextChart(levels, fieldOf);
    if (!found) break;
    if (found.confidence >= LEAST_CONFIDENCE) grids.push(found);
    else if (chart > MOST_FAILURES + grids.length) break;
    for (const level of levels) mask(fieldOf(level), found.grid);
  }
  if (grids.length === 0 && exact.single) grids.push(foundExactly(exact.single));
  grids.sort((one, other) => worthOf(other) - worthOf(one));
  return { grids, why: grids.length === 0 ? "nothing that recurs at even steps" : null };
}

function foundExactly({ grid, lined, edgeOpen }: ExactGrid): FoundGrid {
  return { grid, lined, exact: true, confidence: edgeOpen ? OPEN_TRUST : 1, doubts: [] };
}

const worthOf = ({ confidence, grid }: FoundGrid): number => confidence * Math.sqrt(grid.columns * grid.rows);

function nextChart(levels: readonly Level[], fieldOf: (level: Level) => EdgeField): FoundGrid | null {
  const order = [1, 0, 2, 3].map((at) => levels[at]).filter((level) => level !== undefined);
  let best: { field: EdgeField; grown: Grown; lift: number } | null = null;
  for (const level of order) {
    const field = fieldOf(level);
    for (const [x, y] of placesOf(field)) {
      for (const seed of seedsAt(field, x, y, SIDE).slice(0, MOST_SEEDS)) {
        const grown = growSheet(field, seed.frame, 30);
        if (!grown || grown.ties.length < 2) continue;
        const lift = foldLift(field, grown);
        if (!best || lift > best.lift) best = { field, grown, lift };
      }
      if (best && best.lift > 0.35) break;
    }
    if (best && best.lift > 0.35) break;
  }
  if (!best || best.lift < LEAST_LIFT) return null;
  const seed = frameOfGrown(best.grown);
  const pitch = Math.min(Math.hypot(...seed.along), Math.hypot(...seed.down));
  const level = levels.findLast(({ scale }) => pitch / scale >= FINE_PITCH) ?? levels[0]!;
  const field = fieldOf(level);
  const grown = growSheet(field, seed) ?? best.grown;
  return chartOn(levels, grown, best.lift);
}

function frameOfGrown(grown: Grown): Frame {
  const { column, row } = grown.ties[0]!;
  return frameOn(grown.sheet, column, row);
}

function chartOn(levels: readonly Level[], { sheet, ties }: Grown, lift: number): FoundGrid | null {
  const margin = 8;
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { column, row } of ties) {
    left = Math.min(left, column);
    right = Math.max(right, column);
    top = Math.min(top, row);
    bottom = Math.max(bottom, row);
  }
  const box = {
    left: left - margin,
    top: top - margin,
    columns: right - left + 2 * margin,
    rows: bottom - top + 2 * margin,
  };
  const cells = box.columns * box.rows;
  if (cells > 400_000) return null;
  const straight = straighten(levels, sheet, box, cells > 60_000 ? 6 : 10);
  const sides = sidesOf(straight);
  const core = { left: margin, top: margin, columns: Math.max(1, right - left), rows: Math.max(1, bottom - top) };
  const extent = extentOf(sides, straight.seen, core);
  if (!extent || extent.columns < 2 || extent.rows < 2 || extent.columns * extent.rows < LEAST_CELLS) return null;
  const { columns, rows } = extent;
  return {
    grid: gridOfSheet(sheet, { left: box.left + extent.left, top: box.top + extent.top, columns, rows }),
    confidence: Math.min(1, extent.trust) * Math.min(1, lift * 2),
    lined: extent.lined,
    exact: false,
    doubts: [],
  };
}

/** The grid between four corners, clockwise from the top left, as a camera would see it; straight where they make no perspective. */
export function gridBetween(corners: readonly Point[], columns: number, rows: number): ChartGrid {
  assert(corners.length === 4, `${corners.length} corners`);
  const [a, b, c, d] = corners as readonly [Point, Point, Point, Point];
  const sheet = sheetOfCorners(corners, columns, rows) ?? {
    at: (column: number, row: number): [number, number] => {
      const [u, v] = [column / columns, row / rows];
      const mix = (axis: 0 | 1): number =>
        (a[axis] * (1 - u) + b[axis] * u) * (1 - v) + (d[axis] * (1 - u) + c[axis] * u) * v;
      return [mix(0), mix(1)];
    },
  };
  return gridOfSheet(sheet, { left: 0, top: 0, columns, rows });
}

/** A grid that was set roughly, moved to the lines and steps of colour that are drawn; its counts stay. */
export function refineGrid(pixels: Pixels, grid: ChartGrid): ChartGrid {
  const { columns, rows } = grid;
  const levels = levelsOf(pixels);
  const set: Sheet = { at: (column, row) => between(grid, column, row) };
  const [a, b, c] = [set.at(0, 0), set.at(columns, 0), set.at(0, rows)];
  const pitch = Math.min(Math.hypot(b[0] - a[0], b[1] - a[1]) / columns, Math.hypot(c[0] - a[0], c[1] - a[1]) / rows);
  const level = levels.findLast(({ scale }) => pitch / scale >= FINE_PITCH) ?? levels[0]!;
  return gridOfSheet(refinedSheet(edgeField(level), set, columns, rows), { left: 0, top: 0, columns, rows });
}

/** Between four crossings, and beyond the outermost as their cell goes on. */
function between(grid: ChartGrid, column: number, row: number): [number, number] {
  const left = Math.max(0, Math.min(grid.columns - 1, Math.floor(column)));
  const top = Math.max(0, Math.min(grid.rows - 1, Math.floor(row)));
  const [u, v] = [column - left, row - top];
  const [a, b] = [crossing(grid, top, left), crossing(grid, top, left + 1)];
  const [c, d] = [crossing(grid, top + 1, left), crossing(grid, top + 1, left + 1)];
  const mix = (axis: 0 | 1): number =>
    (a[axis] * (1 - u) + b[axis] * u) * (1 - v) + (c[axis] * (1 - u) + d[axis] * u) * v;
  return [mix(0), mix(1)];
}

function gridOfSheet(sheet: Sheet, { left, top, columns, rows }: Box): ChartGrid {
  const corners = new Float32Array((columns + 1) * (rows + 1) * 2);
  let at = 0;
  for (let row = 0; row <= rows; row++)
    for (let column = 0; column <= columns; column++) {
      const [x, y] = sheet.at(left + column, top + row);
      corners[at++] = x;
      corners[at++] = y;
    }
  return { columns, rows, corners };
}

/** Middles of squares to look at, those with most edges first. */
function placesOf(field: EdgeField): [number, number][] {
  const { width, height, cosine, sine } = field;
  const places: { x: number; y: number; sum: number }[] = [];
  const across = Math.max(1, Math.round(width / (SIDE * 0.6)) - 1);
  const down = Math.max(1, Math.round(height / (SIDE * 0.6)) - 1);
  for (let j = 0; j < down; j++)
    for (let i = 0; i < across; i++) {
      const x = across === 1 ? width / 2 : SIDE / 2 + (i * (width - SIDE)) / (across - 1);
      const y = down === 1 ? height / 2 : SIDE / 2 + (j * (height - SIDE)) / (down - 1);
      let sum = 0;
      for (let row = -SIDE / 2; row < SIDE / 2; row += 4)
        for (let column = -SIDE / 2; column < SIDE / 2; column += 4) {
          const [px, py] = [Math.round(x + column), Math.round(y + row)];
          if (px < 0 || py < 0 || px >= width || py >= height) continue;
          sum += Math.abs(cosine[py * width + px]!) + Math.abs(sine[py * width + px]!);
        }
      if (sum > 0) places.push({ x, y, sum });
    }
  return places
    .sort((one, other) => other.sum - one.sum)
    .slice(0, MOST_PLACES)
    .map(({ x, y }) => [x, y]);
}

function mask(field: EdgeField, grid: ChartGrid): void {
  const { columns, rows, corners } = grid;
  const { width, height, scale } = field;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const at = (row * (columns + 1) + column) * 2;
      const to = at + (columns + 2) * 2;
      const rim = 2 + (0.35 * Math.hypot(corners[to]! - corners[at]!, corners[to + 1]! - corners[at + 1]!)) / scale;
      const x0 = Math.max(0, Math.floor(Math.min(corners[at]!, corners[to]!) / scale - rim));
      const y0 = Math.max(0, Math.floor(Math.min(corners[at + 1]!, corners[to + 1]!) / scale - rim));
      const x1 = Math.min(width - 1, Math.ceil(Math.max(corners[at]!, corners[to]!) / scale + rim));
      const y1 = Math.min(height - 1, Math.ceil(Math.max(corners[at + 1]!, corners[to + 1]!) / scale + rim));
      for (let y = y0; y <= y1; y++) {
        field.cosine.fill(0, y * width + x0, y * width + x1 + 1);
        field.sine.fill(0, y * width + x0, y * width + x1 + 1);
      }
    }
}

/** Pixels of a level to a stitch, at least, where lines are placed. */
const FINE_PITCH = 6;
const MOST_CHARTS = 8;
const MOST_FAILURES = 1;
const LEAST_CONFIDENCE = 0.3;
/** Ours: how far to trust a reading whose edge cannot be seen. */
const OPEN_TRUST = 0.75;
const SIDE = 256;
const MOST_SEEDS = 6;
const MOST_PLACES = 6;
const LEAST_CELLS = 9;
const LEAST_LIFT = 0.12;
