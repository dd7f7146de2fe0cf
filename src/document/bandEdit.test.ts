/** Her word for a chart's bands, and a shift, as edits: kept in the file, taken back, and refused where they could not be. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import type { ChartBand } from "../chart/chart.ts";
import { applyEdit, tryEdit, type Edit } from "./edit.ts";
import type { Project } from "./project.ts";
import { readProject } from "./read.ts";
import { writeProject } from "./write.ts";

const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const chart = (known: Project) => known.pattern.charts[0]!;
const bands = (known: Project): ChartBand[] => chart(known).bands!;
const at = (known: Project, from: number): ChartBand | undefined => bands(known).find(({ rows }) => rows[0] === from);
const declare = (rows: [number, number], fields: Extract<Edit, { kind: "declareBand" }>["fields"]): Edit => ({
  kind: "declareBand",
  chart: "c1",
  rows,
  fields,
});

describe("her word for a band", () => {
  it("is kept in the file, beside what she had said before, and comes back", () => {
    const edit = declare([36, 42], { ground: ["I"], repeat: 8, axis: 1, echoOf: [5, 9], seeding: false, meant: true });
    const after = applyEdit(project, edit);
    expect(at(after, 36)).toEqual({
      rows: [36, 42],
      name: "cairns",
      ground: ["I"],
      repeat: 8,
      axis: 1,
      echoOf: [5, 9],
      seeding: false,
      meant: true,
    });
    expect(readProject(writeProject(after)).value).toEqual(after);
    expect(at(applyEdit(after, declare([36, 42], { repeat: null, meant: null })), 36)).toMatchObject({ axis: 1 });
    expect(Object.keys(at(applyEdit(after, declare([36, 42], { repeat: null, meant: null })), 36)!)).not.toContain(
      "meant",
    );
  });

  it("that it leans, or echoes nothing, is a word of its own and is taken back by name", () => {
    const said = applyEdit(project, declare([36, 42], { axis: null, echoOf: null }));
    expect(at(said, 36)).toMatchObject({ axis: null, echoOf: null });
    const back = applyEdit(said, { ...declare([36, 42], {}), found: ["axis", "echoOf"] } as Edit);
    expect(at(back, 36)).toEqual({ rows: [36, 42], name: "cairns" });
  });

  it("for other rows leaves declared bands what is left of them", () => {
    const after = applyEdit(project, declare([40, 50], { name: "seam" }));
    expect(
      bands(after)
        .filter(({ rows }) => rows[0] >= 36 && rows[1] <= 66)
        .map(({ rows, name }) => [...rows, name]),
    ).toEqual([
      [36, 39, "cairns"],
      [40, 50, "seam"],
      [51, 66, "star"],
    ]);
    const inside = applyEdit(project, declare([50, 55], { name: "heart" }));
    expect(
      bands(inside)
        .filter(({ rows }) => rows[0] >= 46 && rows[1] <= 66)
        .map(({ rows, name }) => [...rows, name]),
    ).toEqual([
      [46, 49, "star"],
      [50, 55, "heart"],
      [56, 66, "star"],
    ]);
  });

  it("is taken back", () => {
    expect(at(applyEdit(project, { kind: "releaseBand", chart: "c1", rows: [36, 42] }), 36)).toBeUndefined();
  });
});

describe("a shift", () => {
  const shift = (by: number, rows: [number, number] = [36, 42], repeat = 8): Edit => ({
    kind: "shiftBand",
    chart: "c1",
    rows,
    by,
    repeat,
  });

  it("turns the band's rows and no others", () => {
    const before = chart(project).rows;
    const after = chart(applyEdit(project, shift(2))).rows;
    after.forEach((text, index) => {
      const row = before.length - index;
      const turned = before[index]!.slice(2) + before[index]!.slice(0, 2);
      expect(text).toBe(row >= 36 && row <= 42 ? turned : before[index]);
    });
  });

  it("there and back is nothing, duplicate stitch included", () => {
    fc.assert(
      fc.property(fc.integer({ min: -40, max: 40 }), (by) => {
        // Row 85 has duplicate stitch in the first colourway.
        const there = applyEdit(project, shift(by, [85, 85], 24));
        expect(applyEdit(there, shift(-by, [85, 85], 24))).toEqual(project);
        const laid = there.colourways[0]!.overStitched!.flatMap(({ cells }) => cells ?? []);
        for (const [row, column] of laid)
          expect(chart(there).rows[chart(there).rows.length - row]!.at(-column)).toBe("H");
      }),
      { seed: 7, numRuns: 20 },
    );
  });
});

describe("settings and refusals", () => {
  it("how far a strand may pass, and where a size begins", () => {
    const after = applyEdit(project, { kind: "setFloatLimit", cm: 3 });
    expect(after.knitting).toMatchObject({ ...project.knitting, floatCm: 3 });
    expect(applyEdit(after, { kind: "setFloatLimit", cm: null }).knitting).toEqual(project.knitting ?? {});
    const moved = applyEdit(project, { kind: "setStartColumn", section: "s1", size: "M", column: 5 });
    expect(moved.pattern.sections![0]!.startColumn).toEqual({ S: 24, M: 5, L: 24 });
  });

  it.each<[Edit, string]>([
    [
      { kind: "shiftBand", chart: "c9", rows: [1, 2], by: 1, repeat: 8 },
      'The chart: expected the id of one of the charts, found "c9".',
    ],
    [
      { kind: "shiftBand", chart: "c1", rows: [1, 2], by: 0.5, repeat: 8 },
      "The shift: expected a whole number of stitches, found 0.5.",
    ],
    [
      { kind: "shiftBand", chart: "c1", rows: [1, 2], by: 1, repeat: 30 },
      "The repeat: expected a whole number of stitches from 1 to 24, found 30.",
    ],
    [
      { kind: "declareBand", chart: "c1", rows: [100, 130], fields: {} },
      "The band: expected rows between 1 and 120, found [100, 130].",
    ],
    [
      { kind: "releaseBand", chart: "c1", rows: [1, 2] },
      "The band: expected rows that are declared as a band, found [1, 2].",
    ],
    [
      { kind: "setFloatLimit", cm: 60 },
      "Knitting.floatCm: expected a number of centimetres between 0.5 and 20, found 60.",
    ],
    [
      { kind: "setStartColumn", section: "s9", size: "M", column: 1 },
      'The section: expected the id of one of the sections, found "s9".',
    ],
    [
      { kind: "setStartColumn", section: "s1", size: "M", column: 25 },
      "Pattern.sections[0].startColumn.M: expected a column between 1 and 24, found 25.",
    ],
  ])("%j", (edit, sentence) => {
    const { value, problems } = tryEdit(project, edit);
    expect(value).toBeNull();
    expect(problems.map(problemSentence)).toEqual([sentence]);
  });

  it("a line of embroidery is not parted by the chart's edge", () => {
    const lined: Project = {
      ...project,
      colourways: project.colourways.map((colourway, index) =>
        index > 0
          ? colourway
          : {
              ...colourway,
              overStitched: [
                {
                  at: { chart: "c1" },
                  lines: [
                    [
                      [36, 20],
                      [36, 23],
                    ],
                  ],
                  yarn: "y01",
                },
              ],
            },
      ),
    };
    const shift = (by: number) => tryEdit(lined, { kind: "shiftBand", chart: "c1", rows: [36, 42], by, repeat: 8 });
    expect(shift(1).value!.colourways[0]!.overStitched![0]!.lines).toEqual([
      [
        [36, 21],
        [36, 24],
      ],
    ]);
    expect(shift(4).value!.colourways[0]!.overStitched![0]!.lines).toEqual([
      [
        [36, 0],
        [36, 3],
      ],
    ]);
    expect(shift(2).problems.map(problemSentence)).toEqual([
      'The shift: expected one that leaves lines of embroidery whole, found a line parted by the chart\'s edge in "first snow".',
    ]);
  });

  it("her word that no longer fits the chart is told of and let be", () => {
    const doubts = tryEdit(
      project,
      declare([36, 42], { ground: ["Z"], repeat: 99, axis: 30, echoOf: [200, 201] }),
    ).problems;
    expect(doubts.map(({ severity, where }) => [severity, where.replace(/\[\d+\]/g, "")])).toEqual([
      ["doubt", "pattern.charts.bands.ground"],
      ["doubt", "pattern.charts.bands.repeat"],
      ["doubt", "pattern.charts.bands.axis"],
      ["doubt", "pattern.charts.bands.echoOf"],
    ]);
  });
});
