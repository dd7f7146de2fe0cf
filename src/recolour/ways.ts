/** Ways: the best colourway under a wish, and others nearly as good that really differ. */
import type { AssignmentProblem, Quota } from "./assign.ts";
import { clashOf, type Clash } from "./clash.ts";
import { prepare, type Search, type SearchInput } from "./prepare.ts";
import { bindingWishes, type Binding } from "./reasons.ts";
import { settle } from "./settle.ts";
import { shadesToTry } from "./shades.ts";
import { isOther } from "./terms.ts";
import { describe, type Way } from "./way.ts";

export type { Way } from "./way.ts";

export interface RecolourInput extends SearchInput {
  readonly onWay?: ((way: Way, index: number) => void) | undefined;
}

/** Ways asked for where the wish does not say. */
const USUAL_WAYS = 3;

/** A way is another one when at least this part of the fabric has another colour. Our choice: a quarter is seen at once. */
const REALLY_DIFFERS = 0.25;

/** Colourways that are put before the full audit to prove a later way. Our choice: less than a second. */
const LATER_PROOF = 400;

export interface WaysFound {
  /** The best first, then by score. */
  readonly ways: readonly Way[];
  /** Wishes without which the first way would be another. */
  readonly binds: readonly Binding[];
  readonly clash: Clash | null;
  /** Why there are fewer ways than were asked for. */
  readonly note: string | null;
}

export function waysUnder(input: RecolourInput): WaysFound {
  const plain = prepare(input);
  const search = input.wish.buy ? prepare(input, shadesToTry(plain.targets)) : plain;
  if (search.targets.length === 0) return { ways: [], binds: [], clash: null, note: null };
  const ways: Way[] = [];
  const found: number[][] = [];
  let bound = -Infinity;
  let exhausted = false;
  const wanted = input.wish.ways ?? USUAL_WAYS;
  while (ways.length < wanted && !(input.stop?.() && ways.length > 0)) {
    const problem = ways.length === 0 ? search.tight : apartFrom(search, found);
    const settled = settle(search, problem, ways.length === 0 ? {} : { most: LATER_PROOF });
    if (!settled.assignment) {
      if (ways.length === 0) return { ways, binds: [], clash: clashOf(search, settled), note: null };
      exhausted = settled.result.status === "infeasible";
      break;
    }
    if (ways.length > 0 && !settled.passes) break;
    // Out of time, the least bad is better than nothing; otherwise it is offered as what it is.
    if (!settled.passes && !input.stop?.()) return { ways, binds: [], clash: clashOf(search, settled), note: null };
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
    note: ways.length < wanted ? fewerText(ways.length, wanted, exhausted) : null,
  };
}

function fewerText(ways: number, wanted: number, exhausted: boolean): string {
  const asked = `${ways} of the ${wanted} ways asked for`;
  const differs = `${Math.round(100 * REALLY_DIFFERS)} % of the fabric`;
  return exhausted
    ? `${asked}: under these wishes nothing else differs from ${ways === 1 ? "it" : "them"} in ${differs}.`
    : `${asked}: none was found in time that differs from ${ways === 1 ? "it" : "them"} in ${differs} and that the checks let pass.`;
}

/** The same problem, in which each way found has to be differed from in enough of the fabric. */
function apartFrom({ tight, targets, labs }: Search, found: readonly (readonly number[])[]): AssignmentProblem {
  const apart = found.map((other): Quota => ({
    gains: targets.map(({ area }, i) => labs.map((lab) => (isOther(lab, labs[other[i]!]!) ? area : 0))),
    least: REALLY_DIFFERS,
  }));
  return { ...tight, quotas: [...(tight.quotas ?? []), ...apart] };
}
