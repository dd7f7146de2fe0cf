/** The plain reference for the exact search: tries every assignment, so that the clever one has something to be equal to. */
import {
  type AssignmentProblem,
  type AssignmentResult,
  type ClashPart,
  assertSound,
  costOf,
  mustDiffer,
  yarnCount,
} from "./assignment.ts";
import { partsOf, withParts } from "./parts.ts";

/** The same question and answer as `assignYarns`, in K to the power of N steps: for small problems only. `stop` is not asked. */
export function assignExhaustively(problem: AssignmentProblem): AssignmentResult {
  assertSound(problem);
  const best = cheapest(problem);
  if (best) {
    return {
      status: "optimal",
      cost: best.cost,
      bound: best.cost,
      gap: 0,
      assignment: best.assignment,
      clash: null,
      irreducible: true,
    };
  }
  const clash = cheapest(withoutAccept(problem)) ? [] : shorten(withoutAccept(problem));
  return { status: "infeasible", cost: Infinity, bound: Infinity, gap: 0, assignment: null, clash, irreducible: true };
}

function cheapest(problem: AssignmentProblem): { cost: number; assignment: number[] } | null {
  const yarns = yarnCount(problem);
  const differ = mustDiffer(problem);
  const assignment: number[] = [];
  let best: { cost: number; assignment: number[] } | null = null;
  const choose = (): void => {
    if (assignment.length < problem.costs.length) {
      for (let k = 0; k < yarns; k++) {
        assignment.push(k);
        choose();
        assignment.pop();
      }
      return;
    }
    const cost = costOf(problem, assignment, differ);
    if (cost === Infinity || (best && cost >= best.cost)) return;
    if (problem.accept && !problem.accept(assignment)) return;
    best = { cost, assignment: [...assignment] };
  };
  choose();
  return best;
}

/** Leaves each part out once; what can be left out without making the problem feasible is left out for good. */
function shorten(problem: AssignmentProblem): ClashPart[] {
  let kept = partsOf(problem);
  for (const part of [...kept]) {
    const fewer = kept.filter((other) => other !== part);
    if (!cheapest(withParts(problem, fewer))) kept = fewer;
  }
  return kept;
}

function withoutAccept(problem: AssignmentProblem): AssignmentProblem {
  const { accept: _, ...rest } = problem;
  return rest;
}
