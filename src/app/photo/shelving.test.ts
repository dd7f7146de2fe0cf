import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { tryEdit } from "../../document/edit.ts";
import { readProject } from "../../document/read.ts";
import { EMPTY_SHELF, tryShelfEdit } from "../../document/shelfEdit.ts";
import type { Shelf } from "../../document/shelf.ts";
import type { Lab } from "../../colour/lab.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { mayBe, NO_DETAILS, shelfEdits, typedNumber, type ReadyYarn } from "./shelving.ts";

const PICTURE = "data:image/jpeg;base64,AAAA";
const ready = (part: Partial<ReadyYarn> & { readonly lab?: Lab }): ReadyYarn => ({
  name: "grey",
  told: { lab: part.lab ?? [54.123456, 0.5, -0.25], hex: "#808080", uncertainty: 2.345, flecks: [] },
  picture: PICTURE,
  details: NO_DETAILS,
  anew: null,
  ...part,
});
const MOSS: Yarn = {
  id: "y07",
  name: "Moss",
  shade: { lab: [45, -10, 22], uncertainty: 2 },
  note: "from the top drawer",
};

const after = (shelf: Shelf, yarns: readonly ReadyYarn[]): Shelf =>
  shelfEdits(yarns, shelf.yarns, []).shelf.reduce((now, edit) => {
    const { value, problems } = tryShelfEdit(now, edit);
    expect(problems).toEqual([]);
    return value!;
  }, shelf);

describe("onto the shelf", () => {
  test("a photographed yarn keeps its shade with its range, how it is known, its picture and what the label says", () => {
    const details = {
      maker: " Sample Mill ",
      quality: "Fell",
      fibre: "wool",
      metresPer100g: "420",
      grams: "31,5",
      weighed: true,
    };
    const { yarns } = after(EMPTY_SHELF, [ready({ name: "Moss", details })]);
    expect(yarns).toEqual([
      {
        id: "photo-1",
        name: "Fell Moss",
        shade: { lab: [54.12, 0.5, -0.25], uncertainty: 2.3, from: "photo" },
        photo: PICTURE,
        maker: "Sample Mill",
        fibre: "wool",
        metresPer100g: 420,
        lots: [{ id: "l1", grams: 31.5, weighed: true }],
      },
    ]);
  });

  test("what is not known is left out, and ids stay free however often photographs come in", () => {
    const once = after(EMPTY_SHELF, [ready({ name: "one" }), ready({ name: "two" })]);
    const twice = after(once, [ready({ name: "three" })]);
    expect(twice.yarns.map(({ name }) => name)).toEqual(["one", "two", "three"]);
    expect(new Set(twice.yarns.map(({ id }) => id)).size).toBe(3);
    expect(Object.keys(twice.yarns[0]!).toSorted()).toEqual(["id", "name", "photo", "shade"]);
  });

  test("measured anew: shade and picture change, on the shelf and in the project's copy; the rest stays", () => {
    const shelf = { ...EMPTY_SHELF, yarns: [MOSS] };
    const again = ready({ name: "", lab: [46, -11, 21], anew: "y07" });
    expect(after(shelf, [again]).yarns).toEqual([
      { ...MOSS, shade: { lab: [46, -11, 21], uncertainty: 2.3, from: "photo" }, photo: PICTURE },
    ]);
    const read = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
    const copies = [
      { ...MOSS, id: "copy", shelf: "y07" },
      { ...MOSS, id: "other", name: "Fern", shelf: "y99" },
    ];
    const project = { ...read, yarns: [...read.yarns, ...copies] };
    const { project: edits } = shelfEdits([again], shelf.yarns, project.yarns);
    const worked = edits.reduce((now, edit) => tryEdit(now, edit).value!, project);
    expect(worked.yarns.slice(-2).map(({ shade }) => shade!.lab)).toEqual([
      [46, -11, 21],
      [45, -10, 22],
    ]);
  });

  test("flecks come with their shares", () => {
    const told = {
      ...ready({}).told,
      flecks: [
        { lab: [50, 0, 0] as const, hex: "#777777", share: 0.70004, strands: 10 },
        { lab: [30, 20, 20] as const, hex: "#6b3528", share: 0.29996 },
      ],
    };
    const { yarns } = after(EMPTY_SHELF, [{ ...ready({}), told }]);
    expect(yarns[0]!.flecks).toEqual([
      { shade: { lab: [50, 0, 0] }, share: 0.7 },
      { shade: { lab: [30, 20, 20] }, share: 0.3 },
    ]);
    // Where its thickness is known, a length in strands is one in millimetres: ten of strands between 1 and 2.5 mm (trade.md 2,
    // a yarn of 420 m per 100 g has 12 to 18 wraps to the inch, rounded outwards).
    const thick = after(EMPTY_SHELF, [{ ...ready({}), told, details: { ...NO_DETAILS, metresPer100g: "420" } }]);
    const [grey, red] = thick.yarns[0]!.flecks!;
    expect(grey!.lengthMm).toBeGreaterThan(10);
    expect(grey!.lengthMm).toBeLessThan(25);
    expect(red).not.toHaveProperty("lengthMm");
  });
});

describe("this may be", () => {
  test("a yarn on the shelf no farther off than both ranges allow, nearest first", () => {
    const near = mayBe([46, -10, 22], 2, [{ ...MOSS, id: "far", shade: { lab: [45, 20, 22], uncertainty: 2 } }, MOSS]);
    expect(near.map(({ yarn }) => yarn.id)).toEqual(["y07"]);
    expect(mayBe([46, -10, 22], 0.1, [{ ...MOSS, shade: { lab: [45, -10, 22], uncertainty: 0.1 } }])).toEqual([]);
  });
});

test("numbers as people type them", () => {
  expect(["", " ", "31,5", " 420 "].map(typedNumber)).toEqual([null, null, 31.5, 420]);
  expect(["0", "-3", "a ball", "1e999x"].map(typedNumber)).toEqual([NaN, NaN, NaN, NaN]);
});
