/** Words of a chart's structure: every sentence by hand. */
import { describe, expect, it } from "vitest";
import type { BuiltBand } from "../worker/api.ts";
import {
  bandSentences,
  bandShort,
  changedSentences,
  echoWords,
  meetsWords,
  roundsSentences,
  rowList,
  strandWords,
} from "./structureWords.ts";

const band: BuiltBand = {
  id: "b3",
  rows: [5, 9],
  kind: "motif",
  colours: ["A", "B"],
  ground: ["A"],
  pattern: ["B"],
  repeat: { stitches: 8, rows: 5, times: 3, over: 1 },
  axes: { across: [4, 8], up: [7] },
  middle: 4,
  shaded: "ground",
  echo: { of: "b1", rows: [1, 3], mirrored: "up", shift: 2, recoloured: true },
  crossed: [6, 7, 9],
  said: null,
};
const name = (colour: string): string => ({ A: "oat", B: "bark" })[colour] ?? colour;

describe("a band", () => {
  it("is told sentence by sentence", () => {
    expect(bandShort(band)).toBe("a motif, repeat of 8, mirrored, shaded, crossings of value");
    expect(bandSentences(band, name, () => "rows 1–3")).toEqual([
      "A motif in bark on oat; its ground is shaded.",
      "It recurs after 8 stitches, 3 times across and 1 over.",
      "It mirrors about column 4, column 8 and row 7, and again a repeat on.",
      "The same as rows 1–3, upside down, 2 stitches further on, in other colours.",
      "In rows 6–7 and 9 its figure crosses over: light where it is dark elsewhere, or dark where it is light, in the pattern’s own colours.",
    ]);
  });
  it("that leans or echoes one by name says so", () => {
    const leaning = { ...band, axes: { across: [], up: [] }, echo: null, crossed: [] };
    expect(bandSentences(leaning, name, String)[2]).toBe("It mirrors about no line: it leans.");
    expect(echoWords({ of: "b1", rows: [1, 3], mirrored: "none", shift: 0, recoloured: false }, () => "cairns")).toBe(
      "the same as cairns, rows 1–3",
    );
    expect(rowList([4])).toBe("row 4");
  });
});

describe("how bands lie", () => {
  it.each([
    [
      { meets: "shifted", offBy: -1, repeats: [8, 8], every: 8 },
      "Shifted: the upper middles lie 1 stitch to the right, all round.",
    ],
    [
      { meets: "drifting", offBy: 1, repeats: [12, 8], every: 24 },
      "Drifting: a repeat of 8 over one of 12, so that they come nearest, 1 stitch off, every 24 stitches.",
    ],
    [
      { meets: "drifting", offBy: 0, repeats: [12, 8], every: 24 },
      "Drifting: a repeat of 8 over one of 12, so that they meet every 24 stitches.",
    ],
  ] as const)("%j", (alignment, words) => expect(meetsWords(alignment)).toBe(words));

  it("in rounds: what is over, and what the back shows (trade.md 3: 240 takes 15 repeats of 16)", () => {
    const line = { section: "body", size: "M", band: "b3", stitches: 240, repeat: 16 };
    expect(roundsSentences({ bands: [band], rounds: [{ ...line, over: 0, opposite: "half a repeat on" }] })).toEqual([
      "Every repeat goes into the rounds of body.",
      "Odd numbers of repeats: opposite the front, the back shows what lies half a repeat on, for rows 5–9 (body, M).",
    ]);
    const over = { ...line, stitches: 324, repeat: 20, over: 4, opposite: "neither" } as const;
    expect(roundsSentences({ bands: [band], rounds: [over, over] })).toEqual([
      "Body, M: the repeat of 20 of rows 5–9 leaves 4 of 324 stitches over.",
    ]);
    expect(roundsSentences({ bands: [], rounds: [] })).toEqual(["The chart is not placed in the rounds of a section."]);
  });
});

describe("strands", () => {
  const row = { row: 2, kind: "motif", ground: "A", pattern: ["B"] } as const;
  it("are caught, or have ladders", () => {
    const floats = [
      { colour: "B", longest: 9 },
      { colour: "A", longest: 2 },
    ];
    expect(strandWords({ ...row, floats, catches: [17, 6], ladders: [] }, name, 7)).toBe(
      "bark passes 9 stitches; catch it behind columns 6 and 17",
    );
    expect(strandWords({ ...row, floats: [{ colour: "B", longest: 23 }], catches: [], ladders: [4] }, name, 7)).toBe(
      "bark passes 23 stitches; too long to catch: ladders behind column 4",
    );
  });
  it("of a stitch that would be another", () => {
    expect(changedSentences({ longest: [9, 4], strands: [2, 3], tooLong: [2, 0], limit: 7 })).toEqual([
      "The longest strand of the row would pass 4 stitches instead of 9.",
      "0 strands instead of 2 would pass more than the 7 stitches that lie well.",
      "The row would have 3 strands instead of 2: two in a row are the rule.",
    ]);
    expect(changedSentences({ longest: [1, 1], strands: [2, 2], tooLong: [0, 0], limit: 7 })).toEqual([
      "The longest strand of the row passes 1 stitch, as before.",
    ]);
  });
});
