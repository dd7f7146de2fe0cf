/** What is read of a row: its word and range, how far it reads, and in which light. Expected words are written by hand. */
import { describe, expect, it } from "vitest";
import type { Project } from "../../document/project.ts";
import type { RowLine } from "../worker/api.ts";
import { lightsSentence, rowSentence, trustWords } from "./rowWords.ts";

const line: RowLine = {
  chart: "c1",
  section: null,
  row: 9,
  band: "b1",
  colours: ["A", "B"],
  yarns: ["y1", null],
  deltaL: 12,
  deltaE00: 14,
  V: 2,
  shows: "faint",
  between: ["lost", "clear"],
  lightDark: 2,
  low: 0.6,
  high: 4,
  readsTo: { metres: 1.2, low: 0.7, high: 4, beyond: false },
  was: { V: 5, shows: "clear", between: ["clear", "strong"] },
  figures: [],
};

const project = {
  pattern: { colours: [{ id: "B", name: "lilac", shade: { hex: "#aabbcc" } }] },
  yarns: [{ id: "y1", name: "Storm" }],
} as unknown as Project;

describe("a row in words", () => {
  it("tells its word with the words between which it may lie, and how far it reads with its range", () => {
    expect(rowSentence(9, line, project, 1.5).replaceAll("\u202f", " ")).toBe(
      "Row 9: Storm with B (lilac), faint at 1.5 m (between lost and clear); reads to 1.2 m (0.7 m – 4 m).",
    );
  });

  it("says of a row in one colour that it is plain", () => {
    expect(rowSentence(9, { ...line, V: null, shows: null, readsTo: null }, project, 1.5)).toMatch(/, plain\.$/);
  });
});

describe("how far it reads in each light", () => {
  const light = (lux: number, metres: number, beyond = false) => ({ lux, metres, low: metres, high: metres, beyond });
  const told = (...lights: Parameters<typeof light>[]) =>
    lightsSentence(lights.map((one) => light(...one))).replaceAll("\u202f", " ");

  it("by a lamp, in a room, by a window", () => {
    expect(told([50, 2.1], [500, 2.4], [10_000, 2.9])).toBe(
      "Reads to 2.1 m by a lamp, 2.4 m in a room, 2.9 m by a window.",
    );
  });

  it("puts together what is the same, and claims nothing past 6 m", () => {
    expect(told([50, 5.7], [500, 7], [10_000, 4, true])).toBe(
      "Reads to 5.7 m by a lamp, past 6 m in a room and by a window.",
    );
    expect(told([50, 8], [500, 9], [10_000, 9])).toBe("Reads past 6 m in any light.");
    expect(told([50, 0], [500, 0], [10_000, 0.4])).toBe("Reads never by a lamp and in a room, 0.4 m by a window.");
    expect(told([50, 0], [500, 0], [10_000, 0])).toBe("It does not read in any light.");
    expect(told()).toBe("");
  });
});

describe("what the words go by", () => {
  it("her own looks where there are any, and otherwise a model that no knitting has tested", () => {
    expect(trustWords(7, "ordinary")).toBe("Tuned by 7 looks at your swatches.");
    expect(trustWords(0, "ordinary")).toBe(
      "A model of ordinary eyesight, not tested on knitting; a swatch settles it.",
    );
    expect(trustWords(0, "deutan")).toMatch(/^A model of such eyesight/);
  });
});
