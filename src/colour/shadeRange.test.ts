import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deltaE2000 } from "./difference.ts";
import type { Lab } from "./lab.ts";
import { lightnessRange } from "./shadeRange.ts";

const anyLab = fc.tuple(
  fc.double({ min: 2, max: 98, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
);
const anyUncertainty = fc.double({ min: 0, max: 15, noNaN: true });

describe("how light a shade may be", () => {
  it.each<[number, number, number, number]>([
    // By hand with SL of CIE 142-2001: at 50 SL is within 0.3 % of 1 (mean 51.75: 1 + 0.015·3.06/√23.06 = 1.0096), so 0.7·5·1.01.
    [50, 5, 46.47, 53.53],
    // Upwards from 80 the mean is 81.8: SL = 1 + 0.015·1011/√1031 = 1.472, 0.7·3·1.472 = 3.09; downwards mean 78.5: 1.423, 2.99.
    [80, 3, 77.01, 83.09],
  ])("L* %d with %d: %d to %d", (lightness, uncertainty, low, high) => {
    const [from, to] = lightnessRange([lightness, 20, -5], uncertainty);
    expect(from).toBeCloseTo(low, 1);
    expect(to).toBeCloseTo(high, 1);
  });
  it("its ends lie 0.7 of the uncertainty away by CIEDE2000 itself, or at black or white", () => {
    fc.assert(
      fc.property(anyLab, anyUncertainty, (lab, uncertainty) => {
        const grey = (L: number): Lab => [L, 0, 0];
        const [low, high] = lightnessRange(lab, uncertainty);
        if (low > 0) expect(deltaE2000(grey(low), grey(lab[0]))).toBeCloseTo(0.7 * uncertainty, 6);
        if (high < 100) expect(deltaE2000(grey(high), grey(lab[0]))).toBeCloseTo(0.7 * uncertainty, 6);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("a less certain shade is never narrower; a certain one is a point", () => {
    fc.assert(
      fc.property(anyLab, anyUncertainty, anyUncertainty, (lab, one, other) => {
        const narrow = lightnessRange(lab, Math.min(one, other));
        const wide = lightnessRange(lab, Math.max(one, other));
        expect(wide[0]).toBeLessThanOrEqual(narrow[0]);
        expect(wide[1]).toBeGreaterThanOrEqual(narrow[1]);
      }),
      { seed: 7, numRuns: 200 },
    );
    expect(lightnessRange([63, 5, 5], 0)).toEqual([63, 63]);
  });
});
