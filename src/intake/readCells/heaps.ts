/** Gathers cells that look alike by many numbers at once, however many looks there are. */

import { shapeOf, type Looking, type Shape } from "./shapes.ts";

export interface Points {
  readonly length: number;
  /** `length` numbers to the point. */
  readonly values: Float32Array;
}

/** Pieces to begin with; a rich chart has two dozen signs. */
const PIECES = 48;
const ROUNDS = 8;
/** Two heaps are two when their middles lie this many times their scatter apart along the way between them… */
const APART_IN_SCATTER = 4.5;
/** …or this many, where one is of a few points that show no scatter of their own. */
const LONE_APART = 7;
const FEW = 4;

export interface Nearness {
  /** Heaps nearer than this are always one. */
  readonly least: number;
  /** The picture, for what is to be laid upon each other. */
  readonly looking: Looking;
  /** Bytes by which what is of one colour differs from cell to cell and sample to sample. */
  readonly noise: number;
}

export interface Heap {
  readonly cells: readonly number[];
  /** Of the points' numbers. */
  readonly mean: Float64Array;
  readonly shape: Shape;
  /** Smaller parts of it that were nearly something else when they came to it. */
  readonly joined?: readonly (readonly number[])[];
}

/** How far apart two heaps were, from which their being joined is looked at again. */
const HARDLY = 0.7;

/** The chosen points in small heaps, each of what looks nearly the same. */
export function piecesOf(points: Points, chosen: readonly number[], least: number): number[][] {
  const reduced = mainAxes(points, chosen);
  const of = settle(reduced, chosen.length, seeds(reduced, chosen.length, least));
  const members = Array.from({ length: 1 + of.reduce((most, heap) => Math.max(most, heap), -1) }, () => [] as number[]);
  for (let index = 0; index < chosen.length; index++) members[of[index]!]!.push(chosen[index]!);
  return members;
}

export const heapOf = (points: Points, { looking }: Nearness, cells: readonly number[]): Heap => ({
  cells,
  mean: meanOf(points, cells),
  shape: shapeOf(looking, cells),
});

/** The two least apart are joined, again and again, until all are 1 apart at least. */
export function joinHeaps(
  pieces: readonly Heap[],
  describe: (cells: readonly number[]) => Heap,
  apart: (one: Heap, other: Heap) => number,
): Heap[] {
  const heaps = [...pieces];
  const table = heaps.map((heap, row) => heaps.slice(0, row).map((other) => apart(heap, other)));
  for (;;) {
    let [from, into, smallest] = [-1, -1, 1];
    for (let one = 1; one < heaps.length; one++)
      for (let other = 0; other < one; other++)
        if (table[one]![other]! < smallest) [from, into, smallest] = [one, other, table[one]![other]!];
    if (from < 0) return heaps;
    const [one, other] = [heaps[into]!, heaps[from]!];
    const smaller = one.cells.length < other.cells.length ? one : other;
    const joined: Heap = {
      ...describe([...one.cells, ...other.cells]),
      joined: [...(one.joined ?? []), ...(other.joined ?? []), ...(smallest > HARDLY ? [smaller.cells] : [])],
    };
    heaps[into] = joined;
    heaps.splice(from, 1);
    table.splice(from, 1);
    for (const line of table) if (line.length > from) line.splice(from, 1);
    for (const [other, heap] of heaps.entries())
      if (other !== into) table[Math.max(other, into)]![Math.min(other, into)] = apart(joined, heap);
  }
}

export function meanOf({ length, values }: Points, cells: readonly number[]): Float64Array {
  const mean = new Float64Array(length);
  for (const cell of cells)
    for (let axis = 0; axis < length; axis++) mean[axis]! += values[cell * length + axis]! / cells.length;
  return mean;
}

/** Points of a heap that are enough to know its scatter by. */
const ENOUGH = 400;

/** How surely two heaps are two, by how far their points scatter; they are from 1. */
export function separation({ length, values }: Points, one: Heap, other: Heap, { least }: Nearness): number {
  const way = one.mean.map((value, axis) => value - other.mean[axis]!);
  const distance = Math.hypot(...way);
  if (distance < least) return (0.5 * distance) / least;
  const [first, second] = [one, other].map(({ cells, mean }) => {
    let squares = 0;
    const stride = Math.max(1, Math.floor(cells.length / ENOUGH));
    let asked = 0;
    for (let index = 0; index < cells.length; index += stride, asked++) {
      const cell = cells[index]!;
      let along = 0;
      for (let axis = 0; axis < length; axis++) along += (values[cell * length + axis]! - mean[axis]!) * way[axis]!;
      squares += (along / distance) ** 2;
    }
    return { count: cells.length, scatter: Math.sqrt(squares / Math.max(1, asked - 1)) };
  }) as [{ count: number; scatter: number }, { count: number; scatter: number }];
  // Few points do not show how far such points scatter; what is known of the others stands for them.
  const of = (own: typeof first, its: typeof first): number =>
    own.count < FEW ? Math.max(own.scatter, its.scatter) : own.scatter;
  const scatter = Math.max(least / 8, (of(first, second) + of(second, first)) / 2);
  const needed = Math.min(one.cells.length, other.cells.length) < FEW ? LONE_APART : APART_IN_SCATTER;
  return distance / (needed * scatter);
}

/** Points as far from one another as may be: what stands apart is not missed. */
function seeds({ length, values }: Points, n: number, least: number): Float64Array[] {
  const at = (point: number): Float64Array => Float64Array.from(values.subarray(point * length, (point + 1) * length));
  const mean = new Float64Array(length);
  for (let point = 0; point < n; point++)
    for (let axis = 0; axis < length; axis++) mean[axis]! += values[point * length + axis]! / n;
  const found: Float64Array[] = [mean];
  const away = new Float64Array(n).fill(Infinity);
  while (found.length < Math.min(PIECES, n)) {
    const last = found.at(-1)!;
    let farthest = 0;
    for (let point = 0; point < n; point++) {
      let squares = 0;
      for (let axis = 0; axis < length; axis++) squares += (values[point * length + axis]! - last[axis]!) ** 2;
      away[point] = Math.min(away[point]!, squares);
      if (away[point]! > away[farthest]!) farthest = point;
    }
    if (away[farthest]! < (least / 2) ** 2) break;
    found.push(at(farthest));
  }
  return found;
}

function settle(points: Points, n: number, from: Float64Array[]): Int32Array {
  const { length, values } = points;
  let means = from;
  let of: Int32Array = new Int32Array(n);
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    for (let point = 0; point < n; point++) {
      let [best, nearest] = [0, Infinity];
      for (const [index, mean] of means.entries()) {
        let squares = 0;
        for (let axis = 0; axis < length && squares < nearest; axis++)
          squares += (values[point * length + axis]! - mean[axis]!) ** 2;
        if (squares < nearest) [best, nearest] = [index, squares];
      }
      if (of[point] !== best) moved = true;
      of[point] = best;
    }
    const names = new Map<number, number>();
    of = of.map((heap) => names.get(heap) ?? (names.set(heap, names.size), names.size - 1));
    means = meansOf(points, of, names.size);
    if (!moved && round > 0) break;
  }
  return of;
}

function meansOf({ length, values }: Points, of: Int32Array, heaps: number): Float64Array[] {
  const means = Array.from({ length: heaps }, () => new Float64Array(length));
  const counts = new Float64Array(heaps);
  for (let point = 0; point < of.length; point++) {
    counts[of[point]!]! += 1;
    const mean = means[of[point]!]!;
    for (let axis = 0; axis < length; axis++) mean[axis]! += values[point * length + axis]!;
  }
  for (const [index, mean] of means.entries()) for (let axis = 0; axis < length; axis++) mean[axis]! /= counts[index]!;
  return means;
}

/** Axes along which the points differ most; the others hold little but noise. */
const AXES = 12;
const POWER_ROUNDS = 12;

/** The chosen points along their main axes: orthogonal iteration on the covariance. */
function mainAxes({ length, values }: Points, chosen: readonly number[]): Points {
  const n = chosen.length;
  const mean = new Float64Array(length);
  for (const point of chosen)
    for (let axis = 0; axis < length; axis++) mean[axis]! += values[point * length + axis]! / n;
  const covariance = new Float64Array(length * length);
  const stride = Math.max(1, Math.floor(n / 3000));
  const row = new Float64Array(length);
  for (let index = 0; index < n; index += stride) {
    const from = chosen[index]! * length;
    for (let axis = 0; axis < length; axis++) row[axis] = values[from + axis]! - mean[axis]!;
    for (let one = 0; one < length; one++) {
      const value = row[one]!;
      if (value === 0) continue;
      for (let other = 0; other < length; other++) covariance[one * length + other]! += value * row[other]!;
    }
  }
  const kept = Math.min(AXES, length);
  let basis = Array.from({ length: kept }, (_, index) =>
    Float64Array.from({ length }, (_, axis) => Math.cos((axis + 0.5) * (index + 1) * 0.7) + (axis === index ? 1 : 0)),
  );
  for (let round = 0; round < POWER_ROUNDS; round++) {
    basis = basis.map((vector) => {
      const next = new Float64Array(length);
      for (let one = 0; one < length; one++) {
        let sum = 0;
        for (let other = 0; other < length; other++) sum += covariance[one * length + other]! * vector[other]!;
        next[one] = sum;
      }
      return next;
    });
    for (const [index, vector] of basis.entries()) {
      for (const before of basis.slice(0, index)) {
        const common = vector.reduce((sum, value, axis) => sum + value * before[axis]!, 0);
        for (let axis = 0; axis < length; axis++) vector[axis]! -= common * before[axis]!;
      }
      const size = Math.hypot(...vector) || 1;
      for (let axis = 0; axis < length; axis++) vector[axis]! /= size;
    }
  }
  const reduced = new Float32Array(n * kept);
  for (let index = 0; index < n; index++)
    for (const [axis, vector] of basis.entries()) {
      let sum = 0;
      for (let number = 0; number < length; number++)
        sum += vector[number]! * (values[chosen[index]! * length + number]! - mean[number]!);
      reduced[index * kept + axis] = sum;
    }
  return { length: kept, values: reduced };
}
