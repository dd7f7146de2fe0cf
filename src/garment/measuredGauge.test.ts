/** Gauge by counting, with its error, and what washing does. */
import { expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { measuredGauge, washedBy } from "./measuredGauge.ts";

const counted = { stitches: 28, acrossCm: 10, rows: 30, upCm: 10 };

it("28 stitches and 30 rows over 10 cm, within a quarter of a stitch and a millimetre", () => {
  const { gauge, within } = measuredGauge(counted);
  expect(gauge).toEqual({ stitches: 28, rows: 30 });
  // By hand: √(0.25² / 28² + 0.1² / 10²).
  expect(within.stitches).toBeCloseTo(0.01341, 4);
});

it("counted over more stitches it is surer", () => {
  expect(measuredGauge({ ...counted, stitches: 56, acrossCm: 20 }).within.stitches).toBeLessThan(
    measuredGauge(counted).within.stitches,
  );
});

it("a swatch that is too narrow, or counted up to its edge, is doubted (trade.md 3: 15 cm, the middle 10)", () => {
  const sentences = (widthCm: number): string[] =>
    measuredGauge({ ...counted, swatchWidthCm: widthCm }).problems.map(problemSentence);
  expect(sentences(15)).toEqual([]);
  expect(sentences(13)).toEqual([
    "The swatch: expected at least 15 cm across, found 13 cm.",
    "The stitches: expected them counted in the middle, 2.5 cm from each edge, found 10 cm of a swatch of 13 cm.",
  ]);
});

it("28 × 30 that becomes 29 × 31 is 3.4 % narrower and 3.2 % shorter", () => {
  const { width, height } = washedBy({ stitches: 28, rows: 30 }, { stitches: 29, rows: 31 });
  expect((1 - width) * 100).toBeCloseTo(3.45, 2);
  expect((1 - height) * 100).toBeCloseTo(3.23, 2);
});
