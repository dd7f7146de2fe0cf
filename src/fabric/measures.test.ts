/** Cloth, areas, weights and ladder of small colourways, counted by hand. */
import { describe, expect, it } from "vitest";
import type { Yarn } from "../yarn/yarn.ts";
import { areasOf, touchingAreas } from "./areas.ts";
import { asPattern, clothOf } from "./cloth.ts";
import type { Colourway } from "./colourway.ts";
import { spectrumMemory, USUAL_VIEWING } from "./contrast.ts";
import { valueLadder } from "./ladder.ts";
import { measureCloth, stitchesOf } from "./measures.ts";
import type { Pattern } from "./pattern.ts";

const chart = { id: "c", rows: ["AAAA", "BABA", "AC-A"] };
const pattern: Pattern = {
  gauge: { stitches: 28, rows: 30 },
  colours: [
    { id: "A", role: "main", shade: { lab: [90, 0, 0] } },
    { id: "B", shade: { lab: [40, 0, 0] } },
    { id: "C", shade: { lab: [60, 40, 30] } },
  ],
  charts: [chart],
  sections: [
    { id: "s", chart: "c", startRow: 2, rounds: { M: 3 }, stitches: { M: 4 }, gauge: { stitches: 20, rows: 24 } },
  ],
};
const yarn = (id: string, lab: [number, number, number]): Yarn => ({ id, name: id, shade: { lab } });
const yarns = [yarn("snow", [95, 0, 0]), yarn("moss", [45, -10, 15]), yarn("rust", [50, 35, 30])];
const plain: Colourway = { id: "w", yarns: { A: "snow", B: "moss" } };
const inksIn = (colourway: Colourway, section = false): string[] => {
  const cloth = clothOf({ chart, pattern, yarns, colourway, ...(section ? { section: pattern.sections![0]! } : {}) });
  return [...cloth.cells].map((ink) =>
    ink === 255 ? "-" : `${cloth.inks[ink]!.colour}${cloth.inks[ink]!.yarn?.[0] ?? "?"}`,
  );
};

describe("a cloth", () => {
  it("has each chart colour in its yarn, from row 1 and column 1 at the right; the pattern's own where there is none", () =>
    expect(inksIn(plain)).toEqual(["As", "-", "C?", "As", "As", "Bm", "As", "Bm", "As", "As", "As", "As"]));
  it("takes a change at its place, the later winning", () => {
    const at = { chart: "c", rows: [2, 2] as [number, number] };
    const changed = {
      ...plain,
      changes: [
        { at, colour: "B", yarn: "snow" },
        { at, colour: "B", yarn: "rust" },
      ],
    };
    expect(inksIn(changed).slice(4, 8)).toEqual(["As", "Br", "As", "Br"]);
  });
  it("takes a section's own changes by round: its first round is chart row 2, its third row 1", () => {
    const at = { section: "s", rounds: [3, 3] as [number, number] };
    const changed = { ...plain, changes: [{ at, colour: "A", yarn: "moss" }] };
    expect(inksIn(changed)).toEqual(inksIn(plain));
    expect(inksIn(changed, true).slice(0, 4)).toEqual(["Am", "-", "C?", "Am"]);
  });
  it("has duplicate stitch on top of what is knitted, and none outside the chart or where there is no stitch", () => {
    const cells: [number, number][] = [
      [3, 1],
      [1, 2],
      [9, 9],
    ];
    const colourway = { ...plain, overStitched: [{ at: { chart: "c" }, cells, yarn: "rust" }] };
    const cloth = clothOf({ chart, pattern, yarns, colourway });
    const on = [...cloth.cells.keys()].filter((at) => cloth.cells[at] !== cloth.knitted[at]);
    expect(on).toEqual([8]);
    expect(cloth.inks[cloth.cells[8]!]).toMatchObject({ colour: "A", yarn: "rust", over: true });
  });
  it("in the pattern's own colours keeps its inks and loses its yarns", () => {
    const was = asPattern(clothOf({ chart, pattern, yarns, colourway: plain }));
    expect(was.inks.map(({ lab, yarn }) => [lab[0], yarn])).toEqual([
      [90, null],
      [60, null],
      [40, null],
    ]);
  });
});

describe("areas", () => {
  it("join chart colours that share a yarn, and know which of them touch", () => {
    const cloth = clothOf({
      chart,
      pattern,
      yarns,
      colourway: { id: "w", yarns: { A: "snow", B: "moss", C: "moss" } },
    });
    const areas = areasOf(cloth, 1, 2);
    expect(areas.areas.map(({ yarn, colours, stitches }) => [yarn, colours, stitches])).toEqual([
      ["snow", ["A"], 4],
      ["moss", ["C", "B"], 3],
    ]);
    expect(touchingAreas(areas)).toEqual([{ a: 1, b: 0 }]);
  });
  it("are cut to what recurs", () => {
    const twice = { id: "d", rows: ["ABAB"] };
    expect(areasOf(clothOf({ chart: twice, pattern, yarns, colourway: plain }), 1, 1).piece.width).toBe(2);
  });
});

describe("measures", () => {
  const cloth = clothOf({ chart, pattern, yarns, colourway: plain });
  const { bands, rows, weights } = measureCloth(cloth, USUAL_VIEWING, spectrumMemory(), { mainColour: "A" });
  it("count stitches by ink", () => {
    expect(stitchesOf(cloth, 1, 3)).toEqual([8, 1, 2]);
    expect(stitchesOf(cloth, 2, 2)).toEqual([2, 0, 2]);
  });
  it("hold every row once, and areas and shares that add up to one", () => {
    expect(rows.map(({ row }) => row)).toEqual([1, 2, 3]);
    for (const list of [weights, ...bands.map((band) => band.weights)]) {
      expect(list.reduce((sum, { area }) => sum + area, 0)).toBeCloseTo(1, 9);
      expect(list.reduce((sum, { share }) => sum + share, 0)).toBeOneOf([0, expect.closeTo(1, 9)]);
    }
  });
  it("give the main colour no weight of its own", () => expect(weights[0]!.share).toBe(0));
  it("tell in how many bands and over how much of the height a colour recurs", () =>
    expect(weights.find(({ ink }) => cloth.inks[ink]!.colour === "B")!.recurs).toEqual({ bands: 1, height: 1 / 3 }));
});

it("the ladder has the pattern's lightest first, with the rank of pattern and yarns", () => {
  const ladder = valueLadder(pattern, yarns, { id: "w", yarns: { A: "moss", B: "snow" } });
  expect(ladder.map(({ colour, yarn, rank, was }) => [colour, yarn, was.rank, rank])).toEqual([
    ["A", "moss", 1, 3],
    ["C", null, 2, 2],
    ["B", "snow", 3, 1],
  ]);
  // Common practice (docs/trade.md 4): light ≥ 72, light-medium 55–72, medium-dark 35–55, dark < 35.
  expect(ladder.map((rung) => rung.class)).toEqual(["medium-dark", "light-medium", "light"]);
});
