/** A leftover's promise, round by round, and where a short yarn could be saved. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { amountsOf } from "./amounts.ts";
import { knittingOf } from "./knitting.ts";
import { savingsOf } from "./savings.ts";
import { DEFAULT_SETTINGS } from "./settings.ts";
import { yarnEnd, type RoundPlace } from "./yarnEnds.ts";

/** Rounds of 240 stitches of two equal colours at 28 × 30, and a plain rib before them. */
const pattern: Pattern = {
  gauge: { stitches: 28, rows: 30 },
  colours: ["A", "B"].map((id) => ({ id, shade: { hex: "#888888" } })),
  charts: [
    { id: "c1", rows: ["AB"] },
    { id: "plain", rows: ["A"] },
  ],
  sections: [
    { id: "left-cuff", name: "left cuff", chart: "plain", rounds: { M: 15 }, stitches: { M: 52 }, from: [] },
    { id: "right-cuff", name: "right cuff", chart: "plain", rounds: { M: 15 }, stitches: { M: 52 }, from: [] },
    { id: "body", chart: "c1", rounds: { M: 100 }, stitches: { M: 240 }, from: [] },
  ],
};
const colourway: Colourway = { id: "w1", yarns: { A: "ash", B: "moss" } };
const knitting = knittingOf(pattern, "M");
const settings = { ...DEFAULT_SETTINGS, tailsM: 0 };
const end = (yarn: string, metres: number, after?: RoundPlace) =>
  yarnEnd({ knitting, colourway, settings, yarn, metres, ...(after && { after }) });

describe("how far a yarn goes", () => {
  it("21 m, 5 g at 420 m to 100 g, carry eight rounds of 240 in two equal colours (trade.md 1.5 and 5: 2.3–2.5 m each)", () => {
    const { lasts, last, endsIn } = end("moss", 21);
    // By hand: 120 × (16.036 + 1.1 × 3.5714) mm are 2.396 m a round.
    expect(last).toEqual({ section: "body", round: 8 });
    expect(endsIn).toEqual({ section: "body", round: 9 });
    expect(lasts).toBe(false);
  });
  it("from where she is, and with its soonest and latest", () => {
    const found = end("moss", 21, { section: "body", round: 50 });
    expect(found.last).toEqual({ section: "body", round: 58 });
    expect(found.soonest!.round).toBeLessThanOrEqual(58);
    expect(found.latest!.round).toBeGreaterThanOrEqual(58);
  });
  it("says that it lasts, or that it finishes no round at all", () => {
    expect(end("moss", 300)).toMatchObject({ lasts: true, last: { section: "body", round: 100 }, endsIn: null });
    expect(end("moss", 1)).toMatchObject({ lasts: false, last: null, endsIn: { section: "body", round: 1 } });
  });
  it("agrees with the amounts: what a garment takes is what lasts to its last round, to the millimetre", () => {
    const { yarns } = amountsOf({ pattern, yarns: [], colourway, size: "M", settings });
    for (const { yarn, metres, parts } of yarns) {
      const rounds = metres - parts.edges;
      expect(end(yarn, rounds + 0.001).lasts).toBe(true);
      expect(end(yarn, rounds - 0.001).lasts).toBe(false);
    }
  });
  it("more yarn never ends sooner", () => {
    fc.assert(
      fc.property(
        fc.float({ min: 0, max: 300, noNaN: true }),
        fc.float({ min: 0, max: 50, noNaN: true }),
        (metres, more) => {
          const reach = (place: RoundPlace | null): number =>
            place ? 1000 * ["left-cuff", "right-cuff", "body"].indexOf(place.section) + place.round : -1;
          expect(reach(end("ash", metres + more).last)).toBeGreaterThanOrEqual(reach(end("ash", metres).last));
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe("where a short yarn could be saved", () => {
  const wool = (id: string, grams: number): Yarn => ({
    id,
    name: id,
    shade: { hex: "#888888" },
    metresPer100g: 420,
    grams,
  });
  const savings = (ash: number, moss: number, others: Yarn[] = []) => {
    const yarns = [wool("ash", ash), wool("moss", moss), ...others];
    const amounts = amountsOf({ pattern, yarns, colourway, size: "M" });
    return savingsOf(amounts, yarns, (section, yarn) =>
      section === "body" ? (yarn === "ash" ? ["A"] : ["B"]) : ["A"],
    );
  };

  it("knits the cuffs in moss, and so many grams remain", () => {
    // By hand: the body takes 240 m of ash, the cuffs 25 m together, and edges: with its tenth some 71 g.
    const [first] = savings(67, 90);
    expect(first).toMatchObject({ yarn: "ash", name: "cuff", sections: ["left-cuff", "right-cuff"], instead: "moss" });
    expect(first!.leaves).toBeGreaterThan(0);
    expect(first!.changes).toEqual([
      { at: { section: "left-cuff" }, colour: "A", yarn: "moss" },
      { at: { section: "right-cuff" }, colour: "A", yarn: "moss" },
    ]);
    // Tried out: with the changes nothing is short, and what is told to remain remains.
    const yarns = [wool("ash", 67), wool("moss", 90)];
    const after = amountsOf({ pattern, yarns, colourway: { ...colourway, changes: [...first!.changes] }, size: "M" });
    const ash = after.yarns.find(({ yarn }) => yarn === "ash")!;
    expect(after.yarns.map(({ short }) => short)).toEqual([0, 0]);
    expect(ash.have! - ash.metres - ash.reserve).toBeCloseTo(first!.leaves, 6);
    expect(first!.leavesGrams!).toBeCloseTo(first!.leaves / 4.2, 6);
  });
  it("no yarn steps in that would then be short itself", () => {
    expect(savings(67, 63)).toEqual([]);
    expect(savings(67, 63, [wool("slate", 20)])[0]).toMatchObject({ name: "cuff", instead: "slate" });
  });
  it("nothing is proposed where nothing is short", () => {
    expect(savings(200, 200)).toEqual([]);
  });
});
