/** Whether the cells of one colour may be of two: a gap in how their colours scatter, or a scatter too wide for one. */
import type { Lab } from "../../colour/lab.ts";

/** Fewer colours show nothing. */
const FEWEST = 6;
/**
 * Two parts whose middles lie this many times their own scatter apart are hardly one: cutting a normal heap in two at its
 * middle gives 2.65 (√(2/π) : √(1 − 2/π), twice), an even one √12.
 */
const GAP = 3.9;
/** DIN99o: what lies nearer is the light's doing, whatever the gap; what lies farther is seldom one colour. */
const LEAST = 2.5;
const MOST = 9;

/** Part of its cells that the smaller one has at most: two that are each of many cells are not taken for one. */
const MINOR = 0.3;

/** Of the points (DIN99o) those, numbered as given, that may be of another colour: the smaller part. */
export function twoInOne(points: readonly Lab[]): number[] {
  if (points.length < FEWEST) return [];
  const along = mainAxis(points);
  const order = along.map((_, index) => index).sort((one, other) => along[one]! - along[other]!);
  const total = along.reduce((sum, value) => sum + value, 0);
  const squares = along.reduce((sum, value) => sum + value * value, 0);
  const count = along.length;
  let best = { at: 0, within: Infinity, apart: 0 };
  let [sum, sumSquares] = [0, 0];
  for (const [index, point] of order.slice(0, -1).entries()) {
    sum += along[point]!;
    sumSquares += along[point]! ** 2;
    const [less, more] = [index + 1, count - index - 1];
    const [low, high] = [sum / less, (total - sum) / more];
    const within = sumSquares - less * low * low + (squares - sumSquares - more * high * high);
    if (within < best.within) best = { at: less, within, apart: high - low };
  }
  const scatter = Math.sqrt(Math.max(0, best.within) / count) + 1e-6;
  const two = best.apart > MOST || (best.apart > LEAST && best.apart > GAP * scatter);
  if (!two) return [];
  const smaller = best.at <= count / 2 ? order.slice(0, best.at) : order.slice(best.at);
  return smaller.length <= MINOR * count ? smaller : [];
}

/** How far along the way on which they scatter most, from their mean: power iteration on the covariance. */
function mainAxis(points: readonly Lab[]): number[] {
  const mean = [0, 1, 2].map((axis) => points.reduce((sum, point) => sum + point[axis]!, 0) / points.length);
  const covariance = Array.from({ length: 9 }, () => 0);
  for (const point of points)
    for (let one = 0; one < 3; one++)
      for (let other = 0; other < 3; other++)
        covariance[one * 3 + other]! += (point[one]! - mean[one]!) * (point[other]! - mean[other]!);
  let way = [1, 0.6, 0.8];
  for (let round = 0; round < 20; round++) {
    const next = [0, 1, 2].map((one) => way.reduce((sum, part, other) => sum + part * covariance[one * 3 + other]!, 0));
    const size = Math.hypot(...next) || 1;
    way = next.map((part) => part / size);
  }
  return points.map((point) => way.reduce((sum, part, axis) => sum + part * (point[axis]! - mean[axis]!), 0));
}
