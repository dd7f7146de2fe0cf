/** Maps of the plane that keep lines straight, as PDF and SVG write them: [a b c d e f] takes x, y to ax + cy + e, bx + dy + f. */
import type { Point } from "../chartGrid.ts";

export type Affine = readonly [number, number, number, number, number, number];

/** First `inner`, then `outer`. */
export function composed(outer: Affine, inner: Affine): Affine {
  const [a, b, c, d, e, f] = outer;
  const [p, q, r, s, t, u] = inner;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

export const moved = ([a, b, c, d, e, f]: Affine, [x, y]: Point): Point => [a * x + c * y + e, b * x + d * y + f];

/** The length of the mean side that a square of side 1 becomes. */
export const scaleOf = ([a, b, c, d]: Affine): number => Math.sqrt(Math.abs(a * d - b * c));

/** A turn about the origin, clockwise where y points down; degrees. */
export function turn(degrees: number): Affine {
  const [cosine, sine] = quarter(degrees) ?? [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return [cosine, sine, -sine, cosine, 0, 0];
}

/** Quarter turns without the last bit's error. */
function quarter(degrees: number): readonly [number, number] | null {
  if (degrees % 90 !== 0) return null;
  return ([[1, 0], [0, 1], [-1, 0], [0, -1]] as const)[(((degrees / 90) % 4) + 4) % 4]!; // prettier-ignore
}

export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

/** A cubic curve as short straight lines, its start left out. */
export function curve(from: Point, one: Point, other: Point, to: Point): Point[] {
  return Array.from({ length: CURVE_PARTS }, (_, index) => {
    const t = (index + 1) / CURVE_PARTS;
    const u = 1 - t;
    const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return [
      a * from[0] + b * one[0] + c * other[0] + d * to[0],
      a * from[1] + b * one[1] + c * other[1] + d * to[1],
    ] as const;
  });
}

/** A quarter circle in so many lines keeps within 0.3 % of its radius; our choice. */
const CURVE_PARTS = 8;
