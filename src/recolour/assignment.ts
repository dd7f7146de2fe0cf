/** What the exact search is asked and what it answers, so that search, plain reference and clash filter speak of the same thing. */
import { assert } from "../base/assert.ts";

/**
 * Which yarn for which chart colour: choose one yarn for every chart colour, at the least total cost.
 * N chart colours are counted by i and j, K yarns by k and l, both from 0.
 */
export interface AssignmentProblem {
  /** `costs[i][k]`: cost of yarn k for chart colour i, any unit; may be negative; Infinity = not allowed. */
  readonly costs: readonly ArrayLike<number>[];
  /** `forbidden[k * K + l]` ≠ 0: yarn k for colour i does not go with yarn l for colour j. Arrays may be shared between pairs. */
  readonly clashes?: readonly PairClash[];
  /** `cost[k * K + l]` is paid when colour i takes yarn k and colour j yarn l; Infinity forbids. Several tables of one pair add up. */
  readonly pairCosts?: readonly PairCost[];
  /** The needs of all colours that share yarn k may not sum to more than `have[k]`. One unit for both, needs ≥ 0. */
  readonly capacity?: Capacity;
  /** Demands on the assignment as a whole, each a sum that must reach its least. */
  readonly quotas?: readonly Quota[];
  /**
   * true: no two colours share a yarn; false: any may. `{ except }`, or the list alone: no two share, but for the pairs listed
   * (sharing is by pairs: three colours share one yarn only when all three of their pairs are listed).
   */
  readonly distinct: boolean | readonly ColourPair[] | { readonly except: readonly ColourPair[] };
  /** Asked often; true ends the search with the best answer so far and a bound that still holds. */
  readonly stop?: () => boolean;
  /** An answer that is known; one that does not hold is passed over. The search begins below its cost. */
  readonly start?: readonly number[];
  /** Its costs were moved by `tightened` already. */
  readonly tight?: boolean;
  /** false: where nothing fits it is not asked why, and `clash` is empty. Default true. */
  readonly explain?: boolean;
  /** Chooses among equally good answers and where the first guesses start; never changes the cost of a proven answer. Default 1. */
  readonly seed?: number;
  /** A judgement that pairs cannot express, asked only of whole answers that would be the best so far; a refused one is passed over. */
  readonly accept?: (assignment: readonly number[]) => boolean;
}

export type ColourPair = readonly [number, number];

export interface PairClash {
  readonly i: number;
  readonly j: number;
  readonly forbidden: Uint8Array;
}

export interface PairCost {
  readonly i: number;
  readonly j: number;
  readonly cost: Float32Array | Float64Array;
}

export interface Capacity {
  readonly need: readonly number[];
  readonly have: readonly number[];
}

/** Summed over the colours, `gains[i][k]` of the yarns they take is at least `least`. Gains ≥ 0, in any one unit. */
export interface Quota {
  readonly gains: readonly ArrayLike<number>[];
  readonly least: number;
}

export interface AssignmentResult {
  /** optimal: proven; feasible: stopped with an answer; stopped: stopped without; infeasible: proven that there is none. */
  readonly status: "optimal" | "feasible" | "stopped" | "infeasible";
  /** Cost of the assignment; Infinity without one. */
  readonly cost: number;
  /** No acceptable assignment costs less; Infinity where there is none. */
  readonly bound: number;
  /** (cost − bound) / max(1, |cost|); 0 when proven, Infinity when stopped without an answer. */
  readonly gap: number;
  /** The yarn of each chart colour. */
  readonly assignment: number[] | null;
  /**
   * When infeasible: parts that cannot all hold, of which none can be left out. Empty when only `accept` refuses every answer.
   * When stopped while the list was being shortened it may still hold parts too many, and `irreducible` is false.
   */
  readonly clash: ClashPart[] | null;
  readonly irreducible: boolean;
}

/**
 * A part of the problem that can be lifted by itself; i and j are chart colours.
 * yarn: the list of yarns allowed for colour i. pair: everything forbidden between i and j.
 * distinct: that i and j do not share a yarn. capacity: what colour i needs counts against what there is.
 * quota: the demand with the number i, not a colour.
 */
export interface ClashPart {
  readonly kind: "yarn" | "pair" | "distinct" | "capacity" | "quota";
  readonly i: number;
  readonly j?: number;
}

/** Sums of needs are compared with this much grace, relative to what there is: rounding, not wool. */
const CAPACITY_GRACE = 1e-9;

/** The same grace for sums that must reach a least. */
export const reachesQuota = (sum: number, least: number): boolean =>
  sum >= least - CAPACITY_GRACE * Math.max(1, Math.abs(least));

export const fitsCapacity = (need: number, have: number): boolean => need <= have + CAPACITY_GRACE * Math.max(1, have);

export function yarnCount(problem: AssignmentProblem): number {
  return problem.costs[0]?.length ?? 0;
}

/** `mustDiffer[i * N + j]` = 1 where colours i and j may not share a yarn. */
export function mustDiffer(problem: AssignmentProblem): Uint8Array {
  const n = problem.costs.length;
  const { distinct } = problem;
  const differ = new Uint8Array(n * n);
  if (distinct === false) return differ;
  differ.fill(1);
  for (let i = 0; i < n; i++) differ[i * n + i] = 0;
  if (distinct === true) return differ;
  for (const [i, j] of "except" in distinct ? distinct.except : distinct) {
    differ[i * n + j] = 0;
    differ[j * n + i] = 0;
  }
  return differ;
}

/** The cost of an assignment, Infinity where anything but `accept` forbids it. */
export function costOf(
  problem: AssignmentProblem,
  assignment: readonly number[],
  differ = mustDiffer(problem),
): number {
  const n = problem.costs.length;
  const yarns = yarnCount(problem);
  let cost = 0;
  for (let i = 0; i < n; i++) cost += problem.costs[i]![assignment[i]!]!;
  for (const { i, j, forbidden } of problem.clashes ?? []) {
    if (forbidden[assignment[i]! * yarns + assignment[j]!]) return Infinity;
  }
  for (const { i, j, cost: table } of problem.pairCosts ?? []) cost += table[assignment[i]! * yarns + assignment[j]!]!;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) if (differ[i * n + j] && assignment[i] === assignment[j]) return Infinity;
  }
  if (problem.capacity && !holdsCapacity(problem.capacity, assignment)) return Infinity;
  if (problem.quotas?.some((quota) => !holdsQuota(quota, assignment))) return Infinity;
  return cost;
}

const holdsQuota = ({ gains, least }: Quota, assignment: readonly number[]): boolean =>
  reachesQuota(
    assignment.reduce((sum, yarn, i) => sum + gains[i]![yarn]!, 0),
    least,
  );

function holdsCapacity({ need, have }: Capacity, assignment: readonly number[]): boolean {
  const used = new Map<number, number>();
  assignment.forEach((yarn, i) => used.set(yarn, (used.get(yarn) ?? 0) + need[i]!));
  for (const [yarn, sum] of used) if (!fitsCapacity(sum, have[yarn]!)) return false;
  return true;
}

/** Sizes and numbers are the caller's duty: a wrong one is our own mistake. */
export function assertSound(problem: AssignmentProblem): void {
  const n = problem.costs.length;
  const yarns = yarnCount(problem);
  const isColour = (i: number): boolean => Number.isInteger(i) && i >= 0 && i < n;
  problem.costs.forEach((row, i) => {
    assert(row.length === yarns, `costs[${i}]: expected ${yarns} yarns, got ${row.length}`);
    for (let k = 0; k < yarns; k++)
      assert(row[k]! > -Infinity, `costs[${i}][${k}]: expected a number or Infinity, got ${row[k]}`);
  });
  for (const { i, j, forbidden } of problem.clashes ?? []) {
    assert(isColour(i) && isColour(j) && i !== j, `clashes: expected two of ${n} colours, got ${i} and ${j}`);
    assert(
      forbidden.length === yarns * yarns,
      `clashes ${i},${j}: expected ${yarns * yarns} entries, got ${forbidden.length}`,
    );
  }
  for (const { i, j, cost } of problem.pairCosts ?? []) {
    assert(isColour(i) && isColour(j) && i !== j, `pairCosts: expected two of ${n} colours, got ${i} and ${j}`);
    assert(cost.length === yarns * yarns, `pairCosts ${i},${j}: expected ${yarns * yarns} entries, got ${cost.length}`);
    for (let at = 0; at < cost.length; at++)
      if (!(cost[at]! > -Infinity)) assert(false, `pairCosts ${i},${j}: expected numbers or Infinity, got ${cost[at]}`);
  }
  problem.quotas?.forEach(({ gains, least }, q) => {
    assert(Number.isFinite(least), `quotas[${q}].least: expected a number, got ${least}`);
    assert(gains.length === n, `quotas[${q}].gains: expected ${n} colours, got ${gains.length}`);
    for (const row of gains) {
      assert(row.length === yarns, `quotas[${q}].gains: expected ${yarns} yarns, got ${row.length}`);
      for (let k = 0; k < yarns; k++)
        assert(row[k]! >= 0 && row[k]! < Infinity, `quotas[${q}].gains: expected numbers of 0 or more, got ${row[k]}`);
    }
  });
  const { capacity, distinct } = problem;
  if (capacity) {
    assert(capacity.need.length === n, `capacity.need: expected ${n} entries, got ${capacity.need.length}`);
    assert(
      n === 0 || capacity.have.length === yarns,
      `capacity.have: expected ${yarns} entries, got ${capacity.have.length}`,
    );
    assert(
      capacity.need.every((need) => need >= 0),
      "capacity.need: expected numbers of 0 or more",
    );
    assert(
      capacity.have.every((have) => have >= 0),
      "capacity.have: expected numbers of 0 or more",
    );
  }
  if (typeof distinct !== "boolean") {
    for (const [i, j] of "except" in distinct ? distinct.except : distinct) {
      assert(isColour(i) && isColour(j), `distinct: expected two of ${n} colours, got ${i} and ${j}`);
    }
  }
}
