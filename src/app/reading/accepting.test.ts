import { describe, expect, it } from "vitest";
import { isFault } from "../../base/problem.ts";
import { labFromHex, type Lab } from "../../colour/lab.ts";
import { tryEdit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import { begunProject, comingColours, edits, matchedColours, shadeOfRead, withHerWord } from "./accepting.ts";

const colour = (hex: string, name?: string) => ({ hex, lab: labFromHex(hex) as Lab, ...(name ? { name } : {}) });
const chart = (rows: string[], colours: ReadChart["colours"]): ReadChart => ({
  rows,
  colours,
  confidence: 1,
  box: null,
  page: 1,
  uncertain: [],
});
const yoke = chart(["ABAB", "AAAA"], { A: colour("#e8e2d2"), B: colour("#8a3b2e", "rust") });
const border = chart(["AABB", "CCAA"], { A: colour("#8a3b2e", "Rust"), B: colour("#e9e2d1"), C: colour("#43607f") });

const pattern: Project = {
  format: "twostrand-project",
  version: 1,
  name: "station vest",
  pattern: {
    name: "station vest",
    gauge: { stitches: 28, rows: 30 },
    colours: [
      { id: "A", name: "lichen", role: "main", shade: { hex: "#5b6f4e" } },
      { id: "B", name: "snow", role: "contrast", shade: { hex: "#e8e2d3" } },
      { id: "C", name: "rust", role: "contrast", shade: { hex: "#903520" } },
    ],
    charts: [{ id: "c1", rows: ["ABC"] }],
  },
  yarns: [],
  colourways: [{ id: "w1", name: "first", from: null, yarns: {} }],
};

describe("colours of several charts", () => {
  it("are one where they have one name, or no name and one shade", () => {
    const coming = comingColours([yoke, border]);
    expect(coming.map(({ ids }) => ids)).toEqual([
      ["A", "B"],
      ["B", "A"],
      [null, "C"],
    ]);
    // Counted in the rows above: 2 + 4 stitches of the first, in the border 2; and so on.
    expect(coming.map(({ stitches }) => stitches)).toEqual([8, 6, 2]);
  });
  it("signs whose shade nobody knows are never one by their grey", () => {
    const grey = { ...colour("#808080"), assumed: true as const };
    const signs = chart(["AB"], { A: grey, B: grey });
    expect(comingColours([signs, signs])).toHaveLength(4);
    const printed = { ...signs, symbols: { A: { text: "x" }, B: { text: "o" } } };
    expect(comingColours([printed, printed]).map(({ ids }) => ids)).toEqual([
      ["A", "A"],
      ["B", "B"],
    ]);
  });
});

describe("into a pattern", () => {
  it("the same colours get the pattern's letters, by name before shade; a new one gets a free letter", () => {
    const coming = comingColours([yoke, border]);
    const matched = matchedColours(coming, pattern.pattern.colours);
    // "rust" by its name; the natural white by its shade, which differs from snow in the last digit; the blue is new.
    expect([...matched.values()].sort()).toEqual(["B", "C"]);
    const made = edits(
      pattern,
      [
        { name: "yoke", worked: "round", rows: yoke.rows },
        { name: "border", worked: "flat", rows: border.rows },
      ],
      coming,
      matched,
    );
    let now = pattern;
    for (const edit of made.edits) {
      const { value, problems } = tryEdit(now, edit);
      expect(problems.filter(isFault)).toEqual([]);
      now = value!;
    }
    expect(made.charts).toEqual(["c2", "c3"]);
    expect(now.pattern.charts.slice(1).map(({ rows }) => rows)).toEqual([
      ["BCBC", "BBBB"],
      ["CCBB", "DDCC"],
    ]);
    expect(now.pattern.charts[2]!.worked).toBe("flat");
    expect(now.pattern.colours.at(-1)).toMatchObject({ id: "D", shade: { hex: "#43607f" } });
  });
});

describe("a new project", () => {
  it("has all charts under letters of one kind, the shelf's yarns, and each colour in one of them", () => {
    const coming = comingColours([yoke, border]);
    const shelf = ["#ffffff", "#7a2a20", "#204060", "#101010"].map((hex, at) => ({
      id: `y${at}`,
      name: `leftover ${at}`,
      shade: { hex },
    }));
    const { value, problems } = begunProject(
      "snow vest",
      [
        { name: "yoke", worked: "flat", rows: yoke.rows },
        { name: "border", worked: "round", rows: border.rows },
      ],
      coming,
      shelf,
    );
    expect(problems.filter(isFault)).toEqual([]);
    expect(value!.name).toBe("snow vest");
    expect(value!.pattern.charts.map(({ name, worked, rows }) => ({ name, worked, rows }))).toEqual([
      { name: "yoke", worked: "flat", rows: ["ABAB", "AAAA"] },
      { name: "border", worked: "round", rows: ["BBAA", "CCBB"] },
    ]);
    expect(value!.yarns.map(({ shelf: from }) => from)).toEqual(["y0", "y1", "y2", "y3"]);
    // By value, as her eye would put them: white in natural white, rust in the red, the blue comes with the second chart.
    expect(value!.colourways[0]!.yarns).toMatchObject({ A: "y0", B: "y1" });
  });
  it("keeps the range of a shade that only its name tells", () => {
    const named = {
      hex: "#884422",
      lab: [38.001, 25, 30] as Lab,
      uncertainty: 13,
      assumed: true as const,
      name: "rust",
    };
    expect(shadeOfRead(named)).toEqual({ lab: [38, 25, 30], uncertainty: 13, from: "eye" });
    expect(shadeOfRead(colour("#123456"))).toEqual({ hex: "#123456" });
  });
});

describe("a look at the chart between", () => {
  it("leaves her names and shades, but where what was read is another now", () => {
    const coming = comingColours([yoke]);
    const hers = { ...colour("#f0ead8"), name: "lambswool" };
    const colours = new Map(coming.map(({ key, colour: read }) => [key, { read, hers }]));
    const draft = { named: [], into: "project", projectName: "", colours, said: new Map() } as const;
    expect(withHerWord(coming, draft).map((one) => one.colour.name)).toEqual(["lambswool", "lambswool"]);
    const other = comingColours([{ ...yoke, colours: { ...yoke.colours, B: colour("#203040", "rust") } }]);
    expect(withHerWord(other, draft).map((one) => one.colour.name)).toEqual(["lambswool", "rust"]);
    expect(withHerWord(coming, null)).toEqual(coming);
  });
});
