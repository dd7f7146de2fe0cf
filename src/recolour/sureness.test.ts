import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atLeast, audit } from "../audit/audit.ts";
import { contextOf, judgeMemory } from "../audit/judge.ts";
import { likelyYarns, offsOf } from "../audit/likely.ts";
import { greyYarns, inputOf, pattern, viewing } from "../../test/garments/small.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { prepare } from "./prepare.ts";
import { settle } from "./settle.ts";
import { surenessOf, type Sureness } from "./sureness.ts";

const within = (yarns: readonly Yarn[], uncertainty: number): Yarn[] =>
  yarns.map((yarn) => ({ ...yarn, shade: { ...yarn.shade, uncertainty } }));

function surenessWith(yarns: readonly Yarn[]): { sure: Sureness; chosen: readonly number[] } {
  const search = prepare(inputOf(yarns));
  const { assignment } = settle(search);
  return { sure: surenessOf(search, assignment!), chosen: assignment! };
}

describe("how sure a way is", () => {
  const greys = greyYarns([20, 36, 54, 70, 84]);

  it("with shades that are known for certain, as sure as it is stated", () => {
    const { sure } = surenessWith(within(greys, 0));
    expect(sure).toMatchObject({ draws: 40, passes: 40, rows: [] });
    expect(sure.sentence).toBe("In all of the likely shades of your yarns the checks let it pass.");
  });

  it("is what the checks say, draw by draw, to a memory that has seen nothing", () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 14 }), (uncertainty) => {
        const yarns = within(greys, uncertainty);
        const search = prepare(inputOf(yarns));
        const { assignment } = settle(search);
        const sure = surenessOf(search, assignment!);
        const [A, B, C] = assignment!.map((at) => yarns[at]!.id) as [string, string, string];
        let passes = 0;
        for (let draw = 0; draw < 40; draw++) {
          const colourway = { id: "w", yarns: { A, B, C } };
          const drawn = likelyYarns(yarns, draw);
          const found = audit(contextOf({ pattern, yarns: drawn, colourway, viewing }, judgeMemory()));
          if (!found.some((one) => atLeast(one, "doubt") && !one.id.startsWith("floats/"))) passes += 1;
        }
        expect(sure.passes).toBe(passes);
      }),
      { seed: 7, numRuns: 6 },
    );
  });

  it("falls as the shades are less well known, and names the rows that hang on them", () => {
    const [well, badly] = [2, 16].map((uncertainty) => surenessWith(within(greys, uncertainty)).sure) as [
      Sureness,
      Sureness,
    ];
    expect(badly.passes).toBeLessThan(well.passes);
    for (const { holds } of badly.rows) expect(holds).toBeLessThan(0.8);
    expect(badly.rows.length).toBeGreaterThan(0);
    expect(badly.sentence).toMatch(/ (is|are) clear only if the shades are as stated\.$/);
  });

  it("tells the same twice", () => {
    const yarns = within(greys, 6);
    expect(surenessWith(yarns)).toEqual(surenessWith(yarns));
  });

  it("out of time it says so", () => {
    const search = prepare(inputOf(greys));
    const { assignment } = settle(search);
    const hasty = { ...search, input: { ...search.input, stop: () => true } };
    const sure = surenessOf(hasty, assignment!);
    expect(sure.draws).toBe(1);
    expect(sure.sentence).toContain("no time");
  });
});

describe("draws", () => {
  it("of many yarns and draws are normal numbers, and no two are alike", () => {
    const offs = Array.from({ length: 60 }, (_, yarn) =>
      Array.from({ length: 40 }, (_draw, draw) => offsOf(`y${yarn}`, draw)),
    ).flat();
    const numbers = offs.flat();
    const mean = numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
    const variance = numbers.reduce((sum, one) => sum + (one - mean) ** 2, 0) / numbers.length;
    // Four standard deviations of a mean of 7200 normal numbers, and of their variance.
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(7200));
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / 7200));
    expect(new Set(offs.map((one) => one.join())).size).toBe(offs.length);
  });
});
