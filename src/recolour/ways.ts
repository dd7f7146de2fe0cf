/** Ways: the best colourway under a wish, and others nearly as good that really differ. */
import { deltaE2000 } from "../colour/difference.ts";
import type { Change, OverStitch } from "../fabric/colourway.ts";
import { becauseOf, nameOf } from "./because.ts";
import { clashOf, type Clash } from "./clash.ts";
import { contrastTerm } from "./demands.ts";
import { colourwayIn, findingsIn, prepare, type Search, type SearchInput } from "./prepare.ts";
import { importanceOf, placeTerms, sumOfTerms, type Terms } from "./score.ts";
import { proved, settle, type Settled } from "./settle.ts";

export interface Way {
  readonly name: string;
  readonly yarns: Record<string, string>;
  readonly changes: readonly Change[];
  readonly overStitched: readonly OverStitch[];
  /** Sum of the terms: lower is more like what was wished for; in steps of L*. */
  readonly score: number;
  readonly terms: Terms;
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

export function waysUnder(input: RecolourInput): { ways: Way[]; clash: Clash | null } {
  const search = prepare(input);
  if (search.targets.length === 0) return { ways: [], clash: null };
  const ways: Way[] = [];
  const found: number[][] = [];
  let bound = -Infinity;
  const wanted = input.wish.ways ?? USUAL_WAYS;
  while (ways.length < wanted && !(input.stop?.() && ways.length > 0)) {
    const settled = ways.length === 0 ? proved(search, settle(search, search.costs)) : nextWay(search, found);
    if (!settled?.assignment) {
      if (ways.length === 0) return { ways, clash: clashOf(search.problem, settled?.result ?? null, search) };
      break;
    }
    bound = Math.max(bound, settled.bound);
    found.push(settled.assignment);
    const way = describe(search, settled, found, bound);
    ways.push(way);
    input.onWay?.(way, ways.length - 1);
  }
  return { ways: [ways[0]!, ...ways.slice(1).sort((a, b) => a.score - b.score)], clash: null };
}
/**
 * What sameness with an earlier way costs over the whole fabric, in the score's own unit: it starts here and grows by this factor
 * for each earlier way that is still too like, so that a way is pushed no farther from the best than it must be. Our choice.
 */
const PUSH = { start: 6, growth: 1.35, rounds: 24 } as const;

function nextWay(search: Search, found: readonly (readonly number[])[]): Settled | null {
  const { targets, labs } = search;
  const pushes = found.map((): number => PUSH.start);
  let bound = -Infinity;
  for (let round = 0; round < PUSH.rounds; round++) {
    if (search.input.stop?.()) return null;
    const costs = search.costs.map((row, i) =>
      row.map((cost, k) =>
        found.reduce(
          (sum, other, way) =>
            sum + (deltaE2000(labs[k]!, labs[other[i]!]!) < OTHER_COLOUR ? pushes[way]! * targets[i]!.area : 0),
          cost,
        ),
      ),
    );
    const settled = settle(search, costs);
    const { assignment } = settled;
    if (!assignment) return null;
    // Lagrange: whatever sameness costs, the optimum less what is allowed of it lies at or below the best way that differs.
    const allowed = pushes.reduce((sum, push) => sum + push * (1 - REALLY_DIFFERS), 0);
    bound = Math.max(bound, settled.bound - allowed);
    const like = found.map((other) => difference(search, assignment, other) < REALLY_DIFFERS);
    if (!like.includes(true)) return settled.passes ? { ...settled, bound } : null;
    like.forEach((still, way) => {
      if (still) pushes[way]! *= PUSH.growth;
    });
  }
  return null;
}

/** Costs are kept in single precision for pairs: nothing smaller is a gap. */
const PROVEN_GAP = 1e-5;

/** Part of the fabric whose colour is plainly another. */
export function difference({ targets, labs }: Search, one: readonly number[], other: readonly number[]): number {
  return targets.reduce(
    (sum, { area }, i) => sum + (deltaE2000(labs[one[i]!]!, labs[other[i]!]!) >= OTHER_COLOUR ? area : 0),
    0,
  );
}

export function termsOf({ targets, labs, demands, ladder }: Search, assignment: readonly number[]): Terms {
  const sum = { value: 0, contrast: 0, hue: 0, loudness: 0 };
  const count = targets.length;
  targets.forEach((target, i) => {
    const lab = labs[assignment[i]!]!;
    const terms = placeTerms(target, lab, ladder);
    const importance = importanceOf(target.area, count);
    sum.value += importance * terms.value;
    sum.hue += importance * terms.hue;
    sum.loudness += importance * (Number.isFinite(terms.loudness) ? terms.loudness : 0);
    if (ladder === "free") return;
    for (let j = i + 1; j < count; j++)
      sum.contrast +=
        count * demands.contacts[i * count + j]! * contrastTerm(targets, i, j, lab, labs[assignment[j]!]!);
  });
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
  const score = sumOfTerms(terms);
  const findings = findingsIn(search, assignment, "with");
  const gap = Math.max(0, score - bound) / Math.max(1, score);
  return {
    name: nameOf(search, assignment, found.slice(0, -1)),
    yarns: colourway.yarns,
    changes: colourway.changes ?? [],
    overStitched: colourway.overStitched ?? [],
    score,
    terms,
    bound: Math.min(bound, score),
    gap,
    proven: passes && gap < PROVEN_GAP,
    because: becauseOf(search, assignment, findings),
    differs: difference(search, assignment, found[0]!),
    findings: findings.map(({ headline }) => headline),
  };
}
