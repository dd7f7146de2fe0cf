import fc from "fast-check";
import { describe, expect, test } from "vitest";
import table from "../../test/tables/perceivedLightness.json" with { type: "json" };
import { labFromLch, type Lch } from "./lab.ts";
import { perceivedLightness, valueClass, type ValueClass } from "./value.ts";

describe("perceived lightness", () => {
  // Source: perceivedLightness.json, four decimals.
  test.each(table.examples)("$lch looks as light as $perceived", ({ lch, perceived }) => {
    const lab = labFromLch(lch as unknown as Lch);
    const step = lch[2] === 90 || lch[2] === 270 ? 0.006 * lch[1]! + 1e-4 : 0;
    // At 90° and 270° the published form steps; on which side of it an angle falls is rounding.
    expect(Math.abs(perceivedLightness(lab) - perceived)).toBeLessThan(6e-5 + step);
  });

  test("colour never looks darker than its grey, and a grey is as light as it is", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (lightness, chroma, hue) => {
          expect(perceivedLightness(labFromLch([lightness, chroma, hue]))).toBeGreaterThanOrEqual(lightness);
          expect(perceivedLightness([lightness, 0, 0])).toBe(lightness);
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("value classes", () => {
  // Common practice, no source: light from 72, light-medium from 55, medium-dark from 35.
  test.each<[number, ValueClass]>([
    [100, "light"],
    [72, "light"],
    [71.99, "light-medium"],
    [55, "light-medium"],
    [54.99, "medium-dark"],
    [35, "medium-dark"],
    [34.99, "dark"],
    [0, "dark"],
  ])("L* %s is %s", (lightness, expected) => {
    expect(valueClass(lightness)).toBe(expected);
  });

  test("her own limits count", () => {
    expect(valueClass(60, { light: 58, lightMedium: 40, mediumDark: 20 })).toBe("light");
  });
});
