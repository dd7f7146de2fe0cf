/** What each edit does, what is refused and why, and that no edit makes a file that cannot be read. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { applyEdit, tryEdit, type Edit } from "./edit.ts";
import type { Project } from "./project.ts";
import { readProject } from "./read.ts";
import { writeProject } from "./write.ts";

const project = readProject(readFileSync("test/files/v1/every-field.twostrand.json", "utf8")).value!;
const deepFrozen = <T>(value: T): T => {
  if (typeof value === "object" && value !== null) Object.values(Object.freeze(value)).forEach(deepFrozen);
  return value;
};
deepFrozen(project);

const after = (...edits: Edit[]): Project => edits.reduce(applyEdit, project);
const second = (changed: Project) => changed.colourways[1]!;

describe("edits", () => {
  it("assign a yarn, take it away, and assign several", () => {
    expect(second(after({ kind: "assignYarn", colourway: "w2", colour: "b", yarn: "y3" })).yarns).toEqual({
      A: "y1",
      b: "y3",
      "+": "y3",
    });
    expect(second(after({ kind: "assignYarn", colourway: "w2", colour: "b", yarn: null })).yarns).toEqual({
      A: "y1",
      "+": "y3",
    });
    expect(second(after({ kind: "assignYarns", colourway: "w2", yarns: { A: "y2", b: "y1" } })).yarns).toEqual({
      A: "y2",
      b: "y1",
      "+": "y3",
    });
  });

  it("add and remove a change by place", () => {
    const change = { at: { chart: "c1", rows: [2, 3] as [number, number] }, colour: "b", yarn: "y1" };
    const added = after({ kind: "addChange", colourway: "w1", change });
    expect(added.colourways[0]!.changes).toEqual([change]);
    expect(second(after({ kind: "removeChange", colourway: "w2", index: 0 })).changes).toEqual([
      second(project).changes![1],
    ]);
  });

  it("lay stitches on top and take them off", () => {
    const stitched = { at: { chart: "c1" }, cells: [[1, 1]] as [number, number][], yarn: "y2" };
    expect(second(after({ kind: "overStitch", colourway: "w2", stitched })).overStitched).toHaveLength(2);
    expect(second(after({ kind: "removeOverStitch", colourway: "w2", index: 0 })).overStitched).toEqual([]);
  });

  it("copy a colourway with all that is known and unknown of it, under its own id", () => {
    const added = after({ kind: "addColourway", id: "w3", from: "w2", name: "third" }).colourways[2]!;
    expect(added).toEqual({ ...second(project), id: "w3", name: "third", from: "w2" });
    expect(after({ kind: "addColourway", id: "w3", from: null }).colourways[2]).toEqual({
      yarns: {},
      id: "w3",
      from: null,
    });
  });

  it("name, note, wish and remove a colourway", () => {
    expect(second(after({ kind: "renameColourway", colourway: "w2", name: "dusk" })).name).toBe("dusk");
    expect(second(after({ kind: "setColourwayNote", colourway: "w2", note: "too loud" })).note).toBe("too loud");
    expect(second(after({ kind: "setWish", colourway: "w2", wish: { ladder: "reversed" } })).wish).toEqual({
      ladder: "reversed",
    });
    expect(second(after({ kind: "setWish", colourway: "w2", wish: null }))).not.toHaveProperty("wish");
    expect(after({ kind: "removeColourway", colourway: "w2" }).colourways.map(({ id }) => id)).toEqual(["w1"]);
  });

  it("add, change and remove yarns, and keep the unknown fields of a changed one", () => {
    const moss = { id: "y4", name: "Moss", shade: { hex: "#5c6b3a" } };
    expect(after({ kind: "addYarns", yarns: [moss] }).yarns.at(-1)).toEqual(moss);
    const changed = after({ kind: "changeYarn", yarn: "y1", fields: { name: "Mist", note: null } }).yarns[0]!;
    const { note: _, ...rest } = project.yarns[0]!;
    expect(changed).toEqual({ ...rest, name: "Mist" });
    expect(after({ kind: "addYarns", yarns: [moss] }, { kind: "removeYarn", yarn: "y4" })).toEqual(project);
  });

  it("set the pattern's own: name, gauge, colours and what a band is wanted to be", () => {
    expect(after({ kind: "setName", name: "Vest" }).name).toBe("Vest");
    expect(after({ kind: "setGauge", gauge: { stitches: 26, rows: 30 } }).pattern.gauge).toEqual({
      stitches: 26,
      rows: 30,
      needleMm: 2.5,
    });
    const { colours } = after({ kind: "setPatternColour", id: "b", name: "brick", role: "main" }).pattern;
    expect(colours.map(({ role }) => role)).toEqual(["contrast", "main", undefined]);
    expect(colours[1]).toEqual({ ...project.pattern.colours[1], name: "brick", role: "main" });
    const bands = (want: "strong" | null, rows: [number, number]) =>
      after({ kind: "setBandWant", chart: "c1", rows, want }).pattern.charts[0]!.bands;
    expect(bands("strong", [2, 4])![0]).toEqual({ rows: [2, 4], want: "strong", name: "diamonds" });
    expect(bands(null, [2, 4])![0]).toEqual({ rows: [2, 4], name: "diamonds" });
    expect(bands("strong", [1, 1])![2]).toEqual({ rows: [1, 1], want: "strong" });
  });

  it("remember the round that she is at, and leave the weighings", () => {
    expect(after({ kind: "setRound", section: "s2", round: 12 }).knitting).toEqual({
      ...project.knitting,
      section: "s2",
      round: 12,
    });
  });

  it("share what they do not touch", () => {
    const changed = after({ kind: "assignYarn", colourway: "w2", colour: "b", yarn: "y3" });
    expect(changed.pattern).toBe(project.pattern);
    expect(changed.yarns).toBe(project.yarns);
    expect(changed.colourways[0]).toBe(project.colourways[0]);
    expect(second(changed).changes).toBe(second(project).changes);
  });
});

describe("what is refused", () => {
  it.each<[Edit, string]>([
    [
      { kind: "removeYarn", yarn: "y1" },
      'The yarn "Fog": expected a yarn that no colourway uses, found it in "as printed".',
    ],
    [{ kind: "removeYarn", yarn: "y7" }, 'The yarn: expected the id of one of the yarns, found "y7".'],
    [{ kind: "removeColourway", colourway: "w1" }, 'The colourway: expected one without a swatch, found swatch "t1".'],
    [
      { kind: "assignYarn", colourway: "w9", colour: "A", yarn: "y1" },
      'The colourway: expected the id of one of the colourways, found "w9".',
    ],
    [
      { kind: "assignYarn", colourway: "w1", colour: "Q", yarn: "y1" },
      'The colour: expected the id of one of the chart\'s colours, found "Q".',
    ],
    [
      { kind: "assignYarn", colourway: "w1", colour: "A", yarn: "y9" },
      'Colourways[0].yarns.A: expected the id of one of the yarns, found "y9".',
    ],
    [
      { kind: "setGauge", gauge: { stitches: 0, rows: 30 } },
      "Pattern.gauge.stitches: expected a number above 0, found 0.",
    ],
    [
      { kind: "setGauge", gauge: { stitches: Number.NaN, rows: 30 } },
      "Pattern.gauge.stitches: expected a number above 0, found NaN.",
    ],
    [
      { kind: "setBandWant", chart: "c1", rows: [2, 9], want: "soft" },
      "The band: expected rows between 1 and 6, found [2, 9].",
    ],
    [
      { kind: "addYarns", yarns: [{ id: "y1", name: "again", shade: { hex: "#fff" } }] },
      'Yarns[3].id: expected an id that no other yarn has, found "y1".',
    ],
    [
      { kind: "addColourway", id: "w1", from: "w1" },
      'Colourways[2].id: expected an id that no other colourway has, found "w1".',
    ],
  ])("%j", (edit, sentence) => {
    const { value, problems } = tryEdit(project, edit);
    expect(value).toBeNull();
    expect(problemSentence(problems[0]!)).toBe(sentence);
    expect(applyEdit(project, edit)).toBe(project);
  });

  it("the last colourway stays", () => {
    const { swatches: _, ...rest } = after({ kind: "removeColourway", colourway: "w2" });
    expect(problemSentence(tryEdit(rest, { kind: "removeColourway", colourway: "w1" }).problems[0]!)).toBe(
      "The colourway: expected one that is not the only one, found the only one.",
    );
  });
});

describe("law of edits", () => {
  const yarn = fc.constantFrom("y1", "y2", "y3", "y4", "nobody");
  const colour = fc.constantFrom("A", "b", "+", "Q");
  const colourway = fc.constantFrom("w1", "w2", "w3", "none");
  const pair = fc.tuple(fc.integer({ min: -1, max: 8 }), fc.integer({ min: 0, max: 8 }));
  const at = fc.oneof(
    fc.constantFrom("c1", "c2", "c3").map((chart) => ({ chart })),
    fc.tuple(fc.constantFrom("s1", "s9"), pair).map(([section, rounds]) => ({ section, rounds })),
  );
  const edit: fc.Arbitrary<Edit> = fc.oneof(
    fc.record({ kind: fc.constant("assignYarn" as const), colourway, colour, yarn: fc.option(yarn) }),
    fc.record({ kind: fc.constant("addChange" as const), colourway, change: fc.record({ at, colour, yarn }) }),
    fc.record({ kind: fc.constant("removeChange" as const), colourway, index: fc.nat(3) }),
    fc.record({
      kind: fc.constant("overStitch" as const),
      colourway,
      stitched: fc.record({ at, yarn, cells: fc.array(pair) }),
    }),
    fc.record({ kind: fc.constant("addColourway" as const), id: colourway, from: fc.option(colourway) }),
    fc.record({ kind: fc.constant("removeColourway" as const), colourway }),
    fc.record({ kind: fc.constant("removeYarn" as const), yarn }),
    fc.record({
      kind: fc.constant("changeYarn" as const),
      yarn,
      fields: fc.record(
        { grams: fc.option(fc.double()), shade: fc.constantFrom(null, { hex: "#123456" }) },
        { requiredKeys: [] },
      ),
    }),
    fc.record({
      kind: fc.constant("addYarns" as const),
      yarns: fc.array(fc.record({ id: yarn, name: fc.string(), shade: fc.constant({ hex: "#abc" }) })),
    }),
    fc.record({
      kind: fc.constant("setBandWant" as const),
      chart: fc.constantFrom("c1", "c2", "c9"),
      rows: pair,
      want: fc.constantFrom("soft" as const, "strong" as const, null),
    }),
    fc.record({
      kind: fc.constant("setPatternColour" as const),
      id: colour,
      name: fc.string(),
      role: fc.constantFrom("main" as const, "contrast" as const),
    }),
    fc.record({
      kind: fc.constant("setGauge" as const),
      gauge: fc.record({ stitches: fc.double(), rows: fc.double() }),
    }),
    fc.record({ kind: fc.constant("setName" as const), name: fc.string() }),
    fc.record({
      kind: fc.constant("setCloth" as const),
      cloth: fc.option(
        fc.record(
          { factor: fc.double(), texture: fc.record({ stitch: fc.double(), floor: fc.double() }) },
          { requiredKeys: [] },
        ),
      ),
    }),
    fc.record({
      kind: fc.constant("setWish" as const),
      colourway,
      wish: fc.option(fc.dictionary(fc.string(), fc.jsonValue())),
    }),
  );

  it("after any edits the project can be written, and reading gives it back", () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 20 }), (edits) => {
        const changed = deepFrozen(after(...edits));
        expect(readProject(writeProject(changed)).value).toEqual(changed);
        expect(changed.pattern.gauge).toHaveProperty("needleMm", 2.5);
        expect(changed).toHaveProperty("keptBy", (project as unknown as { keptBy: unknown }).keptBy);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
