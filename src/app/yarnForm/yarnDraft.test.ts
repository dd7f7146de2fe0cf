import { describe, expect, test } from "vitest";
import { draftOf, readDraft, yarnOf, type YarnDraft } from "./yarnDraft.ts";

const BARE = draftOf(null);
const read = (part: Partial<YarnDraft>) => readDraft({ ...BARE, name: "Moss", ...part });

describe("a yarn as it is typed", () => {
  // 105 m in 25 g are 420; a yard is 0.9144 m, an ounce 28.349523125 g (1959 agreement).
  test.each([
    ["420", 420],
    ["420 m", 420],
    ["105 m in 25 g", 420],
    ["105m/25g", 420],
    ["230 yd in 50 g", 420.624],
    ["10,5 m in 2,5 g", 420],
  ])("%s is %d m per 100 g", (length, metres) => {
    const { fields, wrong } = read({ length });
    expect(wrong).toEqual({});
    expect(fields.metresPer100g).toBeCloseTo(metres, 3);
  });

  test.each([
    ["43 g", 43],
    ["43", 43],
    ["2 x 50 g", 100],
    ["1,5 oz", 42.524],
  ])("%s weighs %d g", (grams, weight) => {
    const { fields } = read({ lots: [{ id: "l1", lot: "", grams, weighed: false }] });
    expect(fields.grams).toBeCloseTo(weight, 3);
    expect(fields.lots).toBeNull();
  });

  test("lots keep their names and how they were weighed; an empty row is none", () => {
    const { fields } = read({
      lots: [
        { id: "l1", lot: "17", grams: "25 g", weighed: true },
        { id: "l2", lot: "18", grams: "", weighed: false },
        { id: "l3", lot: "", grams: "", weighed: false },
      ],
    });
    expect(fields.grams).toBeNull();
    expect(fields.lots).toEqual([
      { id: "l1", lot: "17", grams: 25, weighed: true },
      { id: "l2", lot: "18" },
    ]);
  });

  test("what cannot be read is told where it stands, with what was expected", () => {
    const { wrong } = read({
      name: " ",
      length: "long",
      plies: "two",
      lots: [{ id: "l1", lot: "", grams: "a ball", weighed: false }],
    });
    expect(Object.keys(wrong).sort()).toEqual(["grams l1", "length", "name", "plies"]);
    expect(wrong["grams l1"]).toBe(
      "The weight: expected a weight such as “43 g”, “2 x 50 g” or “1.5 oz”, found “a ball”.",
    );
  });

  test("a yarn goes through the form unchanged", () => {
    const yarn = {
      id: "y1",
      name: "Moss",
      maker: "Sample Mill",
      fibre: "wool",
      metresPer100g: 420,
      lots: [{ id: "l1", lot: "17", grams: 43, weighed: true }],
      plies: 2,
      weightClass: 1,
      superwash: false,
      handDyed: true,
      note: "from the second shelf",
      shade: { lab: [50, 1, 2] },
    };
    const { fields, wrong } = readDraft(draftOf(yarn));
    expect(wrong).toEqual({});
    expect(yarnOf("y1", fields, yarn.shade)).toEqual(yarn);
  });
});
