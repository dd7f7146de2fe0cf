import { describe, expect, it } from "vitest";
import { EMPTY_SHELF } from "../../document/shelfEdit.ts";
import { mergeStash } from "../../yarn/mergeStash.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { copyEdits, shelfAfter, takenOf } from "./shelfAfter.ts";
import { actWords, doneWords, foundWords } from "./tableWords.ts";

const hoar: Yarn = { id: "y1", name: "Hoar", shade: { hex: "#e8e2d2" }, grams: 43 };
const peat: Yarn = { id: "y2", name: "Peat", shade: { hex: "#332211" }, grams: 12 };
const moss: Yarn = { id: "moss", name: "Moss", shade: { hex: "#54662b" } };
const shelf = { ...EMPTY_SHELF, yarns: [hoar, peat] as typeof EMPTY_SHELF.yarns, theta: 0.1 };
const merge = mergeStash(shelf.yarns, [
  { ...hoar, grams: 20 },
  { ...peat, lots: [{ id: "l1", lot: "7", grams: 12 }], grams: undefined } as unknown as Yarn,
  moss,
]);

describe("what a table does to the shelf", () => {
  it("changes what she takes, leaves what she leaves, and adds the rest", () => {
    const taken = takenOf(merge, new Set(["y1"]));
    expect(shelfAfter(shelf, merge, taken)).toEqual({
      ...shelf,
      yarns: [hoar, { id: "y2", name: "Peat", shade: peat.shade, lots: [{ id: "l1", lot: "7", grams: 12 }] }, moss],
    });
  });
  it("goes to copies on the bench, field by field, and to no other yarn there", () => {
    const bench: Yarn[] = [{ ...peat, id: "b1", shelf: "y2", name: "Peat, the good one" }, { ...moss }];
    expect(copyEdits(shelf.yarns, bench, merge.changed)).toEqual([
      { kind: "changeYarn", yarn: "b1", fields: { grams: null, lots: [{ id: "l1", lot: "7", grams: 12 }] } },
    ]);
  });
  it("is told in words", () => {
    expect([actWords(0, 0), actWords(1, 0), actWords(0, 1), actWords(2, 3)]).toEqual([
      null,
      "Put 1 yarn on the shelf",
      "Change 1 yarn",
      "Put 2 yarns on the shelf and change 3",
    ]);
    expect(doneWords(2, 3)).toBe("2 yarns put on the shelf, 3 changed");
    expect(foundWords(6, { added: 1, changed: 2, same: 1 })).toBe(
      "6 yarns found: 1 new, 2 changed, 1 the same, 2 without a shade.",
    );
  });
});
