/** Ways: the best colourway under a wish, and others nearly as good that really differ. */
import type { Change, OverStitch } from "../fabric/colourway.ts";
import type { AssignmentProblem, Quota } from "./assign.ts";
import { becauseOf, nameOf } from "./because.ts";
import { clashOf, type Clash } from "./clash.ts";
import { colourwayIn, findingsIn, prepare, type Search, type SearchInput } from "./prepare.ts";
import { bindingWishes, placeReasons, type Binding, type PlaceReason } from "./reasons.ts";
import { sumOfTerms, TERM_NAMES, type Terms } from "./score.ts";
import { settle, type Settled } from "./settle.ts";
import { difference, isOther, termsOf } from "./terms.ts";

export interface Way {
  readonly name: string;
  readonly yarns: Record<string, string>;
  readonly changes: readonly Change[];
  readonly overStitched: readonly OverStitch[];
  /** Sum of the terms, weighted: lower is more like what was wished for; in steps of L*. */
  readonly score: number;
  readonly terms: Terms;
  /** What each term brings to the score: `terms` times the weights of this wish. */
  readonly weighted: Terms;
  readonly weights: Terms;
  /** No colourway under this wish, that differs so from the ways before it, has a lower score. */
  readonly bound: number;
  /** (score − bound) / max(1, score). */
  readonly gap: number;
  /** It passes the checks and is the best that does under this wish, beside the ways before it. */
  readonly proven: boolean;
  readonly because: readonly string[];
  /** Every chart colour: why this yarn, and the next best. */
  readonly places: readonly PlaceReason[];
  /** Part of the fabric whose colour is not that of the first way. */
  readonly differs: number;
  /** What an audit would still say of it, at doubt or worse. */
  readonly findings: readonly string[];
}
export interface RecolourInput extends SearchInput {
  readonly onWay?: ((way: Way, index: number) => void) | undefined;
}

/** Ways asked for where the wish does not say. */
const USUAL_WAYS = 3;

/** A way is another one when at least this part of the fabric has another colour. Our choice: a quarter is seen at once. */
const REALLY_DIFFERS = 0.25;

/** Colourways that are put before the full audit to prove a later way. Our choice: some tenths of a second. */
const LATER_PROOF = 40;

export interface WaysFound {
  /** The best first, then by score. */
  readonly ways: readonly Way[];
  /** Wishes without which the first way would be another. */
  readonly binds: readonly Binding[];
  readonly clash: Clash | null;
}

export function waysUnder(input: RecolourInput): WaysFound {
  const search = prepare(input);
  if (search.targets.length === 0) return { ways: [], binds: [], clash: null };
  const ways: Way[] = [];
  const found: number[][] = [];
  let bound = -Infinity;
  const wanted = input.wish.ways ?? USUAL_WAYS;
  while (ways.length < wanted && !(input.stop?.() && ways.length > 0)) {
    const problem = ways.length === 0 ? search.tight : apartFrom(search, found);
    const settled = settle(search, problem, ways.length === 0 ? {} : { most: LATER_PROOF });
    if (!settled.assignment) {
      if (ways.length === 0) return { ways, binds: [], clash: clashOf(search, settled.result) };
      break;
    }
    if (ways.length > 0 && !settled.passes) break;
    bound = Math.max(bound, settled.bound);
    found.push(settled.assignment);
    const way = describe(search, problem, settled, found, bound);
    ways.push(way);
    input.onWay?.(way, ways.length - 1);
  }
  return {
    ways: [ways[0]!, ...ways.slice(1).sort((a, b) => a.score - b.score)],
    binds: bindingWishes(search, found[0]!),
    clash: null,
  };
}

/** The same problem, in which each way found has to be differed from in enough of the fabric. */
function apartFrom({ tight, targets, labs }: Search, found: readonly (readonly number[])[]): AssignmentProblem {
  const apart = found.map((other): Quota => ({
    gains: targets.map(({ area }, i) => labs.map((lab) => (isOther(lab, labs[other[i]!]!) ? area : 0))),
    least: REALLY_DIFFERS,
  }));
  return { ...tight, quotas: [...(tight.quotas ?? []), ...apart] };
}

/** Costs are kept in single precision for pairs: nothing smaller is a gap. */
const PROVEN_GAP = 1e-5;

function describe(
  search: Search,
  problem: AssignmentProblem,
  { assignment: settled, passes }: Settled,
  found: readonly (readonly number[])[],
  bound: number,
): Way {
  const assignment = settled!;
  const colourway = colourwayIn(search, assignment);
  const terms = termsOf(search, assignment);
  const { weights } = search;
  const score = sumOfTerms(terms, weights);
  const findings = findingsIn(search, assignment, "with");
  const gap = Math.max(0, score - bound) / Math.max(1, score);
  return {
    name: nameOf(search, assignment, found.slice(0, -1)),
    yarns: colourway.yarns,
    changes: colourway.changes ?? [],
    overStitched: colourway.overStitched ?? [],
    score,
    terms,
    weighted: Object.fromEntries(TERM_NAMES.map((term) => [term, weights[term] * terms[term]])) as unknown as Terms,
    weights,
    bound: Math.min(bound, score),
    gap,
    proven: passes && gap < PROVEN_GAP,
    because: becauseOf(search, assignment, findings),
    places: placeReasons(search, problem, assignment),
    differs: difference(search, assignment, found[0]!),
    findings: findings.map(({ headline }) => headline),
  };
}
