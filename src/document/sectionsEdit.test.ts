/** Giving a garment its shape as an edit: what stays, what goes with a section, what is refused, and that the file reads back. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import type { Section } from "../garment/sections.ts";
import { applyEdit, tryEdit, type Edit } from "./edit.ts";
import type { Project } from "./project.ts";
import { readProject } from "./read.ts";
import { lostWithSections } from "./sectionsEdit.ts";
import { writeProject } from "./write.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const body: Section = { id: "s1", name: "body", chart: "c1", rounds: { M: 90 }, stitches: { M: 264 }, from: ["hem"] };
const hem: Section = {
  id: "hem",
  chart: "plain",
  rounds: { M: 18 },
  stitches: { M: 240 },
  from: [],
  beside: [{ kind: "steek", name: "front", stitches: { M: 7 } }],
};
const shape: Extract<Edit, { kind: "setSections" }> = {
  kind: "setSections",
  sizes: [{ id: "M", name: "medium", chestCm: 94 }],
  sections: [hem, body],
  charts: [{ id: "plain", rows: ["A"] }],
};
const said: Edit[] = [
  {
    kind: "addChange",
    colourway: "w1",
    change: { at: { section: "s1", rounds: [1, 4] }, colour: "A", yarn: vest.yarns[0]!.id },
  },
  {
    kind: "addChange",
    colourway: "w1",
    change: { at: { section: "s2" }, colour: "A", yarn: vest.yarns[0]!.id },
  },
  { kind: "setRound", section: "s2", round: 5 },
];
const knitted = said.reduce(applyEdit, vest);

describe("setSections", () => {
  it("puts sizes, sections and new charts in place of those there were, and reads back the same", () => {
    const after = tryEdit(vest, shape).value!;
    expect(after.pattern.sections).toEqual([hem, body]);
    expect(after.pattern.sizes).toEqual(shape.sizes);
    expect(after.pattern.charts.map(({ id }) => id)).toEqual(["c1", "plain"]);
    expect(readProject(writeProject(after)).value).toEqual(after);
  });

  it("what was said of a section that stays stays, and goes with one that goes", () => {
    expect(lostWithSections(knitted, shape.sections)).toBe(1);
    const after = applyEdit(knitted, shape);
    const own = (vest.colourways[0]!.changes ?? []).length;
    expect(after.colourways[0]!.changes!.slice(own)).toEqual([
      { at: { section: "s1", rounds: [1, 4] }, colour: "A", yarn: vest.yarns[0]!.id },
    ]);
    expect(after.knitting).toEqual({});
  });

  it("keeps fields that we do not know", () => {
    const strange = structuredClone(vest) as Project & { pattern: { sections: Record<string, unknown>[] } };
    strange.pattern.sections[0]!.blockedOn = "wires";
    strange.pattern.sections[0]!.decreases = { M: [{ round: 4, to: 200 }] };
    const [, kept] = applyEdit(strange, shape).pattern.sections!;
    expect(kept).toEqual({ blockedOn: "wires", ...body });
  });

  it("is refused where a section knits a chart that is not there", () => {
    const { value, problems } = tryEdit(vest, { ...shape, charts: [] });
    expect(value).toBeNull();
    expect(problems.map(problemSentence)).toEqual([
      'Pattern.sections[0].chart: expected the id of one of the charts, found "plain".',
    ]);
  });

  it("doubts a section that goes on from one that is not there", () => {
    const { problems } = tryEdit(vest, { ...shape, sections: [hem, { ...body, from: ["brim"] }] });
    expect(problems.map(problemSentence)).toContain(
      'Pattern.sections[1].from: expected the ids of sections only, found "brim".',
    );
  });
});

describe("what she measured", () => {
  it("is kept for the whole garment, and null takes it back", () => {
    const loop = { mm: 16.4, gauge: { stitches: 28, rows: 30 }, within: 0.006 };
    const after = applyEdit(vest, { kind: "setKnitting", fields: { loop, heldLow: "pattern", slack: 0.08 } });
    expect(after.knitting).toEqual({ loop, heldLow: "pattern", slack: 0.08 });
    expect(readProject(writeProject(after)).value).toEqual(after);
    expect(applyEdit(after, { kind: "setKnitting", fields: { loop: null } }).knitting).toEqual({
      heldLow: "pattern",
      slack: 0.08,
    });
  });

  it("a swatch keeps its gauge before and after it was washed", () => {
    const swatch = { id: "t1", chart: "c1", colourway: "w1" };
    const [before, washed] = [
      { stitches: 28, rows: 30 },
      { stitches: 29, rows: 31 },
    ];
    const edit: Edit = { kind: "setSwatchGauge", swatch: "t1", gauge: washed, gaugeBefore: before };
    expect(applyEdit({ ...vest, swatches: [swatch] }, edit).swatches).toEqual([
      { ...swatch, washed: true, gauge: washed, gaugeBefore: before },
    ]);
    expect(tryEdit(vest, edit).value).toBeNull();
  });

  it("a section has a gauge of its own, or the pattern's", () => {
    const gauge = { stitches: 26, rows: 29 };
    const after = applyEdit(vest, { kind: "setSectionGauge", section: "s2", gauge });
    expect(after.pattern.sections!.map((one) => one.gauge)).toEqual([null, gauge]);
    expect(tryEdit(vest, { kind: "setSectionGauge", section: "s9", gauge }).value).toBeNull();
  });
});
