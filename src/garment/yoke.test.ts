/** The percentage yoke with the trade's worked values, and decreases that every band's repeat divides, against trying everything. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastCommonMultiple } from "../base/divisors.ts";
import type { RoundBand } from "./rounds.ts";
import { decreaseWords, underarmShare, yokeCounts, yokeDecreases, yokeDepthCm } from "./yoke.ts";
import { yokePlan, type YokePlan } from "./yokePlan.ts";

describe("the percentage system (trade.md 3)", () => {
  it("28 stitches to 10 cm and a chest of 100 cm: K is 280", () => {
    expect(yokeCounts(280)).toEqual({
      body: 280,
      rib: 252,
      wrist: 56,
      upperArm: 92,
      underarm: 22,
      union: 376,
      after: [282, 188, 113],
    });
    expect(yokeDepthCm(100)).toBe(25);
  });
  it("all exact at 380: 285, 190, 114", () => {
    expect(yokeDecreases(380)).toEqual([285, 190, 114]);
  });
  it("1.33 × 0.75 × 0.667 × 0.6 is 0.399: the neck is two fifths of K", () => {
    for (const body of [200, 240, 280, 320, 400]) {
      const { union, after } = yokeCounts(body);
      expect(Math.abs(union / body - 1.33)).toBeLessThan(0.02);
      expect(Math.abs(after[2] / body - 0.4)).toBeLessThan(0.01);
    }
  });
  it("large chests take 5 to 6 % at the underarm and are capped at 25 to 27 cm", () => {
    expect(underarmShare(100)).toBe(0.08);
    expect(underarmShare(140)).toBeGreaterThanOrEqual(0.05);
    expect(underarmShare(140)).toBeLessThanOrEqual(0.06);
    for (const chest of [120, 150]) {
      expect(yokeDepthCm(chest)).toBeGreaterThanOrEqual(25);
      expect(yokeDepthCm(chest)).toBeLessThanOrEqual(27);
    }
  });
});

describe("decreases in words", () => {
  it.each([
    // trade.md 3: (k2, k2tog), (k1, k2tog), (k1, k2tog, k2tog).
    [380, 285, "(k2, k2tog) 95 times"],
    [285, 190, "(k1, k2tog) 95 times"],
    [190, 114, "(k1, k2tog, k2tog) 38 times"],
    [376, 282, "(k2, k2tog) 94 times"],
    [282, 188, "(k1, k2tog) 94 times"],
    [188, 113, "(k1, k2tog) 38 times and (k2tog) 37 times, spread evenly"],
    [20, 19, "(k18, k2tog) once"],
  ])("%i to %i: %s", (from, to, words) => {
    expect(decreaseWords(from, to)).toBe(words);
  });
  it("more than every second stitch cannot go in one round", () => {
    expect(decreaseWords(100, 49)).toBeNull();
    expect(decreaseWords(100, 100)).toBeNull();
  });
  it("the words come out at the count: what they knit and take is all there is", () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 420 }), fc.integer({ min: 1, max: 210 }), (from, fewer) => {
        fc.pre(2 * fewer <= from);
        const words = decreaseWords(from, from - fewer)!;
        let [worked, left] = [0, 0];
        for (const [, group, times] of words.matchAll(/\(([^)]*)\) (once|\d+ times)/g)) {
          const count = times === "once" ? 1 : parseInt(times!);
          for (const part of group!.split(", ")) {
            worked += count * (part === "k2tog" ? 2 : parseInt(part.slice(1)));
            left += count * (part === "k2tog" ? 1 : parseInt(part.slice(1)));
          }
        }
        expect([worked, left]).toEqual([from, from - fewer]);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

const band = (id: string, repeat: number): RoundBand => ({
  id,
  repeat,
  centre: { column: (repeat + 1) / 2, repeat },
});
const GAUGE = { stitches: 28, rows: 30 };
/** Every patterned round stands on a count that its repeat divides. */
function checkCloses(plan: YokePlan, rows: readonly (RoundBand | null)[]): void {
  for (let round = 1; round < plan.rounds; round++) {
    const on = plan.parts.find(({ rounds: [from, to] }) => round >= from && round <= to)!;
    const repeat = rows[round - 1 - plan.before]?.repeat ?? 1;
    expect(on.stitches % repeat, `round ${round}`).toBe(0);
  }
}

describe("rounds of decreases", () => {
  const rows = [
    ...Array<RoundBand>(30).fill(band("b1", 20)),
    null,
    ...Array<RoundBand>(14).fill(band("b2", 15)),
    null,
    ...Array<RoundBand>(15).fill(band("b3", 10)),
  ];

  it("bands of 20, 15 and 10 on a union of 380 stand on 380, 285 and 190, with a neck of 114 (trade.md 3)", () => {
    const plan = yokePlan({ rounds: 75, union: 380, gauge: GAUGE, bandOfRow: rows });
    expect([plan.stitches, ...plan.decreases.map(({ to }) => to)]).toEqual([380, 285, 190, 114]);
    expect(plan.parts.map(({ bands }) => bands.map(({ times }) => times))).toEqual([[19], [19], [19], []]);
    expect(plan.inPattern).toEqual([]);
    checkCloses(plan, rows);
    // Half and three quarters of 75 rounds, as near as the plain rows allow.
    expect(plan.decreases.map(({ round }) => round)[2]).toBe(75);
    for (const [index, share] of [0.5, 0.75].entries())
      expect(Math.abs(plan.decreases[index]!.round - share * 75)).toBeLessThanOrEqual(12);
  });

  it("376 becomes 380 in its first round, and says what that costs around: 1.4 cm", () => {
    const plan = yokePlan({ rounds: 75, union: 376, gauge: GAUGE, bandOfRow: rows });
    expect(plan.stitches).toBe(380);
    expect(plan.parts[0]!.costCm).toBeCloseTo(4 / 2.8, 9);
  });

  it("a plain yoke takes the system's own counts", () => {
    const plan = yokePlan({ rounds: 75, union: 376, gauge: GAUGE, bandOfRow: [] });
    expect([plan.stitches, ...plan.decreases.map(({ to }) => to)].slice(0, 3)).toEqual([376, 282, 188]);
    for (const [index, share] of [0.5, 0.75, 1].entries())
      expect(Math.abs(plan.decreases[index]!.round - share * 75)).toBeLessThanOrEqual(0.5);
  });

  it("a chart higher than the yoke makes it deeper, and one without plain rows is decreased in its pattern, which is told", () => {
    const tall = Array<RoundBand>(90).fill(band("b1", 8));
    const plan = yokePlan({ rounds: 75, union: 376, gauge: GAUGE, bandOfRow: tall });
    expect(plan.rounds).toBe(92);
    expect(plan.inPattern).toHaveLength(2);
    checkCloses(plan, tall);
  });

  it("a chart that narrows itself is laid as often as comes nearest to the union, its top at the neck", () => {
    // A wedge of 20, 15, 10 and 6 stitches, as the yoke of 380, 285, 190 and 114 has 19 times (trade.md 3).
    const stitchesOfRow = [20, 15, 10, 6].flatMap((stitches) => Array<number>(15).fill(stitches));
    const wedge = Array<RoundBand>(60).fill(band("b1", 20));
    const plan = yokePlan({ rounds: 75, union: 376, gauge: GAUGE, bandOfRow: wedge, stitchesOfRow });
    expect([plan.stitches, ...plan.decreases.map(({ to }) => to)]).toEqual([380, 285, 190, 114]);
    expect(plan.before).toBe(14);
    expect(plan.decreases.map(({ round }) => round - plan.before)).toEqual([16, 31, 46]);
    expect(plan.parts.every(({ bands }) => bands.every(({ times }) => times === 19))).toBe(true);
    // Half as narrow at its top, 190 stitches go in the last round to the 113 of the system, made even.
    const wide = yokePlan({
      rounds: 75,
      union: 376,
      gauge: GAUGE,
      bandOfRow: wedge,
      stitchesOfRow: stitchesOfRow.map((one) => Math.max(10, one)),
    });
    expect(wide.decreases.at(-1)).toEqual({ round: 75, to: 114 });
  });

  it("a yoke that is cut open has a stitch more than whole repeats in every part", () => {
    const plan = yokePlan({ rounds: 75, union: 376, gauge: GAUGE, bandOfRow: rows, balance: 1 });
    expect([plan.stitches, ...plan.decreases.map(({ to }) => to)].slice(0, 3)).toEqual([381, 286, 191]);
  });

  it("closes every band of any chart, never takes more than every second stitch where repeats are small, and goes down", () => {
    const strips = fc.array(fc.tuple(fc.integer({ min: 1, max: 15 }), fc.constantFrom(0, 2, 3, 4, 5, 6, 8, 10, 12)), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(strips, fc.integer({ min: 240, max: 480 }), (list, union) => {
        const bandOfRow = list.flatMap(([height, repeat], index) =>
          Array<RoundBand | null>(height).fill(repeat > 0 ? band(`b${index}`, repeat) : null),
        );
        fc.pre(leastCommonMultiple(list.map(([, repeat]) => repeat || 1)) <= 60);
        const plan = yokePlan({ rounds: 66, union, gauge: GAUGE, bandOfRow });
        checkCloses(plan, bandOfRow);
        const counts = [plan.stitches, ...plan.decreases.map(({ to }) => to)];
        for (const [index, count] of counts.slice(1).entries()) {
          expect(count).toBeLessThan(counts[index]!);
          expect(2 * count).toBeGreaterThanOrEqual(counts[index]!);
        }
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});
