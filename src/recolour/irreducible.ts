/** Why nothing fits: shortens everything that stands in the way to a list of which no part can be left out. */
import type { AssignmentProblem, ClashPart } from "./assignment.ts";
import { partsOf, withParts } from "./parts.ts";

/** "yes": it has an answer; "no": proven that it has none; "stopped": not known. */
export type Feasible = (problem: AssignmentProblem) => "yes" | "no" | "stopped";

/**
 * Deletion filter (Chinneck and Dravnieks 1991): leave out, ask whether there is an answer now, put back if there is.
 * Whole colours are tried first, then single parts; the single pass at the end is what makes the list irreducible.
 */
export function irreducibleClash(
  problem: AssignmentProblem,
  feasible: Feasible,
): { parts: ClashPart[]; irreducible: boolean } {
  problem = withClashesOnly(problem);
  let kept = partsOf(problem);
  const leaveOut = (isOut: (part: ClashPart) => boolean): boolean => {
    const fewer = kept.filter((part) => !isOut(part));
    if (fewer.length === kept.length) return true;
    const answer = feasible(withParts(problem, fewer));
    if (answer === "no") kept = fewer;
    return answer !== "stopped";
  };
  for (let i = 0; i < problem.costs.length; i++) {
    if (!leaveOut((part) => part.kind !== "quota" && (part.i === i || part.j === i)))
      return { parts: kept, irreducible: false };
  }
  for (const part of [...kept]) {
    if (!leaveOut((other) => other === part)) return { parts: kept, irreducible: false };
  }
  return { parts: kept, irreducible: true };
}

/** Forbidden entries of pair costs as clashes: the same answer to "is there any?", and tables that stay the same arrays throughout. */
function withClashesOnly(problem: AssignmentProblem): AssignmentProblem {
  const { pairCosts = [], clashes = [], ...rest } = problem;
  const more = pairCosts
    .filter(({ cost }) => cost.includes(Infinity))
    .map(({ i, j, cost }) => ({ i, j, forbidden: Uint8Array.from(cost, (value) => (value === Infinity ? 1 : 0)) }));
  return { ...rest, clashes: [...clashes, ...more] };
}
