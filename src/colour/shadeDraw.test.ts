import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { deltaE2000 } from "./difference.ts";
import type { Lab } from "./lab.ts";
import { shadeOff, threeNormals } from "./shadeDraw.ts";
import { lightnessRange } from "./shadeRange.ts";

const anyLab = fc.tuple(
  fc.double({ min: 2, max: 98, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
);

describe("likely shades", () => {
  const shades: Lab[] = [
    [50, 0, 0],
    [38, 57, 38],
    [34, 17, -53],
    [76, 4, 60],
    [27, -1, -3],
  ];
  it("four of five lie within the uncertainty, and four of five within the range of lightness", () => {
    const random = seededRandom(7);
    const draws = 6000;
    for (const lab of shades) {
      const [low, high] = lightnessRange(lab, 4);
      let near = 0;
      let asLight = 0;
      for (let draw = 0; draw < draws; draw++) {
        const found = shadeOff(lab, 4, threeNormals(random));
        if (deltaE2000(lab, found) <= 4) near += 1;
        if (found[0] >= low && found[0] <= high) asLight += 1;
      }
      // Five standard deviations of a share of 0.8 in 6000 draws are 0.026; in a strong blue the three directions are not quite square.
      expect(near / draws).toBeGreaterThan(0.774);
      expect(near / draws).toBeLessThan(0.826);
      expect(asLight / draws).toBeGreaterThan(0.72);
      expect(asLight / draws).toBeLessThan(0.88);
    }
  });
  it("lie as far as they are off, on the side that they are off, and a certain shade stays", () => {
    fc.assert(
      fc.property(anyLab, fc.double({ min: 0.1, max: 6, noNaN: true }), (lab, uncertainty) => {
        const lighter = shadeOff(lab, uncertainty, [1, 0, 0]);
        if (lighter[0] < 100) expect(deltaE2000(lab, lighter)).toBeCloseTo(0.5462 * uncertainty, 2);
        expect(lighter[0]).toBeGreaterThan(lab[0]);
        expect(shadeOff(lab, uncertainty, [-1, 0, 0])[0]).toBeLessThan(lab[0]);
        expect(shadeOff(lab, 0, [1, -2, 3])).toEqual(lab);
        expect(shadeOff(lab, uncertainty, [0, 0, 0])).toEqual(lab);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("neither lighter than white nor darker than black", () => {
    expect(shadeOff([99, 0, 1], 20, [4, 0, 0])[0]).toBe(100);
    expect(shadeOff([1, 0, 1], 20, [-4, 0, 0])[0]).toBe(0);
  });
  it("normal numbers have mean 0 and variance 1", () => {
    const random = seededRandom(3);
    const numbers = Array.from({ length: 4000 }, () => threeNormals(random)).flat();
    const mean = numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
    const variance = numbers.reduce((sum, one) => sum + one * one, 0) / numbers.length;
    expect(mean).toBeCloseTo(0, 1);
    expect(variance).toBeCloseTo(1, 1);
  });
});
