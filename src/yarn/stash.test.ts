import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deltaE2000 } from "../colour/difference.ts";
import { mixLinear } from "../colour/mixing.ts";
import { linearFromLab, type Lab } from "../colour/lab.ts";
import { partsOfYarn } from "./flecks.ts";
import { gramsKnownFrom, gramsOwned, gramsPromised, lotsAfter, lotsOfYarn, metresOwned } from "./lots.ts";
import { filterStash, isMeasured, nearestByShade, sortByLightness, valueClassesOf } from "./stash.ts";
import { labOfYarn, type Yarn } from "./yarn.ts";

const hoar: Yarn = {
  id: "hoar",
  name: "hoar",
  shade: { lab: [90, 0, 6] },
  metresPer100g: 420,
  lots: [
    { id: "l1", lot: "7", grams: 40 },
    { id: "l2", grams: 12.5 },
  ],
};
const peat: Yarn = { id: "peat", name: "peat", shade: { lab: [25, 6, 10] }, grams: 30, maker: "Sample Mill" };
const lichen: Yarn = {
  id: "lichen",
  name: "lichen",
  shade: { lab: [66, -10, 35] },
  metresPer100g: 200,
  note: "from the old hat",
};
const bare: Yarn = { id: "bare", name: "bare" };
const stash = [peat, bare, hoar, lichen];

describe("grams owned", () => {
  it.each<[string, Yarn, number | null]>([
    ["lots are added", hoar, 52.5],
    ["grams are one lot", peat, 30],
    ["nothing said", lichen, null],
    ["lots without a weight fall back on the yarn's grams", { ...peat, lots: [{ id: "l1", lot: "3" }] }, 30],
    ["an empty lot is none left", { ...lichen, lots: [{ id: "l1", grams: 0 }] }, 0],
  ])("%s", (_, yarn, expected) => {
    expect(gramsOwned(yarn)).toBe(expected);
  });
  it("reads grams as a lot", () => {
    expect(lotsOfYarn(peat)).toEqual([{ id: "l1", grams: 30 }]);
    expect(lotsOfYarn(lichen)).toEqual([]);
  });
});

describe("metres, scales and what is left", () => {
  it("metres are grams by thickness: 52.5 g at 420 m per 100 g are 220.5 m, by hand", () => {
    expect(metresOwned(hoar)).toBeCloseTo(220.5, 9);
    expect(metresOwned(peat)).toBeNull();
    expect(metresOwned(lichen)).toBeNull();
  });
  it("grams are by the label until every lot was weighed", () => {
    expect(gramsKnownFrom(hoar)).toBe("label");
    const [first, second] = hoar.lots!;
    expect(gramsKnownFrom({ ...hoar, lots: [{ ...first!, weighed: true }, second!] })).toBe("both");
    expect(gramsKnownFrom({ ...hoar, lots: [{ ...first!, weighed: true }] })).toBe("scales");
    expect(gramsKnownFrom(lichen)).toBeNull();
  });
  it("one lot is used up before the next is begun: 45 of 40 and 12.5 g leave 0 and 7.5", () => {
    const weighed = hoar.lots!.map((lot) => ({ ...lot, weighed: true }));
    expect(lotsAfter(weighed, 45)).toEqual([
      { id: "l1", lot: "7", grams: 0 },
      { id: "l2", grams: 7.5 },
    ]);
    expect(lotsAfter(weighed, 0)).toEqual(weighed);
  });
  it("no lot grows, none goes below nothing, and what is gone is what was used as long as there was any", () => {
    const grams = fc.array(fc.double({ min: 0, max: 200, noNaN: true }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(grams, fc.double({ min: 0, max: 500, noNaN: true }), (each, used) => {
        const before = each.map((one, index) => ({ id: `l${index}`, grams: one }));
        const after = lotsAfter(before, used).map((lot) => lot.grams!);
        const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);
        after.forEach((one, index) => expect(one >= 0 && one <= each[index]!).toBe(true));
        expect(sum(each) - sum(after)).toBeCloseTo(Math.min(used, sum(each)), 6);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
  it("promises of a yarn are added; one without grams counts for nothing", () => {
    const promised = [
      { yarn: "hoar", project: "hat", grams: 20 },
      { yarn: "hoar", project: "vest", grams: 12 },
      { yarn: "hoar", project: "mitts" },
      { yarn: "peat", project: "hat", grams: 5 },
    ];
    expect(gramsPromised(promised, "hoar")).toBe(32);
    expect(gramsPromised(promised, "hoar", "vest")).toBe(20);
    expect(gramsPromised(promised, "lichen")).toBe(0);
  });
});

describe("value classes and how a shade is known", () => {
  // 5 ΔE00 leave L* 50 between 47.0 and 53.0 (80 % of a normal distribution against a ball of 80 %, SL = 1 there), so a limit at 55
  // is out of reach and one at 52 is not.
  it("a yarn near a limit is undecided between two", () => {
    const grey: Yarn = { id: "g", name: "g", shade: { lab: [50, 0, 0], uncertainty: 5 } };
    expect(valueClassesOf(grey)).toEqual(["medium-dark"]);
    expect(valueClassesOf(grey, { light: 72, lightMedium: 52, mediumDark: 35 })).toEqual([
      "light-medium",
      "medium-dark",
    ]);
    expect(valueClassesOf({ ...grey, shade: { lab: [50, 0, 0], uncertainty: 0 } })).toEqual(["medium-dark"]);
    expect(valueClassesOf(bare)).toEqual([]);
  });
  it("what was picked by eye or off a picture is not measured", () => {
    const measured = (["label", "photo", "screen", "eye", "picture"] as const).filter((from) =>
      isMeasured({ shade: { hex: "#777", from } }),
    );
    expect(measured).toEqual(["label", "photo", "screen"]);
  });
});

describe("looking through the stash", () => {
  it("sorts from light to dark, the unknown last", () => {
    expect(sortByLightness(stash).map((yarn) => yarn.id)).toEqual(["hoar", "lichen", "peat", "bare"]);
  });
  it("finds the nearest", () => {
    const near = nearestByShade(stash, [30, 5, 10], 2);
    expect(near.map(({ yarn }) => yarn.id)).toEqual(["peat", "lichen"]);
    expect(nearestByShade(stash, [30, 5, 10], 99)).toHaveLength(3);
    expect(nearestByShade(stash, [30, 5, 10], 0)).toEqual([]);
  });
  it("nearest of many is what looking at every one gives", () => {
    const lab = fc.tuple(
      fc.integer({ min: 0, max: 100 }),
      fc.integer({ min: -60, max: 60 }),
      fc.integer({ min: -60, max: 60 }),
    );
    fc.assert(
      fc.property(fc.array(lab, { minLength: 1, maxLength: 30 }), lab, (labs, target) => {
        const yarns = labs.map((shade, index): Yarn => ({ id: `y${index}`, name: `y${index}`, shade: { lab: shade } }));
        const best = Math.min(...labs.map((shade) => deltaE2000(shade as Lab, target as Lab)));
        expect(nearestByShade(yarns, target as Lab, 1)[0]!.deltaE00).toBe(best);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
  it.each<[string, Parameters<typeof filterStash>[1], string[]]>([
    ["nothing asked", {}, ["peat", "bare", "hoar", "lichen"]],
    ["a word of the maker", { words: "sample" }, ["peat"]],
    ["two words", { words: "Hat OLD" }, ["lichen"]],
    ["a lot", { words: "7" }, ["hoar"]],
    [
      "a plain name of its colour",
      { words: "yellow", names: new Map([["lichen", "moderate olive yellow"]]) },
      ["lichen"],
    ],
    ["a value class", { classes: ["light", "light-medium"] }, ["hoar", "lichen"]],
    ["grams", { grams: 30 }, ["peat", "hoar"]],
    ["thickness", { metresPer100g: [350, 450] }, ["hoar"]],
    ["a word of maker or fibre, not of the note", { make: "mill" }, ["peat"]],
    ["a class of thickness that may be one of two", { weightClasses: [4] }, ["lichen"]],
    ["all but some", { without: new Set(["hoar", "bare"]) }, ["peat", "lichen"]],
    ["no measured shade", { unmeasured: true }, ["peat", "bare", "hoar", "lichen"]],
  ])("filter: %s", (_, filter, expected) => {
    expect(filterStash(stash, filter).map((yarn) => yarn.id)).toEqual(expected);
  });
});

describe("flecks", () => {
  it("a yarn of one colour is one part", () => {
    expect(partsOfYarn(hoar)).toEqual([{ lab: [90, 0, 6], share: 1 }]);
  });
  it("half black and half white seen from afar is half the light: L* 76.07", () => {
    // By hand, CIE 15: Y = 0.5 gives L* = 116 * 0.5^(1/3) - 16 = 76.07.
    const salt: Yarn = {
      id: "s",
      name: "s",
      flecks: [
        { shade: { hex: "#fff" }, share: 0.5 },
        { shade: { hex: "#000" }, share: 0.5 },
      ],
    };
    expect(labOfYarn(salt)[0]).toBeCloseTo(76.07, 2);
    expect(partsOfYarn(salt).map((part) => part.share)).toEqual([0.5, 0.5]);
  });
  it("the parts add up to the shade seen from afar", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 45, max: 80, noNaN: true }),
        fc.double({ min: 0.02, max: 0.4, noNaN: true }),
        (L, share) => {
          const yarn: Yarn = {
            id: "h",
            name: "h",
            shade: { lab: [L, 5, -5] },
            flecks: [{ shade: { lab: [30, 10, 10] }, share }],
          };
          const parts = partsOfYarn(yarn);
          expect(parts.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 9);
          const mixed = mixLinear(parts.map((part) => ({ linear: linearFromLab(part.lab), share: part.share })));
          const far = linearFromLab(labOfYarn(yarn));
          for (const channel of [0, 1, 2] as const) expect(mixed[channel]).toBeCloseTo(far[channel], 6);
        },
      ),
      { seed: 7, numRuns: 100 },
    );
  });
});
