import Color from "colorjs.io";
import { differenceCiede2000 } from "culori";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import sharma from "../../test/tables/ciede2000Sharma.json" with { type: "json" };
import { seededRandom } from "../base/random.ts";
import { deltaE2000, deltaE2000Batch, type DifferenceWeights } from "./difference.ts";
import type { Lab } from "./lab.ts";

/** The table is printed with four decimals; "34 of 34 below 1e-4" is the bar. */
const PRINTED = 1e-4;
/** Two implementations of one formula in doubles, differences up to about 150. */
const ROUNDING = 1e-9;

/** Angles that differ by 180° to the last bit may fall on either side of the formula's jump. */
const SHARMA_14_OTHER_SIDE = 4.8045;

/** The formula as printed by Sharma, Wu, Dalal 2005, equations 2 to 22, in degrees; slow and plain. */
function plain([L1, a1, b1]: Lab, [L2, a2, b2]: Lab, { kL = 1, kC = 1, kH = 1 }: DifferenceWeights = {}): number {
  const radians = (degrees: number): number => (degrees * Math.PI) / 180;
  const hue = (a: number, b: number): number =>
    a === 0 && b === 0 ? 0 : ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  const meanC = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const G = 0.5 * (1 - Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)));
  const [C1, C2] = [Math.hypot((1 + G) * a1, b1), Math.hypot((1 + G) * a2, b2)];
  const [h1, h2] = [hue((1 + G) * a1, b1), hue((1 + G) * a2, b2)];
  let dh = 0;
  let h = h1 + h2;
  if (C1 * C2 !== 0) {
    dh = h2 - h1;
    if (Math.abs(dh) <= 180) h /= 2;
    else {
      h = h < 360 ? (h + 360) / 2 : (h - 360) / 2;
      dh += dh > 180 ? -360 : 360;
    }
  }
  const dH = 2 * Math.sqrt(C1 * C2) * Math.sin(radians(dh / 2));
  const L = (L1 + L2) / 2;
  const C = (C1 + C2) / 2;
  const T =
    1 -
    0.17 * Math.cos(radians(h - 30)) +
    0.24 * Math.cos(radians(2 * h)) +
    0.32 * Math.cos(radians(3 * h + 6)) -
    0.2 * Math.cos(radians(4 * h - 63));
  const turn = 30 * Math.exp(-(((h - 275) / 25) ** 2));
  const rotation = -2 * Math.sqrt(C ** 7 / (C ** 7 + 25 ** 7)) * Math.sin(radians(2 * turn));
  const l = (L2 - L1) / (kL * (1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2)));
  const c = (C2 - C1) / (kC * (1 + 0.045 * C));
  const hh = dH / (kH * (1 + 0.015 * C * T));
  return Math.sqrt(l * l + c * c + hh * hh + rotation * c * hh);
}

const anyLab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -128, max: 128, noNaN: true }),
  fc.double({ min: -128, max: 128, noNaN: true }),
);

/** Where hues lie opposite each other the formula jumps, and the last bit decides to which side. */
function areOpposite([, a1, b1]: Lab, [, a2, b2]: Lab): boolean {
  return a1 * a2 + b1 * b2 < 0 && Math.abs(a1 * b2 - a2 * b1) <= 1e-9 * Math.hypot(a1, b1) * Math.hypot(a2, b2);
}

/** Random pairs of three kinds: anything, near neighbours, near neutrals. */
function randomPairs(count: number, seed: number): [Lab, Lab][] {
  const random = seededRandom(seed);
  const lab = (spread: number): Lab => [100 * random(), spread * (random() - 0.5), spread * (random() - 0.5)];
  return Array.from({ length: count }, (_, run): [Lab, Lab] => {
    const first = lab(run % 3 === 2 ? 2 : 220);
    if (run % 3 !== 1) return [first, lab(run % 3 === 2 ? 2 : 220)];
    return [first, [first[0] + random() - 0.5, first[1] + 4 * random() - 2, first[2] + 4 * random() - 2]];
  });
}

describe("CIEDE2000", () => {
  test.each(sharma.pairs)("pair $n of Sharma, Wu, Dalal 2005", ({ n, lab1, lab2, deltaE00 }) => {
    const [first, second] = [lab1 as unknown as Lab, lab2 as unknown as Lab];
    for (const ours of [
      deltaE2000(first, second),
      deltaE2000(second, first),
      deltaE2000Batch(Float64Array.from(lab1), Float64Array.from(lab2))[0]!,
    ]) {
      const expected = n === 14 && ours > 4.78 ? SHARMA_14_OTHER_SIDE : deltaE00;
      expect(Math.abs(ours - expected)).toBeLessThan(PRINTED);
    }
  });

  test("agrees with culori on 6000 pairs", () => {
    const culori = differenceCiede2000();
    for (const [first, second] of randomPairs(6000, 5)) {
      const theirs = culori(
        { mode: "lab65", l: first[0], a: first[1], b: first[2] },
        { mode: "lab65", l: second[0], a: second[1], b: second[2] },
      );
      expect(Math.abs(deltaE2000(first, second) - theirs)).toBeLessThan(ROUNDING);
    }
  });

  test("agrees with colorjs.io on 3000 pairs", () => {
    for (const [first, second] of randomPairs(3000, 6)) {
      const theirs = new Color("lab", [...first]).deltaE(new Color("lab", [...second]), "2000");
      expect(Math.abs(deltaE2000(first, second) - theirs)).toBeLessThan(ROUNDING);
    }
  });

  test("equals the printed formula, whatever the weights", () => {
    const weight = fc.double({ min: 0.5, max: 3, noNaN: true });
    fc.assert(
      fc.property(anyLab, anyLab, fc.record({ kL: weight, kC: weight, kH: weight }), (first, second, weights) => {
        fc.pre(!areOpposite(first, second));
        expect(Math.abs(deltaE2000(first, second, weights) - plain(first, second, weights))).toBeLessThan(1e-7);
      }),
      { seed: 7, numRuns: 3000 },
    );
  });

  test("equals the printed formula on both sides of opposite hues", () => {
    for (let hue = 0; hue < 360; hue += 7)
      for (const turn of [-1, -0.05, -0.01, -1e-4, 1e-4, 0.01, 0.05, 1]) {
        const at = (degrees: number): Lab => [
          50,
          20 * Math.cos((degrees * Math.PI) / 180),
          20 * Math.sin((degrees * Math.PI) / 180),
        ];
        const [first, second] = [at(hue), at(hue + 180 + turn)];
        expect(Math.abs(deltaE2000(first, second) - plain(first, second))).toBeLessThan(1e-6);
      }
  });

  test("is nothing between equals, the same both ways and never negative", () => {
    fc.assert(
      fc.property(anyLab, anyLab, (first, second) => {
        expect(deltaE2000(first, first)).toBe(0);
        expect(deltaE2000(first, second)).toBeGreaterThanOrEqual(0);
        expect(Math.abs(deltaE2000(first, second) - deltaE2000(second, first))).toBeLessThan(ROUNDING);
      }),
      { seed: 7, numRuns: 1000 },
    );
  });

  test("a weight of 2 on lightness halves the difference of two greys", () => {
    const [first, second]: [Lab, Lab] = [
      [40, 0, 0],
      [46, 0, 0],
    ];
    expect(deltaE2000(first, second, { kL: 2 })).toBeCloseTo(deltaE2000(first, second) / 2, 12);
  });

  test("neutrals and next to neutrals give numbers", () => {
    for (const tiny of [0, 1e-300, 1e-160, 1e-20, 1e-9])
      expect(deltaE2000([50, tiny, -tiny], [50, 0, tiny])).toBeLessThan(1e-8);
  });

  test("many at once are the same as one by one, into given room too", () => {
    const pairs = randomPairs(300, 9);
    const firsts = Float64Array.from(pairs.flatMap(([first]) => first));
    const seconds = Float64Array.from(pairs.flatMap(([, second]) => second));
    const expected = Float64Array.from(pairs, ([first, second]) => deltaE2000(first, second));
    expect(deltaE2000Batch(firsts, seconds)).toEqual(expected);
    const room = new Float64Array(300);
    expect(deltaE2000Batch(firsts, seconds, room)).toBe(room);
    expect(room).toEqual(expected);
  });
});
