/** Shapes that tell the yarns of a chart apart without colour, from light marks to heavy ones. */
import type { Operation, Point } from "./drawing.ts";

/** In a box from −0.5 to 0.5 either way, y downwards. */
export interface ChartSymbol {
  readonly id: string;
  readonly filled: readonly (readonly Point[])[];
  /** Lines through the given points, closed where the last point is the first. */
  readonly drawn: readonly (readonly Point[])[];
}

/** A shape of `size` mm about a centre. */
export function drawSymbol(symbol: ChartSymbol, [x, y]: Point, size: number, colour: string): Operation[] {
  const place = ([px, py]: Point): Point => [x + px * size, y + py * size];
  return [
    ...symbol.filled.map((points): Operation => ({ kind: "polygon", points: points.map(place), fill: colour })),
    ...symbol.drawn.flatMap((points): Operation[] => {
      const lineWidth = LINE * size;
      if (isClosed(points)) {
        return [{ kind: "polygon", points: points.slice(1).map(place), stroke: colour, lineWidth }];
      }
      return points.slice(1).map((to, index) => ({
        kind: "line",
        from: place(points[index]!),
        to: place(to),
        stroke: colour,
        lineWidth,
      }));
    }),
  ];
}

/**
 * Shapes for so many yarns, lightest yarn first: the darker the yarn, the heavier its mark, so that a sheet without
 * colour previews the picture (common practice, no source). Null where there are more yarns than shapes.
 */
export function symbolsFor(count: number): (ChartSymbol | null)[] {
  const shapes = count <= COMMON.length ? COMMON : SYMBOLS;
  return Array.from({ length: count }, (_, rank) =>
    count <= shapes.length ? shapes[Math.floor(((rank + 0.5) * shapes.length) / count)]! : null,
  );
}

/** Ink of a shape, as a part of its box: what decides its place among the others. */
export function inkOf(symbol: ChartSymbol): number {
  const area = symbol.filled.reduce((sum, points) => sum + polygonArea(points), 0);
  const length = symbol.drawn.reduce((sum, points) => sum + pathLength(points), 0);
  return area + length * LINE;
}

/** Width of drawn lines, as a part of the box. */
const LINE = 0.13;

const isClosed = (points: readonly Point[]): boolean => {
  const [first, last] = [points[0]!, points.at(-1)!];
  return first[0] === last[0] && first[1] === last[1];
};

function polygonArea(points: readonly Point[]): number {
  const doubled = points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(doubled) / 2;
}

const pathLength = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, [x, y], index) => sum + Math.hypot(x - points[index]![0], y - points[index]![1]), 0);

const box = (left: number, top: number, right: number, bottom: number): Point[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
];
const closed = (points: readonly Point[]): Point[] => [...points, points[0]!];
const around = (corners: number, radiusOf: (corner: number) => number): Point[] =>
  Array.from({ length: corners }, (_, corner) => {
    const angle = (corner / corners) * 2 * Math.PI - Math.PI / 2;
    return [radiusOf(corner) * Math.cos(angle), radiusOf(corner) * Math.sin(angle)];
  });

const up: Point[] = [
  [0, -0.45],
  [0.48, 0.4],
  [-0.48, 0.4],
];
const down: Point[] = up.map(([x, y]) => [x, -y]);
const diamond: Point[] = [
  [0, -0.5],
  [0.42, 0],
  [0, 0.5],
  [-0.42, 0],
];
const square = box(-0.4, -0.4, 0.4, 0.4);
const bar = (y: number): Point[] => [
  [-0.42, y],
  [0.42, y],
];
const post = (x: number): Point[] => [
  [x, -0.42],
  [x, 0.42],
];

/** Slants, rings, single dots and single bars are left out: charts use / \ O • and – for shaping, yarn overs and purls. */
const byInk = (shapes: readonly ChartSymbol[]): ChartSymbol[] => shapes.toSorted((a, b) => inkOf(a) - inkOf(b));

/** The twelve that are easiest to tell apart at arm's length. */
const COMMON: readonly ChartSymbol[] = byInk([
  { id: "plus", filled: [], drawn: [bar(0), post(0)] },
  { id: "two bars", filled: [], drawn: [bar(-0.2), bar(0.2)] },
  { id: "cross", filled: [], drawn: [[[-0.38, -0.38], [0.38, 0.38]], [[-0.38, 0.38], [0.38, -0.38]]] }, // prettier-ignore
  { id: "open triangle", filled: [], drawn: [closed(up)] },
  { id: "open diamond", filled: [], drawn: [closed(diamond)] },
  { id: "open square", filled: [], drawn: [closed(square)] },
  { id: "small square", filled: [box(-0.2, -0.2, 0.2, 0.2)], drawn: [] },
  { id: "triangle", filled: [up], drawn: [] },
  { id: "triangle down", filled: [down], drawn: [] },
  { id: "diamond", filled: [diamond], drawn: [] },
  { id: "disc", filled: [around(24, () => 0.43)], drawn: [] },
  { id: "square", filled: [square], drawn: [] },
]);

/** All shapes, lightest mark first. */
export const SYMBOLS: readonly ChartSymbol[] = byInk([
  ...COMMON,
  { id: "two posts", filled: [], drawn: [post(-0.2), post(0.2)] },
  { id: "three bars", filled: [], drawn: [bar(-0.33), bar(0), bar(0.33)] },
  { id: "three posts", filled: [], drawn: [post(-0.33), post(0), post(0.33)] },
  { id: "open triangle down", filled: [], drawn: [closed(down)] },
  { id: "window", filled: [], drawn: [closed(square), bar(0), post(0)] },
  { id: "framed square", filled: [box(-0.15, -0.15, 0.15, 0.15)], drawn: [closed(square)] },
  { id: "hourglass", filled: [[[-0.4, -0.44], [0.4, -0.44], [0, 0]], [[-0.4, 0.44], [0.4, 0.44], [0, 0]]], drawn: [] }, // prettier-ignore
  { id: "bow", filled: [[[-0.44, -0.4], [-0.44, 0.4], [0, 0]], [[0.44, -0.4], [0.44, 0.4], [0, 0]]], drawn: [] }, // prettier-ignore
  { id: "check", filled: [box(-0.4, -0.4, 0, 0), box(0, 0, 0.4, 0.4)], drawn: [] },
  { id: "star", filled: [around(10, (corner) => (corner % 2 === 0 ? 0.52 : 0.22))], drawn: [] },
  { id: "corner", filled: [[[-0.42, -0.42], [-0.42, 0.42], [0.42, 0.42]]], drawn: [] }, // prettier-ignore
  { id: "half square", filled: [box(-0.4, 0, 0.4, 0.4)], drawn: [closed(square)] },
]);
