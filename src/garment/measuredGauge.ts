/** Gauge out of a swatch: counted in its middle, with what counting leaves open, and what washing made of it. */
import type { Problem } from "../base/problem.ts";
import type { Gauge } from "./gauge.ts";

export interface Counted {
  /** Counted over `acrossCm`, halves too. */
  readonly stitches: number;
  readonly acrossCm: number;
  readonly rows: number;
  readonly upCm: number;
  /** How wide the whole swatch is; missing where she has not said. */
  readonly swatchWidthCm?: number;
}

export interface MeasuredGauge {
  readonly gauge: Gauge;
  /** Errors as shares. */
  readonly within: { readonly stitches: number; readonly rows: number };
  readonly problems: readonly Problem[];
}

/** Where a count begins and ends is seen to a quarter of a stitch, and a ruler lies within a millimetre. Our choice. */
const COUNT_ERROR = 0.25;
const RULER_CM = 0.1;
/** Edges curl and are drawn in: so much is left out at each. A swatch is 15 cm wide at least, and 10 of them are measured. Source: trade.md 3. */
const EDGE_CM = 2.5;
const LEAST_WIDTH_CM = 15;

/** Example: 28 stitches over 10 cm: 28 ± 1.3 %; from one edge of a swatch of 11 cm it is no gauge, and that is told. */
export function measuredGauge({ stitches, acrossCm, rows, upCm, swatchWidthCm }: Counted): MeasuredGauge {
  const within = (count: number, cm: number): number => Math.hypot(COUNT_ERROR / count, RULER_CM / cm);
  const problems: Problem[] = [];
  if (swatchWidthCm !== undefined && swatchWidthCm < LEAST_WIDTH_CM)
    problems.push({
      where: "the swatch",
      expected: `at least ${LEAST_WIDTH_CM} cm across`,
      got: `${swatchWidthCm} cm`,
      severity: "doubt",
    });
  if (swatchWidthCm !== undefined && acrossCm > swatchWidthCm - 2 * EDGE_CM)
    problems.push({
      where: "the stitches",
      expected: `them counted in the middle, ${EDGE_CM} cm from each edge`,
      got: `${acrossCm} cm of a swatch of ${swatchWidthCm} cm`,
      severity: "doubt",
    });
  return {
    gauge: { stitches: (10 * stitches) / acrossCm, rows: (10 * rows) / upCm },
    within: { stitches: within(stitches, acrossCm), rows: within(rows, upCm) },
    problems,
  };
}

/**
 * What washing did to width and height, as factors: 0.97 is 3 % narrower. Munden's wool takes some 6 % in each direction when it is first
 * soaked and dried flat (trade.md 3, derived).
 */
export const washedBy = (before: Gauge, after: Gauge): { readonly width: number; readonly height: number } => ({
  width: before.stitches / after.stitches,
  height: before.rows / after.rows,
});
