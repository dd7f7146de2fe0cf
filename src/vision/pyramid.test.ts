/** The levels of detail: nothing is lost, and a wave is found at its own frequency and strength. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { collapse, frequencyOf, POWER_GAIN, pyramidOf, surroundings, type Plane } from "./pyramid.ts";

const noise = (width: number, height: number, seed: number): Plane => {
  const random = seededRandom(seed);
  return { width, height, data: Float32Array.from({ length: width * height }, () => random()) };
};

describe("pyramid", () => {
  it("adds up to the picture again, whatever its size", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 }), fc.nat(1000), (w, h, seed) => {
        const picture = noise(w, h, seed);
        const { details, blurred } = pyramidOf(picture, 5);
        collapse(details, blurred.at(-1)!).data.forEach((light, at) => expect(light).toBeCloseTo(picture.data[at]!, 4));
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  it("finds no detail in a uniform field", () => {
    const { details } = pyramidOf({ width: 33, height: 20, data: new Float32Array(660).fill(0.4) }, 4);
    for (const { data } of details) for (const light of data) expect(Math.abs(light)).toBeLessThan(1e-6);
  });

  // The wave's own frequency and power, amplitude² / 2, are the expected values; an octave is 1.
  it.each([0.03, 0.04, 0.055, 0.07, 0.09, 0.12])(
    "finds a wave of %f cycles per pixel within a fifth of an octave",
    (f) => {
      const width = 256;
      const data = Float32Array.from({ length: width * width }, (_, at) => Math.cos(2 * Math.PI * f * (at % width)));
      const { details } = pyramidOf({ width, height: width, data }, 6);
      const powers = details.map(({ width: w, height: h, data: level }) => {
        const square = { width: w, height: h, data: level.map((light) => light * light) };
        return surroundings(square, 3).data[(h >> 1) * w + (w >> 1)]!;
      });
      const strongest = powers.indexOf(Math.max(...powers));
      const level = Math.max(1, strongest);
      const [fine, own, coarse] = [powers[level - 1]!, powers[level]!, powers[level + 1]!];
      const found = frequencyOf(level, (fine - coarse) / (fine + own + coarse));
      expect(Math.abs(Math.log2(found / f))).toBeLessThan(0.2);
      expect(Math.abs(Math.log2((fine + own + coarse) / POWER_GAIN / 0.5))).toBeLessThan(0.5);
    },
  );

  it("keeps the mean of surroundings at a uniform field's own", () => {
    const { data } = surroundings({ width: 9, height: 3, data: new Float32Array(27).fill(2) }, 3);
    for (const light of data) expect(light).toBeCloseTo(2, 5);
  });
});
