import fc from "fast-check";
import { describe, expect, test } from "vitest";
import tables from "../../test/tables/colourSpaces.json" with { type: "json" };
import { linearFromOklab, oklabFromLinear, oklabFromXyz, xyzFromOklab } from "./oklab.ts";
import type { Xyz } from "./xyz.ts";

function check(xyz: number[], oklab: number[], tolerance: number): void {
  oklabFromXyz(xyz as unknown as Xyz).forEach((value, at) =>
    expect(Math.abs(value - oklab[at]!)).toBeLessThanOrEqual(tolerance),
  );
}

describe("OKLab", () => {
  test.each(tables.oklab.threeDecimals)("$xyz (Ottosson 2020)", ({ xyz, oklab }) => check(xyz, oklab, 0.0005));
  test.each(tables.oklab.eightDecimals)("$xyz (tests of colour-science)", ({ xyz, oklab }) => check(xyz, oklab, 1e-8));

  test("comes back from XYZ and from light", () => {
    const channel = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(channel, channel, channel, (...colour) => {
        xyzFromOklab(oklabFromXyz(colour)).forEach((value, at) => expect(value).toBeCloseTo(colour[at]!, 9));
        linearFromOklab(oklabFromLinear(colour)).forEach((value, at) => expect(value).toBeCloseTo(colour[at]!, 9));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
