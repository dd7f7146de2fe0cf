import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { type AssignmentProblem, type AssignmentResult, assignYarns, type ColourPair } from "./assign.ts";
import { costOf } from "./assignment.ts";
import { assignExhaustively } from "./exhaustive.ts";
import { partsOf, withParts } from "./parts.ts";

/** Two sums of the same few numbers in another order: rounding of doubles, relative. */
const ROUNDING = 1e-9;

const runs = (numRuns: number) => ({ seed: 7, numRuns });

interface Mix {
  readonly colours: number;
  readonly yarns: number;
  readonly seed: number;
  readonly notAllowed: number;
  readonly clashes: number;
  readonly density: number;
  readonly pairCosts: number;
  readonly distinct: "all" | "free" | "except";
  readonly capacity: boolean;
  readonly accept: boolean;
  readonly quotas: number;
  readonly whole: boolean;
  /** Costs and tables repeat every second yarn, so that there are yarns alike. */
  readonly alike: boolean;
}

const mixes: fc.Arbitrary<Mix> = fc.record({
  colours: fc.integer({ min: 0, max: 4 }),
  yarns: fc.integer({ min: 0, max: 5 }),
  seed: fc.integer({ min: 0, max: 1e9 }),
  notAllowed: fc.constantFrom(0, 0.2, 0.6),
  clashes: fc.constantFrom(0, 0.5, 1),
  density: fc.constantFrom(0.1, 0.4, 0.8),
  pairCosts: fc.constantFrom(0, 0.5, 1),
  distinct: fc.constantFrom("all", "free", "except"),
  capacity: fc.boolean(),
  accept: fc.boolean(),
  quotas: fc.constantFrom(0, 0, 1, 3),
  whole: fc.boolean(),
  alike: fc.boolean(),
});

/** A small problem of the given mix; some pairs stand the other way round, some twice, some share an array. */
function problemOf(mix: Mix): AssignmentProblem {
  const random = seededRandom(mix.seed);
  const { colours: n, yarns } = mix;
  const number = (): number => (mix.whole ? Math.floor(random() * 7) - 2 : random() * 10 - 3);
  const forbidden = (): Uint8Array =>
    Uint8Array.from({ length: yarns * yarns }, () => (random() < mix.density ? 1 : 0));
  const shared = forbidden();
  const pairs: ColourPair[] = [];
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) pairs.push(random() < 0.5 ? [i, j] : [j, i]);
  const some = (share: number): ColourPair[] => [...pairs, ...pairs.slice(0, 1)].filter(() => random() < share);
  const original = (k: number): number => (mix.alike ? k - (k % 2) : k);
  const repeat = <T extends Uint8Array | Float32Array>(table: T): T =>
    table.map((_, at) => table[original(Math.floor(at / yarns)) * yarns + original(at % yarns)]!) as T;
  return {
    costs: Array.from({ length: n }, () =>
      Array.from({ length: yarns }, () => (random() < mix.notAllowed ? Infinity : number())),
    ),
    clashes: some(mix.clashes).map(([i, j]) => ({ i, j, forbidden: repeat(random() < 0.4 ? shared : forbidden()) })),
    pairCosts: some(mix.pairCosts).map(([i, j]) => ({
      i,
      j,
      cost: repeat(Float32Array.from({ length: yarns * yarns }, () => (random() < 0.1 ? Infinity : number()))),
    })),
    distinct:
      mix.distinct === "all" ? true : mix.distinct === "free" ? false : { except: pairs.filter(() => random() < 0.5) },
    seed: mix.seed % 5,
    ...(mix.capacity && {
      capacity: {
        need: Array.from({ length: n }, () => Math.floor(random() * 4)),
        have: Array.from({ length: yarns }, () => Math.floor(random() * 8)),
      },
    }),
    ...(mix.quotas > 0 && {
      quotas: Array.from({ length: mix.quotas }, () => ({
        gains: Array.from({ length: n }, () =>
          Array.from({ length: yarns }, () => (random() < 0.4 ? Math.floor(random() * 5) : 0)),
        ),
        least: random() * 2 * n,
      })),
    }),
    ...(mix.accept && { accept: (assignment: readonly number[]) => (assignment[0] ?? 0) % 2 === 0 }),
  };
}

function expectSame(found: AssignmentResult, expected: AssignmentResult): void {
  expect(found.status).toBe(expected.status);
  if (expected.cost === Infinity) expect(found.cost).toBe(Infinity);
  else expect(Math.abs(found.cost - expected.cost)).toBeLessThanOrEqual(ROUNDING * (1 + Math.abs(expected.cost)));
}

const without = <K extends keyof AssignmentProblem>(problem: AssignmentProblem, key: K): AssignmentProblem => {
  const { [key]: _, ...rest } = problem;
  return rest as AssignmentProblem;
};

describe("assignYarns against the plain reference", () => {
  it("finds the same cost, and an assignment that costs it", () => {
    fc.assert(
      fc.property(mixes, (mix) => {
        const problem = problemOf(mix);
        const found = assignYarns(problem);
        expectSame(found, assignExhaustively(problem));
        if (found.assignment) {
          expect(costOf(problem, found.assignment)).toBe(found.cost);
          expect(problem.accept?.(found.assignment) ?? true).toBe(true);
          expect([found.bound, found.gap]).toEqual([found.cost, 0]);
        }
      }),
      runs(600),
    );
  });

  it("names a clash that is one, and of which no part can be left out", () => {
    let clashes = 0;
    fc.assert(
      fc.property(mixes, (mix) => {
        const problem = without(problemOf({ ...mix, density: 0.8, clashes: 1 }), "accept");
        const { clash, irreducible } = assignYarns(problem);
        if (!clash) return;
        clashes++;
        expect(irreducible).toBe(true);
        expect(assignExhaustively(withParts(problem, clash)).status).toBe("infeasible");
        for (const part of clash) {
          const fewer = clash.filter((other) => other !== part);
          expect(assignExhaustively(withParts(problem, fewer)).status).toBe("optimal");
        }
      }),
      runs(200),
    );
    expect(clashes).toBeGreaterThan(30);
  });
});

describe("laws", () => {
  const medium = (seed: number, density = 0.3): AssignmentProblem =>
    problemOf({
      colours: 7,
      yarns: 20,
      seed,
      notAllowed: 0.2,
      clashes: 1,
      density,
      pairCosts: seed % 2 ? 0.3 : 0,
      distinct: "all",
      capacity: false,
      accept: false,
      quotas: seed % 4 === 0 ? 2 : 0,
      whole: seed % 3 === 0,
      alike: seed % 5 === 0,
    });
  const seeds = fc.integer({ min: 0, max: 1e6 });

  it("one clash more never makes it cheaper", () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = medium(seed);
        const random = seededRandom(seed + 1);
        const forbidden = Uint8Array.from({ length: 400 }, () => (random() < 0.4 ? 1 : 0));
        const more = { ...problem, clashes: [...problem.clashes!, { i: 2, j: 5, forbidden }] };
        expect(assignYarns(more).cost).toBeGreaterThanOrEqual(assignYarns(problem).cost - ROUNDING);
      }),
      runs(30),
    );
  });

  it("yarns listed in another order cost the same", () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = medium(seed);
        const order = Array.from({ length: 20 }, (_, k) => (k * 7 + 3) % 20);
        const turn = <T extends Uint8Array | Float32Array>(table: T): T =>
          table.map((_, at) => table[order[Math.floor(at / 20)]! * 20 + order[at % 20]!]!) as T;
        const turned: AssignmentProblem = {
          ...problem,
          costs: problem.costs.map((row) => order.map((k) => row[k]!)),
          quotas: (problem.quotas ?? []).map(({ gains, least }) => ({
            gains: gains.map((row) => order.map((k) => row[k]!)),
            least,
          })),
          clashes: problem.clashes!.map(({ i, j, forbidden }) => ({ i, j, forbidden: turn(forbidden) })),
          pairCosts: problem.pairCosts!.map(({ i, j, cost }) => ({ i, j, cost: turn(cost as Float32Array) })),
        };
        expectSame(assignYarns(turned), assignYarns(problem));
      }),
      runs(30),
    );
  });

  it("a second ball of every yarn, all different, costs what sharing by two costs", () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const costs = medium(seed)
          .costs.slice(0, 6)
          .map((row) => Array.from(row).slice(0, 8));
        const doubled = costs.map((row) => [...row, ...row]);
        const capacity = { need: costs.map(() => 1), have: Array.from({ length: 8 }, () => 2) };
        expectSame(assignYarns({ costs: doubled, distinct: true }), assignYarns({ costs, capacity, distinct: false }));
      }),
      runs(30),
    );
  });

  it("the same seed gives the same answer, another seed the same cost", () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = medium(seed);
        expect(assignYarns(problem)).toEqual(assignYarns(problem));
        expectSame(assignYarns({ ...problem, seed: 99 }), assignYarns(problem));
      }),
      runs(20),
    );
  });

  it("stopped at any moment, it tells the truth: a real answer or none, and a bound below the best", () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(seeds, fc.integer({ min: 0, max: 60 }), (seed, asked) => {
        const problem = medium(seed, 0.45);
        let left = asked;
        const found = assignYarns({ ...problem, stop: () => left-- <= 0 });
        const best = assignYarns(problem);
        seen.add(found.status);
        expect(found.bound).toBeLessThanOrEqual(best.cost + ROUNDING);
        expect(found.bound).toBeLessThanOrEqual(found.cost);
        expect(found.cost).toBeGreaterThanOrEqual(best.cost - ROUNDING);
        if (found.assignment) expect(costOf(problem, found.assignment)).toBe(found.cost);
        if (found.status === "feasible")
          expect(found.gap).toBeCloseTo((found.cost - found.bound) / Math.max(1, Math.abs(found.cost)), 12);
      }),
      runs(80),
    );
    expect([...seen]).toEqual(expect.arrayContaining(["stopped", "feasible"]));
  });
});

describe("small cases, worked by hand", () => {
  it("no colours cost nothing", () => {
    expect(assignYarns({ costs: [], distinct: true })).toMatchObject({
      status: "optimal",
      cost: 0,
      bound: 0,
      assignment: [],
    });
  });

  it("no yarns fit no colour, and leaving things out does not help", () => {
    expect(assignYarns({ costs: [[], []], distinct: true })).toMatchObject({ status: "infeasible", clash: [] });
  });

  it("two colours, one yarn: they would have to share", () => {
    const costs = [[1], [2]];
    expect(assignYarns({ costs, distinct: true }).clash).toEqual([{ kind: "distinct", i: 0, j: 1 }]);
    expect(assignYarns({ costs, distinct: { except: [[1, 0]] } })).toMatchObject({ status: "optimal", cost: 3 });
    expect(assignYarns({ costs, distinct: [[0, 1]] }).cost).toBe(3);
    expect(assignYarns({ costs, distinct: false }).cost).toBe(3);
  });

  it("20 colours, 11 yarns: twelve colours that differ are one too many", () => {
    const clash = assignYarns({ costs: Array.from({ length: 20 }, () => new Float64Array(11)), distinct: true }).clash!;
    expect(clash).toHaveLength(66); // 12 × 11 / 2 pairs
    expect(clash.every(({ kind }) => kind === "distinct")).toBe(true);
  });

  it("a demand on the whole is met by the colour that can meet it for least", () => {
    // Yarns 0 and 1 cost 1 and 3 for the first colour, 1 and 2 for the second; yarn 1 must occur: 1 + 2.
    const costs = [
      [1, 3],
      [1, 2],
    ];
    const quotas = [{ gains: [[0, 1], [0, 1]], least: 1 }]; // prettier-ignore
    expect(assignYarns({ costs, quotas, distinct: false })).toMatchObject({ cost: 3, assignment: [0, 1] });
    const never = [[1, Infinity], [1, Infinity]]; // prettier-ignore
    expect(assignYarns({ costs: never, quotas, distinct: false }).clash).toEqual([
      { kind: "yarn", i: 0 },
      { kind: "yarn", i: 1 },
      { kind: "quota", i: 0 },
    ]);
    expect(assignYarns({ costs: never, quotas, distinct: false, explain: false })).toMatchObject({
      status: "infeasible",
      clash: [],
    });
  });

  it("a known answer is kept where nothing is better, and passed over where it does not hold", () => {
    const costs = [
      [1, 5],
      [9, 2],
    ];
    expect(assignYarns({ costs, distinct: true, start: [0, 1] })).toMatchObject({ cost: 3, assignment: [0, 1] });
    expect(assignYarns({ costs, distinct: true, start: [1, 0] })).toMatchObject({ cost: 3, assignment: [0, 1] });
    expect(assignYarns({ costs, distinct: true, start: [0, 0] })).toMatchObject({ cost: 3, assignment: [0, 1] });
  });

  it("the cheapest pair clashes, so the next is taken", () => {
    const forbidden = Uint8Array.from([0, 1, 0, 0]); // yarn 0 for colour 0 with yarn 1 for colour 1
    const costs = [
      [1, 5],
      [9, 2],
    ];
    expect(assignYarns({ costs, clashes: [{ i: 0, j: 1, forbidden }], distinct: false })).toMatchObject({
      cost: 7,
      assignment: [1, 1],
    });
  });

  it("a yarn that is enough for one is not enough for two", () => {
    const costs = [
      [1, 9],
      [1, 3],
    ];
    const capacity = { need: [30, 30], have: [50, 100] };
    expect(assignYarns({ costs, capacity, distinct: false })).toMatchObject({ cost: 4, assignment: [0, 1] });
    const short = assignYarns({ costs, capacity: { need: [30, 120], have: [50, 100] }, distinct: false });
    expect(short.clash).toEqual([{ kind: "capacity", i: 1 }]);
  });

  it("a colour with no allowed yarn is itself the clash", () => {
    expect(assignYarns({ costs: [[1, 2], [Infinity, Infinity]], distinct: true }).clash).toEqual([{ kind: "yarn", i: 1 }]); // prettier-ignore
  });

  it("where only accept refuses, no part is to blame", () => {
    expect(assignYarns({ costs: [[1, 2]], distinct: true, accept: () => false })).toMatchObject({
      status: "infeasible",
      clash: [],
    });
  });

  it("refuses tables of the wrong size as our own mistake", () => {
    expect(() => assignYarns({ costs: [[1, 2], [1]], distinct: true })).toThrow("costs[1]: expected 2 yarns, got 1");
  });
});

describe("partsOf", () => {
  it("lists what can be lifted", () => {
    const problem: AssignmentProblem = {
      costs: [
        [1, Infinity],
        [1, 2],
      ],
      clashes: [{ i: 1, j: 0, forbidden: Uint8Array.from([0, 1, 0, 0]) }],
      capacity: { need: [0, 3], have: [5, 5] },
      distinct: true,
    };
    expect(partsOf(problem)).toEqual([
      { kind: "yarn", i: 0 },
      { kind: "pair", i: 0, j: 1 },
      { kind: "distinct", i: 0, j: 1 },
      { kind: "capacity", i: 1 },
    ]);
  });
});
