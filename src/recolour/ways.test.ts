/** Ways under a wish: as good as trying everything, inside the wish, really different, and honest when nothing fits. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contextOf, judgeMemory } from "../audit/judge.ts";
import { audit, atLeast } from "../audit/audit.ts";
import { seededRandom } from "../base/random.ts";
import { deltaE2000 } from "../colour/difference.ts";
import type { Project } from "../document/project.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { assignExhaustively } from "./exhaustive.ts";
import { assignYarns } from "./assign.ts";
import { colourwayIn, findingsIn, prepare } from "./prepare.ts";
import { difference, termsOf } from "./terms.ts";
import { waysUnder, type RecolourInput } from "./ways.ts";
import { sumOfTerms } from "./score.ts";
import { greyYarns, inputOf, pattern, viewing } from "../../test/garments/small.ts";
import { wishProblems, type Wish } from "./wish.ts";

const yarnsArbitrary = fc.array(
  fc.record({
    L: fc.integer({ min: 8, max: 95 }),
    a: fc.integer({ min: -40, max: 40 }),
    b: fc.integer({ min: -40, max: 50 }),
  }),
  { minLength: 4, maxLength: 7 },
);
const yarnsFrom = (labs: readonly { L: number; a: number; b: number }[]): Yarn[] =>
  labs.map(({ L, a, b }, index) => ({
    id: `y${index}`,
    name: `yarn ${index}`,
    shade: { lab: [L, a, b], uncertainty: 2 },
  }));

describe("the first way", () => {
  it("is what trying everything finds, and its score is what the search paid", () => {
    fc.assert(
      fc.property(yarnsArbitrary, (labs) => {
        const search = prepare(inputOf(yarnsFrom(labs)));
        const plain = assignExhaustively(search.problem);
        const clever = assignYarns(search.problem);
        expect(clever.status).toBe(plain.status);
        if (plain.assignment) {
          expect(clever.cost).toBeCloseTo(plain.cost, 4);
          expect(sumOfTerms(termsOf(search, clever.assignment!), search.weights)).toBeCloseTo(clever.cost, 3);
        }
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  it("is replacement value by value where she owns the pattern's own values", () => {
    const { ways } = waysUnder(inputOf(greyYarns([20, 36, 54, 70, 84]), { ways: 1 }));
    expect(ways[0]?.yarns).toEqual({ A: "y4", B: "y1", C: "y2" });
    expect(ways[0]?.proven).toBe(true);
  });

  it("passes the audit whenever it says that the checks find nothing", () => {
    fc.assert(
      fc.property(yarnsArbitrary, (labs) => {
        const yarns = yarnsFrom(labs);
        for (const way of waysUnder(inputOf(yarns)).ways) {
          const colourway = {
            id: "w",
            yarns: way.yarns,
            changes: [...way.changes],
            overStitched: [...way.overStitched],
          };
          const found = audit(contextOf({ pattern, yarns, colourway, viewing }, judgeMemory()));
          expect(found.filter((finding) => atLeast(finding, "doubt")).map(({ headline }) => headline)).toEqual(
            way.findings,
          );
        }
      }),
      { seed: 7, numRuns: 25 },
    );
  });

  it("keeps inside the wish", () => {
    fc.assert(
      fc.property(
        yarnsArbitrary,
        fc.integer({ min: 0, max: 3 }),
        fc.integer({ min: 0, max: 3 }),
        (labs, kept, never) => {
          const yarns = yarnsFrom(labs);
          const wish: Wish = { keep: [{ colour: "B", yarn: `y${kept}` }], never: [`y${never}`] };
          for (const { yarns: chosen } of waysUnder(inputOf(yarns, wish)).ways) {
            expect(chosen.B).toBe(`y${kept}`);
            if (never !== kept) expect(Object.values(chosen)).not.toContain(`y${never}`);
            expect(new Set(Object.values(chosen)).size).toBe(3);
          }
        },
      ),
      { seed: 7, numRuns: 25 },
    );
  });

  it("is the same for the same input", () => {
    const yarns = greyYarns([15, 30, 42, 57, 66, 80, 90]);
    expect(waysUnder(inputOf(yarns))).toEqual(waysUnder(inputOf(yarns)));
  });

  it("turns the ladder over when asked", () => {
    const yarns = greyYarns([10, 22, 38, 52, 66, 80, 92]);
    const [way] = waysUnder(inputOf(yarns, { ladder: "reversed", ways: 1 })).ways;
    const lightness = (colour: string): number => labOfYarn(yarns.find(({ id }) => id === way!.yarns[colour])!)[0];
    expect(lightness("A")).toBeLessThan(lightness("C"));
    expect(lightness("C")).toBeLessThan(lightness("B"));
    expect(way!.findings).toEqual([]);
  });

  it("honours a look: dark, and a hue by name", () => {
    const yarns: Yarn[] = [...greyYarns([12, 30, 55, 70, 86]), { id: "blue", name: "blue", shade: { hex: "#24408e" } }];
    expect(waysUnder(inputOf(yarns, { look: [{ colour: "B", be: "hue:blue" }], ways: 1 })).ways[0]?.yarns.B).toBe(
      "blue",
    );
    const dark = waysUnder(inputOf(yarns, { look: [{ colour: "C", be: "dark" }], ladder: "free", ways: 1 })).ways[0]!;
    expect(labOfYarn(yarns.find(({ id }) => id === dark.yarns.C)!)[0]).toBeLessThan(35);
  });

  it("shares a yarn only where she allows it", () => {
    const yarns = greyYarns([30, 84]);
    expect(waysUnder(inputOf(yarns)).clash?.parts.length).toBeGreaterThan(0);
    const [way] = waysUnder(inputOf(yarns, { share: { allow: [["B", "C"]] }, ways: 1 })).ways;
    expect(way?.yarns).toEqual({ A: "y1", B: "y0", C: "y0" });
  });

  it("takes no yarn of which there is too little", () => {
    const yarns = greyYarns([36, 54, 70, 84, 88]);
    const needs = {
      ofColour: new Map([["A", 300]]),
      owned: new Map([
        ["y3", 200],
        ["y4", 400],
      ]),
    };
    expect(waysUnder(inputOf(yarns, { ways: 1 }, { needs })).ways[0]?.yarns.A).toBe("y4");
  });
});

describe("what she asked for in so many words", () => {
  it("two colours kept in one yarn share it", () => {
    const yarns = greyYarns([30, 84, 50]);
    const keep = [
      { colour: "B", yarn: "y0" },
      { colour: "C", yarn: "y0" },
    ];
    expect(waysUnder(inputOf(yarns, { keep, ways: 1 })).ways[0]?.yarns).toEqual({ A: "y1", B: "y0", C: "y0" });
  });

  it("no yarn left is said so", () => {
    const { ways, clash } = waysUnder(inputOf(greyYarns([30, 84]), { never: ["y0", "y1"] }));
    expect(ways).toEqual([]);
    expect(clash).toMatchObject({ sentence: "This wish leaves no yarn to choose from.", parts: [] });
  });

  it("a hue is a word of a plain colour name", () => {
    const said = (be: string) => wishProblems({ look: [{ colour: "B", be }] }, pattern, []).map(({ where }) => where);
    expect(said("hue:blue")).toEqual([]);
    expect(said("hue:qqq")).toEqual(["look[0].be"]);
  });
});

describe("when nothing fits", () => {
  it("says which parts stand in each other's way, none of which could be left out", () => {
    const yarns = greyYarns([50, 52, 54]);
    const { ways, clash } = waysUnder(inputOf(yarns));
    expect(ways).toEqual([]);
    expect(clash!.parts.length).toBeGreaterThan(0);
    expect(clash!.sentence).toMatch(/^Nothing that you own fits/);
    for (const { sentence } of clash!.parts) expect(sentence).toMatch(/\.$/);
  });

  it("says so when it was stopped", () => {
    const { ways, clash } = waysUnder(inputOf(greyYarns([20, 36, 54, 70, 84]), {}, { stop: () => true }));
    expect(ways.length > 0 || /stopped/.test(clash!.sentence)).toBe(true);
  });
});

describe("on the worked example", () => {
  const project = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")) as Project;
  const base = project.colourways.find(({ id }) => id === "w2")!;
  const input: RecolourInput = {
    ...inputOf(project.yarns),
    pattern: project.pattern,
    colourway: base,
  };
  const memory = judgeMemory();
  const { ways } = waysUnder({ ...input, memory });

  it("gives three ways that the checks let pass, none with the long float", () => {
    expect(ways.length).toBe(3);
    for (const way of ways) expect(way.findings).toEqual([]);
  });

  it("each differs from each in a quarter of the fabric or more", () => {
    const search = prepare({ ...input, memory });
    const index = (way: (typeof ways)[number]): number[] =>
      search.colours.map((colour) => project.yarns.findIndex(({ id }) => id === way.yarns[colour]));
    ways.forEach((one, at) => {
      for (const other of ways.slice(at + 1))
        expect(difference(search, index(one), index(other))).toBeGreaterThanOrEqual(0.25);
    });
    // Counted again by hand: stitches whose colour is 10 ΔE00 away or more.
    const lab = (id: string) => labOfYarn(project.yarns.find((yarn) => yarn.id === id)!);
    const stitches = project.pattern.charts[0]!.rows.join("");
    const [first, second] = ways as [(typeof ways)[number], (typeof ways)[number]];
    const changed = [...stitches].filter(
      (colour) => deltaE2000(lab(first.yarns[colour]!), lab(second.yarns[colour]!)) >= 10,
    );
    expect(changed.length / stitches.length).toBeCloseTo(second.differs, 1);
  });

  it("no bound lies above its score", () => {
    for (const { score, bound, gap } of ways) {
      expect(bound).toBeLessThanOrEqual(score + 1e-9);
      expect(gap).toBeGreaterThanOrEqual(0);
    }
  });
});

describe("bounds of later ways", () => {
  it("no way that differs enough and that the checks let pass scores below the bound, by trying everything", () => {
    const random = seededRandom(3);
    for (let run = 0; run < 6; run++) {
      const yarns = Array.from({ length: 7 }, (_, index): Yarn => ({
        id: `y${index}`,
        name: `yarn ${index}`,
        shade: { lab: [10 + 85 * random(), 30 * random() - 15, 30 * random() - 15], uncertainty: 2 },
      }));
      const input = inputOf(yarns, { ways: 2 });
      const [first, second] = waysUnder(input).ways;
      if (!first || !second) continue;
      const search = prepare(input);
      const place = (way: typeof first): number[] =>
        search.colours.map((colour) => yarns.findIndex(({ id }) => id === way.yarns[colour]));
      const best = assignExhaustively({
        ...search.problem,
        accept: (assignment) =>
          difference(search, assignment, place(first)) >= 0.25 &&
          findingsIn(search, assignment, "without").length === 0,
      });
      expect(second.bound).toBeLessThanOrEqual(best.cost + 1e-3);
      expect(second.score).toBeGreaterThanOrEqual(best.cost - 1e-3);
    }
  });

  it("an assignment wears its places: what borrowed a colour's yarn follows it", () => {
    const yarns = greyYarns([20, 36, 54, 70, 84]);
    const colourway: Colourway = {
      id: "w",
      yarns: { A: "y4", B: "y0", C: "y2" },
      changes: [{ at: { chart: "c1", rows: [8, 8] }, colour: "C", yarn: "y4" }],
      overStitched: [{ at: { chart: "c1" }, cells: [[8, 1]], yarn: "y2" }],
    };
    const search = prepare(inputOf(yarns, {}, { colourway }));
    const dressed = colourwayIn(search, [3, 0, 1]);
    expect(dressed.changes?.[0]?.yarn).toBe("y3");
    expect(dressed.overStitched?.[0]?.yarn).toBe("y1");
  });
});
