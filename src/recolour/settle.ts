/** Settling a search: the cheapest assignment that the full audit lets pass, and how well that is proven. */
import type { Finding } from "../audit/finding.ts";
import { assignYarns, type AssignmentProblem, type AssignmentResult } from "./assign.ts";
import type { PairClash } from "./assignment.ts";
import { findingsIn, type Search } from "./prepare.ts";

/** What a search came to: an assignment that passes the checks, or the one with least to say against it. */
export interface Settled {
  readonly assignment: number[] | null;
  /** The checks find nothing in it that another yarn could mend. */
  readonly passes: boolean;
  /** Proven to be the best under its costs. */
  readonly proven: boolean;
  /** No assignment that passes has lower costs. */
  readonly bound: number;
  readonly result: AssignmentResult;
}

/** Rounds of learning before the least bad is taken; each forbids at least one pair or yarn. Our choice. */
const ROUNDS = 80;

/**
 * The cheapest assignment that the checks let pass. The costs and clashes of pairs hold nearly all of what is judged; where the
 * full audit still refuses the optimum, what it refused is forbidden and the search made again. The first optimum stays a
 * sound bound; what was forbidden on the way may have ruled out a better one, so only a first optimum that passes is proven.
 */
export function settle(search: Search, costs: readonly Float64Array[]): Settled {
  const learned = lessons(search);
  let first: AssignmentResult | null = null;
  let least: { assignment: number[]; count: number } | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const result = assignYarns({ ...search.problem, ...learned.apply(costs) });
    first ??= result;
    if (!result.assignment) break;
    const findings = findingsIn(search, result.assignment, "without").filter(choosable);
    if (findings.length === 0)
      return {
        assignment: result.assignment,
        passes: true,
        proven: round === 0 && result.status === "optimal",
        bound: first.bound,
        result,
      };
    if (!least || findings.length < least.count) least = { assignment: result.assignment, count: findings.length };
    if (search.input.stop?.() || !learned.learn(findings, result.assignment)) break;
  }
  return {
    assignment: least?.assignment ?? null,
    passes: false,
    proven: false,
    bound: first?.bound ?? -Infinity,
    result: first!,
  };
}

/** Colourways that are put before the full audit to prove that none of them is better. Our choice: some seconds. */
const PROOF = 120;

/** The same with the audit asked at every colourway that could be better, as long as there are not too many of them. */
export function proved(search: Search, settled: Settled): Settled {
  if (settled.proven || !settled.assignment) return settled;
  let asked = 0;
  const exact = assignYarns({
    ...search.problem,
    stop: () => asked >= PROOF || (search.input.stop?.() ?? false),
    accept: (assignment) => {
      asked += 1;
      return !findingsIn(search, assignment, "without").some(choosable);
    },
  });
  if (exact.status === "optimal")
    return { assignment: exact.assignment, passes: true, proven: true, bound: exact.bound, result: exact };
  return { ...settled, bound: Math.max(settled.bound, Math.min(exact.bound, Number.MAX_VALUE)) };
}

/** What an audit refuses, as clashes: a colour that takes over loses that yarn, two colours that do not part lose that pair. */
function lessons({ colours, yarns, problem }: Search) {
  const yarnIndex = new Map(yarns.map(({ id }, index) => [id, index]));
  const banned = new Set<string>();
  const clashes: PairClash[] = [];
  const size = yarns.length;
  return {
    learn(findings: readonly Finding[], assignment: readonly number[]): boolean {
      const before = banned.size + clashes.length;
      for (const { where, id } of findings) {
        const places = (where.colours ?? []).map((colour) => colours.indexOf(colour)).filter((i) => i >= 0);
        const [i, j] = places;
        if (i === undefined) continue;
        if (id.startsWith("visualWeight/") || j === undefined) {
          banned.add(`${i}/${yarnIndex.get(where.yarns?.[0] ?? "") ?? assignment[i]!}`);
          continue;
        }
        const forbidden = new Uint8Array(size * size);
        const [low, high] = [Math.min(i, j), Math.max(i, j)];
        forbidden[assignment[low]! * size + assignment[high]!] = 1;
        clashes.push({ i: low, j: high, forbidden });
      }
      return banned.size + clashes.length > before;
    },
    apply(costs: readonly Float64Array[]): Pick<AssignmentProblem, "costs" | "clashes"> {
      return {
        costs: costs.map((row, i) => row.map((cost, k) => (banned.has(`${i}/${k}`) ? Infinity : cost))),
        clashes: [...(problem.clashes ?? []), ...clashes],
      };
    },
  };
}

/** Floats that cannot be laid on are the pattern's own; no choice of yarn mends them. */
const choosable = (finding: Finding): boolean => !finding.id.startsWith("floats/");
