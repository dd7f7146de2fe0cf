/** A search made ready: what a pattern, a wish and a stash come to as a problem for the solver, and what an answer is put back into. */
import type { Supply } from "../audit/context.ts";
import { audit, atLeast } from "../audit/audit.ts";
import type { Finding, Mend } from "../audit/finding.ts";
import { contextOf, type JudgeMemory } from "../audit/judge.ts";
import type { YarnNeeds } from "../audit/mends.ts";
import type { Lab } from "../colour/lab.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Doubt, Viewing } from "../fabric/contrast.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { isOwned } from "../yarn/owned.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { tightened, type AssignmentProblem, type Quota } from "./assign.ts";
import { demandsOf, type Demands } from "./demands.ts";
import { dress } from "./dress.ts";
import { structureOf, targetsOf, type Structure } from "./places.ts";
import { weightsOf, type Target, type Taste, type Terms } from "./score.ts";
import { largestLotShare, partedYarns } from "./together.ts";
import { withWantedBands } from "./wantedBands.ts";
import type { Wish } from "./wish.ts";

export interface SearchInput {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  /** What it does by place is kept, in whatever yarns. */
  readonly colourway: Colourway;
  readonly wish: Wish;
  readonly viewing: Viewing;
  /** Her threshold; nothing known of it where missing. */
  readonly doubt?: Doubt | undefined;
  readonly needs: YarnNeeds;
  /** Metres with reserve of every yarn of a structure, where places have yarns of their own; `needs.ofColour` where missing. */
  readonly needsFor?: ((structure: Colourway, own: readonly Yarn[]) => ReadonlyMap<string, number>) | undefined;
  readonly memory: JudgeMemory;
  /** `yarns`: hers, and the shades to look for that stand beside them. */
  readonly suppliesFor: (colourway: Colourway, yarns: readonly Yarn[]) => readonly Supply[];
  readonly stop?: (() => boolean) | undefined;
}

/** A search made ready: the pattern as wished, its demands and the problem that the solver is given. */
export interface Search {
  readonly input: SearchInput;
  readonly pattern: Pattern;
  /** Yarns that may be chosen, shades to look for last. */
  readonly yarns: readonly Yarn[];
  /** So many of them are hers. */
  readonly owned: number;
  readonly labs: readonly Lab[];
  readonly targets: readonly Target[];
  readonly demands: Demands;
  readonly problem: AssignmentProblem;
  /** The same, made ready for many questions. */
  readonly tight: AssignmentProblem;
  /** Yarns that do not go together, as one of the problem's forbidden tables; null where all do. */
  readonly parted: Uint8Array | null;
  /** What each quota of the problem is about, in its order. */
  readonly quotaOf: readonly WholeWish[];
  readonly costs: readonly Float64Array[];
  readonly taste: Taste;
  readonly weights: Terms;
  readonly structure: Colourway;
  /** The structure as measured. */
  readonly charts: Structure["charts"];
  readonly pins: Structure["pins"];
  readonly laid: readonly Mend[];
  /** The chart colours among the targets; they come first. */
  readonly colours: readonly string[];
  /** What audits found, by assignment. */
  readonly audited: Map<string, readonly Finding[]>;
}

/** A wish that is about the colourway as a whole. */
export type WholeWish =
  { readonly kind: "use"; readonly yarn: string } | { readonly kind: "buy"; readonly most: number };

/** What a place in a bought shade costs besides, in steps of L*: a shade is bought for something that is seen. Our choice. */
const BUYING_COSTS = 5;

/** @param shades colours that she does not own and could look for, beside her yarns */
export function prepare(input: SearchInput, shades: readonly Yarn[] = []): Search {
  const { wish, memory, viewing, doubt } = input;
  const pattern = withWantedBands(input.pattern, wish);
  const placed = structureOf(input, pattern);
  const { structure, pins, laid, charts } = placed;
  const { targets, ids, colours } = targetsOf(input, pattern, placed);
  const allowed = allowedYarns(input);
  const yarns = [...allowed, ...shades];
  const labs = yarns.map(labOfYarn);
  const mainColour = pattern.colours.find(({ role }) => role === "main")?.id;
  const taste: Taste = { ladder: wish.ladder ?? "same", fabric: wish.fabric, close: wish.character === "close" };
  const weights = weightsOf(wish);
  const demands = demandsOf({
    charts,
    targets,
    ids,
    labs,
    taste,
    weights,
    echoesAlike: wish.echoes === "alike",
    main: mainColour === undefined ? -1 : colours.indexOf(mainColour),
    viewing,
    doubt,
    memory,
  });
  const made = { pattern, yarns, owned: allowed.length, labs, targets, demands, taste, weights, structure, charts, pins, laid, colours }; // prettier-ignore
  const costs = costsOf(input, made);
  const asked = problemOf(input, { ...made, costs }, ids, placed);
  return { input, ...made, ...asked, tight: tightened(asked.problem), costs, audited: new Map() };
}

/** Yarns that the wish lets in anywhere; one that is kept somewhere is let in there. */
function allowedYarns({ yarns, wish }: SearchInput): Yarn[] {
  const kept = new Set((wish.keep ?? []).map(({ yarn }) => yarn));
  const isOut = isKeptOut(wish);
  return yarns.filter((yarn) => kept.has(yarn.id) || (isOwned(yarn) && !isOut(yarn.id)));
}

function isKeptOut(wish: Wish): (yarn: string) => boolean {
  const never = new Set(wish.never ?? []);
  const only = wish.only && wish.only !== "stash" ? new Set(wish.only) : null;
  return (yarn) => never.has(yarn) || (only !== null && !only.has(yarn));
}

type Made = Pick<Search, "targets" | "yarns" | "owned" | "demands" | "pins" | "colours" | "labs">;

function costsOf({ wish }: SearchInput, { targets, yarns, owned, demands, pins, colours }: Made): Float64Array[] {
  const isOut = isKeptOut(wish);
  return demands.costs.map((row, i) => {
    const kept = i < colours.length ? keptEverywhere(wish, targets[i]!.colour) : pins[i - colours.length]!.yarn;
    return row.map((cost, k) => {
      const yarn = yarns[k]!;
      const { id } = yarn;
      // What she keeps is kept, however it looks.
      if (kept !== undefined) return id !== kept ? Infinity : Number.isFinite(cost) ? cost : 0;
      if (k >= owned) return cost + BUYING_COSTS;
      return isOut(id) || !isOwned(yarn) ? Infinity : cost;
    });
  });
}

const keptEverywhere = ({ keep = [] }: Wish, colour: string): string | undefined =>
  keep.find((kept) => kept.colour === colour && !kept.at)?.yarn;

function problemOf(
  { wish, needs, needsFor, stop }: SearchInput,
  { targets, yarns, owned, demands, costs, colours }: Made & { readonly costs: Float64Array[] },
  ids: readonly string[],
  { structure, own }: Structure,
): Pick<Search, "problem" | "quotaOf" | "parted"> {
  const parted = partedYarns(yarns, wish.together ?? {});
  const clashes = [...demands.clashes];
  if (parted)
    targets.forEach((_, j) => targets.slice(0, j).forEach((_other, i) => clashes.push({ i, j, forbidden: parted })));
  const quotas = wholeWishes(wish, yarns, owned, targets.length);
  const needOf = needsFor?.(structure, own) ?? needs.ofColour;
  const haveOf = (yarn: Yarn): number => {
    const metres = needs.owned.get(yarn.id);
    if (metres === undefined) return Number.MAX_VALUE;
    return wish.together?.lots ? metres * largestLotShare(yarn) : metres;
  };
  return {
    parted,
    quotaOf: quotas.map(({ about }) => about),
    problem: {
      costs,
      clashes,
      pairCosts: demands.pairCosts,
      distinct: distinctOf(wish, targets, colours.length),
      ...(quotas.length > 0 ? { quotas } : {}),
      ...(needOf.size > 0 ? { capacity: { need: ids.map((id) => needOf.get(id) ?? 0), have: yarns.map(haveOf) } } : {}),
      ...(stop ? { stop } : {}),
      seed: 1,
    },
  };
}

/** Which places may share a yarn. Two that she keeps in one yarn share it, whatever she allows the others; so may pinned rows. */
function distinctOf(wish: Wish, targets: readonly Target[], colours: number): AssignmentProblem["distinct"] {
  const allow = wish.share?.allow ?? false;
  if (allow === true) return false;
  const kept = (wish.keep ?? []).filter(({ at }) => !at);
  const together = kept.flatMap(({ colour, yarn }, at) =>
    kept.slice(at + 1).flatMap((other) => (other.yarn === yarn ? [[colour, other.colour] as const] : [])),
  );
  const indexOf = (colour: string): number => targets.findIndex((target) => target.colour === colour);
  const pinned = targets.flatMap((_, j) =>
    j < colours ? [] : targets.slice(0, j).map((_other, i) => [i, j] as const),
  );
  return {
    except: [
      ...[...(allow === false ? [] : allow), ...together]
        .map(([one, other]) => [indexOf(one), indexOf(other)] as const)
        .filter(([i, j]) => i >= 0 && j >= 0),
      ...pinned,
    ],
  };
}

/** What the wish asks of the colourway as a whole: yarns that must occur, and no more than so many shades to look for. */
function wholeWishes(
  { use = [], buy = 0 }: Wish,
  yarns: readonly Yarn[],
  owned: number,
  places: number,
): (Quota & { readonly about: WholeWish })[] {
  const demand = (counts: (k: number) => boolean, least: number, about: WholeWish) => {
    const row = Float64Array.from(yarns, (_, k) => (counts(k) ? 1 : 0));
    return { gains: Array.from({ length: places }, () => row), least, about };
  };
  return [
    ...use.map((yarn) => demand((k) => yarns[k]!.id === yarn, 1, { kind: "use", yarn })),
    ...(owned < yarns.length ? [demand((k) => k < owned, places - buy, { kind: "buy", most: buy })] : []),
  ];
}

/** What an audit finds at doubt or worse in an assignment; amounts are held by the search itself. */
export function findingsIn(
  search: Search,
  assignment: readonly number[],
  supplies: "with" | "without",
): readonly Finding[] {
  const key = assignment.join();
  const known = supplies === "without" ? search.audited.get(key) : undefined;
  if (known) return known;
  const { pattern, taste, input } = search;
  const colourway = colourwayIn(search, assignment);
  const { viewing, doubt, memory } = input;
  const judged = supplies === "with" ? { supplies: input.suppliesFor(colourway, yarnsOf(search)) } : {};
  const found = audit(
    contextOf({ pattern, yarns: yarnsOf(search), colourway, viewing, doubt, ladder: taste.ladder, ...judged }, memory),
  ).filter((finding) => atLeast(finding, "doubt"));
  if (supplies === "without") search.audited.set(key, found);
  return found;
}

/** All that a colourway of this search may be knitted in. */
export const yarnsOf = ({ input, yarns, owned }: Search): readonly Yarn[] => [...input.yarns, ...yarns.slice(owned)];

export function colourwayIn(search: Search, assignment: readonly number[]): Colourway {
  const { structure, colours, pins, yarns, pattern } = search;
  const chosen = Object.fromEntries(colours.map((colour, index) => [colour, yarns[assignment[index]!]!.id]));
  const dressed = dress(structure, chosen, pattern.charts);
  if (pins.length === 0) return dressed;
  const pinned = new Map(pins.map(({ id, yarn }) => [id, yarn]));
  return { ...dressed, changes: dressed.changes!.map((change) => ({ ...change, yarn: pinned.get(change.yarn) ?? change.yarn })) }; // prettier-ignore
}
