/** How a chart is built for the screen: the worked example against its own file, and a large chart that must be answered at all. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyEdit } from "../document/edit.ts";
import { readProject } from "../document/read.ts";
import { builtChart, type BuiltBand, type BuiltChart } from "./builtChart.ts";
import { chartStructure } from "./chartStructure.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const built = builtChart(vest, { chart: "c1" })!;
const at = (of: BuiltChart, row: number): BuiltBand => of.bands.find(({ rows }) => rows[0] === row)!;

describe("the worked example", () => {
  it("is built as the job of its chart alone says", () => {
    const { main, contrasts, bands, alignments } = chartStructure(vest.pattern.charts[0]!);
    expect(built).toMatchObject({ main, contrasts });
    expect(built.bands.map(({ id, rows, repeat, shaded }) => ({ id, rows, repeat, shaded }))).toEqual(
      bands.map(({ id, rows, repeat, shaded }) => ({ id, rows, repeat, shaded })),
    );
    expect(built.alignments.map(({ ways: _, ...one }) => one)).toEqual(alignments);
  });

  it("has the main colour that she says, and tells which was found", () => {
    // By the file: hoar (A) is said to be the main colour, and the plain rows and most grounds are hoar.
    expect([built.main, built.foundMain]).toEqual(["A", "A"]);
    const other = builtChart(applyEdit(vest, { kind: "setPatternColour", id: "J", role: "main" }), { chart: "c1" })!;
    expect([other.main, other.foundMain]).toEqual(["J", "A"]);
    expect(other.contrasts).toContain("A");
    expect(other.contrasts).not.toContain("J");
  });

  it("has her names as her word, and every row once", () => {
    expect(at(built, 36).said).toEqual({ rows: [36, 42], name: "cairns" });
    expect(at(built, 34).said).toBeNull();
    expect(built.rows.map(({ row }) => row)).toEqual(Array.from({ length: 120 }, (_, index) => index + 1));
    expect(at(built, 104).echo).toMatchObject({ of: at(built, 36).id, rows: [36, 42] });
  });

  it("says what a strand may pass: 7 stitches at 28 to 10 cm (trade.md 3), or as she sets it", () => {
    expect(built.limit).toEqual({ stitches: 7, cm: 2.5, usualCm: 2.5 });
    const own = builtChart(applyEdit(vest, { kind: "setFloatLimit", cm: 1 }), { chart: "c1" })!;
    // 1 cm at 28 stitches to 10 cm is 2.8 stitches, of which 2 are whole.
    expect(own.limit).toEqual({ stitches: 2, cm: 1, usualCm: 2.5 });
    const caught = (of: BuiltChart): number =>
      of.rows.filter(({ catches, ladders }) => catches.length + ladders.length > 0).length;
    expect(caught(own)).toBeGreaterThan(caught(built));
  });

  it("counts floats by hand: row 5 of the chart, right to left and round the end", () => {
    const row = vest.pattern.charts[0]!.rows.at(-5)!;
    const stitches = [...row].toReversed();
    const longestOf = (colour: string): number => {
      const places = stitches.flatMap((stitch, index) => (stitch === colour ? [index] : []));
      const gaps = places.map((place, nth) => (places[nth + 1] ?? places[0]! + stitches.length) - place - 1);
      return Math.max(...gaps);
    };
    const expected = [...new Set(stitches)].map((colour) => ({ colour, longest: longestOf(colour) }));
    const byName = (one: { colour: string }, other: { colour: string }) => one.colour.localeCompare(other.colour);
    expect(built.rows[4]!.floats.toSorted(byName)).toEqual(
      expected.filter(({ longest }) => longest > 0).toSorted(byName),
    );
  });

  it("offers for neighbours that can be shifted both ways, each of which does what it says", () => {
    const one = built.alignments.find(({ ways }) => ways.some(({ kind }) => kind === "shift"))!;
    const [way] = one.ways;
    const after = builtChart(way!.edits.reduce(applyEdit, vest), { chart: "c1" })!;
    const now = after.alignments.find(({ below, above }) => below === one.below && above === one.above)!;
    expect([way!.effect.startsWith("lined up") ? "lined up" : "half a repeat"]).toEqual([now.meets]);
  });

  it("is plain data; and of no such chart nothing is said", () => {
    expect(structuredClone(built)).toEqual(built);
    expect(JSON.stringify(built)).not.toMatch(/NaN|Infinity/);
    expect(builtChart(vest, { chart: "c9" })).toBeNull();
  });
});
