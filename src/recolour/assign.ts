/** Which yarn for which chart colour: the best of all, proven, or as near as time allows with the distance that may be left. */
import { seededRandom } from "../base/random.ts";
import {
  type AssignmentProblem,
  type AssignmentResult,
  assertSound,
  costOf,
  mustDiffer,
  yarnCount,
} from "./assignment.ts";
import { firstGuess } from "./firstGuess.ts";
import { type FamilyCache, familiesOf } from "./groups.ts";
import { irreducibleClash } from "./irreducible.ts";
import { hardMerger, type Net, netOf, restrict } from "./net.ts";
import { priced } from "./quotas.ts";
import { searchNet } from "./search.ts";
import { shiftCosts } from "./shiftCosts.ts";
import { type TableSums, twinsOf } from "./twins.ts";

export type {
  AssignmentProblem,
  AssignmentResult,
  Capacity,
  ClashPart,
  ColourPair,
  PairClash,
  PairCost,
  Quota,
} from "./assignment.ts";

/** The first limit is this share of the spread of costs above the bound; then it grows, and at last there is none. By trial. */
const FIRST_STEP = 0.1;
const STEP_GROWTH = 3;
const MOST_TRIALS = 4;

/** By trial: more rounds raise the bound by little. Entries: some tens of milliseconds. */
const SHIFT_ROUNDS = 30;
const MOST_SHIFTED_ENTRIES = 1e7;

/** Steps of local search without a better answer, before the exact search begins: some tens of milliseconds at 12 × 500. */
const GUESS_PATIENCE = 400;

/**
 * Chooses a yarn for every chart colour at the least total cost; see `AssignmentProblem` for what may be asked and
 * `AssignmentResult` for what is told. Deterministic but for `stop`. Costs are compared to about eleven digits.
 */
export function assignYarns(problem: AssignmentProblem): AssignmentResult {
  assertSound(problem);
  const stop = latched(problem.stop);
  const net = netOf(problem);
  const judge = judgeOf(problem);
  const answer = solve(net, problem, judge, stop);
  if (answer.assignment) {
    const proven = !answer.stopped;
    const bound = proven ? answer.cost : Math.min(answer.cost, answer.open);
    return {
      status: proven ? "optimal" : "feasible",
      cost: answer.cost,
      bound,
      gap: (answer.cost - bound) / Math.max(1, Math.abs(answer.cost)),
      assignment: answer.assignment,
      clash: null,
      irreducible: true,
    };
  }
  const none = { cost: Infinity, assignment: null };
  if (answer.stopped)
    return { ...none, status: "stopped", bound: answer.open, gap: Infinity, clash: null, irreducible: true };
  if (problem.explain === false)
    return { ...none, status: "infeasible", bound: Infinity, gap: 0, clash: [], irreducible: true };
  const { accept: _, ...plain } = problem;
  const known: Known = { merger: hardMerger(yarnCount(problem)), families: new Map(), sums: new Map() };
  const feasible = (question: AssignmentProblem): "yes" | "no" | "stopped" => {
    const found = findAny(question, stop, known);
    return found.assignment ? "yes" : found.stopped ? "stopped" : "no";
  };
  const clash =
    problem.accept && feasible(plain) === "yes" ? { parts: [], irreducible: true } : irreducibleClash(plain, feasible);
  return { ...none, status: "infeasible", bound: Infinity, gap: 0, clash: clash.parts, irreducible: clash.irreducible };
}

/**
 * The same problem with its costs moved between pairs and single colours, so that whatever is asked of it next, with more forbidden or
 * demanded, is answered sooner. What an assignment costs is the same, but for rounding; why nothing fits must be asked of the old one.
 */
export function tightened(problem: AssignmentProblem): AssignmentProblem {
  const net = netOf(problem);
  const tight = tighten(net, () => false);
  if (tight === net || net.n === 0) return problem;
  const { n, constant, unary, soft } = tight;
  return {
    ...problem,
    tight: true,
    costs: unary.map((row, i) => (i === 0 ? row.map((cost) => cost + constant) : row)),
    pairCosts: soft.flatMap((table, at) =>
      table ? [{ i: Math.floor(at / n), j: at % n, cost: Float64Array.from(table) }] : [],
    ),
  };
}

interface Solved {
  cost: number;
  assignment: number[] | null;
  open: number;
  stopped: boolean;
}

/**
 * Guess, bound, search. Without a good guess the search is first asked only for answers not far above the bound, then for dearer
 * ones: what is proven empty raises the bound, and a low limit strikes out most yarns at once.
 */
function solve(raw: Net, problem: AssignmentProblem, judge: Judge, stop: () => boolean): Solved {
  if (leastPossible(raw) === Infinity) return { cost: Infinity, assignment: null, open: Infinity, stopped: false };
  const net = raw.quotas.length > 0 ? priced(raw, problem.tight ? raw : tighten(raw, stop)) : raw;
  const floor = leastPossible(net);
  const known = problem.start ? judge([...problem.start], Infinity) : Infinity;
  const guess =
    stop() || known < Infinity
      ? null
      : firstGuess(net, { random: seededRandom(problem.seed ?? 1), stop, judge, patience: GUESS_PATIENCE });
  const best: Solved = {
    ...(guess && guess.cost < known
      ? guess
      : { cost: known, assignment: known < Infinity ? [...problem.start!] : null }),
    open: floor,
    stopped: true,
  };
  if (stop()) return best;
  const small = compact(net, best.cost, floor);
  const families = familiesOf(net, small);
  const twins = problem.accept ? null : twinsOf(net);
  const orders = { stop, judge, twins, families, want: "cheapest" } as const;
  const root = searchNet(small, { ...orders, below: best.cost, nodeLimit: 1 });
  if (!root.stopped) return { ...best, open: best.cost, stopped: false };
  const base = hasPairCosts(small) ? tighten(restrict(small, root.left), stop) : small;
  const again = base === small ? root : searchNet(base, { ...orders, below: best.cost, nodeLimit: 1 });
  if (!again.stopped) return { ...best, open: best.cost, stopped: false };
  best.open = Math.max(floor, root.open, again.open);
  let step = FIRST_STEP * spreadOf(base);
  for (let trial = 0; ; trial++) {
    const below = trial === MOST_TRIALS ? best.cost : Math.min(best.cost, best.open + step);
    const root = searchNet(base, { ...orders, below, nodeLimit: 1 });
    const tight = root.stopped ? tighten(restrict(base, root.left), stop) : null;
    const found = tight ? searchNet(tight, { ...orders, below, nodeLimit: Infinity }) : root;
    if (found.assignment) Object.assign(best, { cost: found.cost, assignment: found.assignment });
    best.open = Math.max(best.open, Math.min(found.open, below, best.cost));
    if (found.stopped) return best;
    if (found.assignment || below === best.cost) return { ...best, open: best.cost, stopped: false };
    step *= STEP_GROWTH;
  }
}

const hasPairCosts = (net: Net): boolean => net.soft.some((table) => table !== null);

/** Shifts costs where pairs have a price; where they only forbid, the stars see as much for less (in trials). */
function tighten(net: Net, stop: () => boolean): Net {
  if (!hasPairCosts(net)) return net;
  let entries = 0;
  for (let at = 0; at < net.hard.length; at++) entries += (net.hard[at] ?? net.soft[at])?.length ?? 0;
  return entries > MOST_SHIFTED_ENTRIES ? net : shiftCosts(net, SHIFT_ROUNDS, stop);
}

/** How far costs of one colour usually lie apart, summed over the colours: the measure of a first step. */
function spreadOf(net: Net): number {
  let spread = net.grain;
  for (const row of net.unary)
    spread += row.reduce((a, b) => a + b, 0) / row.length - row.reduce((a, b) => Math.min(a, b));
  return spread;
}

/** Every colour's cheapest yarn and nothing paid between: no assignment costs less. Infinity where a colour has no yarn. */
function leastPossible(net: Net): number {
  return net.unary.reduce(
    (sum, row) => sum + row.reduce((least, cost) => Math.min(least, cost), Infinity),
    net.constant,
  );
}

/** Leaves out the yarns that by their own cost alone cannot be in anything better than `below`. */
function compact(net: Net, below: number, floor: number): Net {
  return restrict(
    net,
    net.unary.map((row) => {
      const least = row.reduce((a, b) => Math.min(a, b), Infinity);
      return Int32Array.from(row.keys()).filter((a) => row[a]! < Infinity && floor + row[a]! - least < below);
    }),
  );
}

/** What many questions about the same tables have in common. */
interface Known {
  readonly merger: ReturnType<typeof hardMerger>;
  readonly families: FamilyCache;
  readonly sums: TableSums;
}

function findAny(
  problem: AssignmentProblem,
  stop: () => boolean,
  known: Known,
): { assignment: number[] | null; stopped: boolean } {
  const net = netOf(problem, known.merger);
  const judge = judgeOf(problem);
  const families = familiesOf(net, net, known.families);
  return searchNet(net, {
    below: Infinity,
    stop,
    judge,
    twins: problem.accept ? null : twinsOf(net, known.sums),
    families,
    want: "any",
    nodeLimit: Infinity,
  });
}

type Judge = (assignment: number[], below: number) => number;

function judgeOf(problem: AssignmentProblem): Judge {
  const differ = mustDiffer(problem);
  return (assignment, below) => {
    const cost = costOf(problem, assignment, differ);
    return cost < below && problem.accept && !problem.accept(assignment) ? Infinity : cost;
  };
}

/** Once it has said stop it stays stopped, and is not asked again. */
function latched(stop: (() => boolean) | undefined): () => boolean {
  let stopped = false;
  return () => (stopped ||= stop ? stop() : false);
}
