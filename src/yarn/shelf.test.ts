/** That copies and their originals find each other, and that no id is given twice. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { laidOut, onShelf, shelved } from "./shelf.ts";
import type { Yarn } from "./yarn.ts";

const shade = { lab: [50, 0, 0] };
const peat: Yarn = { id: "peat", name: "Peat", shade };
const rime: Yarn = { id: "rime", name: "Rime", shade };

describe("which yarn of the shelf a project's yarn is", () => {
  it.each<[string, Yarn, string | null]>([
    ["by its link, whatever it is called there", { ...peat, id: "y7", name: "brown", shelf: "peat" }, "peat"],
    ["without a link by id and name", { ...rime }, "rime"],
    ["an id alone means nothing", { ...rime, name: "Lichen" }, null],
    ["a link to what is gone", { ...rime, shelf: "lost" }, null],
  ])("%s", (_, yarn, expected) => {
    expect(onShelf([peat, rime], yarn)?.id ?? null).toBe(expected);
  });
});

describe("laws", () => {
  const yarn = fc.record({
    id: fc.constantFrom("a", "b", "c", "a-2"),
    name: fc.constantFrom("Peat", "Rime"),
    shade: fc.constant(shade),
  });
  const yarns = fc.uniqueArray(yarn, { selector: ({ id }) => id, maxLength: 4 });
  it("what is laid out has free ids, is found on the shelf again, and is not laid out twice", () => {
    fc.assert(
      fc.property(yarns, yarns, (have, shelf) => {
        const copies = laidOut(have, shelf, shelf);
        const all = [...have, ...copies];
        expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
        for (const copy of copies) expect(onShelf(shelf, copy)?.id).toBe(copy.shelf);
        expect(laidOut(all, shelf, shelf)).toEqual([]);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
  it("what is put on the shelf has free ids and no link", () => {
    fc.assert(
      fc.property(yarns, yarns, (shelf, more) => {
        const put = shelved(
          shelf,
          more.map((one) => ({ ...one, shelf: "x" })),
        );
        const ids = [...shelf, ...put].map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
        expect(put.every((one) => !("shelf" in one))).toBe(true);
        expect(put.map(({ name }) => name)).toEqual(more.map(({ name }) => name));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
