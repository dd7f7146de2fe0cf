/** The planner of swatches: by hand on small charts, and what must hold of any. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellAt, gridOf, type Chart } from "../chart/chart.ts";
import { clothOf } from "../fabric/cloth.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { planSwatch, type SwatchPlan } from "./swatch.ts";
import { paceCounted } from "./swatchManner.ts";
import type { SwatchDoubt, SwatchQuestion } from "./swatchQuestion.ts";

/** 28 stitches to 10 cm: 15 cm are 42. */
const GAUGE = { stitches: 28, rows: 30 };

interface Asked extends Partial<Omit<SwatchQuestion, "doubts" | "cloths">> {
  readonly rows: string[];
  readonly doubts: readonly (Partial<SwatchDoubt> & { readonly at: readonly (readonly [number, number])[] })[];
  readonly colourway?: Partial<Colourway>;
}

function questionOf({ rows, doubts, colourway, ...more }: Asked): SwatchQuestion {
  const ids = [...new Set(rows.join(""))].filter((id) => id !== "-");
  const yarns = ids.map((id) => ({
    id: `y${id}`,
    name: `yarn ${id}`,
    shade: { hex: "#888888" },
    metresPer100g: 420,
    grams: 50,
  }));
  const colours = ids.map((id) => ({ id, shade: { hex: "#888888" } }));
  const chart: Chart = { id: "c1", rows };
  const pattern = { gauge: GAUGE, colours, charts: [chart] };
  const own = { id: "w1", yarns: Object.fromEntries(ids.map((id) => [id, `y${id}`])), ...colourway };
  return {
    cloths: [{ cloth: clothOf({ chart, pattern, yarns, colourway: own }), section: null }],
    doubts: doubts.map(({ at, ...doubt }, index) => ({
      id: `d${index}`,
      kind: "row",
      rows: at.map(([from, to]) => (from === to ? from : from + 1)),
      headline: `doubt ${index}`,
      chance: 0.2,
      options: at.map((place) => [{ cloth: 0, rows: place }]),
      times: 1,
      precision: null,
      ...doubt,
    })),
    looks: [],
    precision: 1,
    colours,
    yarns,
    gauge: GAUGE,
    ...more,
  };
}

const plan = (asked: Asked): SwatchPlan => planSwatch(questionOf(asked));

const LINES = ["AAAAAA", "ABABAB", "AAAAAA", "ACACAC", "AAAAAA", "AADAAD", "AAAAAA"];

describe("a swatch by hand", () => {
  it("a line of one and one, flat: three rows of 42 stitches and one at each edge", () => {
    const swatch = plan({ rows: LINES, doubts: [{ at: [[5, 7]] }], manner: "flat" });
    expect(swatch.chart!.rows).toEqual(["A".repeat(44), `B${"AB".repeat(21)}B`, "A".repeat(44)]);
    expect([swatch.stitches, swatch.across, swatch.chart!.worked]).toEqual([
      132,
      { stitches: 44, edges: [1, 1] },
      "flat",
    ]);
    expect(swatch.rows).toEqual([{ chart: "c1", section: null, rows: [5, 7], swatchRows: [1, 3] }]);
    expect(swatch.covers).toEqual([{ id: "d0", headline: "doubt 0", by: "seen", swatchRows: [2], chance: 0.2 }]);
    // 44 × 100 / 28 mm by 3 × 100 / 30 mm.
    expect(swatch.size.widthMm).toBeCloseTo(157.14, 2);
    expect(swatch.size.heightMm).toBeCloseTo(10, 6);
    // Seven rows of the chart in the same width.
    expect(swatch.wholeRepeat.stitches).toBe(7 * 44);
  });

  it("in the round: five stitches more to cut, the strands by turns in them, and every row from the right side", () => {
    const swatch = plan({ rows: LINES, doubts: [{ at: [[5, 7]] }] });
    expect(swatch.chart!.rows[1]).toBe(`BABAB${"AB".repeat(21)}`);
    expect([swatch.chart!.worked, swatch.stitches, swatch.across.edges]).toEqual(["round", 3 * 47, [0, 5]]);
  });

  it("two lines have the plain row between them in common, wherever it comes from", () => {
    const swatch = plan({ rows: LINES, doubts: [{ at: [[1, 3]] }, { at: [[5, 7]] }], manner: "flat" });
    expect(swatch.chart!.rows).toHaveLength(5);
    expect(swatch.rows.map(({ rows, swatchRows }) => [rows, swatchRows])).toEqual([
      [
        [1, 3],
        [1, 3],
      ],
      [
        [5, 7],
        [3, 5],
      ],
    ]);
  });

  it("whole repeats: rows of 6 and of 4 are shown in 48, not in 42", () => {
    const rows = ["AAAAAAAAAAAA", "AAABBBAAABBB", "AAAAAAAAAAAA", "ACCAACCAACCA", "AAAAAAAAAAAA"];
    const both = plan({ rows, doubts: [{ at: [[1, 3]] }, { at: [[3, 5]] }], manner: "flat" });
    expect(both.across.stitches).toBe(50);
    const one = plan({ rows, doubts: [{ at: [[3, 5]] }], manner: "flat" });
    expect(one.across.stitches).toBe(44);
  });

  it("time: rows, cast-on and cast-off at her pace; in speed manner ten seconds a row besides", () => {
    const asked = { rows: LINES, doubts: [{ at: [[5, 7]] as const }], pace: paceCounted(22) };
    // 5 × 44 stitches at 22 a minute.
    expect(plan({ ...asked, manner: "flat" }).minutes).toBeCloseTo(10, 9);
    expect(plan({ ...asked, manner: "speed" }).minutes).toBeCloseTo(10.5, 9);
    const { minutesLow, minutes, minutesHigh } = plan({ ...asked, manner: "flat" });
    expect(minutesLow).toBeLessThan(minutes);
    expect(minutesHigh).toBeGreaterThan(minutes);
  });

  it("yarn in speed manner: each row's yarns go back across it half as long again as it is wide", () => {
    const asked = { rows: LINES, doubts: [{ at: [[5, 7]] as const }] };
    const [flat, speed] = (["flat", "speed"] as const).map((manner) => plan({ ...asked, manner }).yarns);
    const metres = (yarns: typeof flat, yarn: string): number => yarns!.find((one) => one.yarn === yarn)!.metres;
    const width = (44 * 100) / 28 / 1000;
    expect(metres(speed, "yA") - metres(flat, "yA")).toBeCloseTo(3 * 1.5 * width, 6);
    expect(metres(speed, "yB") - metres(flat, "yB")).toBeCloseTo(1.5 * width, 6);
    expect(speed!.every(({ low, metres: usual, high }) => low < usual && usual < high)).toBe(true);
  });

  it("yarn at 28 × 30, worked by hand: trade.md 1.5's two-strand stitch, tails, cast-on and cast-off", () => {
    // Of the line's 44 stitches 23 are B's, edges among them, and 21 A's; flat, B passes the 21 and A 20 between its first and its last.
    // Loops of 16.036 mm, floats of 3.929 mm, two tails of 15 cm; plain rows, cast-on twice and cast-off are A's.
    const { yarns } = plan({ rows: LINES, doubts: [{ at: [[5, 7]] }], manner: "flat" });
    const metres = (yarn: string): number => yarns.find((one) => one.yarn === yarn)!.metres;
    expect(metres("yB")).toBeCloseTo((23 * 16.036 + 21 * 3.929) / 1000 + 0.3, 3);
    expect(metres("yA")).toBeCloseTo(((2 * 44 + 21 + 3 * 44) * 16.036 + 20 * 3.929) / 1000 + 0.3, 3);
  });

  it("one chart colour in two yarns is two colours of the swatch, and two in one yarn are one", () => {
    const swatch = plan({
      rows: LINES,
      doubts: [{ at: [[1, 7]] }],
      manner: "flat",
      colourway: {
        changes: [
          { at: { chart: "c1", rows: [6, 6] }, colour: "B", yarn: "yD" },
          { at: { chart: "c1", rows: [1, 1] }, colour: "A", yarn: "yC" },
        ],
      },
    });
    expect(swatch.key).toEqual([
      { colour: "A", of: "A", yarn: "yC" },
      { colour: "D", of: "D", yarn: "yD" },
      { colour: "B", of: "A", yarn: "yA" },
    ]);
    expect(swatch.chart!.rows.at(-1)).toBe("A".repeat(44));
    expect(swatch.chart!.rows[1]).toBe(`D${"BD".repeat(21)}D`);
  });

  it("duplicate stitch is laid on where the chart has it, and the row below is knitted as it is", () => {
    const swatch = plan({
      rows: LINES,
      doubts: [{ at: [[6, 7]] }],
      manner: "flat",
      colourway: { overStitched: [{ at: { chart: "c1", rows: [7, 7] }, cells: [[7, 2]], yarn: "yD" }] },
    });
    expect(swatch.chart!.rows[0]).toBe("A".repeat(44));
    // Every sixth stitch from the second, one edge stitch to the right of it.
    expect(swatch.colourway!.overStitched).toEqual([
      { at: { chart: "swatch" }, cells: Array.from({ length: 7 }, (_, repeat) => [2, 3 + 6 * repeat]), yarn: "yD" },
    ]);
    expect(swatch.duplicateStitches).toBe(7);
    expect(swatch.yarns.map(({ yarn }) => yarn)).toContain("yD");
  });
});

describe("what it leaves open", () => {
  it("says what no swatch of the budget settles, and what only has no room", () => {
    const band: [number, number] = [1, 7];
    const asked = {
      rows: LINES,
      doubts: [{ at: [[5, 7]] as const }, { at: [band], chance: 0.5 }, { at: [[1, 3]] as const, chance: 0.3 }],
      manner: "flat" as const,
    };
    const { covers, leaves } = plan({ ...asked, budget: { stitches: 132 } });
    expect(covers.map(({ id }) => id)).toEqual(["d2"]);
    expect(leaves.map(({ id, why }) => [id, why])).toEqual([
      ["d0", "room"],
      ["d1", "budget"],
    ]);
    expect(leaves[1]!.sentence).toBe(
      "No swatch of this budget settles it: alone it takes 308 stitches, about 20 minutes.",
    );
    const none = plan({ ...asked, budget: { stitches: 131 } });
    expect([none.chart, none.covers, none.stitches, none.leaves.map(({ why }) => why)]).toEqual([
      null,
      [],
      0,
      ["budget", "budget", "budget"],
    ]);
  });

  it("minutes are a budget too", () => {
    const asked = { rows: LINES, doubts: [{ at: [[5, 7]] as const }], manner: "flat" as const, pace: paceCounted(22) };
    expect(plan({ ...asked, budget: { minutes: 10 } }).covers).toHaveLength(1);
    expect(plan({ ...asked, budget: { minutes: 9.9 } }).covers).toHaveLength(0);
  });

  it("what decreases is left to its own shape, what hangs on the round's width to the garment", () => {
    const rows = ["--ABAB", "ABABAB", "AAAAAA"];
    const { leaves } = plan({ rows, doubts: [{ at: [[1, 3]] }, { at: [], kind: "flecks" }] });
    expect(leaves.map(({ why }) => why)).toEqual(["shape", "garment"]);
  });

  it("a repeat that goes into no common width is for a swatch of its own", () => {
    const wide = (repeat: number): string => `B${"A".repeat(repeat - 1)}`;
    const rows = ["A".repeat(1517), wide(41).repeat(37), "A".repeat(1517), wide(37).repeat(41), "A".repeat(1517)];
    const { covers, leaves } = plan({ rows, doubts: [{ at: [[1, 3]] }, { at: [[3, 5]], chance: 0.4 }] });
    expect(covers.map(({ id }) => id)).toEqual(["d1"]);
    expect(leaves.map(({ why }) => why)).toEqual(["repeat"]);
  });

  it("what follows from her threshold needs not be knitted, once enough is looked at", () => {
    const follows = { at: [[1, 7]] as const, precision: 2.5 };
    const looks = [
      [1, 3],
      [3, 5],
    ].map((rows) => ({ information: 0.8, options: [[{ cloth: 0, rows: rows as [number, number] }]] }));
    const { covers, chart, threshold } = plan({ rows: LINES, doubts: [follows], looks, manner: "flat" });
    expect(covers.map(({ by }) => by)).toEqual(["threshold"]);
    expect(chart!.rows).toHaveLength(5);
    // 1.2816 standard deviations either way, of 1 and of 1 / √2.6.
    expect(threshold.now).toBeCloseTo(Math.exp(1.2816), 9);
    expect(threshold.after).toBeCloseTo(Math.exp(1.2816 / Math.sqrt(2.6)), 9);
  });

  it("nothing in doubt, nothing to knit", () => {
    const { chart, covers, leaves, stitches, yarns } = plan({ rows: LINES, doubts: [] });
    expect([chart, covers, leaves, stitches, yarns]).toEqual([null, [], [], 0, []]);
  });
});

/** Charts of plain rows and lines, and doubts about some of their rows. */
const asked = fc
  .record({
    kinds: fc.array(fc.constantFrom("AAAAAAAAAAAA", "ABABABABABAB", "AACCAACCAACC", "AABAABAABAAB", "DAAAAADAAAAA"), {
      minLength: 3,
      maxLength: 9,
    }),
    picked: fc.array(fc.record({ row: fc.nat(8), chance: fc.constantFrom(0.1, 0.2, 0.4) }), {
      minLength: 1,
      maxLength: 4,
    }),
    manner: fc.constantFrom("round", "flat", "speed" as const),
    budget: fc.option(fc.record({ stitches: fc.integer({ min: 100, max: 500 }) }), { nil: undefined }),
  })
  .map(({ kinds, picked, manner, budget }): Asked => ({
    rows: kinds,
    doubts: picked.map(({ row, chance }) => {
      const at = (row % kinds.length) + 1;
      return { at: [[Math.max(1, at - 1), Math.min(kinds.length, at + 1)]], chance, rows: [at] };
    }),
    manner: manner as "round",
    budget,
  }));

describe("any swatch", () => {
  it("has every doubtful row that it settles with its own neighbours, in whole repeats", () =>
    fc.assert(
      fc.property(asked, (one) => {
        const { chart, covers, rows, across } = plan(one);
        if (!chart) return;
        const [own, swatch] = [gridOf({ rows: one.rows }), gridOf(chart)];
        const shown = (swatchRow: number, row: number): void => {
          for (let column = 1; column <= across.stitches - across.edges[0] - across.edges[1]; column++)
            expect(swatch.ids[cellAt(swatch, swatchRow, column + across.edges[0])]).toBe(
              own.ids[cellAt(own, row, ((column - 1) % own.width) + 1)],
            );
        };
        for (const run of rows)
          for (let step = 0; step <= run.rows[1] - run.rows[0]; step++)
            shown(run.swatchRows[0] + step, run.rows[0] + step);
        for (const { id, swatchRows } of covers) {
          const [place] = one.doubts[Number(id.slice(1))]!.at;
          const run = rows.find(({ rows: [from, to] }) => from <= place![0] && to >= place![1])!;
          const [row] = one.doubts[Number(id.slice(1))]!.rows!;
          expect(swatchRows).toContain(run.swatchRows[0] + row! - run.rows[0]);
        }
      }),
      { seed: 7, numRuns: 80 },
    ));

  it("counts its stitches alike in its chart and in its rows, and keeps within its budget", () =>
    fc.assert(
      fc.property(asked, (one) => {
        const { chart, stitches, across, yarns, covers, leaves } = plan(one);
        expect(stitches).toBe(chart ? chart.rows.join("").length : 0);
        expect(stitches).toBeLessThanOrEqual(one.budget && "stitches" in one.budget ? one.budget.stitches : Infinity);
        expect(covers.length + leaves.length).toBe(one.doubts.length);
        if (!chart) return;
        expect(chart.rows.every((row) => row.length === across.stitches)).toBe(true);
        expect(yarns.every(({ low, metres, high }) => low <= metres && metres <= high && low > 0)).toBe(true);
      }),
      { seed: 7, numRuns: 80 },
    ));

  it("settles everything where there is no budget, in no more stitches than the whole repeat", () =>
    fc.assert(
      fc.property(asked, (one) => {
        const { leaves, stitches, wholeRepeat, proven } = plan({ ...one, budget: undefined });
        expect([leaves, proven]).toEqual([[], true]);
        expect(stitches).toBeLessThanOrEqual(wholeRepeat.stitches);
      }),
      { seed: 7, numRuns: 60 },
    ));
});
