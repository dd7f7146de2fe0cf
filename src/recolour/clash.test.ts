/** When nothing fits: a list of which nothing can be left out, and relaxations that hold what they promise. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { audit, atLeast } from "../audit/audit.ts";
import { contextOf, judgeMemory } from "../audit/judge.ts";
import type { Project } from "../document/project.ts";
import { recolourProject } from "../jobs.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { greyYarns, inputOf, pattern, viewing } from "../../test/garments/small.ts";
import { assignYarns } from "./assign.ts";
import { assignExhaustively } from "./exhaustive.ts";
import { withParts } from "./parts.ts";
import { prepare } from "./prepare.ts";
import { waysUnder } from "./ways.ts";
import type { Wish } from "./wish.ts";

const clashUnder = (yarns: readonly Yarn[], wish: Wish = {}, more: object = {}) => {
  const { ways, clash } = waysUnder(inputOf(yarns, wish, more));
  expect(ways).toEqual([]);
  return clash!;
};

describe("parts", () => {
  it("each could be left out and something would fit, by trying everything", () => {
    const random = seededRandom(11);
    let clashes = 0;
    for (let run = 0; run < 60; run++) {
      const yarns = greyYarns(Array.from({ length: 2 + Math.floor(4 * random()) }, () => 10 + 85 * random()));
      const wish: Wish = {
        ...(random() < 0.4 ? { keep: [{ colour: "A", yarn: "y0" }] } : {}),
        ...(random() < 0.4 ? { look: [{ colour: "C", be: "light" }] } : {}),
        ...(random() < 0.4 ? { use: ["y1"] } : {}),
      };
      const { problem } = prepare(inputOf(yarns, wish));
      const { clash, irreducible } = assignYarns(problem);
      if (!clash) continue;
      clashes += 1;
      expect(irreducible).toBe(true);
      expect(assignExhaustively(withParts(problem, clash)).status).toBe("infeasible");
      for (const part of clash)
        expect(assignExhaustively(withParts(problem, clash.filter((other) => other !== part))).status).toBe("optimal"); // prettier-ignore
    }
    expect(clashes).toBeGreaterThan(10);
  });
});

describe("relaxations", () => {
  it("are told least first, and each way is flagged for nothing but what is given", () => {
    for (const lightnesses of [
      [50, 52, 54],
      [60, 70, 84],
      [30, 84],
    ]) {
      const yarns = greyYarns(lightnesses);
      const { relaxations } = clashUnder(
        yarns,
        lightnesses[0] === 60 ? { bands: [{ band: "b2", want: "strong" }] } : {},
      );
      expect(relaxations.length).toBeGreaterThan(0);
      const given = relaxations.map((one) => one.given);
      expect(given).toEqual(given.toSorted((a, b) => a - b));
      for (const { way, kind, sentence } of relaxations) {
        expect(sentence).toMatch(/^Possible .*\.$/);
        if (kind !== "showing") expect(way.findings).toEqual([]);
      }
    }
  });

  it("rows that may be faint are the rows that the checks then tell of", () => {
    const yarns = greyYarns([60, 70, 84]);
    const { relaxations } = clashUnder(yarns, { bands: [{ band: "b2", want: "strong" }] });
    const [first] = relaxations;
    expect(first!.sentence).toMatch(/^Possible if row 2.* may be faint/);
    const colourway = { id: "w", yarns: first!.way.yarns };
    const found = audit(contextOf({ pattern, yarns, colourway, viewing }, judgeMemory())).filter((one) => atLeast(one, "doubt")); // prettier-ignore
    expect(found.map(({ where }) => where.rows[0])).toContain(2);
  });

  it("grams that are missing are told: 300 m of A, 250 m owned at 420 m to 100 g", () => {
    const yarns = greyYarns([30, 50, 84]).map((yarn) => ({ ...yarn, metresPer100g: 420 }));
    const needs = { ofColour: new Map([["A", 300]]), owned: new Map([["y0", 100], ["y1", 100], ["y2", 250]]) }; // prettier-ignore
    const { relaxations } = clashUnder(yarns, {}, { needs });
    // 50 m at 4.2 m to the gram are 11.9 g.
    expect(relaxations[0]).toMatchObject({ kind: "grams", colours: ["A"] });
    expect(relaxations[0]!.sentence).toMatch(/^Possible with 12 g more of yarn 2, for A/);
  });

  it("a yarn that two colours share, where they need not part", () => {
    expect(clashUnder(greyYarns([30, 84])).relaxations[0]).toMatchObject({
      kind: "share",
      colours: ["B", "C"],
      way: { yarns: { A: "y1", B: "y0", C: "y0" } },
    });
  });

  it("wishes are given up one by one, and a ladder turned over", () => {
    const { relaxations } = clashUnder(greyYarns([30, 50, 84]), { look: [{ colour: "A", be: "dark" }] });
    expect(relaxations.map(({ kind }) => kind)).toEqual(["look", "ladder", "ladder"]);
    expect(relaxations[0]!.sentence).toBe("Possible without this wish: A wanted dark; then yarn 2 for A.");
    expect(relaxations[1]!.way.yarns).toEqual({ A: "y0", B: "y2", C: "y1" });
    const { relaxations: used } = clashUnder(greyYarns([30, 50, 84, 60]), { use: ["y0", "y1", "y2", "y3"] });
    expect(used.map(({ kind }) => kind)).toContain("use");
  });
});

describe("what the checks do not let pass", () => {
  it("is offered with what is said against it, and no flagged way is", () => {
    const project = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")) as Project;
    // There is no dark yarn of which there is enough for the ground, and the one loud yarn that there is takes over.
    const { ways, clash } = recolourProject(project, { colourway: "w1", wish: { ladder: "reversed", ways: 1 } });
    expect(ways).toEqual([]);
    const kinds = clash!.relaxations.map(({ kind }) => kind);
    expect(kinds).toEqual(expect.arrayContaining(["grams", "checks", "ladder"]));
    for (const { kind, way } of clash!.relaxations)
      if (kind !== "checks") expect(way.findings.filter((headline) => !/enough|run out/i.test(headline))).toEqual([]);
  });
});

describe("the shade to look for", () => {
  const yarns = greyYarns([50, 52, 54]);
  const { toFind } = clashUnder(yarns);

  it("mends it: with a yarn of that shade something fits, and so it does within its radius", () => {
    const [shade] = toFind;
    expect(toFind.length).toBe(1);
    const { lab, radius } = shade!;
    expect(radius).toBeGreaterThan(0);
    const away = [[radius, 0, 0], [-radius, 0, 0], [0, radius / 3, 0], [0, 0, -radius / 3]].map(([L, a, b]) => [lab[0] + L!, lab[1] + a!, lab[2] + b!] as [number, number, number]); // prettier-ignore
    for (const one of [lab, ...away.filter((other) => deltaE2000(lab, other) <= radius)]) {
      const bought: Yarn = { id: "found", name: "found", shade: { lab: one, uncertainty: 0 } };
      const { ways } = waysUnder(inputOf([...yarns, bought], { ways: 1 }));
      expect(ways[0]?.yarns[shade!.colour]).toBe("found");
    }
  });

  it("lies inside its own ranges, and none of hers does", () => {
    const [{ lab, lightness, nearest }] = toFind as [(typeof toFind)[number]];
    expect(lab[0]).toBeGreaterThanOrEqual(lightness[0]);
    expect(lab[0]).toBeLessThanOrEqual(lightness[1]);
    for (const { yarn } of nearest)
      expect(labOfYarn(yarns.find(({ id }) => id === yarn)!)[0]).toBeLessThan(lightness[0]);
    for (const { why } of nearest) expect(why).not.toBe("it would do, at a higher score");
  });
});
