/** A problem taken apart into what can be lifted by itself, and put together again from some of it: the ground of every "why not". */
import { type AssignmentProblem, type ClashPart, type ColourPair, mustDiffer, yarnCount } from "./assignment.ts";

/** Everything in the problem that can stand in the way: allowed lists, forbidden pairs, distinct pairs, needs, quotas. */
export function partsOf(problem: AssignmentProblem): ClashPart[] {
  const n = problem.costs.length;
  const parts: ClashPart[] = [];
  problem.costs.forEach((row, i) => {
    if (Array.from(row).includes(Infinity)) parts.push({ kind: "yarn", i });
  });
  const pairs = new Set<number>();
  const addPair = (i: number, j: number): void => {
    pairs.add(Math.min(i, j) * n + Math.max(i, j));
  };
  for (const { i, j, forbidden } of problem.clashes ?? []) if (forbidden.some((entry) => entry !== 0)) addPair(i, j);
  for (const { i, j, cost } of problem.pairCosts ?? []) if (cost.includes(Infinity)) addPair(i, j);
  for (const pair of [...pairs].sort((a, b) => a - b))
    parts.push({ kind: "pair", i: Math.floor(pair / n), j: pair % n });
  const differ = mustDiffer(problem);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) if (differ[i * n + j]) parts.push({ kind: "distinct", i, j });
  }
  problem.capacity?.need.forEach((need, i) => {
    if (need > 0) parts.push({ kind: "capacity", i });
  });
  problem.quotas?.forEach(({ least }, i) => {
    if (least > 0) parts.push({ kind: "quota", i });
  });
  return parts;
}

/** The problem with only these parts in force, and every finite cost set to 0: it asks "is there any?", not "which is best?". */
export function withParts(problem: AssignmentProblem, parts: readonly ClashPart[]): AssignmentProblem {
  const n = problem.costs.length;
  const keys = new Set(parts.map(partKey));
  const holds = (kind: ClashPart["kind"], i: number, j?: number): boolean =>
    keys.has(partKey(j === undefined ? { kind, i } : { kind, i: Math.min(i, j), j: Math.max(i, j) }));
  const allowed = Array.from({ length: yarnCount(problem) }, () => 0);
  const costs = problem.costs.map((row, i) =>
    holds("yarn", i) ? Array.from(row, (cost) => (cost === Infinity ? Infinity : 0)) : allowed,
  );
  const clashes = (problem.clashes ?? []).filter(({ i, j }) => holds("pair", i, j));
  const pairCosts = (problem.pairCosts ?? [])
    .filter(({ i, j, cost }) => holds("pair", i, j) && cost.includes(Infinity))
    .map(({ i, j, cost }) => ({ i, j, cost: cost.map((value) => (value === Infinity ? Infinity : 0)) }));
  const except: ColourPair[] = [];
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) if (!holds("distinct", i, j)) except.push([i, j]);
  const { capacity, accept, stop } = problem;
  return {
    costs,
    clashes,
    pairCosts,
    distinct: { except },
    quotas: (problem.quotas ?? []).filter((_, i) => holds("quota", i)),
    ...(capacity && {
      capacity: { have: capacity.have, need: capacity.need.map((need, i) => (holds("capacity", i) ? need : 0)) },
    }),
    ...(accept && { accept }),
    ...(stop && { stop }),
  };
}

const partKey = ({ kind, i, j }: ClashPart): string => `${kind} ${i} ${j ?? ""}`;
