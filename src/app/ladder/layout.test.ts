/** Labels on the ladder's rails, and what its crossings say. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { crossedPairs, orderSentence, nameLines, lightnessSpan, spread } from "./layout.ts";

describe("labels on a rail", () => {
  it.each([
    // [wanted, gap, from, to, placed by hand]
    [[10, 50, 90], 20, 0, 100, [10, 50, 90]],
    [[50, 50], 20, 0, 100, [40, 60]],
    [[90, 10], 20, 0, 100, [90, 10]],
    [[0, 2], 20, 0, 100, [0, 20]],
    [[99, 100, 100], 20, 0, 100, [60, 80, 100]],
    [[40, 50, 51], 10, 0, 100, [37, 47, 57]],
    [[], 10, 0, 100, []],
  ])("%j with gap %d in %d–%d stand at %j", (wanted, gap, from, to, placed) => {
    expect(spread(wanted, gap, from, to)).toEqual(placed);
  });

  it("keep their order and their gap, and stay inside when there is room", () => {
    const values = fc.array(fc.integer({ min: -20, max: 120 }), { maxLength: 12 });
    fc.assert(
      fc.property(values, (wanted) => {
        const placed = spread(wanted, 8, 0, 100);
        const byPlace = placed.map((y, i) => ({ y, wanted: wanted[i]! })).sort((a, b) => a.y - b.y);
        byPlace.forEach((one, i) => {
          expect(one.y).toBeGreaterThanOrEqual(-1e-9);
          expect(one.y).toBeLessThanOrEqual(100 + 1e-9);
          const next = byPlace[i + 1];
          if (!next) return;
          expect(next.y - one.y).toBeGreaterThan(8 - 1e-9);
          expect(next.wanted).toBeGreaterThanOrEqual(one.wanted);
        });
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("what the ladder spans and says", () => {
  it("always shows the limits of the value classes", () => {
    expect(lightnessSpan([50])).toEqual({ top: 88, bottom: 22 });
    expect(lightnessSpan([99, 3])).toEqual({ top: 100, bottom: 1 });
  });

  it("names each crossing once", () => {
    const lines = [
      { colour: "A", crosses: [] },
      { colour: "D", crosses: ["E", "F"] },
      { colour: "E", crosses: ["D"] },
      { colour: "F", crosses: ["D"] },
    ];
    expect(crossedPairs(lines)).toEqual([
      ["D", "E"],
      ["D", "F"],
    ]);
  });

  it.each([
    [[], "Light to dark stands as in the pattern."],
    [[["D", "E"]], "D has changed places with E."],
    [
      [
        ["D", "F"],
        ["E", "F"],
      ],
      "F has changed places with D and E.",
    ],
    [
      [
        ["A", "B"],
        ["A", "C"],
        ["A", "D"],
        ["E", "F"],
        ["G", "H"],
      ],
      "A has changed places with B, C and D; E has changed places with F; and 1 more pair.",
    ],
  ] as [[string, string][], string][])("%j: %s", (pairs, sentence) => {
    expect(orderSentence({ pairs, flipped: false, was: [90, 20], now: [90, 20] })).toBe(sentence);
  });

  it("a ladder turned over is said to be so, and what does not follow is named", () => {
    const turned = "Light to dark is turned over: what is light in the pattern is dark here.";
    expect(orderSentence({ pairs: [], flipped: true, was: [90, 20], now: [20, 90] })).toBe(turned);
    expect(orderSentence({ pairs: [["A", "B"]], flipped: true, was: [90, 20], now: [20, 90] })).toBe(
      `${turned} Apart from that, A has changed places with B.`,
    );
  });

  it("yarns of one value have no order to speak of", () => {
    expect(orderSentence({ pairs: [], flipped: false, was: [90, 20], now: [50, 53] })).toBe(
      "Your yarns lie within 3 L* of each other: nearly one value, so light and dark tell nothing apart.",
    );
  });
});

describe("names beside a yarn", () => {
  it.each([
    ["Bracken stem", ["Bracken stem"]],
    ["Sample Mill Fingering Deep Winter Shade 12", ["Sample Mill…", "Shade 12"]],
    ["abcdefghijklmnopqrstuvwxyz01234", ["abcdefghijklm…", "stuvwxyz01234"]],
  ])("%s keeps its end, where yarns of one mill differ", (name, lines) => {
    expect(nameLines(name)).toEqual(lines);
  });
});
