/** Small weighted least squares with a pull towards a first guess, for cameras known by few colours. */
import { assert } from "../../base/assert.ts";

export interface Equation {
  readonly factors: readonly number[];
  readonly value: number;
  /** Above 0; how many times the equation counts. */
  readonly weight: number;
}

/**
 * The x that makes the weighted squares of `factors · x − value` plus `pull` times those of `x − guess` least.
 * `pull` above 0 keeps it solvable however few equations there are.
 */
export function leastSquares(equations: readonly Equation[], guess: readonly number[], pull: number): number[] {
  assert(pull > 0, `a pull of ${pull}`);
  const size = guess.length;
  const normal = guess.map((value, row) => [
    ...Array.from({ length: size }, (_, column) => (row === column ? pull : 0)),
    pull * value,
  ]);
  for (const { factors, value, weight } of equations)
    for (let row = 0; row < size; row++) {
      const part = weight * factors[row]!;
      for (let column = 0; column < size; column++) normal[row]![column]! += part * factors[column]!;
      normal[row]![size]! += part * value;
    }
  return solve(normal);
}

/** Gauss's elimination with the largest pivot; each row ends with its right side. */
function solve(rows: number[][]): number[] {
  const size = rows.length;
  for (let at = 0; at < size; at++) {
    let best = at;
    for (let row = at + 1; row < size; row++) if (Math.abs(rows[row]![at]!) > Math.abs(rows[best]![at]!)) best = row;
    [rows[at], rows[best]] = [rows[best]!, rows[at]!];
    const pivot = rows[at]![at]!;
    for (let row = 0; row < size; row++) {
      if (row === at || rows[row]![at] === 0) continue;
      const part = rows[row]![at]! / pivot;
      for (let column = at; column <= size; column++) rows[row]![column]! -= part * rows[at]![column]!;
    }
  }
  return rows.map((row, at) => row[size]! / row[at]!);
}
