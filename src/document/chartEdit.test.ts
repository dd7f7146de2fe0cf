/** Edits of charts and colours, worked by hand, and what is refused and why. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { anyProject } from "../../test/document/anyProject.ts";
import { problemSentence } from "../base/problem.ts";
import { applyEdit, tryEdit, type Edit } from "./edit.ts";
import type { Project } from "./project.ts";
import { readProject } from "./read.ts";
import { writeProject } from "./write.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const everyField = readProject(readFileSync("test/files/v1/every-field.twostrand.json", "utf8")).value!;

const done = (project: Project, edit: Edit): Project => {
  const { value, problems } = tryEdit(project, edit);
  if (!value) throw new Error(problems.map(problemSentence).join(" "));
  return value;
};

describe("by hand", () => {
  /** Worked on paper: rows 1 to 4 of four stitches, twice round on eight rounds. */
  const small: Project = {
    ...everyField,
    pattern: {
      ...everyField.pattern,
      charts: [{ id: "c1", rows: ["AAbA", "AbbA", "bAAb", "AAAA"], bands: [{ rows: [2, 3], axis: 2.5 }] }],
      sections: [
        {
          id: "s1",
          chart: "c1",
          startRow: 2,
          rounds: { M: 8 },
          stitches: { M: 24 },
          decreases: { M: [{ round: 6, to: 20 }] },
        },
      ],
    },
    colourways: [
      {
        id: "w1",
        yarns: { A: "y1", b: "y2" },
        changes: [{ at: { section: "s1", rounds: [5, 8] }, colour: "A", yarn: "y3" }],
        overStitched: [
          {
            at: { chart: "c1" },
            // A frame round rows 2 and 3 of columns 2 and 3.
            lines: [
              [
                [1, 1],
                [1, 3],
              ],
              [
                [1, 3],
                [3, 3],
              ],
              [
                [3, 3],
                [3, 1],
              ],
              [
                [3, 1],
                [1, 1],
              ],
            ],
            yarn: "y3",
          },
        ],
      },
    ],
    swatches: [],
    knitting: { section: "s1", round: 3 },
  };
  const framed = (project: Project) => project.colourways[0]!.overStitched![0]!.lines;

  it("a spacing row between rows 3 and 4 is knitted in rounds 3 and 8 of ten", () => {
    // Rounds knit rows 2 3 4 1 2 3 4 1; afterwards 2 3 n 4' 1 2 3 n 4' 1.
    const after = done(small, { kind: "insertRows", chart: "c1", at: 4, rows: ["AAAA"] });
    expect(after.pattern.charts[0]!.rows).toEqual(["AAbA", "AAAA", "AbbA", "bAAb", "AAAA"]);
    expect(after.pattern.charts[0]!.bands).toEqual([{ rows: [2, 3], axis: 2.5 }]);
    expect(after.pattern.sections![0]).toMatchObject({
      startRow: 2,
      rounds: { M: 10 },
      decreases: { M: [{ round: 7, to: 20 }] },
    });
    expect(after.colourways[0]!.changes![0]!.at).toEqual({ section: "s1", rounds: [6, 10] });
    expect(after.knitting).toMatchObject({ section: "s1", round: 4 });
    expect(framed(after)).toEqual(framed(small));
  });

  it("a row in the middle of a band belongs to it, and a frame is drawn out round it", () => {
    const after = done(small, { kind: "insertRows", chart: "c1", at: 3, rows: ["AAAA"] });
    expect(after.pattern.charts[0]!.bands).toEqual([{ rows: [2, 4], axis: 2.5 }]);
    expect(framed(after)).toEqual([
      [
        [1, 1],
        [1, 3],
      ],
      [
        [1, 3],
        [4, 3],
      ],
      [
        [4, 3],
        [4, 1],
      ],
      [
        [4, 1],
        [1, 1],
      ],
    ]);
  });

  it("a row below a frame takes it up with its stitches", () => {
    const after = done(small, { kind: "insertRows", chart: "c1", at: 2, rows: ["bbbb"] });
    expect(
      framed(after)!
        .flat()
        .map(([row]) => row),
    ).toEqual([2, 2, 2, 4, 4, 4, 4, 2]);
    expect(after.pattern.sections![0]).toMatchObject({ startRow: 3, rounds: { M: 9 } });
  });

  it("columns that go take what was laid on them and leave the axis where they were", () => {
    const after = done(small, { kind: "removeColumns", chart: "c1", columns: [2, 3] });
    expect(after.pattern.charts[0]).toMatchObject({ rows: ["AA", "AA", "bb", "AA"], bands: [{ axis: 1.5 }] });
    expect(after.colourways[0]!.overStitched).toEqual([]);
  });

  it("decreases that fall on one round leave the last of them", () => {
    const twice: Project = {
      ...small,
      pattern: {
        ...small.pattern,
        sections: [
          {
            ...small.pattern.sections![0]!,
            decreases: {
              M: [
                { round: 3, to: 18 },
                { round: 2, to: 21 },
                { round: 7, to: 9 },
                { round: 8, to: 8 },
              ],
            },
          },
        ],
      },
    };
    // Rows 3 4 1 go: rounds 2 3 4, then 6 7 8, so that of 2 3 4 1 2 3 4 1 rounds 1 and 5 are left.
    const rest: Edit[] = [
      { kind: "removeRows", chart: "c1", rows: [3, 4] },
      { kind: "removeRows", chart: "c1", rows: [1, 1] },
    ];
    const after = rest.reduce(done, twice);
    expect(after.pattern.sections![0]).toMatchObject({
      startRow: 1,
      rounds: { M: 2 },
      decreases: { M: [{ round: 2, to: 18 }] },
    });
  });

  it("what is wished of a band goes with its rows", () => {
    const wishing = applyEdit(vest, {
      kind: "setWish",
      colourway: "w1",
      wish: {
        bands: [{ band: "b5", want: "soft" }],
        look: [
          { band: "b9", be: "louder" },
          { colour: "A", be: "light" },
        ],
      },
    });
    const width = vest.pattern.charts[0]!.rows[0]!.length;
    // Below a plain edge a patterned row is a band of its own.
    expect(new Set(vest.pattern.charts[0]!.rows.at(-1)!).size).toBe(1);
    const after = done(wishing, { kind: "insertRows", chart: "c1", at: 1, rows: ["AH".repeat(width / 2)] });
    const wish = after.colourways[0]!.wish as { bands: { band: string }[]; look: { band?: string }[] };
    expect([wish.bands[0]!.band, wish.look[0]!.band]).toEqual(["b6", "b10"]);
    expect(done(after, { kind: "removeRows", chart: "c1", rows: [1, 1] })).toEqual(wishing);
  });
});

describe("charts", () => {
  const chart = { id: "c3", name: "cuff", rows: ["AQ", "QA"] };
  const colour = { id: "Q", name: "quartz", shade: { hex: "#aabbcc" } };

  it("come in with the colours that are new, take another name, are worked flat, and go", () => {
    const added = done(everyField, { kind: "addChart", chart, colours: [colour] });
    expect(added.pattern.charts.at(-1)).toEqual(chart);
    expect(added.pattern.colours.at(-1)).toEqual(colour);
    const named = done(added, { kind: "renameChart", chart: "c3", name: "wrist" });
    expect(named.pattern.charts.at(-1)).toEqual({ ...chart, name: "wrist" });
    expect(done(named, { kind: "renameChart", chart: "c3", name: "" }).pattern.charts.at(-1)).not.toHaveProperty(
      "name",
    );
    const flat = done(named, { kind: "setWorked", chart: "c3", worked: "flat" });
    expect(flat.pattern.charts.at(-1)).toMatchObject({ name: "wrist", worked: "flat" });
    const placed = done(added, {
      kind: "addChange",
      colourway: "w1",
      change: { at: { chart: "c3" }, colour: "Q", yarn: "y1" },
    });
    const gone = done(placed, { kind: "removeChart", chart: "c3" });
    expect(gone.colourways[0]!.changes).toEqual([]);
    expect(done(gone, { kind: "removePatternColour", id: "Q" }).pattern).toEqual(everyField.pattern);
  });

  it("take other stitches of the same size", () => {
    const rows = ["AAAA", "AAAA", "AbbA", "bAAb", "AbbA", "+A+A"];
    const after = done(everyField, { kind: "setStitches", chart: "c1", rows });
    expect(after.pattern.charts[0]).toEqual({ ...everyField.pattern.charts[0], rows });
    expect(after.pattern.charts[1]).toBe(everyField.pattern.charts[1]);
    expect(after.colourways).toBe(everyField.colourways);
  });
});

describe("colours that are one", () => {
  const merged = (project: Project, from: string, into: string) =>
    done(project, { kind: "mergePatternColours", from, into });

  it("are knitted in the one that is left, which stays as it is", () => {
    const after = merged(everyField, "b", "+");
    expect(after.pattern.charts[0]!.rows).toEqual(["A+A+", "AAAA", "A++A", "+AA+", "A++A", "AAAA"]);
    expect(after.pattern.colours.map(({ id }) => id)).toEqual(["A", "+"]);
    expect(after.colourways[1]!.yarns).toEqual({ A: "y1", "+": "y3" });
    // What was changed for b alone is said of no colour any more.
    expect(after.colourways[1]!.changes!.map((change) => change.colour)).toEqual(["A"]);
  });

  it("hand on yarn, changes, wish and the part of main colour where the other has none", () => {
    const bare: Project = {
      ...everyField,
      colourways: everyField.colourways.map((colourway) => ({
        ...colourway,
        yarns: { A: "y1", b: "y2" },
        wish: {
          keep: [{ colour: "A", yarn: "y1" }],
          look: [{ colour: "A", be: "light" }],
          share: {
            allow: [
              ["A", "b"],
              ["A", "+"],
            ] as [string, string][],
          },
        },
      })),
    };
    const after = merged(bare, "A", "+");
    expect(after.pattern.colours.map(({ id, role }) => [id, role])).toEqual([
      ["b", "contrast"],
      ["+", "main"],
    ]);
    expect(after.colourways[1]).toMatchObject({
      yarns: { "+": "y1", b: "y2" },
      wish: { keep: [{ colour: "+" }], look: [{ colour: "+", be: "light" }], share: { allow: [["+", "b"]] } },
    });
    expect(after.colourways[1]!.changes!.map(({ colour }) => colour)).toEqual(["+", "b"]);
  });

  it("leave every project readable, and count as many stitches as both had", () => {
    fc.assert(
      fc.property(anyProject, fc.constantFrom("A", "B", "C"), fc.constantFrom("A", "B", "C"), (project, from, into) => {
        fc.pre(from !== into);
        const after = merged(project, from, into);
        expect(readProject(writeProject(after)).value).toEqual(after);
        const count = (one: Project, id: string) => one.pattern.charts[0]!.rows.join("").split(id).length - 1;
        expect(count(after, into)).toBe(count(project, from) + count(project, into));
        expect(count(after, from)).toBe(0);
        expect(JSON.stringify(after.colourways)).not.toContain(`"colour":"${from}"`);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe("what is refused", () => {
  it.each<[Edit, string]>([
    [
      { kind: "setStitches", chart: "c9", rows: ["AAAA"] },
      'The chart: expected the id of one of the charts, found "c9".',
    ],
    [{ kind: "setStitches", chart: "c1", rows: ["AAAA"] }, "The stitches: expected 6 rows, found 1 row."],
    [
      { kind: "setStitches", chart: "c2", rows: ["--A-", "-AbAA"] },
      "The stitches: expected 4 stitches in every row, found one of 5.",
    ],
    [
      { kind: "setStitches", chart: "c2", rows: ["--Z-", "-AbA"] },
      'Chart c2, row 2: expected the chart\'s colours only (A b +) or -, found "Z".',
    ],
    [
      { kind: "insertRows", chart: "c1", at: 8, rows: ["AAAA"] },
      "The new rows: expected a row from 1 to 7, which is above the chart, found 8.",
    ],
    [{ kind: "insertRows", chart: "c1", at: 1, rows: [] }, "The new rows: expected at least one row, found none."],
    [
      { kind: "insertRows", chart: "c1", at: 1, rows: ["AAA"] },
      "The new rows: expected 4 stitches in every row, found one of 3.",
    ],
    [
      { kind: "insertColumns", chart: "c2", at: 0.5, stitches: ["A", "A"] },
      "The new columns: expected a column from 1 to 5, which is left of the chart, found 0.5.",
    ],
    [{ kind: "insertColumns", chart: "c2", at: 1, stitches: ["A"] }, "The new columns: expected 2 rows, found 1 row."],
    [
      { kind: "insertColumns", chart: "c2", at: 1, stitches: ["A", "AA"] },
      "The new columns: expected 1 stitch in every row, found one of 2.",
    ],
    [
      { kind: "insertColumns", chart: "c2", at: 1, stitches: ["", ""] },
      "The new columns: expected at least one column, found none.",
    ],
    [{ kind: "removeRows", chart: "c1", rows: [5, 7] }, "The rows: expected rows between 1 and 6, found [5, 7]."],
    [
      { kind: "removeRows", chart: "c2", rows: [1, 2] },
      "The rows: expected at least one row that stays, found all of them.",
    ],
    [
      { kind: "removeRows", chart: "c1", rows: [2, 5] },
      'The rows: expected some that a swatch was not knitted of, found swatch "t1".',
    ],
    [
      { kind: "removeColumns", chart: "c2", columns: [3, 2] },
      "The columns: expected columns between 1 and 4, found [3, 2].",
    ],
    [
      { kind: "addChart", chart: { id: "c1", rows: ["A"] }, colours: [] },
      'The chart: expected an id that no other chart has, found "c1".',
    ],
    [
      { kind: "removeChart", chart: "c1" },
      'The chart: expected one that no section is knitted from, found section "body".',
    ],
    [
      { kind: "addPatternColour", colour: { id: "A", shade: { hex: "#000" } } },
      'Pattern.colours[3].id: expected an id that no other colour has, found "A".',
    ],
    [
      { kind: "removePatternColour", id: "b" },
      'The colour: expected one in which nothing is knitted, found stitches in chart "stakes".',
    ],
    [{ kind: "mergePatternColours", from: "b", into: "b" }, 'The colours: expected two that differ, found "b" twice.'],
    [
      { kind: "mergePatternColours", from: "b", into: "Q" },
      'The colour: expected the id of one of the chart\'s colours, found "Q".',
    ],
  ])("%j", (edit, sentence) => {
    const { value, problems } = tryEdit(everyField, edit);
    expect(value).toBeNull();
    expect(problems.map(problemSentence)).toEqual([sentence]);
    expect(applyEdit(everyField, edit)).toBe(everyField);
  });

  it("the only chart stays", () => {
    expect(problemSentence(tryEdit(vest, { kind: "removeChart", chart: "c1" }).problems[0]!)).toBe(
      "The chart: expected one that is not the only one, found the only one.",
    );
  });
});
