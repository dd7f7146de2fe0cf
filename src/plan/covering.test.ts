/** The covering against trying every set of rows; and what its law says of budgets. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coverDoubts } from "./covering.ts";
import { settledBy, type CoveringProblem } from "./coveringProblem.ts";

/** Every set of rows, one after the other: what is sought, read off its definition. */
function exhaustively(problem: CoveringProblem): { weight: number; knitted: number } {
  const rows = problem.follows.length;
  let best = { weight: -1, knitted: Infinity };
  for (let set = 0; set < 1 << rows; set++) {
    const inSet = Array.from({ length: rows }, (_, row) => row).filter((row) => set & (1 << row));
    const has = (option: readonly number[]): boolean => option.every((row) => inSet.includes(row));
    const precision = problem.looks.reduce(
      (sum, { information, options }) => sum + (options.some(has) ? information : 0),
      problem.precision,
    );
    const weight = problem.doubts.reduce(
      (sum, doubt) =>
        sum +
        ((doubt.options.length > 0 && doubt.options.filter(has).length >= doubt.times) ||
        (doubt.precision !== null && doubt.precision <= precision + 1e-9)
          ? doubt.weight
          : 0),
      0,
    );
    const knitted = plainlyKnitted(problem, inSet);
    if (knitted > problem.mostRows) continue;
    if (weight > best.weight + 1e-9 || (weight > best.weight - 1e-9 && knitted < best.knitted))
      best = { weight, knitted };
  }
  return best;
}

/** Rows one over the other; the first of a run is left out where it is as the row below it, which no other run has in common yet. */
function plainlyKnitted({ follows, alike }: CoveringProblem, rows: readonly number[]): number {
  let count = 0;
  let taken = false;
  rows.forEach((row, at) => {
    const below = rows[at - 1];
    const inRun = below === row - 1 && follows[row];
    const shared = below !== undefined && !inRun && !taken && alike[below] === alike[row];
    count += shared ? 0 : 1;
    taken = shared;
  });
  return count;
}

/** Rows of two strips, few kinds of rows, doubts that runs of two or three rows settle. */
const problems = fc
  .record({
    lower: fc.integer({ min: 2, max: 6 }),
    upper: fc.integer({ min: 1, max: 5 }),
    kinds: fc.array(fc.nat(3), { minLength: 11, maxLength: 11 }),
    looks: fc.array(
      fc.record({
        information: fc.constantFrom(0.5, 0.9, 1),
        places: fc.array(fc.nat(10), { minLength: 1, maxLength: 3 }),
      }),
      { maxLength: 4 },
    ),
    doubts: fc.array(
      fc.record({
        weight: fc.constantFrom(0.1, 0.17, 0.25, 0.4, 0.5),
        places: fc.array(fc.nat(10), { maxLength: 4 }),
        two: fc.boolean(),
        times: fc.integer({ min: 1, max: 2 }),
        precision: fc.option(fc.constantFrom(1.2, 1.7, 2.4, 5), { nil: null }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    mostRows: fc.constantFrom(2, 3, 4, 5, 7, Infinity),
  })
  .map(({ lower, upper, kinds, looks, doubts, mostRows }): CoveringProblem => {
    const rows = lower + upper;
    const run = (place: number): number[] => {
      const row = place % rows;
      const strip = row < lower ? [0, lower - 1] : [lower, rows - 1];
      return [row - 1, row, row + 1].filter((one) => one >= strip[0]! && one <= strip[1]!);
    };
    return {
      follows: Array.from({ length: rows }, (_, row) => row !== 0 && row !== lower),
      alike: kinds.slice(0, rows),
      looks: looks.map(({ information, places }) => ({ information, options: places.map(run) })),
      doubts: doubts.map(({ weight, places, two, times, precision }): CoveringProblem["doubts"][number] => {
        const runs = [...new Map(places.map(run).map((one) => [one.join(), one])).values()];
        const both = [...new Set(runs.slice(0, 2).flat())].sort((a, b) => a - b);
        return { weight, options: two && both.length > 0 ? [both] : runs, times: two ? 1 : times, precision };
      }),
      precision: 1,
      mostRows,
    };
  });

describe("the covering", () => {
  it("is as good as trying every set of rows", () =>
    fc.assert(
      fc.property(problems, (problem) => {
        const found = coverDoubts(problem);
        const all = exhaustively(problem);
        expect(found.proven).toBe(true);
        expect(found.weight).toBeCloseTo(all.weight, 9);
        expect(found.knitted).toBe(all.knitted);
      }),
      { seed: 7, numRuns: 400 },
    ));

  it("tells of its rows what they settle, and stays within its budget", () =>
    fc.assert(
      fc.property(problems, (problem) => {
        const { rows, settled, weight, knitted } = coverDoubts(problem);
        const chosen = Uint8Array.from(problem.follows, (_, row) => Number(rows.includes(row)));
        expect(settledBy(problem, chosen)).toEqual({ rows, settled, weight, knitted });
        expect(knitted).toBeLessThanOrEqual(problem.mostRows);
        expect(knitted).toBe(plainlyKnitted(problem, rows));
      }),
      { seed: 7, numRuns: 100 },
    ));

  it("more budget never settles less", () =>
    fc.assert(
      fc.property(problems, fc.integer({ min: 1, max: 8 }), (problem, rows) => {
        const [less, more] = [rows, rows + 1].map((mostRows) => coverDoubts({ ...problem, mostRows }).weight);
        expect(more!).toBeGreaterThanOrEqual(less! - 1e-9);
      }),
      { seed: 7, numRuns: 60 },
    ));

  it("has the plain row between two lines in common, by hand: 5 rows and not 6", () => {
    const { rows, knitted } = coverDoubts({
      follows: [false, true, true, true, true, true, true],
      // plain, line, plain, a band of one row, plain, another line, plain
      alike: [0, 1, 0, 2, 0, 3, 0],
      doubts: [
        { weight: 0.2, options: [[0, 1, 2]], times: 1, precision: null },
        { weight: 0.3, options: [[4, 5, 6]], times: 1, precision: null },
      ],
      looks: [],
      precision: 1,
      mostRows: Infinity,
    });
    expect(rows).toEqual([0, 1, 2, 4, 5, 6]);
    expect(knitted).toBe(5);
  });

  it("says when its search was ended before all was seen, and keeps within its budget all the same", () => {
    // Twelve lines that come again above in the same order: at the middle there are thousands of ways to have come so far.
    const lines = Array.from({ length: 12 }, (_, line) => line);
    const problem: CoveringProblem = {
      follows: Array.from({ length: 72 }, (_, row) => row > 0),
      alike: Array.from({ length: 72 }, (_, row) => row),
      doubts: lines.map((line) => ({
        weight: 0.1 + line / 97,
        options: [0, 36].map((above) => [0, 1, 2].map((step) => above + 3 * line + step)),
        times: 1,
        precision: null,
      })),
      looks: [],
      precision: 1,
      mostRows: 17,
    };
    const glance = coverDoubts(problem, { most: 0 });
    expect(glance.proven).toBe(false);
    expect(glance.knitted).toBeLessThanOrEqual(17);
    const { proven, weight } = coverDoubts(problem);
    expect(proven).toBe(true);
    // Three rows each: five lines, the heaviest.
    expect(weight).toBeCloseTo(0.5 + (7 + 8 + 9 + 10 + 11) / 97, 9);
  });
});
