/** Which yarn for which chart colour: the best of all, proven, or as near as time allows with the distance that may be left. */
import { seededRandom } from "../base/random.ts";
import { type AssignmentProblem, type AssignmentResult, assertSound, costOf, mustDiffer } from "./assignment.ts";
import { firstGuess } from "./firstGuess.ts";
import { irreducibleClash } from "./irreducible.ts";
import { type Net, netOf, restrict } from "./net.ts";
import { searchNet } from "./search.ts";

export type {
  AssignmentProblem,
  AssignmentResult,
  Capacity,
  ClashPart,
  ColourPair,
  PairClash,
  PairCost,
} from "./assignment.ts";

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
  const { accept: _, ...plain } = problem;
  const feasible = (question: AssignmentProblem): "yes" | "no" | "stopped" => {
    const found = findAny(question, stop);
    return found.assignment ? "yes" : found.stopped ? "stopped" : "no";
  };
  const clash =
    problem.accept && feasible(plain) === "yes" ? { parts: [], irreducible: true } : irreducibleClash(plain, feasible);
  return { ...none, status: "infeasible", bound: Infinity, gap: 0, clash: clash.parts, irreducible: clash.irreducible };
}

interface Solved {
  cost: number;
  assignment: number[] | null;
  open: number;
  stopped: boolean;
}

function solve(net: Net, problem: AssignmentProblem, judge: Judge, stop: () => boolean): Solved {
  const floor = leastPossible(net);
  if (floor === Infinity) return { cost: Infinity, assignment: null, open: Infinity, stopped: false };
  const guess = stop()
    ? null
    : firstGuess(net, { random: seededRandom(problem.seed ?? 1), stop, judge, patience: GUESS_PATIENCE });
  if (stop())
    return { cost: guess?.cost ?? Infinity, assignment: guess?.assignment ?? null, open: floor, stopped: true };
  const below = guess?.cost ?? Infinity;
  const found = searchNet(compact(net, below, floor), { below, stop, judge, twins: null, firstOnly: false });
  const best = found.assignment ? found : guess;
  return {
    cost: best?.cost ?? Infinity,
    assignment: best?.assignment ?? null,
    open: found.open,
    stopped: found.stopped,
  };
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

function findAny(problem: AssignmentProblem, stop: () => boolean): { assignment: number[] | null; stopped: boolean } {
  const net = netOf(problem);
  const judge = judgeOf(problem);
  return searchNet(net, { below: Infinity, stop, judge, twins: null, firstOnly: true });
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
