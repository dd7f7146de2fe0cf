/** How far rows read, and what "low" and "high" mean: the ends of everything that is not known, all at once. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { clothOfPattern, type Cloth } from "./cloth.ts";
import { readsToIn, rowContrast, spectrumMemory, UNTUNED, USUAL_VIEWING, type Doubt } from "./contrast.ts";
import { readsTo } from "./visibility.ts";

const GAUGE = { stitches: 28, rows: 30 };
const memory = spectrumMemory();
const SURE: Doubt = { thresholdMean: 0, thresholdSd: 0 };

function clothOf(rows: readonly string[], labs: readonly Lab[], uncertainty = 0): Cloth {
  const colours = labs.map((lab, at) => ({ id: String(at), shade: { lab, uncertainty } }));
  return clothOfPattern({ chart: { id: "c", rows: [...rows] }, pattern: { gauge: GAUGE, colours, charts: [] } });
}

const lab = fc.record({ L: fc.double({ min: 15, max: 90, noNaN: true }), a: hue(), b: hue() });
function hue() {
  return fc.double({ min: -35, max: 35, noNaN: true });
}
const labOf = ({ L, a, b }: { L: number; a: number; b: number }): Lab => [L, a, b];

describe("a row that nothing is in doubt of", () => {
  it("reads as far as the public measure says of its motif, with the ends of hue alone", () => {
    const labs: Lab[] = [
      [78, 2, 14],
      [44, 30, 18],
    ];
    const motif = { background: labs[0]!, foreground: labs[1]!, gauge: GAUGE, rows: "once" as const };
    const here = readsToIn(clothOf(["00110011"], labs), [1, 1], USUAL_VIEWING, memory, SURE)!;
    const expected = readsTo({ ...motif, motif: ["0011"] });
    // What is read between two steps of 3 % errs by less than a thousandth.
    for (const end of ["metres", "low", "high"] as const)
      expect(Math.abs(here[end] - expected[end])).toBeLessThanOrEqual(1e-3 * expected[end]);
  });
});

describe("low and high", () => {
  const rows = ["000000", "011110", "000000"];
  it("are where the row's own low and high end of V meet what is clear; so is the estimate", () => {
    fc.assert(
      fc.property(
        lab,
        lab,
        fc.double({ min: 0, max: 6, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (one, other, uncertainty, theta) => {
          const cloth = clothOf(rows, [labOf(one), labOf(other)], uncertainty);
          const doubt: Doubt = { thresholdMean: theta, thresholdSd: 0.4 };
          const reads = readsToIn(cloth, [2, 2], USUAL_VIEWING, memory, doubt);
          if (!reads) return;
          const at = (distanceM: number) => rowContrast(cloth, 2, { distanceM, lux: 500 }, spectrumMemory(), doubt);
          const clear = 3 * Math.exp(theta);
          // Nothing is claimed at the ends of the model: nearer than 0.3 m, or where 60 cycles per degree are reached.
          const inside = (metres: number): boolean => metres > 0.31 && !reads.beyond && metres < 6;
          if (inside(reads.metres)) expect(at(reads.metres).V!).toBeCloseTo(clear, 2);
          if (inside(reads.low)) expect(at(reads.low).low!).toBeCloseTo(3, 2);
          if (inside(reads.high)) expect(at(reads.high).high!).toBeCloseTo(3, 2);
          expect(reads.low).toBeLessThanOrEqual(reads.metres);
          expect(reads.high).toBeGreaterThanOrEqual(reads.metres);
        },
      ),
      { seed: 41, numRuns: 60 },
    );
  });

  it("lie farther apart for a shade less sure, and for an eye less known", () => {
    const labs: Lab[] = [
      [66, 4, 12],
      [48, 6, 10],
    ];
    const width = (uncertainty: number, doubt: Doubt): number => {
      const { low, high } = readsToIn(clothOf(rows, labs, uncertainty), [2, 2], USUAL_VIEWING, memory, doubt)!;
      return high - low;
    };
    expect(width(3, SURE)).toBeGreaterThan(width(0, SURE));
    expect(width(3, UNTUNED)).toBeGreaterThan(width(3, SURE));
  });

  it("for hue alone the low end is never: light and dark carry nothing", () => {
    const labs: Lab[] = [
      [50, 42, 20],
      [50, -30, 10],
    ];
    expect(readsToIn(clothOf(["0101"], labs), [1, 1], USUAL_VIEWING, memory, SURE)!.low).toBe(0);
  });
});

describe("a stripe of one colour", () => {
  it("reads to where its V against the nearer neighbour is clear", () => {
    const labs: Lab[] = [
      [82, 0, 8],
      [60, 0, 8],
      [64, 0, 8],
    ];
    const cloth = clothOf(["222222", "111111", "000000"], labs);
    const { metres } = readsToIn(cloth, [2, 2], USUAL_VIEWING, memory, SURE)!;
    const V = (distanceM: number) => rowContrast(cloth, 2, { distanceM, lux: 500 }, memory, SURE).V!;
    // Greys 4 apart: lost from the start, so never; the stripe is no better than its weaker side.
    expect(metres).toBe(0);
    for (const distance of [0.31, 0.7, 1.5, 4]) expect(V(distance)).toBeLessThan(3);
    const bolder = clothOf(["000000", "111111", "000000"], labs);
    const reads = readsToIn(bolder, [2, 2], USUAL_VIEWING, memory, SURE)!;
    expect(reads.metres).toBeGreaterThan(0.3);
    const seen = rowContrast(bolder, 2, { distanceM: reads.metres, lux: 500 }, memory, SURE).V!;
    if (!reads.beyond) expect(seen).toBeCloseTo(3, 2);
    else expect(seen).toBeGreaterThanOrEqual(3);
  });
});
