/** Each edit of the shelf: what it does, what it leaves alone, and what is refused with a sentence. */
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { readShelf, writeShelf, type Shelf } from "./shelf.ts";
import { EMPTY_SHELF, tryShelfEdit, type ShelfEdit } from "./shelfEdit.ts";

const shelf: Shelf = {
  ...EMPTY_SHELF,
  yarns: [
    { id: "peat", name: "Peat", shade: { lab: [25, 6, 10] }, grams: 30 },
    { id: "rime", name: "Rime", shade: { hex: "#eef" }, note: "from the hat" },
  ],
  promised: [{ yarn: "peat", project: "cap", grams: 20 }],
  theta: 0.2,
};

describe("what an edit does", () => {
  it.each<[string, ShelfEdit, Partial<Shelf>]>([
    [
      "adds",
      { kind: "addYarns", yarns: [{ id: "fern", name: "Fern", shade: { hex: "#484" } }] },
      { yarns: [...shelf.yarns, { id: "fern", name: "Fern", shade: { hex: "#484" } }] },
    ],
    [
      "changes one field, takes one away, leaves the rest",
      { kind: "changeYarn", yarn: "rime", fields: { plies: 2, note: null } },
      { yarns: [shelf.yarns[0]!, { id: "rime", name: "Rime", shade: { hex: "#eef" }, plies: 2 }] },
    ],
    [
      "takes away with its promises",
      { kind: "removeYarns", yarns: ["peat"] },
      { yarns: [shelf.yarns[1]!], promised: [] },
    ],
    [
      "promises anew instead of twice",
      { kind: "promise", yarn: "peat", project: "cap", grams: 25 },
      { promised: [{ yarn: "peat", project: "cap", grams: 25 }] },
    ],
    ["takes a promise back", { kind: "promise", yarn: "peat", project: "cap", grams: null }, { promised: [] }],
    ["another shelf", { kind: "replaceShelf", shelf: EMPTY_SHELF }, {}],
  ])("%s", (_, edit, parts) => {
    const before = structuredClone(shelf);
    const { value, problems } = tryShelfEdit(shelf, edit);
    expect(problems).toEqual([]);
    expect(value).toEqual(edit.kind === "replaceShelf" ? EMPTY_SHELF : { ...shelf, ...parts });
    expect(shelf).toEqual(before);
    expect(readShelf(writeShelf(value!)).value).toEqual(value);
  });
});

describe("what is refused", () => {
  it.each<[ShelfEdit, RegExp]>([
    [{ kind: "changeYarn", yarn: "moss", fields: {} }, /^The yarn: expected the id of one of the yarns on the shelf/],
    [{ kind: "removeYarns", yarns: ["peat", "moss"] }, /found "moss"/],
    [{ kind: "addYarns", yarns: [shelf.yarns[0]!] }, /an id that no other yarn has, found "peat"/],
    [{ kind: "promise", yarn: "rime", project: "cap", grams: -1 }, /a number of 0 or more/],
    [{ kind: "changeYarn", yarn: "rime", fields: { weightClass: 9 } }, /from 0 \(lace\) to 7 \(jumbo\)/],
    [{ kind: "changeYarn", yarn: "rime", fields: { photo: "http://example.org/a.png" } }, /a small picture as data:/],
  ])("%j", (edit, sentence) => {
    const { value, problems } = tryShelfEdit(shelf, edit);
    expect(value).toBeNull();
    expect(problems.map(problemSentence).join(" ")).toMatch(sentence);
  });
});
