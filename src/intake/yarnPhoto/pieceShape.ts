/** The form of a piece of a picture: how far it is from hollow, how even in width, where it lies. */
import type { Box } from "../../raster/raster.ts";
import type { Point } from "./homography.ts";

export interface PieceShape {
  readonly box: Box;
  /** Corners of the smallest polygon without hollows around it, clockwise on the screen, at the corners of pixels. */
  readonly hull: readonly Point[];
  /** Its area over that of its hull, 0 to 1. */
  readonly solidity: number;
  /** Longer over shorter side of the rectangle that lies along it. */
  readonly aspect: number;
  /** How far its hull is from an ellipse: 1 for one, 1.27 for a rectangle, 1.65 for a triangle. */
  readonly unround: number;
  /** Pairs of pixels across its edge, and those of them at the picture's own edge. */
  readonly rim: number;
  readonly atPictureEdge: number;
}

/** @param pixels of the piece, as row × width + column; `isIn` says of every pixel of the picture whether it is one */
export function shapeOf(
  pixels: Int32Array,
  isIn: (pixel: number) => boolean,
  { width, height }: { readonly width: number; readonly height: number },
): PieceShape {
  let [left, right, top, bottom] = [width, -1, height, -1];
  let rim = 0;
  let atPictureEdge = 0;
  const starts = new Int32Array(height).fill(width);
  const stops = new Int32Array(height).fill(-1);
  let [sumX, sumY, sumXX, sumYY, sumXY] = [0, 0, 0, 0, 0];
  for (const pixel of pixels) {
    const y = Math.floor(pixel / width);
    const x = pixel - y * width;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
    starts[y] = Math.min(starts[y]!, x);
    stops[y] = Math.max(stops[y]!, x);
    atPictureEdge += (x === 0 || x === width - 1 ? 1 : 0) + (y === 0 || y === height - 1 ? 1 : 0);
    if (x > 0 && !isIn(pixel - 1)) rim++;
    if (x < width - 1 && !isIn(pixel + 1)) rim++;
    if (y > 0 && !isIn(pixel - width)) rim++;
    if (y < height - 1 && !isIn(pixel + width)) rim++;
    sumX += x;
    sumY += y;
    sumXX += x * x;
    sumYY += y * y;
    sumXY += x * y;
  }
  rim += atPictureEdge;
  const count = pixels.length;
  // A pixel is a square: its own second moment is a twelfth.
  const xx = sumXX / count - (sumX / count) ** 2 + 1 / 12;
  const yy = sumYY / count - (sumY / count) ** 2 + 1 / 12;
  const xy = sumXY / count - (sumX * sumY) / count ** 2;
  const half = Math.hypot((xx - yy) / 2, xy);
  const aspect = Math.sqrt(((xx + yy) / 2 + half) / Math.max(1 / 12, (xx + yy) / 2 - half));
  const corners: Point[] = [];
  for (let y = top; y <= bottom; y++)
    if (stops[y]! >= 0) for (const end of [y, y + 1]) corners.push([starts[y]!, end], [stops[y]! + 1, end]);
  const hull = hullOf(corners);
  return {
    box: { x: left, y: top, width: right - left + 1, height: bottom - top + 1 },
    hull,
    solidity: Math.min(1, count / Math.max(1, Math.abs(areaOf(hull)))),
    aspect,
    unround: unroundness(hull, xx, yy, xy),
    rim,
    atPictureEdge,
  };
}

const turn = (a: Point, b: Point, c: Point): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Clockwise on the screen, where y goes down. Source: the monotone chain of Andrew 1979. */
export function hullOf(points: readonly Point[]): Point[] {
  const sorted = points.toSorted((one, other) => one[0] - other[0] || one[1] - other[1]);
  const chain = (list: readonly Point[]): Point[] => {
    const kept: Point[] = [];
    for (const point of list) {
      while (kept.length > 1 && turn(kept.at(-2)!, kept.at(-1)!, point) <= 0) kept.pop();
      kept.push(point);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}

/** Above 0 where the points go clockwise on the screen. */
export function areaOf(points: readonly Point[]): number {
  return points.reduce((sum, [x, y], at) => {
    const [nextX, nextY] = points[(at + 1) % points.length]!;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

/** Perimeter² over 4π area of a polygon, once it is drawn out to be as broad as long. */
function unroundness(hull: readonly Point[], xx: number, yy: number, xy: number): number {
  // The lower triangle of Cholesky's root, turned round, takes the moments to 1.
  const root = Math.sqrt(xx);
  const across = xy / root;
  const along = Math.sqrt(Math.max(1e-9, yy - across * across));
  const even = hull.map(([x, y]): Point => [x / root, (y - (across * x) / root) / along]);
  const around = even.reduce((sum, [x, y], at) => {
    const [nextX, nextY] = even[(at + 1) % even.length]!;
    return sum + Math.hypot(nextX - x, nextY - y);
  }, 0);
  return around ** 2 / (4 * Math.PI * Math.max(1e-9, Math.abs(areaOf(even))));
}
