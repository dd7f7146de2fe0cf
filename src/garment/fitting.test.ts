/** Repeats in rounds, centring and decreases, with the trade's worked values. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastCommonMultiple } from "../base/divisors.ts";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { oppositeShows, repeatsIn, repeatsThatFit, roundsThatFit, startColumnFor } from "./fitting.ts";
import { bandRounds, meetingsInRounds, meetingsThroughDecreases, type RoundBand } from "./rounds.ts";
import type { Section } from "./sections.ts";

describe("repeats in a round (trade.md 3)", () => {
  it("144 takes 2, 3, 4, 6, 8, 12, 16, 18, 24 and 36; 280 and 288 as listed", () => {
    const takes = (stitches: number, upTo: number) =>
      Array.from({ length: upTo - 1 }, (_, index) => index + 2).filter(
        (repeat) => repeatsIn(stitches, repeat).over === 0,
      );
    // The source leaves out 9, which goes 16 times.
    expect(takes(144, 36).filter((repeat) => repeat !== 9)).toEqual([2, 3, 4, 6, 8, 12, 16, 18, 24, 36]);
    expect(takes(280, 28)).toEqual([2, 4, 5, 7, 8, 10, 14, 20, 28]);
    for (const repeat of [2, 3, 4, 6, 8, 12, 16, 18, 24, 32, 36]) expect(repeatsIn(288, repeat).over).toBe(0);
    for (const repeat of [5, 10]) expect(repeatsIn(288, repeat).over).toBeGreaterThan(0);
  });
  it("324 with a repeat of 20 gives 16 and 4 over: another repeat, 18 or 36, or another count, 320 or 340", () => {
    expect(repeatsIn(324, 20)).toEqual({ times: 16, over: 4 });
    expect(roundsThatFit(324, [20])).toEqual({ below: 320, above: 340 });
    // The nearest below is 18; above 20 it is 27 already, which the source passes over for 36, twice 18.
    expect(repeatsThatFit(324, 20)).toEqual({ below: 18, above: 27 });
    expect(repeatsIn(324, 36).over).toBe(0);
  });
  it.each([
    [[4, 6, 8], 24],
    [[5, 8], 40],
    [[10, 12], 60],
    [[16, 24], 48],
    [[2, 3, 4, 5, 6, 8, 10, 12], 120],
    [[2, 3, 4, 5, 6, 8, 10, 12, 16], 240],
    [[2, 3, 4, 5, 6, 8, 10, 12, 24], 120],
  ])("the least round for %j is %i", (repeats, expected) => {
    expect(leastCommonMultiple(repeats)).toBe(expected);
  });
  it("240 takes every repeat of the motif set", () => {
    expect(240 % leastCommonMultiple(table.motifs.map(({ minimalPeriod }) => minimalPeriod))).toBe(0);
  });
  it("the rounds that fit are multiples, and nothing nearer is", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.array(fc.integer({ min: 1, max: 24 }), { minLength: 1, maxLength: 3 }),
        (stitches, repeats) => {
          const { below, above } = roundsThatFit(stitches, repeats);
          const fits = (count: number) => repeats.every((repeat) => count % repeat === 0);
          expect(fits(above) && above >= stitches).toBe(true);
          for (let count = stitches; count < above; count++)
            expect(fits(count) && count > stitches - 1 && count !== above && count !== below).toBe(false);
          if (below !== null) expect(fits(below) && below <= stitches).toBe(true);
        },
      ),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe("centring (trade.md 3)", () => {
  it.each([
    // C = 60: r, a and the start column, from 0 in the order of knitting.
    [24, 0, 12],
    [16, 0, 4],
    [10, 0, 0],
    [8, 3, 7],
  ])("a repeat of %i with its axis at %i, on stitch 60: column %i", (repeat, axis, expected) => {
    expect(startColumnFor({ axis, stitch: 60, repeat })).toBe(expected);
  });
  it("brings the axis to the stitch, or half a stitch beside it where one lies between two", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), fc.nat(59), fc.nat(300), (repeat, twice, stitch) => {
        const axis = (twice % (2 * repeat)) / 2;
        const start = startColumnFor({ axis, stitch, repeat });
        const miss = (((start + stitch - axis) % repeat) + repeat) % repeat;
        expect(Number.isInteger(axis) ? miss === 0 : miss === repeat - 0.5).toBe(true);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("front and back are alike with an even number of repeats: 256 in 16s; 240 has 15, and shows what lies half a repeat on", () => {
    expect(oppositeShows(256, 16)).toBe("same");
    expect(oppositeShows(240, 16)).toBe("half a repeat on");
    expect(oppositeShows(324, 20)).toBe("neither");
  });
});

describe("bands in rounds", () => {
  const band = (id: string, repeat: number, column: number): RoundBand => ({ id, repeat, centre: { column, repeat } });
  const section = (more: Partial<Section>): Section => ({
    id: "s1",
    chart: "c1",
    rounds: { M: 5 },
    stitches: { M: 240 },
    ...more,
  });

  it("each is met with its rounds and stitches, and again when the chart begins anew", () => {
    const low = band("b1", 8, 5);
    const knitted = bandRounds(section({ rounds: { M: 7 }, startRow: 2 }), [low, low, null], "M");
    expect(knitted.map(({ band: { id }, rounds, over }) => [id, ...rounds, over])).toEqual([
      ["b1", 1, 1, 0],
      ["b1", 3, 4, 0],
      ["b1", 6, 7, 0],
    ]);
  });
  it("a large decrease is spread over the round and its repeats are looked at; a small one shapes the edges", () => {
    const [low, high] = [band("b1", 20, 10), band("b2", 15, 8)];
    const rows = [low, null, high];
    const over = (to: number) =>
      bandRounds(
        section({ rounds: { M: 3 }, stitches: { M: 380 }, decreases: { M: [{ round: 2, to }] } }),
        rows,
        "M",
      ).map((one) => one.over);
    expect(over(285)).toEqual([0, 0]);
    expect(over(280)).toEqual([0, 10]);
    expect(over(372)).toEqual([0, null]);
  });
  it("380, 285: 19 repeats of 20 under 19 of 15 line up all round, or are set off by half", () => {
    const through = (column: number) => {
      const yoke = section({ rounds: { M: 3 }, stitches: { M: 380 }, decreases: { M: [{ round: 2, to: 285 }] } });
      const knitted = bandRounds(yoke, [band("b1", 20, 10.5), null, band("b2", 15, column)], "M");
      return meetingsThroughDecreases(yoke, knitted, "M")[0];
    };
    // Middle of 20 stitches over middle of 15: 10.5 and 8 are both half a repeat from the edge between two.
    expect(through(8)).toMatchObject({ times: [19, 19], meets: "lined up", offBy: 0 });
    expect(through(15)).toMatchObject({ meets: "half a repeat" });
    expect(through(12)).toMatchObject({ meets: "shifted", offBy: 4 });
  });
  it("380, 285, 190, 114: every band's repeat goes into its own round, as the percentage yoke of trade.md 3 has them", () => {
    // 19 repeats of 20, 15 and 10 stand on one another; 114 takes 19 of 6.
    const bands = [20, 15, 10, 6].map((repeat, index) => band(`b${index + 1}`, repeat, (repeat + 1) / 2));
    const rows = bands.flatMap((one) => [one, null]);
    const decreases = [285, 190, 114].map((to, index) => ({ round: 2 * index + 2, to }));
    const yoke = section({ rounds: { M: 8 }, stitches: { M: 380 }, decreases: { M: decreases } });
    const knitted = bandRounds(yoke, rows, "M");
    expect(knitted.map(({ stitches, over }) => [stitches[0], over])).toEqual([
      [380, 0],
      [285, 0],
      [190, 0],
      [114, 0],
    ]);
    expect(meetingsThroughDecreases(yoke, knitted, "M").map(({ times, meets }) => [...times, meets])).toEqual([
      [19, 19, "lined up"],
      [19, 19, "lined up"],
      [19, 19, "lined up"],
    ]);
  });
  it("18 repeats under 19 drift", () => {
    const yoke = section({ rounds: { M: 3 }, stitches: { M: 360 }, decreases: { M: [{ round: 2, to: 285 }] } });
    const knitted = bandRounds(yoke, [band("b1", 20, 10), null, band("b2", 15, 8)], "M");
    expect(meetingsThroughDecreases(yoke, knitted, "M")).toMatchObject([
      { times: [18, 19], meets: "drifting", offBy: null },
    ]);
  });

  it("a section knitted on to another begins where that one ended, and half a stitch of axis cannot be made up", () => {
    // trade.md 3: axes on a stitch and between two miss by half a stitch.
    const meet = (column: number, start: number) => {
      const body = section({ rounds: { M: 1 } });
      const yoke = section({ id: "s2", rounds: { M: 2 }, startColumn: { M: start } });
      const [low, high] = [band("b1", 16, 5), band("b2", 16, column)];
      const [found] = meetingsInRounds(
        [
          { section: body, bands: bandRounds(body, [low], "M") },
          { section: yoke, bands: bandRounds(yoke, [null, high], "M") },
        ],
        "M",
      );
      return [found!.sections.join(), found!.meets, found!.offBy, found!.between];
    };
    expect(meet(5, 1)).toEqual(["s1,s2", "lined up", 0, 1]);
    expect(meet(5, 2)).toEqual(["s1,s2", "shifted", -1, 1]);
    expect(meet(6, 2)).toEqual(["s1,s2", "lined up", 0, 1]);
    expect(meet(13, 1)).toEqual(["s1,s2", "half a repeat", 8, 1]);
    expect(meet(5.5, 1)).toEqual(["s1,s2", "half a stitch", 0.5, 1]);
  });
  it("a section that says what it goes on from is held against that alone, and one that is cut open need not close", () => {
    const low = band("b1", 16, 5);
    const knit = (own: Section) => ({ section: own, bands: bandRounds(own, [low], "M") });
    const body = section({ rounds: { M: 1 } });
    const sleeve = section({ id: "s2", rounds: { M: 1 }, startColumn: { M: 2 }, from: [] });
    expect(meetingsInRounds([knit(body), knit(sleeve)], "M")).toEqual([]);
    const yoke = { ...sleeve, from: ["s1"] };
    expect(meetingsInRounds([knit(body), knit(yoke)], "M")).toMatchObject([{ sections: ["s1", "s2"], offBy: -1 }]);
    const cut = section({ stitches: { M: 241 }, beside: [{ kind: "steek", stitches: { M: 7 } }] });
    expect(bandRounds(cut, [low], "M")[0]!.over).toBeNull();
  });
  it("where the number of stitches changes between two sections nothing is said, and a chart meets itself where it begins again", () => {
    const one = band("b1", 8, 4);
    const other = band("b2", 8, 5);
    const body = section({ rounds: { M: 4 } });
    const yoke = section({ id: "s2", rounds: { M: 1 }, stitches: { M: 192 } });
    const knitted = [
      { section: body, bands: bandRounds(body, [one, other], "M") },
      { section: yoke, bands: bandRounds(yoke, [one], "M") },
    ];
    expect(
      meetingsInRounds(knitted, "M").map(({ sections, below, above, offBy }) => [...sections, below, above, offBy]),
    ).toEqual([["s1", "s1", "b2", "b1", -1]]);
  });
});
