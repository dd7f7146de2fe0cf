import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  ballsFromMetres,
  gramsFromMetres,
  metresFromGrams,
  metresPer100gFromBall,
  metresPer100gFromHanks,
  metresPer100gFromMetricCount,
  metresPer100gFromTex,
  metresPer100gFromYardsPerPound,
  metricCountFromMetresPer100g,
  texFromMetresPer100g,
  YARDS_PER_HANK,
  yardsPerPoundFromMetresPer100g,
} from "./lengths.ts";

describe("counts agree with the trade's own arithmetic", () => {
  // Source: trade notes, yarn standards, count relations and their worked checks (hank lengths: trade).
  it.each([
    ["420 m/100 g in tex", texFromMetresPer100g(420), 238.1, 1],
    ["420 m/100 g in Nm", metricCountFromMetresPer100g(420), 4.2, 6],
    ["420 m/100 g in yd/lb", yardsPerPoundFromMetresPer100g(420), 2083, 0],
    ["1 m/g in yd/lb", yardsPerPoundFromMetresPer100g(100), 496.055, 3],
    ["2/8.4 Nm, metres of 25 g", metresFromGrams(25, metresPer100gFromMetricCount(8.4, 2)), 105.0, 1],
    [
      "2/21 Galashiels, metres of 25 g",
      metresFromGrams(25, metresPer100gFromHanks(21, 2, YARDS_PER_HANK.galashiels)),
      105.8,
      1,
    ],
    ["200 m/100 g in tex", texFromMetresPer100g(200), 500, 6],
    ["200 m/100 g in Nm", metricCountFromMetresPer100g(200), 2.0, 6],
    ["5 g leftover at 420 m/100 g", metresFromGrams(5, 420), 21.0, 6],
    ["105 m in 25 g", metresPer100gFromBall({ metres: 105, grams: 25 }), 420, 6],
    // By hand: a worsted count of 2/16 is 8 hanks of 560 yd to the pound, 4480 yd/lb; 4480 / 496.055 = 9.031 m/g.
    ["2/16 worsted", metresPer100gFromHanks(16, 2, YARDS_PER_HANK.worsted), 903.1, 1],
  ])("%s", (_, got, expected, digits) => {
    expect(got).toBeCloseTo(expected, digits);
  });
});

describe("laws", () => {
  const amount = fc.double({ min: 0, max: 5000, noNaN: true });
  const thickness = fc.double({ min: 20, max: 2000, noNaN: true });
  it("grams to metres and back", () => {
    fc.assert(
      fc.property(amount, thickness, (grams, metresPer100g) => {
        expect(gramsFromMetres(metresFromGrams(grams, metresPer100g), metresPer100g)).toBeCloseTo(grams, 8);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("tex and yards per pound undo themselves", () => {
    fc.assert(
      fc.property(thickness, (metresPer100g) => {
        expect(metresPer100gFromTex(texFromMetresPer100g(metresPer100g))).toBeCloseTo(metresPer100g, 8);
        expect(metresPer100gFromYardsPerPound(yardsPerPoundFromMetresPer100g(metresPer100g))).toBeCloseTo(
          metresPer100g,
          8,
        );
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("balls bought hold the metres, and one fewer would not", () => {
    const ball = { metres: 105, grams: 25 };
    expect(ballsFromMetres(105, ball)).toBe(1);
    expect(ballsFromMetres(105.1, ball)).toBe(2);
    expect(ballsFromMetres(0, ball)).toBe(0);
    fc.assert(
      fc.property(amount, (metres) => {
        const balls = ballsFromMetres(metres, ball);
        expect(balls * 105).toBeGreaterThanOrEqual(metres - 0.001);
        expect((balls - 1) * 105).toBeLessThan(Math.max(metres, 0.001));
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
