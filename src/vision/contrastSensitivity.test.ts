/** castleCSF against the 120 rows put out by its published implementation, v0.2.4. */
import { describe, expect, it } from "vitest";
import table from "../../test/tables/castlecsf.json" with { type: "json" };
import { transform, type Vector3 } from "../base/matrix3.ts";
import { chromaticGuard, sensitivity, type Channel } from "./contrastSensitivity.ts";
import { LMS_TO_OPPONENT } from "./opponent.ts";

/** Relative; the bar of the design. */
const TOLERANCE = 1e-6;

const CHANNELS: Channel[] = ["lightDark", "redGreen", "yellowViolet"];

/** The published code's default background, LMS per cd/m². */
const BACKGROUND: Vector3 = [0.6991, 0.3009, 0.0198];

function expectClose(actual: number, expected: number): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThan(TOLERANCE);
}

/**
 * The published code's default direction of modulation, from memory; the table's own numbers give the same direction
 * (least squares over its 72 rows: 0.69906 : 0.30094 : 0.01978).
 */
const DEFAULT_DIRECTION: Vector3 = [0.6855, 0.2951, 0.0194];

/** 1 / cone contrast at threshold for a direction of modulation. */
function coneSensitivity(delta: Vector3, frequency: number, luminance: number, area: number): number {
  const background = BACKGROUND.map((cone) => cone * luminance) as unknown as Vector3;
  const response = transform(LMS_TO_OPPONENT, background)[0];
  const moved = transform(LMS_TO_OPPONENT, delta);
  const visible = Math.hypot(
    ...CHANNELS.map((channel, index) => (moved[index]! / response) * sensitivity(channel, frequency, luminance, area)),
  );
  const cone = Math.sqrt(delta.reduce((sum, part, index) => sum + (part / background[index]!) ** 2, 0) / 3);
  return visible / cone;
}

describe("contrast sensitivity", () => {
  it.each(table.mechanism_rows)("$f_cpd cpd, $L_cd_m2 cd/m², $area_deg2 deg²", (row) => {
    const published = [row.S_ach, row.S_rg, row.S_yv];
    CHANNELS.forEach((channel, index) =>
      expectClose(sensitivity(channel, row.f_cpd, row.L_cd_m2, row.area_deg2), published[index]!),
    );
    expectClose(
      coneSensitivity(DEFAULT_DIRECTION, row.f_cpd, row.L_cd_m2, row.area_deg2),
      row.S_default_D65_luminance_modulation,
    );
  });

  it.each(table.colour_direction_rows)("$direction, $f_cpd cpd, $L_cd_m2 cd/m², $area_deg2 deg²", (row) => {
    const actual = coneSensitivity(row.lms_delta as unknown as Vector3, row.f_cpd, row.L_cd_m2, row.area_deg2);
    expectClose(actual, row.S_cone_contrast);
  });

  // vision.md B5: 0.59 at 8 cycles per degree, 0.07 at 12.
  it("guards the colour channels at high frequencies", () => {
    expect(chromaticGuard(8)).toBeCloseTo(0.59, 2);
    expect(chromaticGuard(12)).toBeCloseTo(0.07, 2);
  });
});
