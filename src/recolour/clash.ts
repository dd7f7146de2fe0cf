/** Why nothing fits: the parts that stand in each other's way, none of which could be left out, and what would have to be given. */
import { listText } from "../audit/context.ts";
import { assignYarns, type ClashPart } from "./assign.ts";
import { prepare, type Search } from "./prepare.ts";
import { byGiven, leastRefused, relaxationsOf, type Concession, type Relaxation } from "./relax.ts";
import { settle, type Settled } from "./settle.ts";
import { shadesIn, shadesToTry, type ShadeToFind } from "./shades.ts";

export interface Clash {
  readonly sentence: string;
  readonly parts: readonly ClashSentence[];
  /** The parts told together where they are many. */
  readonly summary: readonly string[];
  /** None of the parts could be left out. */
  readonly irreducible: boolean;
  /** What could be given up instead, least first, each with the colourway that it gives. */
  readonly relaxations: readonly Relaxation[];
  /** Shades that would mend it if she found them. */
  readonly toFind: readonly ShadeToFind[];
}

export interface ClashSentence {
  readonly kind: ClashPart["kind"];
  /** Empty for a demand on the whole. */
  readonly colour: string;
  readonly with?: string;
  readonly sentence: string;
}

/** @param settled what the search came to, without an assignment that passes */
export function clashOf(search: Search, { assignment, result: settled }: Settled): Clash {
  const none = { parts: [], summary: [], irreducible: true, relaxations: [], toFind: [] };
  if (assignment) return refusedClash(search, assignment, settled.status === "infeasible");
  if (settled.status !== "infeasible")
    return { ...none, sentence: "The search was stopped before it found a colourway. Give it more time." };
  if (search.yarns.length === 0)
    return { ...none, sentence: "This wish leaves no yarn to choose from.", relaxations: relaxationsOf(search, []) };
  const result = assignYarns(search.problem);
  const parts = (result.clash ?? []).map((part) => sentenceOf(part, search));
  const colours = [...new Set(parts.flatMap(({ colour, with: other }) => [colour, ...(other ? [other] : [])]))].filter(
    (colour) => colour !== "",
  );
  return {
    sentence: `${colours.length > 0 ? `Nothing that you own fits ${listText(colours)} all at once.` : "What must be used does not fit all at once."} Give up any one of these and something does.`,
    parts,
    summary: summaryOf(parts),
    irreducible: result.irreducible,
    relaxations: relaxationsOf(
      search,
      (result.clash ?? []).flatMap((part) => concessionsOf(part, search)),
    ),
    toFind: shadesThatMend(search),
  };
}

/** Nothing stands in the way but the checks: what is least against them comes first, then what would take it away. */
function refusedClash(search: Search, assignment: readonly number[], proven: boolean): Clash {
  return {
    sentence: proven
      ? "Every colourway of your yarns has something that the checks do not let pass."
      : "No colourway of your yarns was found that the checks let pass.",
    parts: [],
    summary: [],
    irreducible: true,
    relaxations: byGiven([leastRefused(search, assignment), ...relaxationsOf(search, [{ kind: "grams" }])]),
    toFind: shadesThatMend(search),
  };
}

/** What of the pattern's demands lies behind a part. */
function concessionsOf({ kind, i, j }: ClashPart, { demands }: Search): Concession[] {
  if (kind === "capacity") return [{ kind: "grams", i }];
  if (j === undefined) return [];
  if (kind === "distinct") return [{ kind: "share", i, j }];
  const between = (one: { readonly i: number; readonly j: number }): boolean =>
    (one.i === i && one.j === j) || (one.i === j && one.j === i);
  return [
    ...(demands.showings.some(between) ? [{ kind: "showing", i, j } as const] : []),
    ...(demands.orders.some(between) ? [{ kind: "order", i, j } as const] : []),
  ];
}

/** Places that may be bought for, where one is not enough. Our choice: more is another project. */
const MOST_BOUGHT = 2;

/** Colourways put before the audit with shades to look for. Our choice. */
const AUDITS = 12;

function shadesThatMend({ input, targets }: Search): ShadeToFind[] {
  for (let buy = 1; buy <= MOST_BOUGHT; buy++) {
    if (input.stop?.()) return [];
    const search = prepare({ ...input, wish: { ...input.wish, buy } }, shadesToTry(targets));
    const { assignment, passes } = settle(search, search.tight, { most: AUDITS });
    const shades = assignment && passes ? shadesIn(search, assignment) : [];
    // Nobody finds a shade that has to be hit exactly.
    if (shades.length > 0 && shades.every(({ radius }) => radius > 0)) return shades;
  }
  return [];
}

function sentenceOf({ kind, i, j }: ClashPart, search: Search): ClashSentence {
  const { targets, yarns, problem } = search;
  if (kind === "quota") return { kind, colour: "", sentence: wholeText(search, i) };
  const colour = targets[i]!.colour;
  const other = j === undefined ? undefined : targets[j]!.colour;
  const allowed = yarns.filter((_, k) => Number.isFinite(problem.costs[i]![k]!));
  const names = allowed.map(({ name }) => name);
  const list = names.length <= 3 ? names.join(", ") || "no yarn" : `${names.length} yarns`;
  const { need = [], have = [] } = problem.capacity ?? {};
  const needed = (need[i] ?? 0) + (j === undefined ? 0 : (need[j] ?? 0));
  const most = Math.max(0, ...yarns.map((_, k) => (Number.isFinite(problem.costs[i]![k]!) ? (have[k] ?? 0) : 0)));
  const rows = targets[i]!.pinned ? `The rows of ${colour} that you have pinned` : colour;
  const sentences: Record<Exclude<ClashPart["kind"], "quota">, string> = {
    yarn: `${rows} may only be ${list}.`,
    pair: `${rows} and ${other} must part from each other where they meet, in their order of light and dark${search.parted ? ", and go together in thickness and felting" : ""}.`,
    distinct: `${rows} and ${other} may not be the same yarn.`,
    capacity: `There must be enough yarn for ${colour}${other === undefined ? "" : ` and ${other}`}: about ${Math.round(needed)} m with its reserve, and of what may be used there is ${Math.round(most)} m at most.`,
  };
  return { kind, colour, ...(other === undefined ? {} : { with: other }), sentence: sentences[kind] };
}

/** Sentences of one kind about one colour are told as one. */
function summaryOf(parts: readonly ClashSentence[]): string[] {
  const joined = (kind: ClashPart["kind"], textOf: (colour: string, others: string) => string): string[] => {
    const some = parts.filter((part) => part.kind === kind && part.with !== undefined);
    return [...new Set(some.map(({ colour }) => colour))].map((colour) => {
      const own = some.filter((part) => part.colour === colour);
      return own.length === 1 ? own[0]!.sentence : textOf(colour, listText(own.map((part) => part.with!)));
    });
  };
  return [
    ...parts.filter((part) => part.with === undefined).map(({ sentence }) => sentence),
    ...joined(
      "pair",
      (colour, others) => `${colour} must part from ${others} where they meet, in their order of light and dark.`,
    ),
    ...joined("distinct", (colour, others) => `${colour} may not be the same yarn as ${others}.`),
  ];
}

function wholeText({ quotaOf, input }: Search, index: number): string {
  const about = quotaOf[index]!;
  if (about.kind === "buy") return `No more than ${about.most} of the places may be bought for.`;
  return `${input.yarns.find(({ id }) => id === about.yarn)?.name ?? about.yarn} must be used.`;
}
