import { converter } from "culori";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../base/random.ts";
import { deltaE2000 } from "./difference.ts";
import { din99FromLab } from "./din99.ts";
import { labFromLinear, type Lab } from "./lab.ts";

const theirs = converter("dlab");

describe("DIN99o", () => {
  test("agrees with culori on 2000 colours", () => {
    const random = seededRandom(3);
    for (let run = 0; run < 2000; run++) {
      const [l, a, b]: Lab = [100 * random(), 200 * random() - 100, 200 * random() - 100];
      const expected = theirs({ mode: "lab65", l, a, b });
      const ours = din99FromLab([l, a, b]);
      [expected.l, expected.a, expected.b].forEach((value, at) =>
        expect(Math.abs(ours[at]! - value)).toBeLessThan(1e-9),
      );
    }
  });

  test("is nearly CIEDE2000 for neighbours within sRGB", () => {
    const random = seededRandom(4);
    const ratios: number[] = [];
    for (let run = 0; run < 2000; run++) {
      const first = labFromLinear([random(), random(), random()]);
      const second: Lab = [first[0] + 2 * random() - 1, first[1] + 3 * random() - 1.5, first[2] + 3 * random() - 1.5];
      const [a, b] = [din99FromLab(first), din99FromLab(second)];
      ratios.push(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) / deltaE2000(first, second));
    }
    ratios.sort((one, other) => one - other);
    // The spread of CIEDE2000 around any flat space; seen 1.06 and 1.38 when written.
    expect(ratios[200]!).toBeGreaterThan(1);
    expect(ratios[1800]!).toBeLessThan(1.45);
  });
});
