import Color from "colorjs.io";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import tables from "../../test/tables/colourSpaces.json" with { type: "json" };
import names from "../../test/tables/isccNbs.json" with { type: "json" };
import { seededRandom } from "../base/random.ts";
import {
  hexFromLab,
  labFromHex,
  labFromLch,
  labFromLinear,
  labFromXyz,
  lchFromLab,
  linearFromLab,
  xyzFromLab,
  type Lab,
} from "./lab.ts";
import { linearFromBytes } from "./srgb.ts";
import { bradfordAdapt, WHITE_D50, WHITE_D65, xyzFromLinear, type Xyz } from "./xyz.ts";

/** Whites of the table, from the chromaticities that it prints. */
const WHITES: Record<string, Xyz> = {
  D65: [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329],
  D50: WHITE_D50,
};
const anyLab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -128, max: 128, noNaN: true }),
  fc.double({ min: -128, max: 128, noNaN: true }),
);

function expectClose(actual: readonly number[], expected: readonly number[], tolerance: number): void {
  actual.forEach((value, at) => expect(Math.abs(value - expected[at]!)).toBeLessThan(tolerance));
}

describe("CIELAB", () => {
  test.each(tables.cielab)("$lab from XYZ, as published (tests of colour-science)", ({ xyz, white, lab }) => {
    // The table is printed with eight decimals.
    expectClose(labFromXyz(xyz as unknown as Xyz, WHITES[white]), lab, 1e-7);
  });

  const PRIMARIES: Record<string, string> = {
    white: "#fff",
    black: "#000",
    red: "#f00",
    green: "#0f0",
    blue: "#00f",
    grey50: "#808080",
    yellow: "#ff0",
  };
  test.each(Object.entries(tables.srgb.lab))("%s", (name, lab) => {
    expectClose(labFromHex(PRIMARIES[name]!)!, lab, 1e-4);
  });

  // Derived check values of the trade reference, one decimal.
  test.each([
    ["#FF0000", 53.2],
    ["#00FF00", 87.7],
    ["#0000FF", 32.3],
    ["#808080", 53.6],
    ["#777777", 50.0],
  ])("L* of %s is %s", (hex, lightness) => {
    expect(Math.abs(labFromHex(hex)![0] - lightness)).toBeLessThan(0.05);
  });

  test.each(names.centroids)("$hex ($name), evaluated outside this project with two decimals", ({ hex, lab }) => {
    expectClose(labFromHex(hex)!, lab, 0.0051);
    expect(hexFromLab(labFromHex(hex)!)).toBe(hex);
  });

  test("greys are neutral", () => {
    for (let byte = 0; byte < 256; byte++) {
      const [, a, b] = labFromLinear(linearFromBytes(byte, byte, byte));
      // The last decimal of the published matrix.
      expect(Math.hypot(a, b)).toBeLessThan(2e-5);
    }
  });

  test("agrees with colorjs.io on 2000 colours of sRGB, under D50", () => {
    const random = seededRandom(11);
    for (let run = 0; run < 2000; run++) {
      const bytes = [0, 0, 0].map(() => Math.floor(256 * random())) as [number, number, number];
      const theirs = new Color("srgb", bytes.map((byte) => byte / 255) as [number, number, number]).to("lab").coords;
      const xyz = bradfordAdapt(xyzFromLinear(linearFromBytes(...bytes)), WHITE_D65, WHITE_D50);
      // Its D65 has other decimals than that of the seven-decimal matrix.
      expectClose(labFromXyz(xyz, WHITE_D50), theirs.map(Number), 0.01);
    }
  });

  test("comes back from XYZ, from light and from LCh", () => {
    fc.assert(
      fc.property(anyLab, (lab) => {
        expectClose(labFromXyz(xyzFromLab(lab)), lab, 1e-9);
        expectClose(labFromLinear(linearFromLab(lab)), lab, 1e-9);
        expectClose(labFromLch(lchFromLab(lab)), lab, 1e-9);
        const [, chroma, hue] = lchFromLab(lab);
        expect(chroma).toBeGreaterThanOrEqual(0);
        expect(hue >= 0 && hue <= 360).toBe(true);
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  test("a shade outside sRGB is clipped to a hex", () => {
    const farOut: Lab = [60, 120, -120];
    expect(hexFromLab(farOut)).toMatch(/^#[0-9a-f]{6}$/);
    expect(labFromHex("grey")).toBeNull();
  });
});
