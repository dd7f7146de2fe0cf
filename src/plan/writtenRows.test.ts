import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridOf, type Chart } from "../chart/chart.ts";
import { tradeNames, writtenRow, writtenRows } from "./writtenRows.ts";

const DIAMOND_8 = ["...#...#", "..###...", ".##.##..", "##.#.##.", ".##.##..", "..###...", "...#...#"];
const nameOf = (colour: string): string => (colour === "#" ? "CC" : "MC");

function check(worked: "round" | "flat", rows: string[], row: number, expected: string): void {
  expect(writtenRow({ worked }, gridOf({ rows }), row, nameOf)).toBe(expected);
}

describe("a row in words (trade.md 6)", () => {
  it("right to left in the round", () => check("round", DIAMOND_8, 1, "k1 CC, k3 MC, k1 CC, k3 MC"));
  it("second row up", () => check("round", DIAMOND_8, 2, "k3 MC, k3 CC, k2 MC"));
  it("a wrong-side row left to right, purled", () =>
    check("flat", ["...#...#", "........"], 2, "p3 MC, p1 CC, p3 MC, p1 CC"));
  it("a right-side row of flat work as in the round", () => check("flat", DIAMOND_8, 1, "k1 CC, k3 MC, k1 CC, k3 MC"));
  it("one colour", () => check("round", ["........"], 1, "k all MC"));
  it("one colour on the wrong side", () => check("flat", ["....", "...."], 2, "p all MC"));
  it("passes over places without a stitch", () => check("round", [".--.#"], 1, "k1 CC, k2 MC"));
  it("has a word for a row without stitches", () => check("round", ["--"], 1, "no stitches"));
});

describe("all rows", () => {
  it("begin at the bottom and repeat to the end of the round", () => {
    expect(writtenRows({ worked: "round" }, gridOf({ rows: ["....", "..##"] }), nameOf)).toEqual([
      "Rnd 1: *k2 CC, k2 MC; rep from * to end.",
      "Rnd 2: k all MC.",
    ]);
  });

  it("name the side in flat work", () => {
    expect(writtenRows({ worked: "flat" }, gridOf({ rows: ["...#", "..##"] }), nameOf)).toEqual([
      "Row 1 (RS): k2 CC, k2 MC.",
      "Row 2 (WS): p3 MC, p1 CC.",
    ]);
  });

  it("no stitch is lost in words", () => {
    const row = fc.string({ unit: fc.constantFrom(".", "#", "x", "-"), minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(row, fc.constantFrom<Chart["worked"]>("round", "flat"), (text, worked) => {
        const words = writtenRow({ ...(worked ? { worked } : {}) }, gridOf({ rows: [text] }), 1, (colour) => colour);
        const stitches = text.replaceAll("-", "").length;
        const said = [...words.matchAll(/[kp](\d+) /g)].reduce((sum, match) => sum + Number(match[1]), 0);
        expect(words.includes("all") ? stitches : said).toBe(stitches);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe("the trade's names", () => {
  it("MC and CC of two", () => {
    expect([...tradeNames([{ id: "B" }, { id: "A", role: "main" }])]).toEqual([
      ["B", "CC"],
      ["A", "MC"],
    ]);
  });
  it("contrasts are numbered", () => {
    expect(tradeNames([{ id: "A" }, { id: "B" }, { id: "C" }]).get("C")).toBe("CC2");
  });
});
