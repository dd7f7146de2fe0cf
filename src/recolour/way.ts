/** A way: a colourway that is offered, with its score, how sure it is to be the best, and why it is what it is. */
import type { Change, OverStitch } from "../fabric/colourway.ts";
import type { AssignmentProblem } from "./assign.ts";
import { becauseOf, nameOf } from "./because.ts";
import { colourwayIn, findingsIn, type Search } from "./prepare.ts";
import { placeReasons, type PlaceReason } from "./reasons.ts";
import { sumOfTerms, TERM_NAMES, type Terms } from "./score.ts";
import type { Settled } from "./settle.ts";
import { shadesIn, type ShadeToFind } from "./shades.ts";
import { surenessOf, type Sureness } from "./sureness.ts";
import { difference, termsOf } from "./terms.ts";
import type { Wish } from "./wish.ts";

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
  /** Shades that she would have to find for it; what stands for them is no yarn. */
  readonly toFind: readonly ShadeToFind[];
  /** Part of the fabric whose colour is not that of the first way. */
  readonly differs: number;
  /** What an audit would still say of it, at doubt or worse. */
  readonly findings: readonly string[];
  /** What becomes of it if her shades are off. */
  readonly sure: Sureness;
  /** What it was found under: kept with it, so that a check knows what she wants. */
  readonly wish: Wish;
}

/** Costs are kept in single precision for pairs: nothing smaller is a gap. */
const PROVEN_GAP = 1e-5;

/** A settled assignment as what she is offered. `found` are the ways before it and itself. */
export function describe(
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
    toFind: shadesIn(search, assignment),
    differs: difference(search, assignment, found[0]!),
    findings: findings.map(({ headline }) => headline),
    sure: surenessOf(search, assignment),
    wish: search.input.wish,
  };
}
