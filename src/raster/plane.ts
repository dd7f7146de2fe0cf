/** One number to the pixel, and what is asked of such a plane: smoothed, its steps, its basins. */

export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

export const createPlane = (width: number, height: number): Plane => ({
  width,
  height,
  data: new Float32Array(width * height),
});

/**
 * The mean over a square of 2·reach + 1 pixels, taken twice, which is near a normal curve of deviation √(2·reach·(reach + 1)/3);
 * outside the plane its edge goes on.
 */
export function smoothed(plane: Plane, reach: number): Plane {
  let { data } = plane;
  for (let pass = 0; pass < 2; pass++) {
    data = boxMeans(data, plane.width, plane.height, 1, plane.width, reach);
    data = boxMeans(data, plane.height, plane.width, plane.width, 1, reach);
  }
  return { ...plane, data };
}

/** Means along lines of `count` numbers that lie `step` apart, each line beginning `jump` after the one before. */
function boxMeans(
  from: Float32Array,
  count: number,
  lines: number,
  step: number,
  jump: number,
  reach: number,
): Float32Array {
  const to = new Float32Array(from.length);
  const part = 1 / (2 * reach + 1);
  for (let line = 0; line < lines; line++) {
    const start = line * jump;
    const end = start + (count - 1) * step;
    let sum = from[start]! * (reach + 1);
    for (let at = 1; at <= reach; at++) sum += from[Math.min(end, start + at * step)]!;
    for (let at = 0; at < count; at++) {
      const here = start + at * step;
      to[here] = sum * part;
      sum += from[Math.min(end, here + (reach + 1) * step)]! - from[Math.max(start, here - reach * step)]!;
    }
  }
  return to;
}

/** For each pixel how much the plane changes over 2·reach pixels, squared, times a weight, added to a sum. */
export function addSteps(plane: Plane, reach: number, weight: number, sum: Float32Array): void {
  const { width, height, data } = plane;
  for (let y = 0, at = 0; y < height; y++) {
    const up = Math.min(y, reach) * width;
    const down = Math.min(height - 1 - y, reach) * width;
    for (let x = 0; x < width; x++, at++) {
      const across = data[at + Math.min(width - 1 - x, reach)]! - data[at - Math.min(x, reach)]!;
      const along = data[at + down]! - data[at - up]!;
      sum[at]! += weight * (across * across + along * along);
    }
  }
}

export interface Basins {
  /** For each pixel the basin it belongs to, from 0. */
  readonly of: Int32Array;
  readonly count: number;
}

/** Steps of height by which the plane is flooded. */
const LEVELS = 1024;

/**
 * Cuts a plane into basins, each around a lowest place, along the ridges between them. Source: the watershed by flooding of
 * Meyer 1991, with as many levels as the square root of height has in 1024 steps.
 */
export function basinsOf({ width, height, data }: Plane): Basins {
  const count = width * height;
  let most = 0;
  for (let at = 0; at < count; at++) most = Math.max(most, data[at]!);
  const level = new Uint16Array(count);
  for (let at = 0; at < count; at++) level[at] = Math.sqrt(data[at]! / (most || 1)) * (LEVELS - 1);
  const of = new Int32Array(count).fill(-1);
  // One queue to a level, as lists through the pixels.
  const next = new Int32Array(count).fill(-1);
  const head = new Int32Array(LEVELS).fill(-1);
  const tail = new Int32Array(LEVELS).fill(-1);
  const push = (at: number, to: number): void => {
    if (head[to]! < 0) head[to] = at;
    else next[tail[to]!] = at;
    tail[to] = at;
    next[at] = -1;
  };
  const neighbours = (at: number, take: (other: number) => void): void => {
    const x = at % width;
    if (x > 0) take(at - 1);
    if (x < width - 1) take(at + 1);
    if (at >= width) take(at - width);
    if (at < count - width) take(at + width);
  };
  let basins = 0;
  const stack: number[] = [];
  const seen = new Uint8Array(count);
  for (let start = 0; start < count; start++) {
    if (seen[start]) continue;
    // A flat place is a lowest one when nothing beside it is lower.
    const flat = [start];
    seen[start] = 1;
    let isLowest = true;
    stack.push(start);
    while (stack.length > 0) {
      const at = stack.pop()!;
      neighbours(at, (other) => {
        if (level[other]! < level[at]!) isLowest = false;
        else if (level[other] === level[at] && !seen[other]) {
          seen[other] = 1;
          flat.push(other);
          stack.push(other);
        }
      });
    }
    if (!isLowest) continue;
    for (const at of flat) of[at] = basins;
    for (const at of flat) push(at, level[at]!);
    basins++;
  }
  for (let now = 0; now < LEVELS; now++)
    while (head[now]! >= 0) {
      const at = head[now]!;
      head[now] = next[at]!;
      neighbours(at, (other) => {
        if (of[other]! >= 0) return;
        of[other] = of[at]!;
        push(other, Math.max(now, level[other]!));
      });
    }
  return { of, count: basins };
}
