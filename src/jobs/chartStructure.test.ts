/** What a chart's structure and a changed stitch are told as, on the worked example and in small rows by hand. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readProject } from "../document/read.ts";
import { changedStitch } from "./changedStitch.ts";
import { chartStructure } from "./chartStructure.ts";
import { checkProject } from "./check.ts";

const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const [chart] = project.pattern.charts;

describe("the worked example", () => {
  it("has oatmeal's colour as its main, and the repeats that its rows show", () => {
    const { main, bands } = chartStructure(chart!);
    // The project's own file calls A the main colour.
    expect(main).toBe("A");
    // Counted in the file's rows: the lowest row of each.
    const repeats = Object.fromEntries(bands.map(({ rows, repeat, kind }) => [rows[0], `${kind} ${repeat.stitches}`]));
    expect(repeats).toMatchObject({
      3: "line 2",
      5: "motif 6",
      11: "seeding 6",
      13: "motif 24",
      29: "motif 12",
      36: "motif 8",
      46: "motif 24",
      99: "motif 4",
    });
  });

  it("closes all its repeats in every size (240, 288 and 336 by 24, and the yoke's 192, 240 and 288)", () => {
    const { rounds, alignments, throughDecreases, bands } = checkProject(project, {
      colourway: "w1",
      mends: "without",
    });
    expect(rounds.filter(({ over }) => over !== null && over !== 0)).toEqual([]);
    expect(rounds.length).toBeGreaterThan(50);
    // The armholes take four stitches at a time, at the edges.
    expect(throughDecreases).toEqual([]);
    expect(alignments.map(({ meets }) => meets)).toContain("drifting");
    expect(bands.every(({ crossed }) => crossed.length === 0)).toBe(true);
  });
});

describe("a changed stitch", () => {
  it("in the middle of row 85’s float of 12 leaves strands that lie well, and one of 10 beside it", () => {
    // By hand: H in columns 24 and 11; the strand passes 12 to 23. Column 17 in H leaves 5 and 6; the other float passes 10, over the limit of 7.
    const asked = { colourway: "w2", chart: "c1", row: 85, column: 17, colour: "H" };
    expect(changedStitch(project, asked)).toEqual({ longest: [12, 10], strands: [2, 2], tooLong: [2, 1], limit: 7 });
  });
  it("in the yarn that is there is none, and a third one is a third strand", () => {
    const at = { colourway: "w2", chart: "c1", row: 85, column: 17 };
    expect(changedStitch(project, { ...at, colour: "A" })).toMatchObject({ longest: [12, 12], strands: [2, 2] });
    expect(changedStitch(project, { ...at, colour: "G" })).toMatchObject({ strands: [2, 3] });
  });
  it("where there is no stitch is no question", () => {
    expect(changedStitch(project, { chart: "c1", row: 121, column: 1, colour: "A" })).toBeNull();
    expect(changedStitch(project, { chart: "c1", row: 1, column: 25, colour: "A" })).toBeNull();
    expect(changedStitch(project, { chart: "c9", row: 1, column: 1, colour: "A" })).toBeNull();
  });
});
