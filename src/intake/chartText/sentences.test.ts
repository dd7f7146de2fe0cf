/** What is told of a text: which line, what was expected there, what was found, and how an open reading was taken. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../../base/problem.ts";
import { readChartText } from "../chartText.ts";

const told = (text: string): [number | undefined, string][] =>
  readChartText(text)
    .problems.filter(({ where }) => !where.startsWith("colour "))
    .map((problem) => [problem.line, problemSentence(problem)]);

const rowsOf = (text: string): string[][] => readChartText(text).charts.map((chart) => chart.rows);

describe("rows in words", () => {
  it.each<[string, string, string[]]>([
    [
      "a range, and rows like others",
      "Rnds 1–2: k1 A, k1 B\nRnd 3: k2 B\nRnds 4-6: as rnds 1-3",
      ["BB", "BA", "BA", "BB", "BA", "BA"],
    ],
    [
      "every other row",
      "Row 1 (RS): k1 A, k1 B\nRow 2 and all WS rows: p all A\nRow 3: k2 B\nRow 5: k1 B, k1 A",
      ["AB", "AA", "BB", "AA", "BA"],
    ],
    ["the colour said first", "Rnd 1: With MC, knit.\nRnd 2: with MC k2, with CC k1", ["CMM", "MMM"]],
    ["several rounds at once", "Knit 2 rounds in A.\n*k1 B, k1 A; rep from * around\n", ["AB", "AA", "AA"]],
    ["a number and a full stop", "1. k2 A, k1 B\n2. k3 B", ["BBB", "BAA"]],
    ["several rows on a line", "Row 1: k2 A, k1 B. Row 2: k3 A.", ["AAA", "BAA"]],
    ["letters beside a row's number", "Row 2: A A B\nRow 1: BBB", ["AAB", "BBB"]],
    ["names that the key gives", "Rnd 1: k2 Fog, k1 Night\nRnd 2: k3 A\nA = Fog\nB = Night", ["AAA", "BAA"]],
    ["main and contrast colour in full", "Rnd 1: k2 main colour, k1 contrast color\nMC = #fff\nCC = #000", ["CMM"]],
    [
      "a name with a width, and a line between",
      "Cuff, worked over 4 sts\n\nRnd 1: *k1 A, k1 B; rep from * to end",
      ["BABA"],
    ],
    ["the side after the colon", "Row 1: (RS) k1 A, k2 B\nRow 2: (WS) p2 B, p1 A", ["BBA", "BBA"]],
    ["ordinals", "1st rnd: k2 A, k1 B\n2nd rnd: k3 A\n3rd rnd: k3 B", ["BBB", "AAA", "BAA"]],
    ["a dash for a colon", "R1 - 2 MC, 1 CC\nR2 - 3 MC", ["MMM", "CMM"]],
    [
      "whole words",
      "Rnd 1: knit 2 stitches in A and 1 stitch in B\nRnd 2: knit all stitches in B only",
      ["BBB", "BAA"],
    ],
    ["a stated width", "Rnd 1: *k1 A, k1 B; rep from * to end (6 sts)\nRnd 2: k all A", ["AAAAAA", "BABABA"]],
    ["a width said before", "Worked over 4 sts.\nRnd 1: *k1 A, k1 B; rep from * to end", ["BABA"]],
    [
      "repeats that only meet at their common multiple",
      "Rnd 1: *k1 A, k1 B; rep from * to end\nRnd 2: *k2 A, k1 B; rep from * to end",
      ["BAABAA", "BABABA"],
    ],
  ])("%s", (_, text, rows) => expect(rowsOf(text)).toEqual([rows]));

  it("a row that is not there", () => {
    expect(told("Rnd 1: k2 A\nRnd 3: k2 B")).toEqual([
      [undefined, "Row 2: expected its stitches, found nothing; it is left without stitches."],
    ]);
  });
  it("a row that cannot be read, once", () => {
    const text = "Rnd 1: k2 A\nRnd 2: k1 A, purse the lips\nRnd 3: k2 B";
    expect(told(text)).toEqual([[2, 'Row 2: expected stitches such as k3 MC, found "purse the lips".']]);
    expect(rowsOf(text)).toEqual([["BB", "--", "AA"]]);
    expect(readChartText(text).charts[0]!.uncertain).toEqual([
      [2, 1],
      [2, 2],
    ]);
  });
  it("a second row of one number", () => {
    expect(told("Rnd 1: k2 A\nRnd 2: k2 B\nRnd 2: k2 A")).toEqual([
      [3, "Row 2: expected one row of that number, found a second one; that of line 2 is kept."],
    ]);
  });
  it("too few stitches and too many", () => {
    expect(told("Rnd 1: k4 A\nRnd 2: k4 B\nRnd 3: k3 A\nRnd 4: k5 A")).toEqual([
      [4, "Row 4: expected 4 stitches, found 5, cut where it ends."],
      [3, "Row 3: expected 4 stitches, found 3, filled up with no stitch where it ends."],
    ]);
  });
  it("a count that is not the row's", () => {
    expect(told("Rnd 1: k4 A\nRnd 2: k2 A, k1 B (4 sts)")[0]).toEqual([
      2,
      "Row 2: expected 4 stitches, as it says, found 3, filled up with no stitch where it ends.",
    ]);
  });
  it("a repeat that does not come out", () => {
    expect(told("Rnd 1: k5 A\nRnd 2: *k1 A, k1 B; rep from * to end")).toEqual([
      [2, "Row 2: expected 5 stitches, found repeats of 2, which do not come out."],
    ]);
  });
  it("an end that has another length than it says", () => {
    expect(told("Rnd 1: k5 A\nRnd 2: *k1 A, k1 B; rep from * to last 2 sts, k1 A")).toEqual([
      [2, "Row 2: expected 2 stitches after the repeat, found 1 for them."],
    ]);
  });
  it("a star that nothing repeats from", () => {
    expect(told("Rnd 1: k5 A\nRnd 2: k1 A, rep from * to end")[0]).toEqual([
      2,
      'Row 2: expected a "*" before "rep from *", found "to end".',
    ]);
  });
  it("times that may be more or in all: the row's width settles it, and else it is told", () => {
    // 2 + 4 × 2 + 2 = 12 stitches: three times more. 2 + 3 × 2 + 2 = 10: three in all.
    const row = "k2 A, *k1 B, k1 A; rep from * 3 times, k2 A";
    expect(told(`Rnd 1: ${row}\nRnd 2: k12 A`)).toEqual([]);
    expect(told(`Rnd 1: ${row}\nRnd 2: k10 A`)).toEqual([]);
    expect(told(`Rnd 1: ${row}`)).toEqual([
      [1, 'Row 1: expected "more" or "in all" beside the times, found neither; read as so many times more.'],
    ]);
  });
  it("rows that may run either way, only where it makes a difference", () => {
    const either = [
      1,
      'The rows: expected "RS" and "WS", or "Rnd", which say in which direction they are read, found neither, so every row is read from right to left, as rounds are worked.',
    ];
    expect(told("Row 1: k1 A, k2 B\nRow 2: k3 A")).toEqual([either]);
    expect(told("Row 1: k1 A, k2 B, k1 A\nRow 2: k4 A")).toEqual([]);
  });
  it("stitches that shape are one stitch", () => {
    expect(told("Rnd 1: k2 A, k2tog B\nRnd 2: k3 A")).toEqual([
      [1, "The rows: expected stitches that do not shape, found k2tog, read as one stitch each."],
    ]);
  });
  it("what is said between rows", () => {
    expect(told("Rnd 1: k2 A\nMind the strands at the back here.\nRnd 2: k2 B")).toEqual([
      [2, 'Line 2: expected a row of stitches or a key line, found "Mind the strands at the back here.", left out.'],
    ]);
  });
});

describe("two charts of rows in words", () => {
  it("are told apart by their numbers, and keep their names", () => {
    const { charts } = readChartText("Yoke\nRnd 1: k2 A\nRnd 2: k2 B\n\nCuff\nRnd 1: k3 A\nRnd 2: k1 A, k2 B\n");
    expect(charts.map(({ name, rows }) => [name, rows])).toEqual([
      ["Yoke", ["BB", "AA"]],
      ["Cuff", ["BBA", "AAA"]],
    ]);
  });
});

describe("the key", () => {
  it("gives a shade by a name, and says that it did", () => {
    const { charts, problems } = readChartText("ABA\nBAB\nA: dark blue\nB = harbour wall\n");
    // The ISCC-NBS centroid "dark blue" is #00304e (test/tables, NBS SP 440).
    expect(charts[0]!.colours.A).toMatchObject({ hex: "#00304e", name: "dark blue", assumed: true });
    expect(charts[0]!.colours.B).toMatchObject({ name: "harbour wall", assumed: true });
    expect(problems.map(problemSentence)).toEqual([
      'Colour A: expected a key line such as "A = #e8e2d2", found no shade; what its name says stands in.',
      'Colour B: expected a key line such as "B = #e8e2d2", found no colour; a grey stands in.',
    ]);
  });
  it("tells a colour that no stitch has, and what is said twice", () => {
    expect(told("ABA\nBAB\nA = #fff\nB = #000\nC = #123456\nA = #eee")).toEqual([
      [6, "The key of A: expected one colour, found a second one, #eeeeee, left out."],
      [5, "The key of C: expected stitches of that colour, found none."],
    ]);
  });
  it("names places without a stitch", () => {
    expect(rowsOf(".AB.\nABAB\n. = no stitch\nA = #fff\nB = #000")).toEqual([["-AB-", "ABAB"]]);
  });
  it("may stand on one line", () => {
    const { charts } = readChartText("Key: MC = #e8e2d2 hoar, CC1 = #333333\n\nMC CC1 MC\nCC1 MC CC1\n");
    expect(charts[0]!.colours).toMatchObject({ M: { hex: "#e8e2d2", name: "hoar" }, C: { hex: "#333333" } });
  });
  it("is not wanted where the cells are colours", () => {
    const { charts, problems } = readChartText(
      "#ffffff,#ffffff,#102030\n#102030,#ffffff,#102030\n#102030,#102030,#102030\n",
    );
    expect(charts[0]!.rows.map((row) => Array.from(row, (id) => charts[0]!.colours[id]!.hex))).toEqual([
      ["#ffffff", "#ffffff", "#102030"],
      ["#102030", "#ffffff", "#102030"],
      ["#102030", "#102030", "#102030"],
    ]);
    expect(problems.filter(({ severity }) => severity !== "note")).toEqual([]);
  });
});

describe("grids", () => {
  it("numbered from the top are turned, and that is told", () => {
    expect(rowsOf("1: AAB\n2: BAB\n3: AAA")).toEqual([["AAA", "BAB", "AAB"]]);
    expect(told("1: AAB\n2: BAB\n3: AAA")[0]![1]).toContain("turned so that its first row is at the bottom");
  });
  it("a spreadsheet's own letters and numbers are no stitches, and turn nothing", () => {
    expect(rowsOf(",A,B,C,D\n1,x,o,x,o\n2,o,x,o,x\n3,x,x,x,x\n")).toEqual([["xoxo", "oxox", "xxxx"]]);
  });
  it("a table drawn with bars", () => {
    expect(rowsOf("| Row | 3 | 2 | 1 |\n|-----|---|---|---|\n| 2 | A | B | A |\n| 1 | B | A | B |\n")).toEqual([
      ["ABA", "BAB"],
    ]);
  });
});

describe("hostile texts", () => {
  const pieces = [
    "Rnd 1: ",
    "Row 2 (WS): ",
    "k3 MC",
    "*",
    "(",
    ")",
    "; rep from * to end",
    " x 999",
    ", ",
    "\n",
    "A = ",
    "1 ",
    "9999",
    "k",
    "to last 3 sts",
    "-",
    "\t",
  ];
  it("nothing is thrown, and something is always said", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...pieces), { maxLength: 40 }), (parts) => {
        const { charts, problems } = readChartText(parts.join(""));
        for (const { rows } of charts) expect(new Set(rows.map((row) => row.length)).size).toBe(1);
        expect(charts.length + problems.length).toBeGreaterThan(0);
      }),
      { seed: 7, numRuns: 400 },
    );
  });
  it.each<[string, string]>([
    ["brackets without end", `Row 1: ${"(".repeat(4000)}`],
    ["repeats of repeats", "Row 1: ((((k1 A) x 999) x 999) x 999) x 999"],
    ["a thousand rows a line", "Rows 1-1000: (k2 A) x 999\n".repeat(100)],
    ["one long row", `Row 1: ${"A".repeat(7000)}`],
    ["spaces", `${" ".repeat(100_000)}x`],
  ])("%s are refused or read, and quickly forgotten", (_, text) => {
    const { charts, problems } = readChartText(text);
    expect(charts.reduce((sum, { rows }) => sum + rows.length * rows[0]!.length, 0)).toBeLessThan(1_000_001);
    expect(charts.length + problems.length).toBeGreaterThan(0);
  });
});
