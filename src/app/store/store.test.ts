/** The laws of the store: edits, their undoing, several tabs, and the file that comes out. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { applyEdit, type Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import { readProject } from "../../document/read.ts";
import { writeProject } from "../../document/write.ts";
import { EMPTY_SHELF } from "../../document/shelfEdit.ts";
import { createStore } from "./store.ts";

const text = readFileSync("examples/weather-station-vest.twostrand.json", "utf8");
/** The example with fields from a later time at several depths. */
function projectFromLater(): Project {
  const raw = JSON.parse(text) as Record<string, unknown> & { yarns: object[]; pattern: object };
  raw["x-later"] = { kept: [1, { deep: "yes" }], none: null };
  raw.yarns[0] = { ...raw.yarns[0], "x-sheep": ["Ada", 3.5] };
  raw.pattern = { "x-before": true, ...raw.pattern };
  const { value, problems } = readProject(JSON.stringify(raw));
  expect(problems.filter(({ severity }) => severity === "fault")).toEqual([]);
  return value!;
}

const start = projectFromLater();
const colours = start.pattern.colours.map(({ id }) => id);
const yarns = start.yarns.map(({ id }) => id);

const colourway = fc.constantFrom("w1", "w2", "w3", "w4");
const colour = fc.constantFrom(...colours);
const yarn = fc.constantFrom(...yarns);
const rows = fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 60, max: 120 }));

/** Edits of every sort the bench makes, some of which will be refused. */
const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.record({ kind: fc.constant("setName" as const), name: fc.string({ minLength: 1, maxLength: 12 }) }),
  fc.record({ kind: fc.constant("assignYarn" as const), colourway, colour, yarn: fc.option(yarn) }),
  fc.record({
    kind: fc.constant("assignYarns" as const),
    colourway,
    yarns: fc.dictionary(colour, yarn, { maxKeys: 4, noNullPrototype: true }),
  }),
  fc.record({
    kind: fc.constant("addColourway" as const),
    id: fc.constantFrom("w4", "w5"),
    from: fc.option(colourway),
  }),
  fc.record({
    kind: fc.constant("renameColourway" as const),
    colourway,
    name: fc.string({ minLength: 1, maxLength: 12 }),
  }),
  fc.record({ kind: fc.constant("removeColourway" as const), colourway }),
  fc.record({
    kind: fc.constant("setWish" as const),
    colourway,
    wish: fc.option(fc.record({ keep: fc.array(fc.record({ colour, yarn }), { maxLength: 2 }) })),
  }),
  fc.record({
    kind: fc.constant("addChange" as const),
    colourway,
    change: fc.record({ at: rows.map((range) => ({ chart: "c1", rows: range })), colour, yarn }),
  }),
  fc.record({ kind: fc.constant("removeChange" as const), colourway, index: fc.nat({ max: 2 }) }),
  fc.record({
    kind: fc.constant("setBandWant" as const),
    chart: fc.constant("c1"),
    rows,
    want: fc.constantFrom("soft" as const, "strong" as const, null),
  }),
);

const step = { name: "an edit", colourway: null };
const begun = () => {
  const store = createStore();
  store.begin(start);
  return store;
};
const same = (a: Project | null, b: Project | null) => expect(a && writeProject(a)).toBe(b && writeProject(b));

describe("the work on the bench", () => {
  it("opens and saves to the same bytes", () => {
    const file = readProject(text).value!;
    const store = createStore();
    store.begin(file);
    expect(writeProject(store.state().project!)).toBe(writeProject(file));
  });

  it("after any edits reads back as the pure edits make it, unknown fields and all", () => {
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 8 }), (edits) => {
        const store = begun();
        let pure = start;
        for (const one of edits) {
          store.commit(one, step);
          pure = applyEdit(pure, one);
          same(store.state().project, pure);
        }
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  it("undone to the last is the beginning, done again to the last is the end", () => {
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 8 }), (edits) => {
        const store = begun();
        for (const one of edits) store.commit(one, step);
        const end = store.state().project;
        let steps = 0;
        while (store.state().undo) {
          store.undo();
          steps++;
        }
        same(store.state().project, start);
        expect(steps).toBeLessThanOrEqual(edits.length);
        while (store.state().redo) store.redo();
        same(store.state().project, end);
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  it("several edits of one act are one step back, named", () => {
    const store = begun();
    const act = { name: "Fern for E", colourway: "w1" };
    store.commit(
      [
        { kind: "addColourway", id: "w4", from: "w1" },
        { kind: "assignYarn", colourway: "w4", colour: "E", yarn: "y19" },
      ],
      act,
    );
    expect(store.state().undo).toEqual(act);
    store.undo();
    same(store.state().project, start);
    expect(store.state()).toMatchObject({ undo: null, redo: act });
  });

  it("takes back the opening of another project", () => {
    const store = begun();
    store.replace(
      { ...start, name: "another", yarns: [], colourways: [] },
      { name: "opening another", colourway: null },
    );
    expect(store.state().project).toMatchObject({ name: "another", colourways: [] });
    store.undo();
    same(store.state().project, start);
  });

  it("an act on shelf and project is one step back for both, and leaves the other record the same object", () => {
    const store = begun();
    const { project } = store.state();
    const shelf = { ...EMPTY_SHELF, yarns: [{ id: "rime", name: "Rime", shade: { hex: "#eef" } }] };
    store.putShelf(shelf, [], step);
    expect(store.state().shelf).toEqual(shelf);
    expect(store.state().project).toBe(project);
    store.putShelf(
      { ...shelf, yarns: [] },
      [{ kind: "addYarns", yarns: [{ ...shelf.yarns[0]!, shelf: "rime" }] }],
      step,
    );
    expect(store.state().shelf!.yarns).toEqual([]);
    expect(store.state().project!.yarns.at(-1)).toMatchObject({ id: "rime" });
    store.undo();
    expect(store.state().shelf).toEqual(shelf);
    same(store.state().project, start);
    store.undo();
    expect(store.state().shelf?.yarns ?? []).toEqual([]);
  });

  it("does not undo what another tab has done, and keeps it", () => {
    const store = begun();
    const other = createStore();
    Y.applyUpdate(other.document, Y.encodeStateAsUpdate(store.document));
    store.commit({ kind: "renameColourway", colourway: "w1", name: "mine" }, step);
    other.commit({ kind: "renameColourway", colourway: "w2", name: "theirs" }, step);
    Y.applyUpdate(store.document, Y.encodeStateAsUpdate(other.document), "another tab");
    store.undo();
    const names = Object.fromEntries(store.state().project!.colourways.map(({ id, name }) => [id, name]));
    expect(names).toMatchObject({ w1: "first snow", w2: "theirs" });
    expect(store.undo()).toBeNull();
  });

  it("a hundred steps deep there is still a way back", () => {
    const store = begun();
    for (let i = 0; i < 100; i++) store.commit({ kind: "setName", name: `name ${i}` }, step);
    for (let i = 0; i < 100; i++) store.undo();
    same(store.state().project, start);
  });
});
