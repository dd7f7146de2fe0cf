import fc from "fast-check";
import { describe, expect, test } from "vitest";
import chart from "../../test/tables/colourChart24.json" with { type: "json" };
import { deltaE2000 } from "./difference.ts";
import { labFromXyz, xyzFromLab, type Lab } from "./lab.ts";
import { encodeSrgb } from "./srgb.ts";
import { bradfordAdapt, linearFromXyz, WHITE_D50, WHITE_D65, xyzFromLinear } from "./xyz.ts";

const channel = fc.double({ min: -0.2, max: 1.5, noNaN: true });

describe("XYZ", () => {
  test("white is white, and so is every grey of its chromaticity", () => {
    xyzFromLinear([1, 1, 1]).forEach((value, at) => expect(value).toBeCloseTo(WHITE_D65[at]!, 6));
  });

  test("linear sRGB comes back", () => {
    fc.assert(
      fc.property(channel, channel, channel, (...rgb) => {
        linearFromXyz(xyzFromLinear(rgb)).forEach((value, at) => expect(value).toBeCloseTo(rgb[at]!, 10));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test("adaptation carries white to white, and back again", () => {
    bradfordAdapt(WHITE_D50, WHITE_D50, WHITE_D65).forEach((value, at) =>
      expect(value).toBeCloseTo(WHITE_D65[at]!, 10),
    );
    fc.assert(
      fc.property(channel, channel, channel, (...xyz) => {
        const back = bradfordAdapt(bradfordAdapt(xyz, WHITE_D50, WHITE_D65), WHITE_D65, WHITE_D50);
        back.forEach((value, at) => expect(value).toBeCloseTo(xyz[at]!, 10));
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  // Source: colourChart24.json; its sRGB was evaluated outside this project and is printed with one decimal.
  test.each(chart.patches)("patch $n of a 24-patch chart: Lab under D50 to sRGB", ({ labD50, srgb }) => {
    const xyz = bradfordAdapt(xyzFromLab(labD50 as unknown as Lab, WHITE_D50), WHITE_D50, WHITE_D65);
    linearFromXyz(xyz).forEach((linear, at) => {
      // Below 0 the table goes on along the straight piece of the curve, where we mirror the curve.
      const encoded = linear < 0 ? 12.92 * linear : encodeSrgb(linear);
      // 0.05 is the rounding of the table; the rest its D65 and matrix, of other decimals.
      expect(Math.abs(255 * encoded - srgb[at]!)).toBeLessThan(0.15);
    });
  });

  // Source: colourChart24.json: two publications of the same chart, as xyY (2005) and as Lab (before 2014), both under D50.
  test("xyY and Lab of the same chart agree", () => {
    const apart = chart.patches.map(({ xyY: [x, y, Y], labD50Before2014 }) =>
      deltaE2000(
        labFromXyz([(x! * Y!) / y!, Y!, ((1 - x! - y!) * Y!) / y!], WHITE_D50),
        labD50Before2014 as unknown as Lab,
      ),
    );
    expect(Math.max(...apart)).toBeLessThan(3);
  });
});
