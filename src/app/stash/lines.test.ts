import { describe, expect, it } from "vitest";
import type { Project } from "../../document/project.ts";
import type { Shelf } from "../../document/shelf.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { stashLines, usesOf } from "./lines.ts";
import { FIRST_LOOK, seenLines, type ShelfLook } from "./look.ts";
import { inOrder } from "./orders.ts";
import { emptied } from "./ShelfMenu.tsx";
import { newcomers } from "./shelfFile.ts";
import {
  amountWords,
  lightnessApartWords,
  lineWords,
  nearnessWords,
  shadeKnownWords,
  weightWords,
} from "./yarnWords.ts";

const hoar: Yarn = {
  id: "a",
  name: "Hoar",
  shade: { lab: [90, 0, 4], uncertainty: 2.8, from: "photo" },
  metresPer100g: 420,
  lots: [{ id: "l1", lot: "7", grams: 50, weighed: true }],
};
const gorse: Yarn = { id: "b", name: "Gorse", shade: { lab: [73, 4, 60] }, grams: 12, maker: "Sample Mill" };
const peat: Yarn = { id: "c", name: "Peat", shade: { lab: [25, 6, 9], uncertainty: 3, from: "eye" } };
const shelf: Shelf = {
  format: "twostrand-shelf",
  version: 1,
  yarns: [gorse, peat, hoar],
  promised: [
    { yarn: "b", project: "hat", grams: 10 },
    { yarn: "b", project: "vest", grams: 5 },
  ],
  theta: 0.2,
};
const project: Project = {
  format: "twostrand-project",
  version: 1,
  name: "vest",
  pattern: {
    name: "vest",
    gauge: { stitches: 28, rows: 30 },
    colours: [{ id: "A", name: "", shade: { hex: "#eee" } }],
    charts: [{ id: "c1", rows: ["A"] }],
  },
  yarns: [{ ...hoar, id: "y1", shelf: "a" }],
  colourways: [
    {
      id: "w1",
      name: "first",
      yarns: { A: "y1", B: "y9" },
      changes: [{ at: { chart: "c1" }, colour: "B", yarn: "y1" }],
    },
    { id: "w2", yarns: { A: "y9" } },
  ],
};
const lines = stashLines(shelf, project);
const line = (id: string) => lines.find((one) => one.id === id)!;
const names = (look: Partial<ShelfLook>) =>
  seenLines(lines, { ...FIRST_LOOK, ...look }, new Map([["b", "vivid yellow"]])).map(({ yarn }) => yarn.name);

describe("lines of the shelf", () => {
  it("know what is free, and what lies on the bench where", () => {
    // 12 g of which 10 and 5 are promised.
    expect(line("b")).toMatchObject({ grams: 12, promised: 15, free: -3, isPromised: true, laidOut: null });
    expect(line("a")).toMatchObject({ free: 50, laidOut: { id: "y1" } });
    expect(line("c").free).toBeNull();
    expect(usesOf(project, "y1")).toEqual([{ colourway: "first", colours: ["A", "B"] }]);
  });

  it("stand by lightness, by hue with greys last, by amount; the unknown come last whichever way", () => {
    const order = (by: Parameters<typeof inOrder>[1]["by"], turned = false) =>
      inOrder(lines, { by, turned }).map(({ id }) => id);
    expect(order("lightness")).toEqual(["a", "b", "c"]);
    expect(order("hue")).toEqual(["c", "b", "a"]);
    expect(order("grams")).toEqual(["a", "b", "c"]);
    expect(order("grams", true)).toEqual(["b", "a", "c"]);
    expect(order("weight", true)).toEqual(["a", "b", "c"]);
    expect(order("name", true)).toEqual(["c", "a", "b"]);
    expect(order("known")).toEqual(["a", "c", "b"]);
  });

  it("are found by words, by the name of their colour, by class, and by what is not promised or not measured", () => {
    expect(names({ words: "sample" })).toEqual(["Gorse"]);
    expect(names({ words: "yellow" })).toEqual(["Gorse"]);
    expect(names({ unpromised: true })).toEqual(["Hoar", "Peat"]);
    expect(names({ unmeasured: true })).toEqual(["Gorse", "Peat"]);
    expect(names({ classes: ["light"] })).toEqual(["Hoar", "Gorse"]);
    // L* 73, ± 5 taken for granted: it may lie under the limit at 72 as well.
    expect(names({ classes: ["light-medium"] })).toEqual(["Gorse"]);
    expect(names({ grams: 20 })).toEqual(["Hoar"]);
    expect(names({ weightClasses: [1] })).toEqual(["Hoar"]);
  });
});

describe("words of a yarn", () => {
  it("say how a shade and an amount are known", () => {
    expect(shadeKnownWords(hoar)).toBe("from a photograph, ± 2.8");
    expect(shadeKnownWords(gorse)).toBe("nobody has said how it is known, ± 5 taken for granted");
    // 50 g at 420 m in 100 g.
    expect(amountWords(line("a"))).toBe("50\u202fg weighed, about 210\u202fm");
    expect(amountWords(line("b"))).toBe("12\u202fg by the label");
    expect(amountWords(line("c"))).toBe("nobody has said how much");
    expect(weightWords(hoar)).toBe("fingering, by its metres");
    expect(weightWords(peat)).toBe("not known");
    expect(lineWords(line("b"))).toBe("Gorse, light or light-medium, L* 73, 12\u202fg, more is promised than there is");
  });

  it.each<[number, string]>([
    [7.9, "they melt together"],
    [8, "a whisper"],
    [-15, "it reads"],
    [30, "bold"],
  ])("%d apart in L*: %s, as the trade's rule of thumb has it", (apart, words) => {
    expect(lightnessApartWords(apart)).toBe(words);
  });

  it("every difference has a word, the greater the farther", () => {
    const said = [0, 1.5, 3, 7, 15, 60].map(nearnessWords);
    expect(new Set(said).size).toBe(said.length);
  });
});

describe("shelf files", () => {
  it("opening the same file twice adds nothing; what is new comes under a free id", () => {
    expect(newcomers(shelf, shelf)).toEqual([]);
    const other = {
      ...shelf,
      yarns: [
        { ...gorse, id: "z" },
        { ...peat, name: "Peat hag" },
      ],
    };
    expect(newcomers(shelf, other)).toEqual([{ ...peat, id: "c-2", name: "Peat hag" }]);
  });
  it("an empty shelf keeps what she learned of her eye", () => {
    expect(emptied(shelf)).toEqual({ format: "twostrand-shelf", version: 1, yarns: [], theta: 0.2 });
  });
});
