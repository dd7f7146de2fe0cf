/** A flat thing photographed at a slant: from places on it to pixels. */
import { assert } from "../../base/assert.ts";
import { leastSquares } from "./leastSquares.ts";

export type Point = readonly [number, number];

/** Eight numbers; the ninth of the matrix is 1. */
export type Homography = readonly number[];

/**
 * The perspective that takes each `from` to its `to`, for four pairs exactly, for more by least squares; null where the points
 * lie so that there is none. Source: the direct linear transform, as in any book on projective geometry.
 */
export function homographyBetween(from: readonly Point[], to: readonly Point[]): Homography | null {
  assert(from.length === to.length && from.length >= 4, `a perspective of ${from.length} and ${to.length} points`);
  // Pixels are brought to about 1 first, so that the tiny pull that keeps the equations solvable does not show.
  const scale = Math.max(1, ...to.flat().map(Math.abs));
  const equations = from.flatMap(([x, y], at) => {
    const [u, v] = [to[at]![0] / scale, to[at]![1] / scale];
    return [
      { factors: [x, y, 1, 0, 0, 0, -x * u, -y * u], value: u, weight: 1 },
      { factors: [0, 0, 0, x, y, 1, -x * v, -y * v], value: v, weight: 1 },
    ];
  });
  const [a, b, c, d, e, f, g, h] = leastSquares(equations, [0, 0, 0, 0, 0, 0, 0, 0], 1e-12) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const found = [a * scale, b * scale, c * scale, d * scale, e * scale, f * scale, g, h];
  return found.every(Number.isFinite) ? found : null;
}

export function place(h: Homography, x: number, y: number): [number, number] {
  const depth = h[6]! * x + h[7]! * y + 1;
  return [(h[0]! * x + h[1]! * y + h[2]!) / depth, (h[3]! * x + h[4]! * y + h[5]!) / depth];
}
