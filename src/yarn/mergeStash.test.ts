import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { mergedStash, mergeStash } from "./mergeStash.ts";
import type { Yarn } from "./yarn.ts";

const hoar: Yarn = {
  id: "y1",
  name: "Hoar",
  maker: "Sample Mill",
  shade: { lab: [90, 0, 7], uncertainty: 2, from: "photo" },
  metresPer100g: 420,
  lots: [{ id: "l1", lot: "17", grams: 43, weighed: true }],
  note: "from the hat",
};
const peat: Yarn = { id: "y2", name: "Peat", shade: { hex: "#332211" }, grams: 12 };
const HAVE = [hoar, peat];
const row = (fields: Partial<Yarn>): Yarn => ({ id: "hoar", name: "hoar", ...fields });
const one = (fields: Partial<Yarn>) => {
  const { added, changed, same, doubts } = mergeStash(HAVE, [row(fields)]);
  return { added, same, after: changed[0]?.after, fields: changed[0]?.fields, told: doubts.map(problemSentence) };
};

describe("a yarn that comes in", () => {
  it("is hers by its name, whatever its id", () => {
    expect(one({ maker: "sample  mill" })).toMatchObject({ added: [], same: [hoar], told: [] });
  });
  it("is another's of another maker", () => {
    expect(one({ maker: "Other Mill", shade: { hex: "#e8e2d2" } }).added).toEqual([
      row({ maker: "Other Mill", shade: { hex: "#e8e2d2" } }),
    ]);
  });
  it("keeps the shade that is better known, and says so", () => {
    expect(one({ shade: { hex: "#dddddd" } })).toMatchObject({
      same: [hoar],
      told: ["Hoar, its shade: expected Lab 90 0 7, ± 2, by a photograph, found #dddddd, ± 5; kept as it is."],
    });
    // What she typed herself is not overwritten by a code in a table.
    const typed: Yarn = { ...peat, shade: { hex: "#342312", from: "eye" } };
    expect(mergeStash([typed], [{ ...peat, shade: { hex: "#111111" } }]).same).toEqual([typed]);
  });
  it("brings a shade that is better known, with before and after", () => {
    const { changed } = mergeStash(HAVE, [{ ...peat, shade: { hex: "#352413", uncertainty: 2 } }]);
    expect(changed).toEqual([
      { before: peat, after: { ...peat, shade: { hex: "#352413", uncertainty: 2 } }, fields: ["shade"] },
    ]);
  });
  it("adds a lot, and does not double one", () => {
    expect(one({ lots: [{ id: "l1", lot: "18", grams: 20 }] })).toMatchObject({
      fields: ["lots"],
      after: {
        lots: [
          { id: "l1", lot: "17", grams: 43, weighed: true },
          { id: "l2", lot: "18", grams: 20 },
        ],
      },
    });
    expect(one({ lots: [{ id: "l1", lot: "17", grams: 43 }] }).same).toEqual([hoar]);
    expect(one({ grams: 43 }).same).toEqual([hoar]);
  });
  it("does not overrule the scales", () => {
    expect(one({ lots: [{ id: "l1", lot: "17", grams: 50 }] })).toMatchObject({
      same: [hoar],
      told: ["Hoar, lot 17: expected 43 g, weighed, found 50 g; kept as it is."],
    });
    expect(one({ lots: [{ id: "l1", lot: "17", grams: 40, weighed: true }] }).after?.lots).toEqual([
      { id: "l1", lot: "17", grams: 40, weighed: true },
    ]);
  });
  it("says of grams what it cannot put to a lot", () => {
    const two: Yarn = {
      ...peat,
      grams: 0,
      lots: [
        { id: "l1", lot: "1", grams: 5 },
        { id: "l2", lot: "2", grams: 7 },
      ],
    };
    expect(mergeStash([two], [{ ...peat, grams: 12 }]).same).toEqual([two]);
    const { same, doubts } = mergeStash([two], [{ ...peat, grams: 40 }]);
    expect(same).toEqual([two]);
    expect(doubts.map(problemSentence)).toEqual([
      "Peat, its amount: expected 12 g in 2 lots, found 40 g without a lot; kept as it is.",
    ]);
  });
  it("needs no shade where it is hers, and is left out where it is not", () => {
    const { changed, unshaded, added } = mergeStash(HAVE, [
      { id: "peat", name: "Peat", grams: 9 },
      { id: "moss", name: "Moss", grams: 9 },
    ]);
    expect(changed.map(({ before, fields }) => [before.id, fields])).toEqual([["y2", ["grams"]]]);
    expect([unshaded.map(({ name }) => name), added]).toEqual([["Moss"], []]);
  });
  it("names the lot that grams were without", () => {
    const { changed } = mergeStash(HAVE, [{ ...row({}), name: "Peat", lots: [{ id: "l1", lot: "4" }] }]);
    expect(changed[0]!.after).toEqual({
      id: "y2",
      name: "Peat",
      shade: peat.shade,
      lots: [{ id: "l1", lot: "4", grams: 12 }],
    });
    expect(changed[0]!.fields.sort()).toEqual(["grams", "lots"]);
  });
  it("adds to a note and loses nothing", () => {
    expect(one({ note: "from the hat" }).same).toEqual([hoar]);
    expect(one({ note: "soft", fibre: "wool" }).after).toMatchObject({
      note: "from the hat soft",
      fibre: "wool",
      maker: "Sample Mill",
    });
  });
  it("is not hers by an id alone", () => {
    const stranger: Yarn = { id: "y2", name: "Moss", shade: { hex: "#54662b" } };
    const merge = mergeStash(HAVE, [stranger]);
    expect(merge.added).toEqual([{ ...stranger, id: "y2-2" }]);
    const shelf = mergedStash(HAVE, merge);
    expect(mergeStash(shelf, [stranger]).same).toEqual([{ ...stranger, id: "y2-2" }]);
  });
  it("may have another name than before", () => {
    expect(mergeStash(HAVE, [{ ...peat, name: "Dark peat" }]).changed[0]!.fields).toEqual(["name"]);
  });
  it("of two of a name each is held against the nearest", () => {
    const have: Yarn[] = [
      { id: "a", name: "Moss", shade: { hex: "#54662b" } },
      { id: "b", name: "Moss", shade: { hex: "#111111" } },
    ];
    const incoming: Yarn[] = [
      { id: "moss", name: "Moss", shade: { hex: "#111112" } },
      { id: "moss-2", name: "Moss", shade: { hex: "#54662b" } },
      { id: "moss-3", name: "Moss", shade: { hex: "#ffffff" } },
    ];
    const { added, changed, same } = mergeStash(have, incoming);
    expect(added.map(({ id }) => id)).toEqual(["moss-3"]);
    expect(changed.map(({ before }) => before.id)).toEqual(["b"]);
    expect(same.map(({ id }) => id)).toEqual(["a"]);
  });
});
