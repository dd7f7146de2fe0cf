/** Places, sections and gauge: every round placed once, and stitches of the size that the gauge says. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stitchSizeMm } from "./gauge.ts";
import { placeHoldsRound, placeHoldsRow, type Place } from "./place.ts";
import { roundsOf, type Section } from "./sections.ts";

const runs = { seed: 7, numRuns: 200 };

describe("gauge", () => {
  it.each([
    // trade.md 1.3: w = 100 / stitches per 10 cm; 28 × 30 draws a cell 1.071 : 1 (trade.md 3).
    [28, 30, 3.5714, 3.3333, 1.071],
    [24, 32, 4.1667, 3.125, 1.333],
  ])("%i × %i", (stitches, rows, widthMm, heightMm, ratio) => {
    const size = stitchSizeMm({ stitches, rows });
    expect(size.widthMm).toBeCloseTo(widthMm, 4);
    expect(size.heightMm).toBeCloseTo(heightMm, 4);
    expect(size.widthMm / size.heightMm).toBeCloseTo(ratio, 3);
  });
});

describe("places", () => {
  const body = (round: number, row: number) => ({ section: "body", round, chart: "c1", row });

  it.each<[Place, number, number, boolean]>([
    [{ section: "body" }, 1, 1, true],
    [{ section: "sleeve" }, 1, 1, false],
    [{ section: "body", rounds: [60, 120] }, 59, 1, false],
    [{ section: "body", rounds: [60, 120] }, 60, 1, true],
    [{ section: "body", rounds: [60, 120] }, 120, 1, true],
    [{ section: "body", rounds: [60, 120] }, 121, 1, false],
    [{ chart: "c1" }, 9, 4, true],
    [{ chart: "c2" }, 9, 4, false],
    [{ chart: "c1", rows: [4, 4] }, 9, 4, true],
    [{ chart: "c1", rows: [4, 4] }, 4, 9, false],
  ])("%j, round %i knitting row %i: %s", (place, round, row, expected) => {
    expect(placeHoldsRound(place, body(round, row))).toBe(expected);
  });

  it("a row of a chart lies in a place of that chart, never in a place of a section", () => {
    expect(placeHoldsRow({ chart: "c1", rows: [2, 3] }, "c1", 3)).toBe(true);
    expect(placeHoldsRow({ chart: "c1", rows: [2, 3] }, "c1", 4)).toBe(false);
    expect(placeHoldsRow({ section: "c1" }, "c1", 3)).toBe(false);
  });

  it("a place named by chart holds a round exactly when it holds the row knitted there", () => {
    const places = fc.record({
      chart: fc.constantFrom("c1", "c2"),
      rows: fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 })),
    });
    fc.assert(
      fc.property(places, fc.integer({ min: 1, max: 99 }), fc.integer({ min: 1, max: 9 }), (place, round, row) => {
        expect(placeHoldsRound(place, body(round, row))).toBe(placeHoldsRow(place, "c1", row));
      }),
      runs,
    );
  });
});

describe("sections", () => {
  const section = (more: Partial<Section>): Section => ({
    id: "s1",
    chart: "c1",
    rounds: { M: 5 },
    stitches: { M: 240 },
    ...more,
  });

  it("the chart begins at its start row and again at the bottom when the rounds pass its top", () => {
    const rounds = roundsOf(section({ startRow: 3 }), 4, "M");
    expect(rounds.map(({ round, chartRow }) => [round, chartRow])).toEqual([
      [1, 3],
      [2, 4],
      [3, 1],
      [4, 2],
      [5, 3],
    ]);
  });

  it("decreases hold from their own round on, in whatever order they are written: 380, 285, 190, 114 (trade.md 3)", () => {
    const yoke = section({
      rounds: { M: 8 },
      stitches: { M: 380 },
      decreases: {
        M: [
          { round: 7, to: 114 },
          { round: 3, to: 285 },
          { round: 5, to: 190 },
        ],
      },
    });
    expect(roundsOf(yoke, 10, "M").map(({ stitches }) => stitches)).toEqual([380, 380, 285, 285, 190, 190, 114, 114]);
  });

  it("stitches that come at the beginning of a round begin it so many columns earlier, and the middle stays", () => {
    // A sleeve of 9 stitches about column 5 gets a stitch on either side in rounds 2 and 4.
    const sleeve = section({
      stitches: { M: 9 },
      decreases: {
        M: [
          { round: 2, to: 11, atStart: -1 },
          { round: 4, to: 13, atStart: -1 },
        ],
      },
    });
    const rounds = roundsOf(sleeve, 4, "M");
    expect(rounds.map(({ startColumn }) => startColumn)).toEqual([1, 0, 0, -1, -1]);
    for (const { startColumn, stitches } of rounds) expect(startColumn + (stitches - 1) / 2).toBe(5);
  });

  it("an armhole passes over the columns of what was cast off, and of what goes on either side of it", () => {
    // 20 columns from column 1; the round begins at the neck, an armhole stands after 6 stitches and passes over 4.
    const upper = section({
      stitches: { M: 16 },
      beside: [
        { kind: "steek", name: "neck", stitches: { M: 5 }, after: { M: 0 } },
        { kind: "steek", name: "armhole", stitches: { M: 5 }, after: { M: 6 }, skips: { M: 4 } },
      ],
      decreases: {
        M: [
          { round: 2, to: 14, at: ["armhole"] },
          { round: 3, to: 12, at: ["neck"] },
          { round: 4, to: 8, at: ["neck", "armhole"] },
        ],
      },
    });
    const columns = roundsOf(upper, 4, "M").map(({ startColumn, stitches, gaps }) =>
      Array.from({ length: stitches }, (_, index) =>
        gaps.reduce((column, gap) => column + (gap.after <= index ? gap.columns : 0), startColumn + index),
      ),
    );
    // By hand: columns 7 to 10 are cast off, then 6 and 11 go, then 1 and 20, then 2, 19, 5 and 12.
    expect(columns[0]).toEqual([1, 2, 3, 4, 5, 6, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20]);
    expect(columns[1]).toEqual([1, 2, 3, 4, 5, 12, 13, 14, 15, 16, 17, 18, 19, 20]);
    expect(columns[2]).toEqual([2, 3, 4, 5, 12, 13, 14, 15, 16, 17, 18, 19]);
    expect(columns[3]).toEqual([3, 4, 13, 14, 15, 16, 17, 18]);
  });

  it("a size that the section does not have has no rounds", () => {
    expect(roundsOf(section({}), 4, "L")).toEqual([]);
  });

  it("the start column is the size's own, else 1", () => {
    expect(roundsOf(section({ startColumn: { M: 12 } }), 4, "M")[0]).toMatchObject({ startColumn: 12 });
    expect(roundsOf(section({}), 4, "M")[0]).toMatchObject({ startColumn: 1 });
  });

  it("every round is placed once, on a row of the chart, and its neighbour follows it", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 300 }),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 60 }),
        (count, height, start) => {
          const startRow = ((start - 1) % height) + 1;
          const rounds = roundsOf(section({ rounds: { M: count }, startRow }), height, "M");
          expect(rounds.map(({ round }) => round)).toEqual(Array.from({ length: count }, (_, index) => index + 1));
          rounds.forEach(({ chartRow }, index) => {
            const expected = index === 0 ? startRow : (rounds[index - 1]!.chartRow % height) + 1;
            expect(chartRow).toBe(expected);
          });
        },
      ),
      runs,
    );
  });
});
