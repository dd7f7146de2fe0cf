/** The shapes of a page taken apart into what charts are drawn with: areas, straight bars and small strokes. */
import type { Point } from "../chartGrid.ts";
import type { PageShape } from "../pagePrimitives.ts";

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Piece {
  /** An area is filled; a bar is a straight stroke along or down the page, as wide as it is drawn; a stroke is any other line. */
  readonly kind: "area" | "bar" | "stroke";
  /** Its place in the order of painting. */
  readonly order: number;
  readonly runs: readonly (readonly Point[])[];
  readonly box: Box;
  readonly colour: string;
  readonly opacity: number;
  readonly evenOdd: boolean;
  readonly dashed: boolean;
  /** It fills its box. */
  readonly isBox: boolean;
  /** All of its edges run along or down the page, but for one slant of a triangle. */
  readonly isSquare: boolean;
}

export function piecesOf(shapes: readonly PageShape[]): Piece[] {
  const pieces: Piece[] = [];
  for (const [order, shape] of shapes.entries()) {
    if (shape.fill !== null) pieces.push(...areas(shape, shape.fill, order));
    if (shape.stroke !== null)
      for (const run of shape.outline) pieces.push(...strokes(run, shape, shape.stroke, order));
  }
  return pieces;
}

export const boxWidth = ({ left, right }: Box): number => right - left;
export const boxHeight = ({ top, bottom }: Box): number => bottom - top;

export const boxMiddle = ({ left, right, top, bottom }: Box): [x: number, y: number] => [
  (left + right) / 2,
  (top + bottom) / 2,
];

/** Whether it is so narrow that it is a line. */
export const isThin = (box: Box): boolean =>
  Math.min(boxWidth(box), boxHeight(box)) < 0.1 * Math.max(boxWidth(box), boxHeight(box));

export function boxOfRuns(runs: readonly (readonly Point[])[]): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const run of runs)
    for (const [x, y] of run) {
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < top) top = y;
      if (y > bottom) bottom = y;
    }
  return { left, top, right, bottom };
}

export function boxAround(boxes: readonly Box[]): Box {
  const around = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const { left, top, right, bottom } of boxes) {
    around.left = Math.min(around.left, left);
    around.top = Math.min(around.top, top);
    around.right = Math.max(around.right, right);
    around.bottom = Math.max(around.bottom, bottom);
  }
  return around;
}

/** Along and down the page together; 0 where they touch. */
export const distanceBetween = (one: Box, other: Box): number =>
  Math.max(0, one.left - other.right, other.left - one.right) +
  Math.max(0, one.top - other.bottom, other.top - one.bottom);

function areas(shape: PageShape, colour: string, order: number): Piece[] {
  const runs = shape.outline.map(corners).filter(({ length }) => length > 2);
  if (runs.length === 0) return [];
  const boxes = runs.map((run) => boxOfRuns([run]));
  const area = (parts: readonly (readonly Point[])[], box: Box): Piece => ({
    kind: "area",
    order,
    runs: parts,
    box,
    colour,
    opacity: shape.opacity ?? 1,
    evenOdd: shape.evenOdd ?? false,
    dashed: false,
    isBox: parts.length === 1 && isBox(parts[0]!),
    isSquare: parts.every(isSquare),
  });
  if (runs.length === 1) return [area(runs, boxes[0]!)];
  return apart(boxes) ? runs.map((run, index) => area([run], boxes[index]!)) : [area(runs, boxAround(boxes))];
}

/** Whether no box lies over another, so that each is a shape of its own. */
function apart(boxes: readonly Box[]): boolean {
  const order = boxes.toSorted((one, other) => one.top - other.top);
  let open: Box[] = [];
  for (const box of order) {
    const slack = SLACK * Math.min(boxWidth(box), boxHeight(box));
    open = open.filter(({ bottom }) => bottom > box.top + slack);
    if (open.some(({ left, right }) => left < box.right - slack && right > box.left + slack)) return false;
    open.push(box);
    if (open.length > MANY_OPEN) return false;
  }
  return true;
}

function strokes(run: readonly Point[], shape: PageShape, colour: string, order: number): Piece[] {
  const { lineWidth, dashed = false } = shape;
  const points = withoutRepeats(run);
  const piece = (kind: "bar" | "stroke", part: readonly Point[], box: Box): Piece => ({
    kind,
    order,
    runs: [part],
    box,
    colour,
    opacity: 1,
    evenOdd: false,
    dashed,
    isBox: kind === "bar",
    isSquare: kind === "bar",
  });
  const half = lineWidth / 2;
  const bars: Piece[] = [];
  for (let index = 1; index < points.length; index++) {
    const [from, to] = [points[index - 1]!, points[index]!];
    const [dx, dy] = [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])];
    if (Math.min(dx, dy) > LEVEL * Math.max(dx, dy)) return [piece("stroke", points, boxOfRuns([points]))];
    const { left, top, right, bottom } = boxOfRuns([[from, to]]);
    const y = (top + bottom) / 2;
    const x = (left + right) / 2;
    const box: Box =
      dx >= dy ? { left, right, top: y - half, bottom: y + half } : { left: x - half, right: x + half, top, bottom };
    bars.push(piece("bar", cornersOfBox(box), box));
  }
  return bars;
}

export const cornersOfBox = ({ left, top, right, bottom }: Box): Point[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
];

function withoutRepeats(run: readonly Point[]): Point[] {
  return run.filter(([x, y], index) => {
    const before = run[index - 1];
    return before === undefined || x !== before[0] || y !== before[1];
  });
}

/** An outline's corners: repeats and points on a straight edge are left out. */
function corners(run: readonly Point[]): Point[] {
  const points = withoutRepeats(run);
  const [first, last] = [points[0], points.at(-1)];
  if (first && last && points.length > 1 && first[0] === last[0] && first[1] === last[1]) points.pop();
  if (points.length < 3) return [];
  return points.filter((point, index) => {
    const before = points[(index + points.length - 1) % points.length]!;
    const after = points[(index + 1) % points.length]!;
    const [ax, ay, bx, by] = [point[0] - before[0], point[1] - before[1], after[0] - point[0], after[1] - point[1]];
    return Math.abs(ax * by - ay * bx) > LEVEL * Math.hypot(ax, ay) * Math.hypot(bx, by) || ax * bx + ay * by < 0;
  });
}

const isLevel = (from: Point, to: Point): boolean => {
  const [dx, dy] = [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])];
  return Math.min(dx, dy) <= LEVEL * Math.max(dx, dy);
};

const slants = (run: readonly Point[]): number =>
  run.filter((from, index) => !isLevel(from, run[(index + 1) % run.length]!)).length;

const isBox = (run: readonly Point[]): boolean => run.length === 4 && slants(run) === 0;
const isSquare = (run: readonly Point[]): boolean => slants(run) <= (run.length === 3 ? 1 : 0);

/** Part of a length that counts as nothing: programs round to a hundredth of a point and less. */
const LEVEL = 0.01;
const SLACK = 0.1;
/** Boxes side by side at one height, beyond which they are taken as one shape rather than looked at by pairs. */
const MANY_OPEN = 2000;
