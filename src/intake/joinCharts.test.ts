import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { problemSentence } from "../base/problem.ts";
import { labFromHex } from "../colour/lab.ts";
import { joinCharts, joinedBy, type Joint } from "./joinCharts.ts";
import type { ReadChart } from "./readChart.ts";

const HEX: Readonly<Record<string, string>> = { A: "#e8e2d2", B: "#3b4a63", C: "#a4512f", D: "#5d6b3c" };

function chartOf(rows: readonly string[], more: Partial<ReadChart> = {}): ReadChart {
  const ids = [...new Set(rows.join("").replaceAll("-", ""))];
  return {
    rows: [...rows],
    colours: Object.fromEntries(ids.map((id) => [id, { hex: HEX[id]!, lab: labFromHex(HEX[id]!)! }])),
    confidence: 1,
    box: null,
    page: null,
    uncertain: [],
    ...more,
  };
}

/** The same chart under other ids, its colours a little off as another photograph has them. */
function underOtherIds(chart: ReadChart, seed: number): ReadChart {
  const random = seededRandom(seed);
  const ids = Object.keys(chart.colours);
  const fresh = ["Q", "R", "S", "T"].sort(() => random() - 0.5);
  const map = new Map(ids.map((id, index) => [id, fresh[index]!]));
  return {
    ...chart,
    rows: chart.rows.map((row) => Array.from(row, (id) => map.get(id) ?? id).join("")),
    colours: Object.fromEntries(
      ids.map((id) => {
        const [lightness, a, b] = chart.colours[id]!.lab;
        const lab = [lightness + 4 * (random() - 0.5), a + 3 * (random() - 0.5), b + 3 * (random() - 0.5)] as const;
        return [map.get(id)!, { hex: chart.colours[id]!.hex, lab: [...lab] }];
      }),
    ),
  };
}

/** What is seen, whatever the ids are called. */
const shadesOf = ({ rows, colours }: ReadChart): string[] =>
  rows.map((row) => Array.from(row, (id) => colours[id]?.hex ?? id).join(" "));

const columnsOf = (rows: readonly string[], from: number, to: number): string[] =>
  rows.map((row) => row.slice(from, to));

/** Rows at random, no two alike, as charts without a repeat have them. */
const unlikeRows = (least: number, most: number): fc.Arbitrary<string[]> =>
  fc
    .tuple(fc.nat(10_000), fc.integer({ min: 10, max: 24 }), fc.integer({ min: least, max: most }))
    .map(([seed, width, height]) => {
      const random = seededRandom(seed);
      return Array.from({ length: height }, () =>
        Array.from({ length: width }, () => "AABCD"[Math.floor(random() * 5)]!).join(""),
      );
    });

/** Cut from the top down into parts, each beginning `overlap` rows above the end of the one before. */
function cut(rows: readonly string[], parts: number, overlap: number): string[][] {
  const ends = Array.from({ length: parts }, (_, index) => Math.round((rows.length * (index + 1)) / parts));
  return ends.map((end, index) => rows.slice(index === 0 ? 0 : ends[index - 1]! - overlap, end));
}

const SETTINGS = { seed: 7, numRuns: 60 };

describe("a chart that is cut comes back", () => {
  it("stacked, by the rows that two parts show, in any order and under any ids", () => {
    const cases = fc.tuple(
      unlikeRows(16, 40),
      fc.integer({ min: 2, max: 4 }),
      fc.integer({ min: 1, max: 3 }),
      fc.nat(99),
    );
    fc.assert(
      fc.property(cases, ([rows, parts, overlap, seed]) => {
        const random = seededRandom(seed);
        const charts = cut(rows, parts, overlap)
          .map((part, index) => underOtherIds(chartOf(part), seed + index))
          .sort(() => random() - 0.5);
        const joined = joinCharts(charts)!;
        expect(shadesOf(joined.chart)).toEqual(shadesOf(chartOf(rows)));
        expect(joined.joints.map((joint) => joint.overlap)).toEqual(Array(parts - 1).fill(overlap));
      }),
      SETTINGS,
    );
  });

  it("side by side, by the columns that two parts show", () => {
    fc.assert(
      fc.property(unlikeRows(16, 30), fc.integer({ min: 1, max: 2 }), fc.boolean(), (rows, overlap, swap) => {
        const width = rows[0]!.length;
        const middle = Math.floor(width / 2);
        const [left, right] = [columnsOf(rows, 0, middle + overlap), columnsOf(rows, middle, width)];
        const charts = [underOtherIds(chartOf(left), 1), underOtherIds(chartOf(right), 2)];
        const joined = joinCharts(swap ? charts.reverse() : charts)!;
        expect(shadesOf(joined.chart)).toEqual(shadesOf(chartOf(rows)));
        expect(joined.joints[0]).toMatchObject({ side: "right", overlap });
      }),
      SETTINGS,
    );
  });

  it("four quarters", () => {
    fc.assert(
      fc.property(unlikeRows(16, 30), fc.nat(99), (rows, seed) => {
        const random = seededRandom(seed);
        const [across, down] = [Math.floor(rows[0]!.length / 2), Math.floor(rows.length / 2)];
        const quarters = [rows.slice(0, down + 1), rows.slice(down)].flatMap((half) => [
          columnsOf(half, 0, across + 1),
          columnsOf(half, across, rows[0]!.length),
        ]);
        const charts = quarters.map((quarter) => chartOf(quarter)).sort(() => random() - 0.5);
        expect(shadesOf(joinCharts(charts)!.chart)).toEqual(shadesOf(chartOf(rows)));
      }),
      SETTINGS,
    );
  });

  it("by its row numbers, whatever the rows are, with shared rows or none", () => {
    const repeating = fc.tuple(
      fc.array(fc.constantFrom("AAAA", "ABAB", "BABA", "AABB", "CCCC"), { minLength: 12, maxLength: 40 }),
      fc.integer({ min: 2, max: 4 }),
      fc.integer({ min: 0, max: 2 }),
      fc.nat(99),
    );
    fc.assert(
      fc.property(repeating, ([rows, parts, overlap, seed]) => {
        const random = seededRandom(seed);
        let below = rows.length;
        const charts = cut(rows, parts, overlap).map((part, index) => {
          below = rows.length - (index === 0 ? 0 : Math.round((rows.length * index) / parts) - overlap) - part.length;
          return chartOf(part, { firstRow: below + 1 });
        });
        charts.sort(() => random() - 0.5);
        const { chart, joints } = joinCharts(charts)!;
        expect(shadesOf(chart)).toEqual(shadesOf(chartOf(rows)));
        expect(Math.min(...joints.map(({ sureness }) => sureness))).toBeGreaterThan(0.9);
        expect(chart.firstRow).toBe(1);
      }),
      SETTINGS,
    );
  });

  it("although some of the shared cells are misread: the surer reading counts, and they are told", () => {
    fc.assert(
      fc.property(unlikeRows(20, 30), fc.nat(1000), (rows, seed) => {
        const random = seededRandom(seed);
        const [upper, lower] = cut(rows, 2, 3) as [string[], string[]];
        const column = Math.floor(random() * rows[0]!.length);
        const row = upper.length - 1 - Math.floor(random() * 3);
        const wrong = upper[row]![column] === "A" ? "B" : "A";
        upper[row] = `${upper[row]!.slice(0, column)}${wrong}${upper[row]!.slice(column + 1)}`;
        const sureness = upper.map((text, at) =>
          Array.from(text, (_, across) => (at === row && across === column ? "2" : "9")).join(""),
        );
        const { chart, problems } = joinCharts([chartOf(upper, { sureness }), chartOf(lower)])!;
        expect(shadesOf(chart)).toEqual(shadesOf(chartOf(rows)));
        expect(chart.uncertain).toEqual([[rows.length - row, rows[0]!.length - column]]);
        expect(problems.map(problemSentence)).toContain(
          "Cells that two parts show: expected the same colour on both, found another in 1; the surer reading is taken.",
        );
      }),
      SETTINGS,
    );
  });
});

describe("what may only look shared", () => {
  // Small bands with two plain rows between them, the same row above and below: where the pages part, both show a plain row.
  const band = ["AAAAAAAA", "ABAAABAA", "BBBABBBA", "ABAAABAA", "AAAAAAAA"];
  it("plain rows that stand twice are told as a doubt, not taken for sure", () => {
    const rows = [...band, ...band, ...band, ...band];
    const { joints, problems } = joinCharts([chartOf(rows.slice(0, 10)), chartOf(rows.slice(10))], { areOne: true })!;
    expect(joints[0]!.sureness).toBeLessThan(0.9);
    expect(problems[0]!.severity).toBe("doubt");
    expect(problems[0]!.where).toBe("parts 1 and 2");
  });
  it("row numbers are believed where plain rows say nothing", () => {
    const rows = [...band, ...band];
    const parts = [chartOf(rows.slice(0, 5), { firstRow: 6 }), chartOf(rows.slice(5), { firstRow: 1 })];
    expect(joinCharts(parts)!.chart.rows).toEqual(rows);
  });
  it("charts of one width with nothing to say that they are one are left alone", () => {
    const [one, other] = [chartOf(["ABAB", "BABA", "AABB"]), chartOf(["CCAC", "ACCA", "CACC"])];
    expect(joinCharts([one, other])).toBeNull();
    // She says so: the first is on top, and that this is a guess is told.
    const joined = joinCharts([one, other], { areOne: true })!;
    expect(joined.chart.rows).toEqual(["ABAB", "BABA", "AABB", "CCAC", "ACCA", "CACC"]);
    expect(joined.joints[0]!.sureness).toBeLessThan(0.6);
  });
  it("the same name on pages that follow each other says so too, in the order of the pages", () => {
    const [one, other] = [
      ["ABAB", "BABA"],
      ["BBAB", "ABAA", "BBBA"],
    ].map((rows, index) => chartOf(rows, { name: "Ridge watch", page: index + 1 })) as [ReadChart, ReadChart];
    expect(joinCharts([other, one])!.chart.rows).toEqual([...one.rows, ...other.rows]);
  });
  it("other sizes do not fit, and rows that are missing between are not bridged", () => {
    expect(joinCharts([chartOf(["ABAB", "BABA"]), chartOf(["ABA", "BAB", "AAB"])], { areOne: true })).toBeNull();
    const parts = [chartOf(["ABAB", "BABA"], { firstRow: 1 }), chartOf(["ABAB", "BABB"], { firstRow: 4 })];
    expect(joinCharts(parts, { areOne: true })).toBeNull();
  });
});

describe("her own word", () => {
  const charts = [chartOf(["AB", "BA"]), chartOf(["CC", "AB"]), chartOf(["AD", "BC"])];
  const joint = (first: number, second: number, side: Joint["side"], overlap: number): Joint => ({
    first,
    second,
    side,
    overlap,
    sureness: 1,
  });
  it.each<[string, Joint[], string[]]>([
    ["above, with a row shared", [joint(0, 1, "above", 1), joint(0, 2, "below", 0)], ["CC", "AB", "BA", "AD", "BC"]],
    ["left and right", [joint(0, 1, "left", 0), joint(0, 2, "right", 0)], ["CCABAD", "ABBABC"]],
    [
      "a corner that no part shows",
      [joint(0, 1, "below", 0), joint(0, 2, "right", 0)],
      ["ABAD", "BABC", "CC--", "AB--"],
    ],
  ])("%s", (_, joints, rows) => {
    expect(joinedBy(charts, joints)!.chart.rows).toEqual(rows);
  });
  it("must hold all of them together, and not say two things", () => {
    expect(joinedBy(charts, [joint(0, 1, "above", 0)])).toBeNull();
    expect(joinedBy(charts, [joint(0, 1, "above", 0), joint(1, 2, "above", 0), joint(0, 2, "below", 0)])).toBeNull();
  });
});

describe("one colour on several pages", () => {
  it("is known by its sign, and named by the page that has the key", () => {
    const grey = (lightness: number): { hex: string; lab: [number, number, number]; assumed: true } => ({
      hex: "#808080",
      lab: [lightness, 0, 0],
      assumed: true,
    });
    const one: ReadChart = {
      ...chartOf([]),
      rows: ["AABA", "ACCA", "BACA"],
      colours: { A: { ...grey(92), name: "hoar" }, B: { ...grey(60), name: "rust" }, C: { ...grey(20), name: "peat" } },
      symbols: { B: { text: "x" }, C: { text: "v" } },
      firstRow: 1,
    };
    const two: ReadChart = {
      ...chartOf([]),
      rows: ["BBAB", "CAAC"],
      colours: { A: grey(92), B: grey(60), C: grey(20) },
      symbols: { B: { text: "v" }, C: { text: "x" } },
      firstRow: 4,
    };
    const { chart } = joinCharts([two, one])!;
    const names = chart.rows.map((row) => Array.from(row, (id) => chart.colours[id]!.name));
    expect(names).toEqual([
      ["peat", "peat", "hoar", "peat"],
      ["rust", "hoar", "hoar", "rust"],
      ["hoar", "hoar", "rust", "hoar"],
      ["hoar", "peat", "peat", "hoar"],
      ["rust", "hoar", "peat", "hoar"],
    ]);
    expect(Object.keys(chart.colours)).toHaveLength(3);
  });
  it("colours that are near each other on one page stay two", () => {
    const near = (first: string, second: string): ReadChart => ({
      ...chartOf([]),
      rows: ["ABAB", "BBAA"],
      colours: { A: { hex: first, lab: labFromHex(first)! }, B: { hex: second, lab: labFromHex(second)! } },
    });
    const { chart } = joinedBy(
      [near("#806040", "#8a6848"), near("#83633f", "#8c6b4c")],
      [{ first: 0, second: 1, side: "below", overlap: 0, sureness: 1 }],
    )!;
    expect(chart.rows).toEqual(["ABAB", "BBAA", "ABAB", "BBAA"]);
  });
});
