/** Why this yarn in this place: the next best there, tried, and what it would cost; and which wishes bind. */
import { capital, told, listText } from "../audit/context.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { assignYarns, type AssignmentProblem } from "./assign.ts";
import { costOf, mustDiffer, yarnCount } from "./assignment.ts";
import { findingsIn, prepare, type Search } from "./prepare.ts";
import { sumOfTerms, TERM_NAMES, type Terms } from "./score.ts";
import { notChoosable } from "./settle.ts";
import { termsOf } from "./terms.ts";
import type { Wish } from "./wish.ts";

/** Why a chart colour is the yarn it is. */
export interface PlaceReason {
  readonly colour: string;
  readonly yarn: string;
  readonly sentence: string;
  /** The best colourway with another yarn there; null where her wish or her yarns leave no other. */
  readonly next: NextBest | null;
}

export interface NextBest {
  readonly yarn: string;
  /** By how much its score is higher, in steps of L*. */
  readonly more: number;
  /** Other chart colours that would change their yarn with it. */
  readonly moves: readonly { readonly colour: string; readonly yarn: string }[];
  /** What the checks would say against it. */
  readonly findings: readonly string[];
}

/** What a term says when it has grown most. */
const DEARER: Record<keyof Terms, string> = {
  value: "light and dark would be farther from what is wanted",
  contrast: "contrasts between neighbours would be farther from the pattern's",
  hue: "its hue would be farther from the pattern's",
  loudness: "it would be louder or quieter than is wanted",
  showing: "rows and figures would show less",
};

/** For every chart colour that is free: the problem solved again with its yarn forbidden there. */
export function placeReasons(search: Search, problem: AssignmentProblem, assignment: readonly number[]): PlaceReason[] {
  const { targets, colours, yarns, labs } = search;
  const terms = termsOf(search, assignment);
  return colours.map((colour, i) => {
    const chosen = assignment[i]!;
    const { name, id: yarn } = yarns[chosen]!;
    const target = targets[i]!;
    const away = `${awayText(labs[chosen]![0] - target.lightness)}, ${told(deltaE2000(labs[chosen]!, target.was))} ΔE00 from the pattern's colour`;
    const others = search.costs[i]!.some((cost, k) => k !== chosen && cost < Infinity);
    if (!others)
      return { colour, yarn, sentence: `${colour} is ${name}, for nothing else is allowed there.`, next: null };
    const start = nearestWithout(problem, assignment, i);
    const result = assignYarns({
      ...problem,
      explain: false,
      ...(start ? { start } : {}),
      costs: problem.costs.map((row, j) =>
        j === i ? Float64Array.from(row, (cost, k) => (k === chosen ? Infinity : cost)) : row,
      ),
    });
    if (!result.assignment) {
      const none = result.status === "infeasible" ? "With any other yarn there nothing fits." : "";
      return { colour, yarn, sentence: `${colour} is ${name}: ${away}. ${none}`.trim(), next: null };
    }
    const next = nextOf(search, assignment, result.assignment, i);
    return { colour, yarn, sentence: `${colour} is ${name}: ${away}. ${nextText(search, terms, next, result.assignment, i)}`, next }; // prettier-ignore
  });
}

/** Half a step of L* is not seen. Our choice. */
const awayText = (step: number): string =>
  Math.abs(step) < 0.5
    ? "as light as is wanted there"
    : `${told(Math.abs(step))} L* ${step > 0 ? "lighter" : "darker"} than is wanted there`;

/** The cheapest assignment with another yarn for colour i in which nothing else changes, or one colour takes i's yarn in exchange. */
function nearestWithout(problem: AssignmentProblem, assignment: readonly number[], i: number): number[] | null {
  const differ = mustDiffer(problem);
  let nearest: { cost: number; assignment: number[] } | null = null;
  for (let k = 0; k < yarnCount(problem); k++) {
    if (k === assignment[i] || problem.costs[i]![k] === Infinity) continue;
    const changed = assignment.with(i, k);
    const holder = assignment.indexOf(k);
    for (const one of holder < 0 ? [changed] : [changed, changed.with(holder, assignment[i]!)]) {
      const cost = costOf(problem, one, differ);
      if (cost < (nearest?.cost ?? Infinity)) nearest = { cost, assignment: one };
    }
  }
  return nearest?.assignment ?? null;
}

function nextOf(search: Search, assignment: readonly number[], other: readonly number[], i: number): NextBest {
  const { colours, yarns, weights } = search;
  const scoreOf = (one: readonly number[]): number => sumOfTerms(termsOf(search, one), weights);
  return {
    yarn: yarns[other[i]!]!.id,
    more: scoreOf(other) - scoreOf(assignment),
    moves: colours.flatMap((colour, j) =>
      j !== i && other[j] !== assignment[j] ? [{ colour, yarn: yarns[other[j]!]!.id }] : [],
    ),
    findings: findingsIn(search, other, "without")
      .filter((finding) => !notChoosable(finding))
      .map(({ headline }) => headline),
  };
}

function nextText(search: Search, terms: Terms, next: NextBest, other: readonly number[], i: number): string {
  const { yarns, weights } = search;
  const name = yarns[other[i]!]!.name;
  const nameOf = (id: string): string => yarns.find((yarn) => yarn.id === id)!.name;
  const moves = next.moves.map(({ colour, yarn }) => `${nameOf(yarn)} for ${colour}`);
  const moved = moves.length > 0 ? `, with ${listText(moves)}` : "";
  if (next.findings.length > 0)
    return `Next best there is ${name}${moved}, but then: ${next.findings.slice(0, 2).join("; ")}.`;
  const now = termsOf(search, other);
  const [most] = TERM_NAMES.map((term) => ({ term, by: weights[term] * (now[term] - terms[term]) })).sort(
    (one, another) => another.by - one.by,
  );
  const by = next.more < 0.05 ? "as good within a twentieth" : `${told(next.more)} dearer`;
  return `Next best there is ${name}${moved}, ${by}${most!.by > 0.05 ? `: ${DEARER[most!.term]}` : ""}.`;
}

/** A wish without which the best would be another. */
export interface Binding {
  /** Which part of the wish: "keep", "never", "ladder" … */
  readonly wish: string;
  /** By how much the score would be lower without it; null where the wish is what the score measures by. */
  readonly saves: number | null;
  /** Chart colours that would take another yarn. */
  readonly changes: readonly { readonly colour: string; readonly yarn: string }[];
  readonly sentence: string;
}

/** Parts of a wish that change what the score measures: with and without them two scores are not of one kind. */
const MEASURES: ReadonlySet<string> = new Set(["ladder", "look", "character", "fabric", "weights"]);

/** Wishes that are tried without; each is a search of its own. Our choice: about a second. */
const MOST_TRIED = 10;

/** Costs are kept in single precision for pairs: nothing smaller is a difference. */
const BINDS_BY = 1e-3;

/** Which parts of the wish bind: the search made again without each. */
export function bindingWishes(search: Search, assignment: readonly number[]): Binding[] {
  const { input, colours, yarns, weights } = search;
  const score = sumOfTerms(termsOf(search, assignment), weights);
  return partsOfWish(search)
    .slice(0, MOST_TRIED)
    .flatMap(({ wish: name, text, without }): Binding[] => {
      if (input.stop?.()) return [];
      const freed = prepare({ ...input, wish: without }, yarns.slice(search.owned));
      const result = assignYarns({ ...freed.tight, explain: false });
      if (!result.assignment) return [];
      const changes = colours.flatMap((colour, i) => {
        const yarn = freed.yarns[result.assignment![i]!]!;
        return yarn.id === yarns[assignment[i]!]!.id ? [] : [{ colour, yarn: yarn.id, name: yarn.name }];
      });
      const saves = MEASURES.has(name) ? null : score - sumOfTerms(termsOf(freed, result.assignment), freed.weights);
      if (saves === null ? changes.length === 0 : saves < BINDS_BY) return [];
      const moved = changes.slice(0, 3).map((change) => `${change.colour} would be ${change.name}`);
      const more = changes.length > 3 ? ` and ${changes.length - 3} more would change` : "";
      const by = saves === null ? "" : `, and the score lower by ${told(saves)}`;
      const sentence = `${capital(text)} binds: without it ${listText(moved) || "the yarns would be the same"}${more}${by}.`;
      return [{ wish: name, saves, changes: changes.map(({ colour, yarn }) => ({ colour, yarn })), sentence }];
    });
}

export interface WishPart {
  readonly wish: keyof Wish;
  readonly text: string;
  readonly without: Wish;
  /** Chart colours that it is about, and yarns. */
  readonly colours: readonly string[];
  readonly yarns: readonly string[];
}

/** The wish taken apart into what can be given up by itself, each with its name in a sentence. */
export function partsOfWish({ input }: Search): WishPart[] {
  const { wish, yarns } = input;
  const nameOf = (id: string): string => yarns.find((yarn) => yarn.id === id)?.name ?? id;
  const { keep = [], look = [], bands = [], use = [] } = wish;
  const rest = <K extends keyof Wish>(key: K): Wish => {
    const { [key]: _, ...others } = wish;
    return others;
  };
  const each = <T extends object | string>(key: keyof Wish, list: readonly T[], textOf: (item: T) => string) =>
    list.map((item) => ({
      wish: key,
      text: textOf(item),
      colours: typeof item === "object" && "colour" in item ? [String(item.colour)] : [],
      yarns: [],
      without: { ...wish, [key]: list.filter((other) => other !== item) },
    }));
  const whole = (key: keyof Wish, text: string, about: readonly string[] = []) =>
    wish[key] === undefined ? [] : [{ wish: key, text, without: rest(key), colours: [], yarns: about }];
  const others = yarns.flatMap(({ id }) => (Array.isArray(wish.only) && !wish.only.includes(id) ? [id] : []));
  return [
    ...each(
      "keep",
      keep,
      ({ colour, yarn, at }) => `keeping ${nameOf(yarn)} for ${colour}${at ? " at its place" : ""}`,
    ),
    ...each("look", look, ({ colour, band, be }) => `${colour ?? band} wanted ${be.replace("hue:", "")}`),
    ...each("bands", bands, ({ band, want }) => `band ${band} wanted ${want}`),
    ...each("use", use, (yarn) => `using up ${nameOf(yarn)}`),
    ...whole("never", "keeping out what is kept out", wish.never),
    ...(wish.only === "stash" ? [] : whole("only", "only these yarns", others)),
    ...(wish.share?.allow ? whole("share", "sharing a yarn") : []),
    ...whole("together", "that yarns go together"),
    ...whole("echoes", "that echoes stay alike"),
    ...(wish.ladder && wish.ladder !== "same"
      ? whole("ladder", wish.ladder === "free" ? "a free ladder" : "the ladder turned over")
      : []),
    ...whole("character", `a ${wish.character} character`),
    ...whole("fabric", `a ${wish.fabric} fabric`),
    ...whole("weights", "your own weights"),
  ];
}
