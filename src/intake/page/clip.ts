/** What of a path is left where only part of the page may be painted. */
import type { Point } from "../chartGrid.ts";

type Runs = readonly (readonly Point[])[];

export interface Clip {
  /** Convex outlines, clockwise where y points down, none over another; where there is none nothing is seen. */
  readonly outlines: readonly (readonly Point[])[];
  readonly holds: (point: Point) => boolean;
  /** How often outlines may still be looked at one by one before the box about them has to do. */
  looks: number;
}

/** Narrows what was open by a path: by its outlines where those are convex and apart, else by the box about it. */
export function clipOf(path: Runs, before: Clip | null): Clip {
  const runs = path.filter(({ length }) => length > 2);
  const convex = runs.length <= MOST_OUTLINES ? runs.map((run) => convexOutline(run)) : [null];
  const known = convex.filter((outline) => outline !== null);
  const own = known.length === convex.length && (known.length === 1 || areApart(known)) ? known : [boxAbout(runs)];
  const bounds =
    before === null ? null : before.outlines.length === 1 ? before.outlines[0]! : boxAbout(before.outlines);
  const outlines = own
    .map((outline) => (bounds === null ? outline : cutClosed(outline, bounds)))
    .filter(({ length }) => length > 2);
  return {
    outlines,
    looks: MOST_LOOKS,
    holds: (point) => outlines.some((outline) => sides(outline).every((side) => side(point) >= -EDGE)),
  };
}

/** The parts of a path inside; a stroke is cut along its line, not along the edges of its width. */
export function clipped(path: Runs, clip: Clip, { closed }: { readonly closed: boolean }): Point[][] {
  clip.looks -= clip.outlines.length;
  const outlines = clip.looks > 0 || clip.outlines.length < 2 ? clip.outlines : [boxAbout(clip.outlines)];
  const around = boxOf(path.flat());
  return outlines.flatMap((outline) => {
    if (outlines.length > 1 && !meet(boxOf(outline), around)) return [];
    const inside = sides(outline);
    return path.flatMap((run) => {
      if (run.every((point) => inside.every((side) => side(point) >= -EDGE))) return [[...run]];
      if (!closed) return cutOpen(run, inside);
      const left = cutClosed(run, outline);
      return left.length > 2 ? [left] : [];
    });
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

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const boxes = new WeakMap<readonly Point[], Box>();

function boxOf(points: readonly Point[]): Box {
  const known = boxes.get(points);
  if (known) return known;
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
  }
  boxes.set(points, { left, top, right, bottom });
  return { left, top, right, bottom };
}

/** Whether two boxes have more than an edge in common. */
const meet = (one: Box, other: Box): boolean =>
  one.left < other.right - EDGE &&
  other.left < one.right - EDGE &&
  one.top < other.bottom - EDGE &&
  other.top < one.bottom - EDGE;

/** Whether none of the boxes about them lies over another. */
function areApart(outlines: Runs): boolean {
  const order = outlines.map(boxOf).sort((one, other) => one.top - other.top);
  let open: Box[] = [];
  for (const box of order) {
    open = open.filter(({ bottom }) => bottom > box.top + EDGE);
    if (open.some((one) => meet(one, box))) return false;
    open.push(box);
  }
  return true;
}

function boxAbout(runs: Runs): Point[] {
  if (runs.length === 0) return [];
  const { left, top, right, bottom } = boxOf(runs.flat());
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
/** A clip of more is taken as its box: the cells of one colour in a large chart are fewer. */
const MOST_OUTLINES = 1000;
const MOST_LOOKS = 5_000_000;
