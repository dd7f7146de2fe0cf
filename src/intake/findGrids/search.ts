/** Looks over a picture for the next chart: squares of it are asked for lines that recur, the clearest is followed. */
import type { ChartGrid } from "../chartGrid.ts";
import type { FoundGrid } from "../findGrids.ts";
import { chartsOn } from "./chartOn.ts";
import type { EdgeField } from "./edgeField.ts";
import { foldLift } from "./fold.ts";
import type { Frame } from "./frame.ts";
import { gridOfSheet } from "./gridShape.ts";
import { frameOn, growSheet, type Grown } from "./grow.ts";
import { FINE_PITCH, type Level } from "./levels.ts";
import { seedsAt } from "./seeds.ts";

export interface Tried {
  readonly found: FoundGrid[];
  /** What was looked at, so that it is not looked at again. */
  readonly searched: ChartGrid;
}

export function nextChart(levels: readonly Level[], fieldOf: (level: Level) => EdgeField): Tried | null {
  const order = [1, 0, 2, 3].map((at) => levels[at]).filter((level) => level !== undefined);
  let best = null as { field: EdgeField; grown: Grown; lift: number; score: number } | null;
  for (const level of order) {
    const field = fieldOf(level);
    for (const [x, y] of placesOf(field)) {
      for (const manner of ["all edges", "long lines"] as const)
        for (const seed of seedsAt(field, x, y, SIDE, manner).slice(0, MOST_SEEDS)) {
          const grown = growSheet(field, seed.frame, 30);
          if (!grown || grown.ties.length < 2) continue;
          const lift = foldLift(field, grown);
          const score = scoreOf(grown);
          if (!best || score > best.score) best = { field, grown, lift, score };
        }
      if (best && best.score > GOOD_SCORE) break;
    }
    if (best && best.score > GOOD_SCORE) break;
  }
  if (!best || best.score < LEAST_SCORE) return null;
  const seed = frameOfGrown(best.grown);
  const pitch = Math.min(Math.hypot(...seed.along), Math.hypot(...seed.down));
  const level = levels.findLast(({ scale }) => pitch / scale >= FINE_PITCH) ?? levels[0]!;
  const field = fieldOf(level);
  const grown = growSheet(field, seed) ?? best.grown;
  const { column, row } = best.grown.ties[0]!;
  const searched = gridOfSheet(best.grown.sheet, { left: column - 4, top: row - 4, columns: 8, rows: 8 });
  return { found: chartsOn(levels, grown, best.lift), searched };
}

/** Clearness beyond chance, over the area that shows it. */
function scoreOf(grown: Grown): number {
  return (grown.clearness - CHANCE) * Math.sqrt(Math.min(1, grown.ties.length / ENOUGH_TIES));
}

function frameOfGrown(grown: Grown): Frame {
  const { column, row } = grown.ties[0]!;
  return frameOn(grown.sheet, column, row);
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

/** What was found is no longer an edge. */
export function mask(field: EdgeField, grid: ChartGrid): void {
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

const SIDE = 256;
const MOST_SEEDS = 6;
const MOST_PLACES = 6;
const CHANCE = 0.4;
const ENOUGH_TIES = 16;
const GOOD_SCORE = 0.24;
const LEAST_SCORE = 0.06;
