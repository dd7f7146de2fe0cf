/** The trade's worked values that reach over several rooms: yarn by area and by weight, other models beside ours, the longest float by gauge. */
import { describe, expect, it } from "vitest";
import { comfortableFloat } from "../src/audit/floats.ts";
import { stitchSizeMm } from "../src/garment/gauge.ts";
import { floatLengthMm, loopLengthMm } from "../src/plan/loopLength.ts";
import { gramsFromMetres, metresFromGrams } from "../src/yarn/lengths.ts";

const GAUGE = { stitches: 28, rows: 30 };
const plainMm = loopLengthMm(GAUGE);
const twoStrandMm = plainMm + floatLengthMm(GAUGE);

describe("yarn at 28 × 30 and 420 m to 100 g (trade.md 1.5)", () => {
  it("3.82 g and 4.75 g to a thousand stitches, plain and in two strands", () => {
    expect(gramsFromMetres(plainMm, 420)).toBeCloseTo(3.82, 2);
    expect(gramsFromMetres(twoStrandMm, 420)).toBeCloseTo(4.75, 2);
  });
  it("a square metre is 84 000 stitches: 1347 m and 320.7 g plain, 1677 m and 399 g in two strands", () => {
    expect(Math.round(84 * plainMm)).toBe(1347);
    expect(gramsFromMetres(84 * plainMm, 420)).toBeCloseTo(320.7, 1);
    expect(Math.round(84 * twoStrandMm)).toBe(1677);
    expect(Math.round(gramsFromMetres(84 * twoStrandMm, 420))).toBe(399);
  });
  it("5 g are 21 m: about 1310 plain stitches, or 1050 as one of two equal colours", () => {
    const metres = metresFromGrams(5, 420);
    expect(metres).toBe(21);
    expect(Math.round((1000 * metres) / plainMm / 10) * 10).toBe(1310);
    expect(Math.round((1000 * metres) / twoStrandMm / 10) * 10).toBe(1050);
  });
});

describe("metres of a whole garment by its area, 100 · A · √(ks · S), A = 0.876 m² (trade.md 1.6)", () => {
  // To the ten metres that the source states.
  it.each([
    [28, 36, 1290],
    [28, 30, 1180],
    [24, 32, 1130],
    [22, 28, 1010],
    [18, 24, 845],
    [14, 20, 680],
    [10, 14, 480],
  ])("%i × %i: %i m", (stitches, rows, metres) => {
    const perSquareMetre = stitches * rows * 100;
    const found = (0.876 * perSquareMetre * loopLengthMm({ stitches, rows })) / 1000;
    expect(Math.abs(found - metres)).toBeLessThanOrEqual(6);
  });
});

describe("other models, as a check on ours (trade.md 1.2)", () => {
  it("Peirce's l = 2p + w + 5.94 d at 28 × 30: 13.8, 15.0 and 16.2 mm for a yarn of 0.6, 0.8 and 1.0 mm; ours agrees for a lofty one", () => {
    const { widthMm, heightMm } = stitchSizeMm(GAUGE);
    const peirce = (diameterMm: number): number => 2 * heightMm + widthMm + 5.94 * diameterMm;
    for (const [diameter, mm] of [
      [0.6, 13.8],
      [0.8, 15.0],
      [1.0, 16.2],
    ] as const)
      expect(peirce(diameter)).toBeCloseTo(mm, 1);
    expect(Math.abs(plainMm - peirce(1))).toBeLessThan(0.2);
  });
  it("from one direction alone kw gives 14.6 mm and kc 17.7; the density's 16.0 lies between", () => {
    expect((10 * 4.1) / 2.8).toBeCloseTo(14.6, 1);
    expect((10 * 5.3) / 3).toBeCloseTo(17.7, 1);
    expect(plainMm).toBeGreaterThan((10 * 4.1) / 2.8);
    expect(plainMm).toBeLessThan((10 * 5.3) / 3);
  });
  it("length × width × stitches / 6 in yards and inches has a reserve in it: a quarter more than plain", () => {
    // 1680 m to a square metre at 28 stitches to 10 cm.
    expect(1680 / (84 * plainMm)).toBeCloseTo(1.25, 2);
  });
});

it.each([
  // floor(2.5 cm × gauge / 10): trade.md 3.
  [18, 4],
  [22, 5],
  [24, 6],
  [26, 6],
  [28, 7],
  [30, 7],
  [32, 8],
  [34, 8],
])("at %i stitches to 10 cm a strand may pass %i", (stitches, passed) => {
  expect(comfortableFloat(stitches, 2.5)).toBe(passed);
});
