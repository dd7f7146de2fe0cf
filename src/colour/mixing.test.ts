import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { labFromHex } from "./lab.ts";
import { mixLab, mixLinear } from "./mixing.ts";

describe("mixing", () => {
  test("half black, half white has half the light, and L* 76.07 (CIE 15: 116 · 0.5^(1/3) − 16, by hand)", () => {
    const parts = ["#000", "#fff"].map((hex) => ({ lab: labFromHex(hex)!, share: 3 }));
    expect(mixLab(parts)[0]).toBeCloseTo(76.07, 2);
  });

  test("shares are areas: 1 of red to 3 of green", () => {
    const mixed = mixLinear([
      { linear: [1, 0, 0], share: 1 },
      { linear: [0, 1, 0], share: 3 },
    ]);
    expect(mixed).toEqual([0.25, 0.75, 0]);
  });

  const light = fc.double({ min: 0, max: 1, noNaN: true });
  const part = fc.record({
    linear: fc.tuple(light, light, light),
    share: fc.double({ min: 0.01, max: 9, noNaN: true }),
  });

  test("a colour mixed with itself stays, and a mixture lies between its parts", () => {
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), (parts) => {
        const same = parts.map(({ share }) => ({ linear: parts[0]!.linear, share }));
        mixLinear(same).forEach((value, at) => expect(value).toBeCloseTo(parts[0]!.linear[at]!, 10));
        mixLinear(parts).forEach((value, at) => {
          const channel = parts.map(({ linear }) => linear[at]!);
          expect(value).toBeGreaterThanOrEqual(Math.min(...channel) - 1e-12);
          expect(value).toBeLessThanOrEqual(Math.max(...channel) + 1e-12);
        });
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test("nothing mixed is our own mistake", () => {
    expect(() => mixLab([])).toThrow("share above 0");
  });
});
