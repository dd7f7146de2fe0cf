/** What would have to be given up, and how much of it: every relaxation is searched and shown with the way that it gives. */
import type { Finding } from "../audit/finding.ts";
import { listText, rowsText, told } from "../audit/context.ts";
import { contextOf } from "../audit/judge.ts";
import { readsToIn } from "../fabric/contrast.ts";
import { wordOf } from "../fabric/visibility.ts";
import { gramsFromMetres } from "../yarn/lengths.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { nameOf } from "./because.ts";
import { assignYarns, tightened, type AssignmentProblem, type PairCost } from "./assign.ts";
import { clashesOf, holdsIn, missing, type Showing } from "./demands.ts";
import { colourwayIn, findingsIn, prepare, yarnsOf, type Search } from "./prepare.ts";
import { partsOfWish } from "./reasons.ts";
import { sumOfTerms } from "./score.ts";
import { notChoosable, settle } from "./settle.ts";
import { termsOf } from "./terms.ts";
import type { Way } from "./way.ts";
import type { Wish } from "./wish.ts";

export interface Relaxation {
  /**
   * What is given up: rows and figures that show less, the order from light to dark, one yarn twice, grams, a part of the wish, or what
   * the checks say against it.
   */
  readonly kind: "showing" | "order" | "share" | "grams" | "checks" | keyof Wish;
  /** Chart colours between which, or for which, it is given up; none for a part of the wish. */
  readonly colours: readonly string[];
  /** How little: 1 is about a word of one row, 8 L* the wrong way round, a yarn twice, or one wish. */
  readonly given: number;
  /** "Possible if row 14, Ash on Silver, may be faint: …" */
  readonly sentence: string;
  readonly way: Pick<Way, "name" | "yarns" | "changes" | "overStitched" | "score" | "findings" | "wish">;
}

/** What is given up of the pattern's demands: between two places, or wherever it helps where there are none. */
export interface Concession {
  readonly kind: "showing" | "order" | "share" | "grams";
  readonly i?: number;
  readonly j?: number;
}

/** A concession is paid for so dearly that as little as possible is given, before anything is chosen by score. */
const PRICE = 400;

/** Relaxations that are told. Our choice. */
const MOST_TOLD = 5;

/** Colourways put before the audit for one relaxation. Our choice. */
const AUDITS = 12;

/** 8 L* the other way is a whole order given up. Common practice: under 8 vanishes. */
const ORDER_UNIT = 8;

/** What one wish given up counts beside a word of a row. Our choice: what she said first weighs most. */
const WISH_COSTS: Partial<Record<keyof Wish, number>> = { ladder: 2, keep: 1, together: 1, look: 0.8, use: 0.7, bands: 0.7, only: 0.6, never: 0.6, echoes: 0.5 }; // prettier-ignore

/** The cheapest relaxations, least given first. */
export function relaxationsOf(search: Search, concessions: readonly Concession[]): Relaxation[] {
  const single = concessions.flatMap((concession) => tryConcessions(search, [concession]) ?? []);
  const wished = partsOfWish(search).flatMap((part) => tryWithout(search, part) ?? []);
  const turned = LADDERS.flatMap((ladder) => tryLadder(search, ladder) ?? []);
  const found = [...single, ...wished, ...turned];
  if (found.length === 0) {
    const kinds = (["showing", "order", "grams", "share"] as const).map((kind): Concession => ({ kind }));
    for (const kind of kinds) found.push(...(tryConcessions(search, [kind]) ?? []));
    if (found.length === 0) found.push(...(tryConcessions(search, kinds) ?? []));
  }
  return byGiven(found).slice(0, MOST_TOLD);
}

/** Least given first. */
export const byGiven = (relaxations: readonly Relaxation[]): Relaxation[] =>
  relaxations.toSorted((a, b) => a.given - b.given || (a.sentence < b.sentence ? -1 : 1));

function tryConcessions(search: Search, concessions: readonly Concession[]): Relaxation[] | null {
  if (search.input.stop?.()) return null;
  const gives = (kind: Concession["kind"], i: number, j = -1): boolean =>
    concessions.some(
      (one) => one.kind === kind && (one.i === undefined || (one.j === undefined ? one.i === i : one.i === i && one.j === j) || (one.i === j && one.j === i)), // prettier-ignore
    );
  const relaxed = relaxedProblem(search, gives);
  const { targets } = search;
  const conceded = (colours: readonly string[]): boolean =>
    colours.every((one) =>
      colours.every((other) =>
        targets.some((target, i) =>
          targets.some(
            (against, j) =>
              target.colour === one &&
              against.colour === other &&
              (i === j || (["showing", "order", "share"] as const).some((kind) => gives(kind, i, j))),
          ),
        ),
      ),
    );
  const tolerated = (finding: Finding): boolean =>
    notChoosable(finding) || (!finding.id.startsWith("visualWeight/") && conceded(finding.where.colours ?? []));
  const settled = settle(search, tightened(relaxed), { tolerated, most: AUDITS });
  if (!settled.assignment || !settled.passes) return null;
  const { assignment } = settled;
  const given = givenIn(search, assignment, gives);
  if (given.length === 0) return null;
  return [
    {
      kind: given[0]!.kind,
      colours: [...new Set(given.flatMap(({ colours }) => colours))],
      given: given.reduce((sum, one) => sum + one.amount, 0),
      sentence: `Possible ${listText(given.map(({ text }) => text))}.`,
      way: wayOf(search, assignment),
    },
  ];
}

/** The problem with what is conceded no longer forbidden but paid for, the more the more is given. */
function relaxedProblem(
  search: Search,
  gives: (kind: Concession["kind"], i: number, j?: number) => boolean,
): AssignmentProblem {
  const { demands, labs, problem, targets, parted } = search;
  const { showings, orders, limits } = demands;
  const size = labs.length;
  const count = targets.length;
  const paid = new Map<number, PairCost>();
  const priceOf = (i: number, j: number): Float32Array | Float64Array => {
    const [low, high] = [Math.min(i, j), Math.max(i, j)];
    const known = paid.get(low * count + high) ?? { i: low, j: high, cost: new Float64Array(size * size) };
    paid.set(low * count + high, known);
    return known.cost;
  };
  for (const showing of showings) {
    if (!gives("showing", showing.i, showing.j)) continue;
    const price = priceOf(showing.i, showing.j);
    for (let at = 0; at < price.length; at++) price[at]! += PRICE * missing(showing, at, limits);
  }
  for (const order of orders) {
    if (!gives("order", order.i, order.j)) continue;
    const price = priceOf(order.i, order.j);
    const upright = order.i < order.j;
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++)
        price[upright ? k * size + l : l * size + k]! += PRICE * turnedBy(labs[k]![0] - labs[l]![0], order.slack);
  }
  const shared: (readonly [number, number])[] = [];
  const { distinct, capacity } = problem;
  if (distinct !== false) {
    for (let i = 0; i < count; i++) {
      for (let j = i + 1; j < count; j++) {
        if (!gives("share", i, j) || distinct === true || listed(distinct, i, j)) continue;
        shared.push([i, j]);
        const price = priceOf(i, j);
        for (let k = 0; k < size; k++) price[k * size + k]! += PRICE;
      }
    }
  }
  const except = distinct === true || distinct === false ? [] : "except" in distinct ? distinct.except : distinct;
  const need = capacity?.need ?? [];
  return {
    ...problem,
    clashes: [
      ...clashesOf(
        showings.filter(({ i, j }) => !gives("showing", i, j)),
        orders.filter(({ i, j }) => !gives("order", i, j)),
        labs,
        limits,
      ),
      ...(problem.clashes ?? []).filter(({ forbidden }) => forbidden === parted),
    ],
    pairCosts: [...(problem.pairCosts ?? []), ...paid.values()],
    ...(distinct === false ? {} : { distinct: { except: [...except, ...shared] } }),
    costs: problem.costs.map((row, i) =>
      gives("grams", i) && capacity
        ? Float64Array.from(row, (cost, k) => cost + (need[i]! > 0 ? PRICE * Math.max(0, need[i]! - capacity.have[k]!) / need[i]! : 0)) // prettier-ignore
        : row,
    ),
    ...(capacity ? { capacity: { ...capacity, need: need.map((metres, i) => (gives("grams", i) ? 0 : metres)) } } : {}),
  };
}

const turnedBy = (lighter: number, slack: number): number =>
  lighter > -slack ? 0 : (1 + Math.max(0, -lighter - slack)) / ORDER_UNIT;

function listed(distinct: Exclude<AssignmentProblem["distinct"], boolean>, i: number, j: number): boolean {
  const except = "except" in distinct ? distinct.except : distinct;
  return except.some(([one, other]) => (one === i && other === j) || (one === j && other === i));
}

interface Given {
  readonly kind: Concession["kind"];
  readonly colours: readonly string[];
  readonly amount: number;
  readonly text: string;
}

/** What an assignment takes of what was conceded. */
function givenIn(
  search: Search,
  assignment: readonly number[],
  gives: (kind: Concession["kind"], i: number, j?: number) => boolean,
): Given[] {
  const { demands, labs, targets, yarns, problem } = search;
  const size = labs.length;
  const yarnAt = (i: number): string => yarns[assignment[i]!]!.name;
  const coloursOf = (i: number, j: number): string[] => [targets[i]!.colour, targets[j]!.colour];
  const together = (i: number, j: number): boolean => assignment[i] === assignment[j] && gives("share", i, j);
  const given: Given[] = [];
  const faint = new Map<string, Showing[]>();
  for (const showing of demands.showings) {
    const { i, j } = showing;
    if (!gives("showing", i, j)) continue;
    if (holdsIn(showing, assignment[i]! * size + assignment[j]!, demands.limits)) continue;
    faint.set(`${i}/${j}`, [...(faint.get(`${i}/${j}`) ?? []), showing]);
  }
  for (const showings of faint.values()) {
    const { i, j } = showings[0]!;
    const amount = showings.reduce(
      (sum, one) => sum + missing(one, assignment[i]! * size + assignment[j]!, demands.limits),
      0,
    );
    given.push({ kind: "showing", colours: coloursOf(i, j), amount, text: faintText(search, assignment, showings) });
  }
  for (const { i, j, slack } of demands.orders) {
    const by = labs[assignment[j]!]![0] - labs[assignment[i]!]![0];
    if (!gives("order", i, j) || by < slack) continue;
    const [lighter, darker] = coloursOf(i, j);
    const text = `if ${lighter} may be darker than ${darker}: ${yarnAt(i)} beside ${yarnAt(j)}, by ${told(by)} L*`;
    given.push({ kind: "order", colours: coloursOf(i, j), amount: turnedBy(-by, slack), text });
  }
  for (let i = 0; i < targets.length; i++) {
    for (let j = i + 1; j < targets.length; j++) {
      const { distinct } = problem;
      if (!together(i, j) || distinct === false || (distinct !== true && listed(distinct, i, j))) continue;
      const text = `if ${targets[i]!.colour} and ${targets[j]!.colour} may both be ${yarnAt(i)}`;
      given.push({ kind: "share", colours: coloursOf(i, j), amount: 1, text });
    }
  }
  return [...given, ...gramsGiven(search, assignment, gives)];
}

/** Grams that are missing of a yarn, all its places taken together. */
function gramsGiven(
  search: Search,
  assignment: readonly number[],
  gives: (kind: Concession["kind"], i: number) => boolean,
): Given[] {
  const { capacity } = search.problem;
  if (!capacity) return [];
  const { targets, yarns } = search;
  return [...new Set(assignment)].flatMap((k): Given[] => {
    const places = targets.flatMap((_, i) => (assignment[i] === k ? [i] : []));
    const needed = places.reduce((sum, i) => sum + capacity.need[i]!, 0);
    const short = needed - capacity.have[k]!;
    if (short <= 1e-9 * needed || !places.some((i) => gives("grams", i))) return [];
    const yarn = yarns[k]!;
    const colours = places.map((i) => targets[i]!.colour);
    const amount = short / needed + 0.1;
    const text = `with ${amountText(short, yarn)} more of ${yarn.name}, for ${listText(colours)}${lightnessText(search, places[0]!)}`;
    return [{ kind: "grams", colours, amount, text }];
  });
}

function amountText(metres: number, { metresPer100g }: Yarn): string {
  return metresPer100g ? `${Math.ceil(gramsFromMetres(metres, metresPer100g))} g` : `${Math.ceil(metres)} m`;
}

/** Between which lightnesses a yarn would do there, were there enough of it: by her own yarns, tried one by one. */
function lightnessText({ problem, labs, input }: Search, place: number): string {
  const { capacity, costs } = problem;
  const free = {
    ...problem,
    explain: false,
    capacity: { ...capacity!, need: capacity!.need.map((metres, i) => (i === place ? 0 : metres)) },
  };
  const fits = labs.flatMap(([lightness], k) => {
    if (input.stop?.() || costs[place]![k] === Infinity) return [];
    const row = Float64Array.from(costs[place]!, (_, l) => (l === k ? 0 : Infinity));
    const found = assignYarns({ ...free, pairCosts: [], costs: costs.map((own, i) => (i === place ? row : own)) });
    return found.assignment ? [lightness] : [];
  });
  if (fits.length < 2) return "";
  return ` (yarns from L ${Math.round(Math.min(...fits))} to ${Math.round(Math.max(...fits))} would do there)`;
}

/** "if row 14, Ash on Silver, may be faint: it would be clear no farther than 0.9 m" */
function faintText(search: Search, assignment: readonly number[], showings: readonly Showing[]): string {
  const { yarns, labs, demands } = search;
  const { i, j } = showings[0]!;
  const names = `${yarns[assignment[i]!]!.name} against ${yarns[assignment[j]!]!.name}`;
  const weakest = Math.min(...showings.map(({ V }) => V[assignment[i]! * labs.length + assignment[j]!]!));
  const rows = showings.filter(({ kind }) => kind === "row").flatMap(({ places }) => places);
  const runs = runsOf((rows.length > 0 ? rows : showings.flatMap(({ places }) => places)).map((place) => place.rows));
  const shown = runs.slice(0, MOST_RUNS).map((run) => rowsText(run));
  const more = runs.length > shown.length ? ` and ${runs.length - shown.length} more` : "";
  const reads = rows.flatMap(({ chart, rows: at }) => readsIn(search, assignment, chart, at) ?? []);
  const least = reads.length > 0 ? Math.min(...reads) : null;
  const far = least === null ? "" : least > 0 ? `, clear to ${told(least)} m` : "";
  return `if ${listText(shown)}${more}, ${names}, may be ${wordOf(weakest, demands.limits)}${far}`;
}

/** Places that are named one by one. Our choice. */
const MOST_RUNS = 3;

/** Rows that follow one another, together. */
function runsOf(rows: readonly (readonly [number, number])[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const [from, to] of rows.toSorted((one, other) => one[0] - other[0])) {
    const last = runs.at(-1);
    if (last && from <= last[1] + 1) last[1] = Math.max(last[1], to);
    else runs.push([from, to]);
  }
  return runs;
}

function readsIn(
  search: Search,
  assignment: readonly number[],
  chart: string,
  rows: readonly [number, number],
): number | null {
  const { input, pattern } = search;
  const { viewing, doubt, memory } = input;
  const colourway = colourwayIn(search, assignment);
  const context = contextOf({ pattern, yarns: yarnsOf(search), colourway, viewing, doubt }, memory);
  const judged = context.charts.find((one) => one.chart.id === chart);
  return judged ? (readsToIn(judged.now.cloth, rows, viewing, memory, doubt)?.metres ?? null) : null;
}

/** A colourway that holds every demand, and what the checks say against it nevertheless. */
export function leastRefused(search: Search, assignment: readonly number[]): Relaxation {
  const findings = findingsIn(search, assignment, "without").filter((finding) => !notChoosable(finding));
  return {
    kind: "checks",
    colours: [...new Set(findings.flatMap(({ where }) => where.colours ?? []))],
    given: findings.length,
    sentence: `Possible if you let this pass: ${findings.map(({ headline }) => headline).join("; ")}.`,
    way: wayOf(search, assignment),
  };
}

/** The search made again without one part of the wish. */
function tryWithout(search: Search, part: ReturnType<typeof partsOfWish>[number]): Relaxation[] | null {
  const { input } = search;
  if (input.stop?.() || WISH_COSTS[part.wish] === undefined) return null;
  const freed = prepare({ ...input, wish: part.without });
  const settled = settle(freed, freed.tight, { most: AUDITS });
  if (!settled.assignment || !settled.passes) return null;
  const { assignment } = settled;
  const way = wayOf(freed, assignment);
  const moved = part.colours.flatMap((colour) => {
    const yarn = freed.yarns.find(({ id }) => id === way.yarns[colour]);
    return yarn ? [`${yarn.name} for ${colour}`] : [];
  });
  const kept = new Set(part.yarns);
  const taken = freed.colours.flatMap((colour) =>
    kept.has(way.yarns[colour]!)
      ? [`${freed.yarns.find(({ id }) => id === way.yarns[colour])!.name} for ${colour}`]
      : [],
  );
  const shown = moved.length > 0 ? moved : taken;
  return [
    {
      kind: part.wish,
      colours: part.colours,
      given: WISH_COSTS[part.wish]!,
      sentence: `Possible without this wish: ${part.text}${shown.length > 0 ? `; then ${listText(shown)}` : ""}.`,
      way,
    },
  ];
}

/** The other ways to take light and dark, dearest to the pattern's plan last. What giving each up counts: our choice. */
const LADDERS = [
  { ladder: "reversed", given: 1.5, sentence: "Possible if light and dark are turned over." },
  { ladder: "free", given: 2, sentence: "Possible if light and dark are free." },
] as const;

/** The search made again with another ladder, where the wish left it the pattern's. */
function tryLadder({ input }: Search, { ladder, given, sentence }: (typeof LADDERS)[number]): Relaxation[] | null {
  if (input.stop?.() || (input.wish.ladder ?? "same") !== "same") return null;
  const other = prepare({ ...input, wish: { ...input.wish, ladder } });
  const settled = settle(other, other.tight, { most: AUDITS });
  if (!settled.assignment || !settled.passes) return null;
  return [{ kind: "ladder", colours: [], given, sentence, way: wayOf(other, settled.assignment) }];
}

function wayOf(search: Search, assignment: readonly number[]): Relaxation["way"] {
  const { yarns, changes = [], overStitched = [] } = colourwayIn(search, assignment);
  return {
    name: nameOf(search, assignment, []),
    yarns,
    changes,
    overStitched,
    score: sumOfTerms(termsOf(search, assignment), search.weights),
    findings: findingsIn(search, assignment, "with").map(({ headline }) => headline),
    wish: search.input.wish,
  };
}
