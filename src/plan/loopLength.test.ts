import fc from "fast-check";
import { describe, expect, it } from "vitest";
import munden from "../../test/tables/munden.json" with { type: "json" };
import { floatLengthMm, loopLengthMm, MUNDEN_KS, type Relaxed } from "./loopLength.ts";

/** Half a unit of the last digit that the table states. */
const TO_TWO_DIGITS = 0.005 + 1e-9;
const TO_THREE_DIGITS = 0.0005 + 1e-9;

describe("loop length", () => {
  it.each(munden.states)("$state has the ks of the table", ({ state, ks }) => {
    expect(MUNDEN_KS[state as Relaxed]).toBe(ks);
  });

  it.each(munden.tests)("$sts10 × $rows10 as in the worked table", (row) => {
    const gauge = { stitches: row.sts10, rows: row.rows10 };
    expect(Math.abs(loopLengthMm(gauge, MUNDEN_KS["dry-relaxed"]) - row.l_mm_dry)).toBeLessThan(TO_TWO_DIGITS);
    expect(Math.abs(loopLengthMm(gauge) - row.l_mm_wet)).toBeLessThan(TO_THREE_DIGITS);
    expect(Math.abs(loopLengthMm(gauge, MUNDEN_KS["fully-relaxed"]) - row.l_mm_full)).toBeLessThan(TO_THREE_DIGITS);
    expect(Math.abs(floatLengthMm(gauge, 0) - row.w_mm)).toBeLessThan(1e-4);
    expect(Math.abs(loopLengthMm(gauge) + floatLengthMm(gauge) - row.stranded_mm_slack10)).toBeLessThan(
      TO_THREE_DIGITS,
    );
  });

  // Source: trade.md 1.5, two decimals: gauge → plain mm, two-strand mm with slack 0.10.
  it.each([
    [28, 30, 16.04, 19.96],
    [30, 32, 15.0, 18.67],
    [34, 40, 12.6, 15.84],
    [26, 28, 17.23, 21.46],
    [24, 32, 16.77, 21.35],
    [22, 28, 18.73, 23.73],
    [18, 24, 22.36, 28.47],
    [14, 20, 27.77, 35.63],
  ])("%d × %d: %f mm plain, %f mm two-strand", (stitches, rows, plain, twoStrand) => {
    const gauge = { stitches, rows };
    expect(Math.abs(loopLengthMm(gauge) - plain)).toBeLessThan(TO_TWO_DIGITS);
    expect(Math.abs(loopLengthMm(gauge) + floatLengthMm(gauge) - twoStrand)).toBeLessThan(TO_TWO_DIGITS);
  });

  // Source: trade.md 1.3: 22 % more yarn without slack, 24.5 % at 0.10, 26.7 % at 0.20.
  it.each([
    [0, 22],
    [0.1, 24.5],
    [0.2, 26.7],
  ])("two-strand rows with slack %f use %f %% more", (slack, percent) => {
    const gauge = { stitches: 28, rows: 30 };
    expect((floatLengthMm(gauge, slack) / loopLengthMm(gauge)) * 100).toBeCloseTo(percent, percent === 22 ? 0 : 1);
  });

  it("the honest range is −6 % to +3.4 % (trade.md 1.1)", () => {
    const gauge = { stitches: 28, rows: 30 };
    const wet = loopLengthMm(gauge);
    expect((loopLengthMm(gauge, MUNDEN_KS["dry-relaxed"]) / wet - 1) * 100).toBeCloseTo(-6.2, 1);
    expect((loopLengthMm(gauge, MUNDEN_KS["fully-relaxed"]) / wet - 1) * 100).toBeCloseTo(3.4, 1);
  });

  it("a denser fabric never has longer loops", () => {
    const count = fc.integer({ min: 8, max: 60 });
    fc.assert(
      fc.property(count, count, count, (stitches, rows, more) => {
        expect(loopLengthMm({ stitches: stitches + more, rows })).toBeLessThan(loopLengthMm({ stitches, rows }));
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
