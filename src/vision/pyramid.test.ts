/** The levels of detail: nothing is lost, and a wave is found at its own frequency and strength. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import {
  addPart,
  collapse,
  double,
  expand,
  frequencyOf,
  POWER_GAIN,
  pyramidOf,
  surroundings,
  type Edges,
  type Plane,
  type Pyramid,
} from "./pyramid.ts";

const noise = (width: number, height: number, seed: number): Plane => {
  const random = seededRandom(seed);
  return { width, height, data: Float32Array.from({ length: width * height }, () => random()) };
};

const EDGES: Edges[] = [{ x: "mirror" }, { x: "wrap" }];
const size = fc.integer({ min: 1, max: 40 });

/** Side by side, so often. */
function tiled({ width, height, data }: Plane, times: number): Plane {
  const out = new Float32Array(width * times * height);
  for (let at = 0; at < out.length; at++)
    out[at] = data[Math.floor(at / (width * times)) * width + ((at % (width * times)) % width)]!;
  return { width: width * times, height, data: out };
}

const farthest = (one: Plane, other: Plane): number =>
  one.data.reduce((most, light, at) => Math.max(most, Math.abs(light - other.data[at]!)), 0);

describe("pyramid", () => {
  it("of a picture that wraps goes on past its edge as if it stood there again", () => {
    fc.assert(
      fc.property(fc.constantFrom(16, 32, 48), size, fc.nat(1000), (width, height, seed) => {
        const picture = noise(width, height, seed);
        const [one, two] = [picture, tiled(picture, 2)].map((plane) => pyramidOf(plane, 4, { x: "wrap" })) as [
          Pyramid,
          Pyramid,
        ];
        two.details.forEach((detail, level) => {
          expect(farthest(tiled(one.details[level]!, 2), detail)).toBeLessThan(1e-5);
          const [here, there] = [surroundings(one.details[level]!, { x: "wrap" }), surroundings(detail, { x: "wrap" })];
          expect(farthest(tiled(here, 2), there)).toBeLessThan(1e-5);
        });
      }),
      { seed: 7, numRuns: 20 },
    );
  });

  it("adds a part of the detail as a plain sum does", () => {
    const [coarser, detail, part] = [noise(9, 6, 1), noise(17, 12, 2), noise(9, 6, 3)];
    for (const edges of EDGES) {
      const [under, share] = [expand(coarser, detail, edges), double(part, detail, edges)];
      const of = (kept: (at: number) => number) => under.data.map((light, at) => light + kept(at) * detail.data[at]!);
      for (const [given, wanted] of [
        [part, of((at) => share.data[at]!)],
        [0.3, of(() => 0.3)],
        [0, under.data],
        [1, of(() => 1)],
      ] as const)
        addPart(coarser, detail, given, edges).data.forEach((light, at) => expect(light).toBeCloseTo(wanted[at]!, 6));
    }
  });

  it("adds up to the picture again, whatever its size", () => {
    fc.assert(
      fc.property(size, size, fc.nat(1000), fc.constantFrom(...EDGES), (w, h, seed, edges) => {
        const picture = noise(w, h, seed);
        const { details, blurred } = pyramidOf(picture, 5, edges);
        const again = collapse(details, blurred.at(-1)!, edges);
        expect(farthest(again, picture)).toBeLessThan(1e-4);
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
        return surroundings(square).data[(h >> 1) * w + (w >> 1)]!;
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
    const { data } = surroundings({ width: 9, height: 3, data: new Float32Array(27).fill(2) });
    for (const light of data) expect(light).toBeCloseTo(2, 5);
  });
});
