/** Ways: the best colourway under a wish, and others nearly as good that really differ. */
import type { Supply } from "../audit/context.ts";
import { audit, atLeast } from "../audit/audit.ts";
import type { Finding, Mend } from "../audit/finding.ts";
import { floats } from "../audit/floats.ts";
import { contextOf, type JudgeMemory } from "../audit/judge.ts";
import type { YarnNeeds } from "../audit/mends.ts";
import { deltaE2000 } from "../colour/difference.ts";
import type { Lab } from "../colour/lab.ts";
import type { PairClash } from "./assignment.ts";
import type { Change, Colourway, OverStitch } from "../fabric/colourway.ts";
import { stitchesOf } from "../fabric/measures.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Viewing } from "../fabric/contrast.ts";
import { labOfShade } from "../colour/shade.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { assignYarns, type AssignmentProblem, type AssignmentResult } from "./assign.ts";
import { becauseOf, nameOf } from "./because.ts";
import { clashOf, type Clash } from "./clash.ts";
import { contrastTerm, demandsOf, type Demands } from "./demands.ts";
import { dress, inOwnColours } from "./dress.ts";
import { importanceOf, placeTerms, sumOfTerms, type Target, type Terms } from "./score.ts";
import { looksByColour, withWantedBands, type Wish } from "./wish.ts";

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
  /** It is the best there is under this wish, beside the ways before it. */
  readonly proven: boolean;
  readonly because: readonly string[];
  /** Part of the fabric whose colour is not that of the first way. */
  readonly differs: number;
  /** What an audit would still say of it, at doubt or worse. */
  readonly findings: readonly string[];
}

export interface RecolourInput {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  /** What it does by place is kept, in whatever yarns. */
  readonly colourway: Colourway;
  readonly wish: Wish;
  readonly viewing: Viewing;
  readonly needs: YarnNeeds;
  readonly memory: JudgeMemory;
  readonly suppliesFor: (colourway: Colourway) => readonly Supply[];
  readonly stop?: (() => boolean) | undefined;
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

/** A search made ready: the pattern as wished, its demands and the problem that the solver is given. */
export interface Search {
  readonly input: RecolourInput;
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly labs: readonly Lab[];
  readonly targets: readonly Target[];
  readonly demands: Demands;
  readonly problem: AssignmentProblem;
  readonly costs: readonly Float64Array[];
  readonly ladder: "same" | "reversed" | "free";
  /** The colourway's places, each chart colour in a yarn that bears its own name. */
  readonly structure: Colourway;
  /** Floats that are laid on in duplicate stitch instead, in the structure's own names. */
  readonly laid: readonly Mend[];
  readonly colours: readonly string[];
}

export function prepare(input: RecolourInput): Search {
  const { wish, memory, viewing } = input;
  const pattern = withWantedBands(input.pattern, wish);
  const ladder = wish.ladder ?? "same";
  const { structure, laid, charts } = structureOf(input, pattern);
  const areas = areasByColour(charts);
  const colours = pattern.colours.map(({ id }) => id).filter((id) => areas.has(id));
  const looks = looksByColour(wish, pattern);
  const lightnesses = colours.map((id) => wasOf(pattern, id)[0]);
  const turn = Math.max(...lightnesses) + Math.min(...lightnesses);
  const targets = colours.map((colour, index): Target => {
    const lightness = lightnesses[index]!;
    return {
      colour,
      was: wasOf(pattern, colour),
      lightness: ladder === "reversed" ? turn - lightness : lightness,
      area: areas.get(colour)!,
      looks: looks.get(colour) ?? [],
    };
  });
  const yarns = allowedYarns(input);
  const labs = yarns.map(labOfYarn);
  const mainColour = pattern.colours.find(({ role }) => role === "main")?.id;
  const main = mainColour === undefined ? -1 : colours.indexOf(mainColour);
  const demands = demandsOf({ charts, targets, labs, ladder, main, viewing, memory });
  const costs = costsOf(wish, { targets, yarns, demands });
  const problem = problemOf(input, { targets, yarns, demands, costs });
  return { input, pattern, yarns, labs, targets, demands, problem, costs, ladder, structure, laid, colours };
}

const wasOf = (pattern: Pattern, id: string): Lab =>
  labOfShade(pattern.colours.find((colour) => colour.id === id)!.shade);

/** The colourway's places without its yarns; floats that can be laid on in duplicate stitch are. */
function structureOf({ colourway, viewing, memory }: RecolourInput, pattern: Pattern) {
  const ids = pattern.colours.map(({ id }) => id);
  const own = pattern.colours.map(({ id, name, shade }) => ({ id, name: name ?? id, shade }));
  const plain = inOwnColours(colourway, pattern.charts, ids);
  const judge = (structure: Colourway) => contextOf({ pattern, yarns: own, colourway: structure, viewing }, memory);
  const laid = floats(judge(plain)).flatMap(({ mends }) => mends ?? []);
  const structure: Colourway = {
    ...plain,
    changes: [...(plain.changes ?? []), ...laid.map(({ at, colour, to }) => ({ at: at!, colour, yarn: to }))],
    overStitched: [...(plain.overStitched ?? []), ...laid.flatMap(({ overStitched }) => overStitched ?? [])],
  };
  return { structure, laid, charts: judge(structure).charts };
}

/** Part of the stitches of every chart colour that is knitted or laid on somewhere. */
function areasByColour(charts: ReturnType<typeof contextOf>["charts"]): Map<string, number> {
  const areas = new Map<string, number>();
  let all = 0;
  for (const { now } of charts) {
    const stitches = stitchesOf(now.cloth, 1, now.cloth.grid.height);
    stitches.forEach((count, ink) => {
      // A colour that is knitted in another's yarn there lies in that one's area.
      const { yarn, colour } = now.cloth.inks[ink]!;
      const seen = yarn ?? colour;
      areas.set(seen, (areas.get(seen) ?? 0) + count);
      if (!areas.has(colour)) areas.set(colour, 0);
      all += count;
    });
  }
  for (const [colour, count] of areas) areas.set(colour, count / all);
  return areas;
}

function allowedYarns({ yarns, wish }: RecolourInput): Yarn[] {
  const never = new Set(wish.never ?? []);
  const only = wish.only && wish.only !== "stash" ? new Set(wish.only) : null;
  const kept = new Set((wish.keep ?? []).map(({ yarn }) => yarn));
  return yarns.filter(({ id }) => kept.has(id) || (!never.has(id) && (!only || only.has(id))));
}

function costsOf(
  wish: Wish,
  { targets, yarns, demands }: Pick<Search, "targets" | "yarns" | "demands">,
): Float64Array[] {
  const keep = new Map((wish.keep ?? []).map(({ colour, yarn }) => [colour, yarn]));
  return demands.costs.map((row, index) => {
    const kept = keep.get(targets[index]!.colour);
    if (kept === undefined) return row;
    return row.map((cost, k) => (yarns[k]!.id !== kept ? Infinity : Number.isFinite(cost) ? cost : 0));
  });
}

function problemOf(
  { wish, needs, stop }: RecolourInput,
  { targets, yarns, demands, costs }: Pick<Search, "targets" | "yarns" | "demands" | "costs">,
): AssignmentProblem {
  const allow = wish.share?.allow ?? false;
  const indexOf = (colour: string): number => targets.findIndex((target) => target.colour === colour);
  const distinct =
    typeof allow === "boolean"
      ? !allow
      : {
          except: allow
            .map(([one, other]) => [indexOf(one), indexOf(other)] as const)
            .filter(([i, j]) => i >= 0 && j >= 0),
        };
  return {
    costs,
    clashes: demands.clashes,
    pairCosts: demands.pairCosts,
    distinct,
    ...(needs.ofColour.size > 0
      ? {
          capacity: {
            need: targets.map(({ colour }) => needs.ofColour.get(colour) ?? 0),
            have: yarns.map(({ id }) => needs.owned.get(id) ?? Number.MAX_VALUE),
          },
        }
      : {}),
    ...(stop ? { stop } : {}),
    seed: 1,
  };
}

/** What an audit finds at doubt or worse in an assignment; amounts are held by the search itself. */
export function findingsIn(search: Search, assignment: readonly number[], supplies: "with" | "without"): Finding[] {
  const { pattern, ladder, input } = search;
  const colourway = colourwayIn(search, assignment);
  const { yarns, viewing, memory } = input;
  const judged = supplies === "with" ? { supplies: input.suppliesFor(colourway) } : {};
  return audit(contextOf({ pattern, yarns, colourway, viewing, ...judged }, memory)).filter(
    (finding) => atLeast(finding, "doubt") && !(ladder === "free" && finding.id.startsWith("valueOrder/")),
  );
}

export function colourwayIn({ structure, colours, yarns, pattern }: Search, assignment: readonly number[]): Colourway {
  const chosen = Object.fromEntries(colours.map((colour, index) => [colour, yarns[assignment[index]!]!.id]));
  return dress(structure, chosen, pattern.charts);
}

/** Floats that cannot be laid on are the pattern's own; no choice of yarn mends them. */
const choosable = (finding: Finding): boolean => !finding.id.startsWith("floats/");

/** What a search came to: an assignment that passes the checks, or the one with least to say against it. */
export interface Settled {
  readonly assignment: number[] | null;
  /** The checks find nothing in it that another yarn could mend. */
  readonly passes: boolean;
  /** Proven to be the best under its costs. */
  readonly proven: boolean;
  /** No assignment that passes has lower costs. */
  readonly bound: number;
  readonly result: AssignmentResult;
}

/** Rounds of learning before the least bad is taken; each forbids at least one pair or yarn. Our choice. */
const ROUNDS = 80;

/**
 * The cheapest assignment that the checks let pass. The costs and clashes of pairs hold nearly all of what is judged; where the
 * full audit still refuses the optimum, what it refused is forbidden and the search made again. The first optimum stays a
 * sound bound; what was forbidden on the way may have ruled out a better one, so only a first optimum that passes is proven.
 */
function settle(search: Search, costs: readonly Float64Array[]): Settled {
  const learned = lessons(search);
  let first: AssignmentResult | null = null;
  let least: { assignment: number[]; count: number } | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const result = assignYarns({ ...search.problem, ...learned.apply(costs) });
    first ??= result;
    if (!result.assignment) break;
    const findings = findingsIn(search, result.assignment, "without").filter(choosable);
    if (findings.length === 0)
      return {
        assignment: result.assignment,
        passes: true,
        proven: round === 0 && result.status === "optimal",
        bound: first.bound,
        result,
      };
    if (!least || findings.length < least.count) least = { assignment: result.assignment, count: findings.length };
    if (search.input.stop?.() || !learned.learn(findings, result.assignment)) break;
  }
  return {
    assignment: least?.assignment ?? null,
    passes: false,
    proven: false,
    bound: first?.bound ?? -Infinity,
    result: first!,
  };
}

/** Colourways that are put before the full audit to prove that none of them is better. Our choice: some seconds. */
const PROOF = 120;

/** The same with the audit asked at every colourway that could be better, as long as there are not too many of them. */
function proved(search: Search, settled: Settled): Settled {
  if (settled.proven || !settled.assignment) return settled;
  let asked = 0;
  const exact = assignYarns({
    ...search.problem,
    stop: () => asked >= PROOF || (search.input.stop?.() ?? false),
    accept: (assignment) => {
      asked += 1;
      return !findingsIn(search, assignment, "without").some(choosable);
    },
  });
  if (exact.status === "optimal")
    return { assignment: exact.assignment, passes: true, proven: true, bound: exact.bound, result: exact };
  return { ...settled, bound: Math.max(settled.bound, Math.min(exact.bound, Number.MAX_VALUE)) };
}

/** What an audit refuses, as clashes: a colour that takes over loses that yarn, two colours that do not part lose that pair. */
function lessons({ colours, yarns, problem }: Search) {
  const yarnIndex = new Map(yarns.map(({ id }, index) => [id, index]));
  const banned = new Set<string>();
  const clashes: PairClash[] = [];
  const size = yarns.length;
  return {
    learn(findings: readonly Finding[], assignment: readonly number[]): boolean {
      const before = banned.size + clashes.length;
      for (const { where, id } of findings) {
        const places = (where.colours ?? []).map((colour) => colours.indexOf(colour)).filter((i) => i >= 0);
        const [i, j] = places;
        if (i === undefined) continue;
        if (id.startsWith("visualWeight/") || j === undefined) {
          banned.add(`${i}/${yarnIndex.get(where.yarns?.[0] ?? "") ?? assignment[i]!}`);
          continue;
        }
        const forbidden = new Uint8Array(size * size);
        const [low, high] = [Math.min(i, j), Math.max(i, j)];
        forbidden[assignment[low]! * size + assignment[high]!] = 1;
        clashes.push({ i: low, j: high, forbidden });
      }
      return banned.size + clashes.length > before;
    },
    apply(costs: readonly Float64Array[]): Pick<AssignmentProblem, "costs" | "clashes"> {
      return {
        costs: costs.map((row, i) => row.map((cost, k) => (banned.has(`${i}/${k}`) ? Infinity : cost))),
        clashes: [...(problem.clashes ?? []), ...clashes],
      };
    },
  };
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
  { assignment: settled }: Settled,
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
    name: nameOf(search, assignment),
    yarns: colourway.yarns,
    changes: colourway.changes ?? [],
    overStitched: colourway.overStitched ?? [],
    score,
    terms,
    bound: Math.min(bound, score),
    gap,
    proven: gap < PROVEN_GAP,
    because: becauseOf(search, assignment, findings),
    differs: difference(search, assignment, found[0]!),
    findings: findings.map(({ headline }) => headline),
  };
}
