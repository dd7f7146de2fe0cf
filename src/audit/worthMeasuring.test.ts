import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shadeOff } from "../colour/shadeDraw.ts";
import { wordOf } from "../fabric/visibility.ts";
import { greyYarns, pattern, viewing } from "../../test/garments/small.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { contextOf, judgeMemory } from "./judge.ts";
import { offsOf } from "./likely.ts";
import { worthMeasuring } from "./worthMeasuring.ts";

const colourway = { id: "w", yarns: { A: "y0", B: "y1", C: "y2" } };
const yarnsOf = (lightnesses: readonly number[], uncertainties: readonly number[]): Yarn[] =>
  greyYarns(lightnesses).map((yarn, at) => ({ ...yarn, shade: { ...yarn.shade, uncertainty: uncertainties[at]! } }));
const memory = judgeMemory();
const contextWith = (yarns: readonly Yarn[]) => contextOf({ pattern, yarns, colourway, viewing }, memory);
const worth = (yarns: readonly Yarn[]) => worthMeasuring(contextWith(yarns), memory);

/** ΔE00 that a photograph beside a chart is told with. Source: docs/vision.md F, painted photographs in even light. */
const MEASURED = 4;

/** Every V of every row, from the whole measured anew with other shades. */
const wordsWith = (yarns: readonly Yarn[]) => {
  const { charts, limits } = contextOf({ pattern, yarns, colourway, viewing }, judgeMemory());
  return charts[0]!.now.rows.map(({ contrast: { V } }) => (V === null ? null : wordOf(V, limits)));
};

/** The same question asked plainly: every shade drawn, the whole cloth measured each time. */
function plainly(yarns: readonly Yarn[], chosen: string): { inDoubt: number; settles: number } {
  const open = (drawn: readonly Yarn[][]): boolean[] => {
    const words = drawn.map(wordsWith);
    return words[0]!.map((first, row) => {
      if (first === null) return false;
      const most = ["lost", "faint", "clear", "strong"].map((word) => words.filter((one) => one[row] === word).length);
      return Math.max(...most) < 0.8 * words.length;
    });
  };
  const moved = (yarn: Yarn, lab: readonly [number, number, number], uncertainty: number, draw: number): Yarn => ({
    ...yarn,
    shade: { lab: shadeOff(lab, uncertainty, offsOf(yarn.id, draw)) },
  });
  const draws = Array.from({ length: 30 }, (_, draw) => draw);
  const before = open(draws.map((draw) => yarns.map((yarn) => moved(yarn, labOfYarn(yarn), yarn.shade!.uncertainty!, draw)))); // prettier-ignore
  let settled = 0;
  for (let outcome = 0; outcome < 8; outcome++) {
    const after = open(
      draws.map((draw) =>
        yarns.map((yarn) => {
          const { uncertainty } = yarn.shade as { uncertainty: number };
          if (yarn.id !== chosen) return moved(yarn, labOfYarn(yarn), uncertainty, draw);
          const centre = shadeOff(
            labOfYarn(yarn),
            Math.sqrt(uncertainty ** 2 - MEASURED ** 2),
            offsOf(yarn.id, 30 + outcome),
          );
          return moved(yarn, centre, MEASURED, draw);
        }),
      ),
    );
    settled += before.filter((one, row) => one && !after[row]).length;
  }
  return { inDoubt: before.filter(Boolean).length, settles: settled / 8 };
}

describe("what is worth measuring", () => {
  it("nothing where every shade is known as well as a photograph would tell", () => {
    expect(worth(yarnsOf([60, 52, 45], [MEASURED, MEASURED, 1]))).toEqual([]);
  });
  it("nothing where nothing is in doubt: black on white is strong however far they are off", () => {
    expect(worth(yarnsOf([97, 5, 5], [8, 8, 8]))).toEqual([]);
  });
  it("the yarn that is badly known, of several that are known for certain", () => {
    const [first, ...more] = worth(yarnsOf([60, 54, 90], [0, 9, 0]));
    expect(more).toEqual([]);
    expect(first).toMatchObject({ yarn: "y1", uncertainty: 9, measured: MEASURED });
    expect(first!.sentence).toMatch(
      /^Measuring yarn 1 would likely settle .* in doubt: photograph it beside a colour chart\.$/,
    );
  });
  it("no more is settled than is in doubt, what settles most comes first, and it tells the same twice", () => {
    fc.assert(
      fc.property(
        fc.tuple(fc.integer({ min: 40, max: 70 }), fc.integer({ min: 40, max: 70 }), fc.integer({ min: 40, max: 70 })),
        fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 })),
        (lightnesses, uncertainties) => {
          const yarns = yarnsOf(lightnesses, uncertainties);
          const found = worth(yarns);
          found.forEach(({ settles, inDoubt, uncertainty }, at) => {
            expect(settles).toBeLessThanOrEqual(inDoubt);
            expect(settles).toBeGreaterThanOrEqual(0.5);
            expect(uncertainty).toBeGreaterThan(MEASURED);
            if (at > 0) expect(settles).toBeLessThanOrEqual(found[at - 1]!.settles);
          });
          expect(worth(yarns)).toEqual(found);
        },
      ),
      { seed: 7, numRuns: 25 },
    );
  });
  it("as asked plainly, the whole measured anew for every draw", () => {
    for (const [lightnesses, uncertainties] of [
      [
        [60, 52, 45],
        [7, 9, 4],
      ],
      [
        [80, 70, 62],
        [5, 10, 6],
      ],
    ] as const) {
      const yarns = yarnsOf(lightnesses, uncertainties);
      const found = worth(yarns);
      expect(found.length).toBeGreaterThan(0);
      for (const { yarn, settles, inDoubt } of found) expect({ settles, inDoubt }).toEqual(plainly(yarns, yarn));
    }
  });
  it("out of time it tells what it has", () => {
    expect(worthMeasuring(contextWith(yarnsOf([60, 52, 45], [9, 9, 9])), memory, { stop: () => true })).toEqual([]);
  });
});
