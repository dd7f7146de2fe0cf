import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { readChartText } from "./chartText.ts";

const rowsOf = (text: string): string[][] => readChartText(text).charts.map((chart) => chart.rows);

describe("rows, however they are typed", () => {
  it.each<[string, string, string[][]]>([
    ["a plain grid", "AABB\nABAB\n", [["AABB", "ABAB"]]],
    ["Windows line ends and a byte order mark", "\uFEFFAABB\r\nABAB\r\n", [["AABB", "ABAB"]]],
    ["signs", "...#\n..##\n", [["...#", "..##"]]],
    ["no stitch stays", "--A\n-AA\n", [["--A", "-AA"]]],
    ["spaces between", "A A B\nB A A\n", [["AAB", "BAA"]]],
    ["commas between", "A,A,B\nB,A,A\n", [["AAB", "BAA"]]],
    ["a comma at the end too", "A,A,B,\nB,A,A,\n", [["AAB", "BAA"]]],
    ["tabs between", "A\tA\tB\nB\tA\tA\n", [["AAB", "BAA"]]],
    ["semicolons between", "A;A;B\nB;A;A\n", [["AAB", "BAA"]]],
    ["an empty cell of a table is no stitch", "A\t\tB\nB\tA\tA\n", [["A-B", "BAA"]]],
    ["quoted lines", '"AAB",\n"BAA"\n', [["AAB", "BAA"]]],
    [
      "blank lines between charts",
      "AB\nBA\n\n\nCCC\nDDD\n",
      [
        ["AB", "BA"],
        ["CCC", "DDD"],
      ],
    ],
    ["row numbers at the left", "3 ABA\n2 BAB\n1 ABA\n", [["ABA", "BAB", "ABA"]]],
    ["row numbers with a colon", "3: ABA\n2: BAB\n1: ABA\n", [["ABA", "BAB", "ABA"]]],
    ["row numbers at the right", "ABA 3\nBAB 2\nABA 1\n", [["ABA", "BAB", "ABA"]]],
    ["digits as colours", "1 0 1\n0 1 0\n1 0 1\n", [["101", "010", "101"]]],
    ["digits as colours, close", "101\n010\n", [["101", "010"]]],
    ["a frame", "+---+\n|ABA|\n|BAB|\n+---+\n", [["ABA", "BAB"]]],
    ["a name above", "Vest border:\nABA\nBAB\n", [["ABA", "BAB"]]],
    ["signs that divide elsewhere", "A=B=\n=A=B\n", [["A=B=", "=A=B"]]],
    ["groups for the eye", "AABB AABB\nABAB ABAB\n", [["AABBAABB", "ABABABAB"]]],
    [
      "groups for the eye, in two charts",
      "AABB AABB\nABAB ABAB\n\nABC CBA\nCBA ABC\n",
      [
        ["AABBAABB", "ABABABAB"],
        ["ABCCBA", "CBAABC"],
      ],
    ],
    ["a name of two lines", "Vest border\nfor the cuffs\n\nABA\nBAB\n", [["ABA", "BAB"]]],
    ["one row", "AAB\n", [["AAB"]]],
  ])("%s", (_, text, expected) => {
    expect(rowsOf(text)).toEqual(expected);
  });

  it("keeps the name", () => {
    expect(readChartText("Vest border:\nABA\nBAB\n").charts[0]!.name).toBe("Vest border");
  });

  it("gives codes of more letters an id of one", () => {
    const { charts, problems } = readChartText("MC,MC,CC1\nMC,CC1,CC1\nMC = #e8e2d2 hoar\n");
    expect(charts[0]!.rows).toEqual(["MMC", "MCC"]);
    expect(charts[0]!.colours.M).toMatchObject({ hex: "#e8e2d2", name: "hoar" });
    expect(charts[0]!.colours.C).toMatchObject({ name: "CC1", assumed: true });
    expect(problems.map((problem) => problem.got)).toContain('"MC", read as colour M; "CC1", read as colour C');
    expect(charts[0]!.symbols).toEqual({ M: { text: "MC" }, C: { text: "CC1" } });
  });

  it("gives signs that cannot be ids one that can", () => {
    expect(rowsOf("🟥⬜\n⬜🟥\n")).toEqual([["A⬜", "⬜A"]]);
    expect(rowsOf("\\A\nA\\\n")).toEqual([["BA", "AB"]]);
  });
});

describe("the key", () => {
  it.each([
    ["equals, then name", "A = #e8e2d2 hoar"],
    ["colon, name first", "A: hoar #e8e2d2"],
    ["nothing between", "A hoar #E8E2D2"],
    ["close", "A=#e8e2d2 hoar"],
    ["brackets", "A - hoar (#e8e2d2)"],
    ["rgb", "A = rgb(232, 226, 210) hoar"],
  ])("%s", (_, line) => {
    const { charts } = readChartText(`${line}\nB = #333\n\nAB\nBA\n`);
    expect(charts).toHaveLength(1);
    expect(charts[0]!.colours.A).toMatchObject({ hex: "#e8e2d2", name: "hoar" });
    expect(charts[0]!.colours.B).toMatchObject({ hex: "#333333" });
  });

  it("may stand below, and holds for every chart", () => {
    const { charts, problems } = readChartText("AB\nBA\n\nAA\nBB\nA = #fff\nB = #000\n");
    expect(charts.map((chart) => chart.colours.A!.hex)).toEqual(["#ffffff", "#ffffff"]);
    expect(problems).toEqual([]);
  });

  it("greys stand in for what it does not say, the ground lightest", () => {
    const { charts, problems } = readChartText("..#\n.#.\n");
    const { ".": ground, "#": pattern } = charts[0]!.colours;
    expect(ground!.lab[0]).toBeGreaterThan(pattern!.lab[0]);
    expect(problems.map(problemSentence)).toEqual([
      'Colour ., #: expected a key line such as ". = #e8e2d2", found no colour; greys stand in.',
    ]);
  });

  it("tells a colour it cannot read", () => {
    const { problems } = readChartText("A = #e8e2dz hoar\nB = #000\n\nAB\nBA\n");
    expect(problems[0]).toMatchObject({ line: 1, got: "#e8e2dz", severity: "doubt" });
  });
});

describe("ragged rows", () => {
  it("are told by row from the bottom and by line", () => {
    const { charts, problems } = readChartText("A = #fff\nB = #000\n\nAABB\nABA\nABABA\nAAAA\n");
    expect(charts[0]!.rows).toEqual(["AABB", "ABA-", "ABAB", "AAAA"]);
    expect(problems.map((problem) => [problem.line, problemSentence(problem)])).toEqual([
      [5, "Row 3: expected 4 stitches, found 3, filled up with no stitch at its right end."],
      [6, "Row 2: expected 4 stitches, found 5, cut at its right end."],
    ]);
    expect(charts[0]!.uncertain).toEqual([
      [3, 1],
      [2, 1],
    ]);
  });
});

describe("what is no chart", () => {
  it.each([
    ["nothing", "", "no line that reads as a row"],
    ["blank lines", "\n \n\t\n", "no line that reads as a row"],
    ["only no stitch", "---\n---\n", 'only "-", which is no stitch'],
    ["bytes", "\u0000\u0001PNG", "what looks like a file of another kind"],
    [
      "prose",
      "The station stands on a ridge above the clouds.\nIt is windy there most days of the year.\n",
      "no line that reads as a row",
    ],
  ])("%s", (_, text, got) => {
    const { charts, problems } = readChartText(text);
    expect(charts).toEqual([]);
    expect(problems.at(-1)).toMatchObject({ severity: "fault", got });
  });
});

describe("laws", () => {
  const id = fc.constantFrom(...Array.from("ABCDEFGabc.#xo*0129~%"));
  const rows = fc
    .tuple(fc.integer({ min: 2, max: 30 }), fc.integer({ min: 1, max: 20 }))
    .chain(([width, height]) =>
      fc.array(fc.array(id, { minLength: width, maxLength: width }), { minLength: height, maxLength: height }),
    )
    // A first row of letters foreign to all others is a heading to any reader; rows here share a border stitch.
    .map((cells) => cells.map((row) => `A${row.join("")}A`));
  it("a written chart is read back, close or divided", () => {
    fc.assert(
      fc.property(rows, fc.constantFrom("", ",", "\t", " "), (written, divider) => {
        const text = written.map((row) => `${Array.from(row).join(divider)}\n`).join("");
        expect(rowsOf(text)).toEqual([written]);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
  it("whatever comes in, charts are rectangles and nothing is thrown", () => {
    const anything = fc.oneof(
      fc.string({ unit: "binary", maxLength: 200 }),
      fc.string({ unit: fc.constantFrom(...'AB=#:-,\t\n |1 "e'), maxLength: 120 }),
      fc.uint8Array({ maxLength: 200 }).map((bytes) => String.fromCharCode(...bytes)),
    );
    fc.assert(
      fc.property(anything, (text) => {
        const { charts, problems } = readChartText(text);
        for (const chart of charts) {
          expect(new Set(chart.rows.map((row) => row.length)).size).toBe(1);
          expect(Object.keys(chart.colours).sort()).toEqual(
            [...new Set(chart.rows.join("").replaceAll("-", ""))].sort(),
          );
        }
        expect(charts.length + problems.length).toBeGreaterThan(0);
      }),
      { seed: 7, numRuns: 1500 },
    );
  });
});
