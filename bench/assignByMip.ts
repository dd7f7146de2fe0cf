/** The assignment problem as a mixed-integer program for the general solver HiGHS: the independent oracle, and the peer to be timed against. */
import highsLoader from "highs";
import { type AssignmentProblem, mustDiffer, yarnCount } from "../src/recolour/assignment.ts";

export interface MipAnswer {
  readonly status: string;
  readonly cost: number;
  readonly milliseconds: number;
}

/**
 * x(i,k) = 1 where colour i takes yarn k; each colour takes one; each yarn goes to at most one of colours that must differ.
 * Clashes by row: x(i,k) + the sum of all x(j,l) that k forbids ≤ 1, far tighter than a row for every forbidden pair of yarns.
 * Pair costs by y(i,k,j,l) with both marginals (the first level of reformulation and linearisation, Adams and Sherali 1986).
 * Time is that of the solver alone, with its reading of the text.
 */
export async function solveByMip(problem: AssignmentProblem, seconds: number): Promise<MipAnswer> {
  const program = programOf(problem);
  const highs = await highsLoader();
  const start = performance.now();
  const answer = highs.solve(program, { time_limit: seconds, mip_rel_gap: 0, mip_abs_gap: 1e-9, threads: 1 });
  const milliseconds = performance.now() - start;
  const found = answer.Status === "Optimal" || Number.isFinite(answer.ObjectiveValue);
  return { status: answer.Status, cost: found ? answer.ObjectiveValue : Infinity, milliseconds };
}

function programOf(problem: AssignmentProblem): string {
  const n = problem.costs.length;
  const yarns = yarnCount(problem);
  const allowed = (i: number, k: number): boolean => problem.costs[i]![k]! < Infinity;
  const x = (i: number, k: number): string => `x${i}_${k}`;
  const objective: string[] = [];
  const rows: string[] = [];
  const binaries: string[] = [];
  for (let i = 0; i < n; i++) {
    const own = [...Array(yarns).keys()].filter((k) => allowed(i, k));
    for (const k of own) {
      objective.push(term(problem.costs[i]![k]!, x(i, k)));
      binaries.push(x(i, k));
    }
    rows.push(`${own.map((k) => x(i, k)).join(" + ")} = 1`);
  }
  const differ = mustDiffer(problem);
  const allDiffer = differ.every((one, at) => one === 1 || at % (n + 1) === 0);
  for (let k = 0; k < yarns; k++) {
    const takers = [...Array(n).keys()].filter((i) => allowed(i, k));
    if (allDiffer && takers.length > 1) rows.push(`${takers.map((i) => x(i, k)).join(" + ")} <= 1`);
    if (!allDiffer) {
      for (const i of takers)
        for (const j of takers) if (i < j && differ[i * n + j]) rows.push(`${x(i, k)} + ${x(j, k)} <= 1`);
    }
    const { capacity } = problem;
    if (capacity && takers.length)
      rows.push(`${takers.map((i) => term(capacity.need[i]!, x(i, k))).join(" ")} <= ${capacity.have[k]!}`);
  }
  for (const { i, j, forbidden } of problem.clashes ?? []) {
    for (let k = 0; k < yarns; k++) {
      if (!allowed(i, k)) continue;
      const others: string[] = [];
      for (let l = 0; l < yarns; l++) if (forbidden[k * yarns + l] && allowed(j, l)) others.push(x(j, l));
      if (others.length) rows.push(`${x(i, k)} + ${others.join(" + ")} <= 1`);
    }
  }
  for (const { gains, least } of problem.quotas ?? []) {
    const terms = gains.flatMap((row, i) =>
      Array.from(row).flatMap((gain, k) => (gain > 0 && allowed(i, k) ? [term(gain, x(i, k))] : [])),
    );
    if (terms.length) rows.push(`${terms.join(" ")} >= ${least}`);
  }
  (problem.pairCosts ?? []).forEach(({ i, j, cost }, at) => {
    const y = (k: number, l: number): string => `y${at}_${k}_${l}`;
    const open = (k: number, l: number): boolean => allowed(i, k) && allowed(j, l) && cost[k * yarns + l]! < Infinity;
    for (let k = 0; k < yarns; k++) {
      const row: string[] = [];
      const column: string[] = [];
      for (let l = 0; l < yarns; l++) {
        if (open(k, l)) {
          objective.push(term(cost[k * yarns + l]!, y(k, l)));
          row.push(y(k, l));
        }
        if (open(l, k)) column.push(y(l, k));
      }
      if (allowed(i, k)) rows.push(`${[...row, `- ${x(i, k)}`].join(" + ").replace("+ -", "-")} = 0`);
      if (allowed(j, k)) rows.push(`${[...column, `- ${x(j, k)}`].join(" + ").replace("+ -", "-")} = 0`);
    }
  });
  return ["Minimize", ` obj: ${objective.join(" ")}`, "Subject To", ...rows.map((row, at) => ` r${at}: ${row}`), "Binary", ` ${binaries.join(" ")}`, "End"].join("\n"); // prettier-ignore
}

const term = (factor: number, name: string): string => `${factor < 0 ? "-" : "+"} ${Math.abs(factor)} ${name}`;
