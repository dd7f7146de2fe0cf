import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Yarn } from "../yarn/yarn.ts";
import { cautionsOf, cautionsOfYarn, cautionsTogether, type CautionKind } from "./cautions.ts";

const yarn = (name: string, more: Partial<Yarn> = {}): Yarn => ({ id: name.toLowerCase(), name, ...more });
const of = (yarns: readonly Yarn[], kind: CautionKind) => cautionsTogether(yarns).filter((one) => one.kind === kind);
const sentences = (yarns: readonly Yarn[], kind: CautionKind) => of(yarns, kind).map(({ sentence }) => sentence);

const chalk = yarn("Chalk", { shade: { lab: [93, 0, 3] } });
const navy = yarn("Navy", { shade: { lab: [20, 3, -14] } });

// trade.md 4, fastness: dark, or saturated red, blue, black, turquoise, or dyed by hand, in one piece with L* > 75.
describe("bleeding", () => {
  it.each<[string, Partial<Yarn>]>([
    ["navy", { shade: { lab: [20, 3, -14] } }],
    ["black", { shade: { lab: [12, 0, 0] } }],
    ["saturated red", { shade: { lab: [45, 60, 35] } }],
    ["saturated blue", { shade: { lab: [45, 5, -45] } }],
    ["turquoise", { shade: { lab: [60, -30, -20] } }],
    ["dyed by hand, though neither dark nor saturated", { shade: { lab: [60, 3, 12] }, handDyed: true }],
  ])("%s beside a light one", (_, strong) => {
    const [caution, ...more] = of([chalk, yarn("Strong", strong)], "bleeding");
    expect(more).toEqual([]);
    expect(caution).toMatchObject({ about: "risk", yarns: ["strong", "chalk"] });
    expect(caution!.sentence).toBe("Strong may bleed into Chalk.");
    // The home test of trade.md 4: 25–30 cm twisted with white, warm water, the wool wash, 30 min, dry, untwist.
    for (const part of ["25–30 cm", "white strand", "warm water", "half an hour", "untwist"])
      expect(caution!.advice).toContain(part);
  });
  it("not beside what is not light, nor a quiet middle colour beside a light one", () => {
    expect(of([navy, yarn("Sand", { shade: { lab: [75, 2, 14] } })], "bleeding")).toEqual([]);
    expect(of([chalk, yarn("Sand", { shade: { lab: [60, 2, 14] } })], "bleeding")).toEqual([]);
  });
  it("a light yarn that was dyed by hand does not bleed into itself", () => {
    expect(of([yarn("Petal", { shade: { lab: [88, 6, 2] }, handDyed: true })], "bleeding")).toEqual([]);
  });
  it("superwash is no safety here (trade.md 4: it prevents felting, not bleeding)", () => {
    expect(sentences([chalk, { ...navy, superwash: true }], "bleeding")[0]).toContain("not from bleeding");
  });
  it("a shade that is not known is said to be unknown", () => {
    expect(of([navy, yarn("Lost label")], "bleeding")).toMatchObject([{ about: "unknown", yarns: ["lost label"] }]);
  });
  it("one yarn by itself is told of for what may come beside it", () => {
    expect(cautionsOfYarn(navy).map(({ kind }) => kind)).toContain("bleeding");
    expect(cautionsOfYarn(chalk).map(({ kind }) => kind)).not.toContain("bleeding");
  });
});

// trade.md 2: superwash with non-superwash will shrink apart.
describe("felting", () => {
  const wild = yarn("Wild", { fibre: "wool", superwash: false });
  const tame = yarn("Tame", { fibre: "wool", superwash: true });
  it("superwash beside what felts", () => {
    expect(of([wild, tame], "felting")).toMatchObject([{ about: "risk", yarns: ["wild", "tame"] }]);
    expect(of([wild, yarn("Reed", { fibre: "linen" })], "felting")).toMatchObject([{ about: "risk" }]);
  });
  it("all of one kind, or nothing said of any: nothing", () => {
    expect(of([wild, { ...wild, id: "w2" }], "felting")).toEqual([]);
    expect(of([yarn("One", { fibre: "wool" }), yarn("Two", { fibre: "wool" })], "felting")).toEqual([]);
  });
  it("unknown beside known is said to be unknown", () => {
    expect(of([tame, yarn("Two", { fibre: "wool" })], "felting")).toMatchObject([{ about: "unknown", yarns: ["two"] }]);
  });
});

// trade.md 2: within ±10–15 % in metres per 100 g. By hand: the middle of 420, 420 and 350 is 420; 350 is 16.7 % less.
describe("thickness", () => {
  const thick = (metres: number[]) =>
    metres.map((metresPer100g, index) => yarn(`Y${index}`, { shade: { lab: [60, 0, 0] }, metresPer100g }));
  it("what is beyond is named with by how much", () => {
    const [caution] = of(thick([420, 420, 350]), "thickness");
    expect(caution).toMatchObject({ about: "risk", yarns: ["y2"] });
    expect(caution!.sentence).toContain("Y2 (350 m, 17 % thicker)");
    expect(caution!.sentence).toContain("more than the 10–15 %");
  });
  it("between 10 and 15 % it is at the edge: 370 is 11.9 % less than 420", () => {
    expect(sentences(thick([420, 420, 370]), "thickness")[0]).toContain("at the edge of the 10–15 %");
  });
  it("within: nothing; 462 is 10 % more than 420", () => {
    expect(of(thick([420, 420, 462]), "thickness")).toEqual([]);
    expect(of(thick([420]), "thickness")).toEqual([]);
  });
  it("unknown is said", () => {
    expect(of([...thick([420]), yarn("Bare")], "thickness")).toMatchObject([{ about: "unknown", yarns: ["bare"] }]);
  });
});

// trade.md 4, dye lots: a second lot shows as a line; two rounds of each in turn, or the odd lot in ribs and cuffs.
describe("lots", () => {
  const fog = yarn("Fog", {
    lots: [
      { id: "l1", lot: "1984", grams: 40 },
      { id: "l2", lot: "2044", grams: 23 },
    ],
  });
  it("two lots of one yarn", () => {
    const [caution] = of([fog], "lots");
    expect(caution!.sentence).toContain("(1984 and 2044)");
    expect(caution!.advice).toMatch(/two rounds.*ribs and cuffs/i);
  });
  it("two entries of one yarn", () => {
    const one = yarn("Fog", { maker: "Sample Mill", lots: [{ id: "l1", lot: "1" }] });
    const other = { ...one, id: "fog-2", name: "fog ", lots: [{ id: "l1", lot: "2" }] };
    expect(of([one, other], "lots")).toMatchObject([{ about: "risk", yarns: ["fog", "fog-2"] }]);
    expect(of([one, { ...other, maker: "another" }], "lots")).toEqual([]);
  });
  it("one lot: nothing; several balls without a number: unknown", () => {
    expect(of([{ ...fog, lots: [fog.lots![0]!] }], "lots")).toEqual([]);
    expect(of([{ ...fog, lots: [{ id: "l1" }, { id: "l2" }] }], "lots")).toMatchObject([{ about: "unknown" }]);
  });
});

describe("skin", () => {
  it("wool may irritate at neck and cuffs, and nothing is ever called safe (trade.md 4, skin)", () => {
    const [caution] = of([yarn("Moss", { fibre: "wool" }), yarn("Reed", { fibre: "linen" })], "skin");
    expect(caution).toMatchObject({ about: "risk", yarns: ["moss"] });
    expect(caution!.sentence).toBe("Moss may irritate the skin, most at neck and cuffs.");
  });
  it("unknown is said, cotton is left in peace", () => {
    expect(of([yarn("Moss")], "skin")).toMatchObject([{ about: "unknown" }]);
    expect(of([yarn("Reed", { fibre: "cotton" })], "skin")).toEqual([]);
  });
});

describe("shades", () => {
  it("known by eye or from a picture", () => {
    const guessed = yarn("Moss", { shade: { lab: [48, -9, 24], uncertainty: 5, from: "eye" } });
    expect(of([guessed], "shade")).toMatchObject([{ about: "risk", yarns: ["moss"] }]);
    const photographed = yarn("Moss", { shade: { lab: [48, -9, 24], uncertainty: 2, from: "photo" } });
    expect(of([photographed], "shade")).toEqual([]);
  });
  it("nobody has said how", () => {
    expect(of([chalk], "shade")).toMatchObject([{ about: "unknown" }]);
  });
});

describe("cautions", () => {
  const anyYarn = fc
    .record(
      {
        name: fc.constantFrom("Moss", "Slate", "", "Chalk"),
        lab: fc.tuple(
          fc.integer({ min: 0, max: 100 }),
          fc.integer({ min: -60, max: 60 }),
          fc.integer({ min: -60, max: 60 }),
        ),
        fibre: fc.constantFrom("wool", "cotton", "superwash wool", "?"),
        superwash: fc.boolean(),
        handDyed: fc.boolean(),
        metresPer100g: fc.integer({ min: 50, max: 900 }),
        lots: fc.array(
          fc.record({ id: fc.constant("l1"), lot: fc.constantFrom("1", "2", "") }, { requiredKeys: ["id"] }),
          { maxLength: 3 },
        ),
      },
      { requiredKeys: ["name"] },
    )
    .map(({ lab, ...stated }) => ({ ...stated, ...(lab ? { shade: { lab } } : {}) }));
  const someYarns = fc
    .array(anyYarn, { maxLength: 8 })
    .map((yarns) => yarns.map((one, index): Yarn => ({ ...(one as Omit<Yarn, "id">), id: `y${index}` })));

  it("name yarns that are there, advise something, and never promise safety", () => {
    fc.assert(
      fc.property(someYarns, (yarns) => {
        const ids = new Set(yarns.map(({ id }) => id));
        for (const { yarns: about, sentence, advice } of cautionsTogether(yarns)) {
          expect(about.length).toBeGreaterThan(0);
          expect(about.every((id) => ids.has(id))).toBe(true);
          expect(advice).not.toBe("");
          expect(`${sentence} ${advice}`).not.toMatch(/\bsafe|allerg|guarantee|undefined|NaN|will not/i);
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("one more yarn never takes away a risk of bleeding or of felting", () => {
    fc.assert(
      fc.property(someYarns, (yarns) => {
        for (const kind of ["bleeding", "felting"] as const) {
          const risk = (some: readonly Yarn[]) => of(some, kind).some(({ about }) => about === "risk");
          if (risk(yarns.slice(1))) expect(risk(yarns)).toBe(true);
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("are of what a colourway is knitted and sewn in", () => {
    const yarns = [chalk, navy, yarn("Moss", { fibre: "wool", shade: { lab: [48, -9, 24], uncertainty: 3 } })];
    const colourway = { id: "w1", yarns: { A: "chalk", B: "moss" } };
    expect(cautionsOf({ yarns, colourway }).map(({ kind }) => kind)).not.toContain("bleeding");
    const sewn = { ...colourway, overStitched: [{ at: { chart: "c1" }, cells: [[1, 1]] as [number, number][], yarn: "navy" }] }; // prettier-ignore
    expect(cautionsOf({ yarns, colourway: sewn }).map(({ kind }) => kind)).toContain("bleeding");
    const changed = { ...colourway, changes: [{ at: { chart: "c1" }, colour: "B", yarn: "navy" }] };
    expect(cautionsOf({ yarns, colourway: changed }).map(({ kind }) => kind)).toContain("bleeding");
  });
});
