import { describe, expect, it } from "vitest";
import { solveByMip } from "../../bench/assignByMip.ts";
import { type Kind, makeProblem, makeSoftProblem } from "../../bench/assignProblems.ts";
import { seededRandom } from "../../src/base/random.ts";
import { type AssignmentProblem, assignYarns } from "../../src/recolour/assign.ts";

/** HiGHS keeps its rows to within 1e-6 or so; costs here are below 1000. */
const MIP_TOLERANCE = 1e-4;

/** Far more than HiGHS needed for any of these (the slowest took five seconds on a busy machine). */
const MIP_SECONDS = 60;

async function check(problem: AssignmentProblem): Promise<void> {
  const expected = await solveByMip(problem, MIP_SECONDS);
  const found = assignYarns(problem);
  expect(expected.status).toBe("Optimal");
  expect(found.status).toBe("optimal");
  expect(Math.abs(found.cost - expected.cost)).toBeLessThan(MIP_TOLERANCE);
}

describe("assignYarns finds what the general solver HiGHS finds", () => {
  const cases: [Kind, number, number, number][] = [
    ["random", 5, 20, 0.3],
    ["apart", 8, 40, 0.15],
    ["ladder", 8, 40, 0.15],
    ["near", 6, 30, 0.2],
  ];
  it.each(cases)("%s, %i colours, %i yarns, density %f", async (kind, colours, yarns, density) => {
    await check(makeProblem({ kind, colours, yarns, density, seed: 1 }));
  });

  it.each([0, 0.3, 1])("pair costs, noise %f", async (noise) => {
    await check(makeSoftProblem(6, 12, 10, noise, 1));
  });

  it("demands on the whole: yarns that must occur, and a part of the fabric that must differ", async () => {
    const { costs, pairCosts, clashes } = { ...makeSoftProblem(7, 14, 10, 0.3, 3), ...makeProblem({ kind: "near", colours: 7, yarns: 14, density: 0.1, seed: 3 }) }; // prettier-ignore
    const random = seededRandom(5);
    const quotas = [
      { gains: costs.map(() => Array.from({ length: 14 }, (_, k) => (k === 3 ? 1 : 0))), least: 1 },
      { gains: costs.map((_, i) => Array.from({ length: 14 }, () => (random() < 0.5 ? i + 1 : 0))), least: 20 },
      { gains: costs.map(() => Array.from({ length: 14 }, () => random())), least: 4.5 },
    ];
    await check({ costs, pairCosts: pairCosts!, clashes: clashes!, quotas, distinct: true });
  });

  it("shared yarns and what there is of them", async () => {
    const { costs, pairCosts } = makeSoftProblem(6, 12, 5, 0.3, 2);
    const need = [10, 20, 30, 40, 50, 60];
    const have = Array.from({ length: 12 }, (_, k) => 30 + 10 * (k % 6));
    await check({ costs, pairCosts: pairCosts!, capacity: { need, have }, distinct: { except: [[0, 1], [0, 2], [1, 2], [3, 5]] } }); // prettier-ignore
  });
});
