/** How well a grid explains a picture's edges: folded to one stitch, they gather at its borders. */
import type { EdgeField } from "./edgeField.ts";
import type { Grown } from "./grow.ts";

/**
 * The part of the edges that lies at borders beyond what an even spread would put there, 0 to 1, the lesser of both
 * directions: a multiple of the true pitch gathers less, a fraction of it needs a larger part of the stitch.
 */
export function foldLift(field: EdgeField, { sheet, ties }: Grown): number {
  const { width, height, scale, cosine, sine } = field;
  const across = new Float64Array(BINS);
  const down = new Float64Array(BINS);
  for (const { column, row } of someOf(ties)) {
    const [x0, y0] = sheet.at(column, row);
    const [ax, ay] = minus(sheet.at(column + 1, row), [x0, y0]);
    const [dx, dy] = minus(sheet.at(column, row + 1), [x0, y0]);
    const [ua, la] = [2 * Math.atan2(-dx, dy), 2 * Math.atan2(ax, -ay)];
    const [uc, us, lc, ls] = [Math.cos(ua), Math.sin(ua), Math.cos(la), Math.sin(la)];
    for (let j = 0; j < REACH * 2 * BINS; j++) {
      const v = (j + 0.5) / BINS - REACH;
      for (let i = 0; i < REACH * 2 * BINS; i++) {
        const u = (i + 0.5) / BINS - REACH;
        const x = Math.floor((x0 + u * ax + v * dx) / scale);
        const y = Math.floor((y0 + u * ay + v * dy) / scale);
        if (x < 0 || y < 0 || x >= width || y >= height) continue;
        const [c, s] = [cosine[y * width + x]!, sine[y * width + x]!];
        if (c === 0 && s === 0) continue;
        across[i % BINS]! += Math.max(0, c * uc + s * us);
        down[j % BINS]! += Math.max(0, c * lc + s * ls);
      }
    }
  }
  return Math.min(foldedLift(across), foldedLift(down));
}

const minus = ([x, y]: readonly [number, number], [a, b]: readonly [number, number]): [number, number] => [
  x - a,
  y - b,
];

/** The most that a window around the border has above its share. */
export function foldedLift(folded: Float64Array): number {
  const total = folded.reduce((sum, part) => sum + part, 0);
  if (total === 0) return 0;
  let best = 0;
  let sum = 0;
  for (let half = 0; half < folded.length / 2; half++) {
    sum += folded[half]! + folded[folded.length - 1 - half]!;
    best = Math.max(best, sum / total - (2 * (half + 1)) / folded.length);
  }
  return best;
}

const BINS = 24;
/** Stitches around each tie. */
const REACH = 2;

function someOf<Of>(all: readonly Of[]): Of[] {
  const every = Math.ceil(all.length / MOST_TIES);
  return all.filter((_, index) => index % every === 0);
}

const MOST_TIES = 10;
