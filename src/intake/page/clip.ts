/** What of a path is left where only part of the page may be painted. */
import type { Point } from "../chartGrid.ts";

type Runs = readonly (readonly Point[])[];

export interface Clip {
  /** A convex outline, clockwise where y points down; with fewer than three corners nothing is seen. */
  readonly outline: readonly Point[];
  readonly holds: (point: Point) => boolean;
}

/** Narrows what was open by a path: by its outline where that is convex, else by the box about it. */
export function clipOf(path: Runs, before: Clip | null): Clip {
  const runs = path.filter(({ length }) => length > 2);
  const [only] = runs;
  const convex = runs.length === 1 && only ? convexOutline(only) : null;
  const outline = convex ?? boxAbout(runs);
  const left = before === null ? outline : cutClosed(outline, before.outline);
  return { outline: left, holds: (point) => left.length > 2 && sides(left).every((side) => side(point) >= -EDGE) };
}

/** The parts of a path inside; a stroke is cut along its line, not along the edges of its width. */
export function clipped(path: Runs, { outline }: Clip, { closed }: { readonly closed: boolean }): Point[][] {
  if (outline.length < 3) return [];
  const inside = sides(outline);
  return path.flatMap((run) => {
    if (run.every((point) => inside.every((side) => side(point) >= -EDGE))) return [[...run]];
    if (!closed) return cutOpen(run, inside);
    const left = cutClosed(run, outline);
    return left.length > 2 ? [left] : [];
  });
}

type Side = (point: Point) => number;

/** Points; what touches an edge is inside. */
const EDGE = 1e-3;

/** For each edge how far inside a point lies. */
const sides = (outline: readonly Point[]): Side[] =>
  outline.map((from, index) => {
    const to = outline[(index + 1) % outline.length]!;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(dx, dy) || 1;
    return ([x, y]) => (dx * (y - from[1]) - dy * (x - from[0])) / length;
  });

/** Source: I. E. Sutherland, G. W. Hodgman, "Reentrant polygon clipping", Communications of the ACM 17 (1974). */
function cutClosed(run: readonly Point[], outline: readonly Point[]): Point[] {
  if (outline.length < 3) return [];
  let left = [...run];
  for (const side of sides(outline)) {
    const given = left;
    left = [];
    for (const [index, point] of given.entries()) {
      const before = given[(index + given.length - 1) % given.length]!;
      const [here, there] = [side(point), side(before)];
      if (here >= 0 !== there >= 0) left.push(between(before, point, there / (there - here)));
      if (here >= 0) left.push(point);
    }
  }
  return left;
}

function cutOpen(run: readonly Point[], inside: readonly Side[]): Point[][] {
  const pieces: Point[][] = [];
  for (let index = 1; index < run.length; index++) {
    const [from, to] = [run[index - 1]!, run[index]!];
    let [start, end] = [0, 1];
    for (const side of inside) {
      const [a, b] = [side(from), side(to)];
      if (a < -EDGE && b < -EDGE) start = 2;
      else if (a < 0 && b > a) start = Math.max(start, a / (a - b));
      else if (b < 0 && a > b) end = Math.min(end, a / (a - b));
    }
    if (start < end) pieces.push([between(from, to, start), between(from, to, end)]);
  }
  return pieces;
}

const between = (from: Point, to: Point, part: number): Point => [
  from[0] + (to[0] - from[0]) * part,
  from[1] + (to[1] - from[1]) * part,
];

function boxAbout(runs: Runs): Point[] {
  const points = runs.flat();
  if (points.length === 0) return [];
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
  }
  return [[left, top], [right, top], [right, bottom], [left, bottom]]; // prettier-ignore
}

/** Clockwise and without repeats; null where it turns both ways. */
function convexOutline(run: readonly Point[]): Point[] | null {
  const points = run.filter((point, index) => {
    const next = run[(index + 1) % run.length]!;
    return Math.hypot(point[0] - next[0], point[1] - next[1]) > EDGE;
  });
  if (points.length < 3 || points.length > MOST_CORNERS) return null;
  let [lefts, rights] = [0, 0];
  for (const [index, point] of points.entries()) {
    const before = points[(index + points.length - 1) % points.length]!;
    const after = points[(index + 1) % points.length]!;
    const bend = (point[0] - before[0]) * (after[1] - point[1]) - (point[1] - before[1]) * (after[0] - point[0]);
    if (bend > EDGE * EDGE) rights++;
    if (bend < -EDGE * EDGE) lefts++;
  }
  if (lefts > 0 && rights > 0) return null;
  return lefts > 0 ? points.toReversed() : points;
}

/** A circle is taken as its box: cutting by every short side of it is not worth the while. */
const MOST_CORNERS = 12;
