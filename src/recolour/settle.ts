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

/** Colourways that are put before the full audit to prove that none of them is better. Our choice: about a second. */
const PROOF = 400;

/** What a check may still say: by default only what no choice of yarns mends. */
export type Tolerated = (finding: Finding) => boolean;

/** Floats that cannot be laid on are the pattern's own; no choice of yarn mends them. */
export const notChoosable: Tolerated = ({ id }) =>
  ["floats/", "alignment/", "echo/"].some((kind) => id.startsWith(kind));

/**
 * The cheapest assignment that the checks let pass. The costs and clashes of pairs hold nearly all of what is judged; where the
 * full audit still refuses the optimum, what it refused is forbidden and the search made again. That gives a good answer soon, but
 * what was forbidden on the way may have ruled out a better one; so then the audit is asked at every assignment that could be
 * better, as long as there are not too many of them.
 */
export function settle(
  search: Search,
  problem: AssignmentProblem = search.tight,
  { tolerated = notChoosable, most = PROOF }: { readonly tolerated?: Tolerated; readonly most?: number } = {},
): Settled {
  const against = (assignment: readonly number[]): Finding[] =>
    findingsIn(search, assignment, "without").filter((finding) => !tolerated(finding));
  const found = learn(search, problem, against);
  if (found.proven || !found.assignment) return found;
  let asked = 0;
  const exact = assignYarns({
    ...problem,
    explain: false,
    ...(found.passes ? { start: found.assignment } : {}),
    stop: () => asked >= most || (search.input.stop?.() ?? false),
    accept: (assignment) => {
      asked += 1;
      return against(assignment).length === 0;
    },
  });
  const bound = Math.max(found.bound, Math.min(exact.bound, Number.MAX_VALUE));
  if (!exact.assignment) return { ...found, bound, result: exact };
  return { assignment: exact.assignment, passes: true, proven: exact.status === "optimal", bound, result: exact };
}

function learn(
  search: Search,
  problem: AssignmentProblem,
  against: (assignment: readonly number[]) => Finding[],
): Settled {
  const learned = lessons(search, problem);
  let first: AssignmentResult | null = null;
  let least: { assignment: number[]; count: number } | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const result = assignYarns({ ...problem, ...learned.apply(), explain: false });
    first ??= result;
    if (!result.assignment) break;
    const findings = against(result.assignment);
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
  const bound = first?.bound ?? -Infinity;
  return { assignment: least?.assignment ?? null, passes: false, proven: false, bound, result: first! };
}

/** What an audit refuses, as clashes: a colour that takes over loses that yarn, two colours that do not part lose that pair. */
function lessons({ targets, yarns }: Search, problem: AssignmentProblem) {
  const banned = new Set<string>();
  const clashes: PairClash[] = [];
  const size = yarns.length;
  return {
    learn(findings: readonly Finding[], assignment: readonly number[]): boolean {
      const before = banned.size + clashes.length;
      for (const { where, id } of findings) {
        const concerned = (where.colours ?? []).flatMap((colour) =>
          targets.flatMap((target, i) => {
            const here = !where.yarns || where.yarns.includes(yarns[assignment[i]!]!.id);
            return target.colour === colour && here ? [i] : [];
          }),
        );
        const [i, j] = concerned;
        if (i === undefined) continue;
        if (id.startsWith("visualWeight/") || j === undefined) {
          const free = targets[i]!.pinned ? concerned.find((other) => !targets[other]!.pinned) : i;
          if (free !== undefined) banned.add(`${free}/${assignment[free]!}`);
          continue;
        }
        const forbidden = new Uint8Array(size * size);
        const [low, high] = [Math.min(i, j), Math.max(i, j)];
        forbidden[assignment[low]! * size + assignment[high]!] = 1;
        clashes.push({ i: low, j: high, forbidden });
      }
      return banned.size + clashes.length > before;
    },
    apply(): Pick<AssignmentProblem, "costs" | "clashes"> {
      return {
        costs: problem.costs.map((row, i) =>
          Float64Array.from(row, (cost, k) => (banned.has(`${i}/${k}`) ? Infinity : cost)),
        ),
        clashes: [...(problem.clashes ?? []), ...clashes],
      };
    },
  };
}
