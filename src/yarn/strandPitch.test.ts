/** Thickness of wound strands against the trade's wraps per inch. */
import { describe, expect, it } from "vitest";
import { fleckLengthMm, strandPitchOf } from "./strandPitch.ts";

// Source: trade.md 2: metres in 100 g of each class and its wraps per inch, the least and the most of both columns.
const CLASSES = [
  { weightClass: 0, metres: [600, 800], wraps: [18, 40] },
  { weightClass: 1, metres: [350, 450], wraps: [14, 24] },
  { weightClass: 2, metres: [250, 350], wraps: [12, 18] },
  { weightClass: 3, metres: [200, 250], wraps: [11, 15] },
  { weightClass: 4, metres: [120, 200], wraps: [9, 12] },
] as const;

describe.each(CLASSES)("class $weightClass", ({ weightClass, metres, wraps }) => {
  it("lies within its wraps per inch by its metres", () => {
    for (const metresPer100g of metres) {
      const { mm, low, high } = strandPitchOf({ metresPer100g })!;
      expect(25.4 / mm).toBeGreaterThan(wraps[0] * 0.98);
      expect(25.4 / mm).toBeLessThan(wraps[1] * 1.02);
      expect(low).toBeLessThan(mm);
      expect(high).toBeGreaterThan(mm);
    }
  });

  it("is told by its class with that range where nothing else is known", () => {
    const { mm, low, high } = strandPitchOf({ weightClass })!;
    expect(25.4 / low).toBeCloseTo(wraps[1], 6);
    expect(25.4 / high).toBeCloseTo(wraps[0], 6);
    expect(mm).toBeGreaterThan(low);
  });
});

it("nothing known gives no length", () => {
  expect(strandPitchOf({})).toBeNull();
  // Of jumbo no wraps are published.
  expect(strandPitchOf({ weightClass: 7 })).toBeNull();
  expect(fleckLengthMm(12, {})).toBeUndefined();
  expect(fleckLengthMm(undefined, { metresPer100g: 400 })).toBeUndefined();
  // 30 / √400 = 1.5 mm, by hand.
  expect(fleckLengthMm(12, { metresPer100g: 400, weightClass: 5 })).toBe(18);
});
