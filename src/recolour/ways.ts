/** Ways: the best colourway under a wish, and others nearly as good that really differ. */
import { deltaE2000 } from "../colour/difference.ts";
import type { Change, OverStitch } from "../fabric/colourway.ts";
import type { Quota } from "./assign.ts";
import { becauseOf, nameOf } from "./because.ts";
import { clashOf, type Clash } from "./clash.ts";
import { contrastTerm } from "./demands.ts";
import { colourwayIn, findingsIn, prepare, type Search, type SearchInput } from "./prepare.ts";
import { importanceOf, placeTerms, shortfall, sumOfTerms, TERM_NAMES, type Terms } from "./score.ts";
import { settle, type Settled } from "./settle.ts";

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

/** Two yarns are another colour from this ΔE00 on. Our choice: plainly different side by side. */
const OTHER_COLOUR = 10;

/** Colourways that are put before the full audit to prove a later way. Our choice: some tenths of a second. */
const LATER_PROOF = 40;

export function waysUnder(input: RecolourInput): { ways: Way[]; clash: Clash | null } {
  const search = prepare(input);
  if (search.targets.length === 0) return { ways: [], clash: null };
  const ways: Way[] = [];
  const found: number[][] = [];
  let bound = -Infinity;
  const wanted = input.wish.ways ?? USUAL_WAYS;
  while (ways.length < wanted && !(input.stop?.() && ways.length > 0)) {
    const settled = ways.length === 0 ? settle(search) : nextWay(search, found);
    if (!settled.assignment) {
      if (ways.length === 0) return { ways, clash: clashOf(search.problem, settled.result, search) };
      break;
    }
    if (ways.length > 0 && !settled.passes) break;
    bound = Math.max(bound, settled.bound);
    found.push(settled.assignment);
    const way = describe(search, settled, found, bound);
    ways.push(way);
    input.onWay?.(way, ways.length - 1);
  }
  return { ways: [ways[0]!, ...ways.slice(1).sort((a, b) => a.score - b.score)], clash: null };
}

/** The best that differs from each way before it in enough of the fabric: each difference is a demand on the whole. */
function nextWay(search: Search, found: readonly (readonly number[])[]): Settled {
  const { problem, targets, labs } = search;
  const apart = found.map((other): Quota => ({
    gains: targets.map(({ area }, i) => labs.map((lab) => (isOther(lab, labs[other[i]!]!) ? area : 0))),
    least: REALLY_DIFFERS,
  }));
  const quotas = [...(problem.quotas ?? []), ...apart];
  return settle(search, { ...problem, quotas, explain: false }, { most: LATER_PROOF });
}

/** Costs are kept in single precision for pairs: nothing smaller is a gap. */
const PROVEN_GAP = 1e-5;

const isOther = (one: Search["labs"][number], other: Search["labs"][number]): boolean =>
  deltaE2000(one, other) >= OTHER_COLOUR;

/** Part of the fabric whose colour is plainly another. */
export function difference({ targets, labs }: Search, one: readonly number[], other: readonly number[]): number {
  return targets.reduce((sum, { area }, i) => sum + (isOther(labs[one[i]!]!, labs[other[i]!]!) ? area : 0), 0);
}

export function termsOf({ targets, labs, demands, taste }: Search, assignment: readonly number[]): Terms {
  const sum = { value: 0, contrast: 0, hue: 0, loudness: 0, showing: 0 };
  const count = targets.length;
  targets.forEach((target, i) => {
    const lab = labs[assignment[i]!]!;
    if (!target.pinned) {
      const terms = placeTerms(target, lab, taste);
      const importance = importanceOf(target.area, count);
      sum.value += importance * terms.value;
      sum.hue += importance * terms.hue;
      sum.loudness += importance * terms.loudness;
    }
    if (taste.ladder === "free") return;
    for (let j = i + 1; j < count; j++)
      sum.contrast +=
        count * demands.contacts[i * count + j]! * contrastTerm(targets, i, j, lab, labs[assignment[j]!]!);
  });
  for (const { i, j, V, was, weight } of demands.showings)
    sum.showing += count * weight * shortfall(V[assignment[i]! * labs.length + assignment[j]!]!, was);
  return sum;
}

function describe(
  search: Search,
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
    differs: difference(search, assignment, found[0]!),
    findings: findings.map(({ headline }) => headline),
  };
}
