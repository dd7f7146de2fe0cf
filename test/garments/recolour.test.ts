/** The whole of recolouring on invented garments: ways that the checks let pass, really different, the same for the same seed. */
import { describe, expect, it } from "vitest";
import type { Project } from "../../src/document/project.ts";
import { readProject } from "../../src/document/read.ts";
import { writeProject } from "../../src/document/write.ts";
import { deltaE2000 } from "../../src/colour/difference.ts";
import { applyWay, checkProject, recolourProject } from "../../src/jobs.ts";
import { labOfYarn } from "../../src/yarn/yarn.ts";
import { inventedGarment } from "./invented.ts";

const garmentOf = (seed: number, colours: number, yarns: number): Project => {
  const { value, problems } = readProject(
    JSON.stringify(inventedGarment({ seed, colours, yarns, bands: colours + 1 })),
  );
  expect(problems.filter(({ severity }) => severity === "fault")).toEqual([]);
  return value as Project;
};

describe("a shade to look for", () => {
  it("stands beside her yarns in the project that keeps the way, which can be read again and checked", () => {
    const garment = garmentOf(2, 5, 28);
    const project = { ...garment, yarns: garment.yarns.filter((_, index) => index % 5 !== 1) };
    const { ways } = recolourProject(project, { wish: { buy: 1, ways: 1 } });
    const [way] = ways;
    expect(way!.toFind.length).toBe(1);
    const applied = applyWay(project, way!);
    expect(applied.project.yarns.length).toBe(project.yarns.length + 1);
    const again = readProject(writeProject(applied.project));
    expect(again.problems.filter(({ severity }) => severity === "fault")).toEqual([]);
    const { findings } = checkProject(again.value as Project, { colourway: applied.colourway });
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
  });
});

describe.each([
  [1, 3, 20],
  [2, 5, 28],
  [3, 8, 40],
  [4, 11, 60],
])("invented garment %i: %i colours, %i yarns", (seed, colours, yarns) => {
  const project = garmentOf(seed, colours, yarns);
  const { ways } = recolourProject(project, { ways: 5 });

  it("has five ways, proven, from the best on", () => {
    expect(ways.length).toBe(5);
    for (const way of ways) expect(way.proven).toBe(true);
    const scores = ways.map(({ score }) => score);
    expect(scores).toEqual(scores.toSorted((a, b) => a - b));
  });

  it("no way is flagged by the checks", () => {
    for (const way of ways) {
      const applied = applyWay(project, way);
      const { findings } = checkProject(applied.project, { colourway: applied.colourway });
      expect(findings.filter(({ severity }) => severity !== "note").map(({ headline }) => headline)).toEqual([]);
    }
  });

  it("each differs from each in a quarter of the stitches, counted again by hand", () => {
    const stitches = project.pattern.charts[0]!.rows.join("");
    const labOf = (id: string) => labOfYarn(project.yarns.find((yarn) => yarn.id === id)!);
    ways.forEach((one, at) =>
      ways.slice(at + 1).forEach((other) => {
        const differs = [...stitches].filter(
          (colour) => deltaE2000(labOf(one.yarns[colour]!), labOf(other.yarns[colour]!)) >= 10,
        );
        expect(differs.length / stitches.length).toBeGreaterThanOrEqual(0.25 - 1e-9);
      }),
    );
  });

  it("gives the same answer to the byte", () => {
    expect(JSON.stringify(recolourProject(project, { ways: 2 }).ways)).toBe(
      JSON.stringify(recolourProject(project, { ways: 2 }).ways),
    );
  });

  it("the next best that is told for a place is no better, and the score is the sum of its terms", () => {
    const [best] = ways;
    for (const { next } of best!.places) if (next) expect(next.more).toBeGreaterThanOrEqual(-1e-3);
    for (const { score, weighted, terms, weights } of ways) {
      const names = ["value", "contrast", "hue", "loudness", "showing"] as const;
      expect(names.reduce((sum, term) => sum + weighted[term], 0)).toBeCloseTo(score, 9);
      for (const term of names) expect(terms[term] * weights[term]).toBeCloseTo(weighted[term], 9);
    }
  });
});
