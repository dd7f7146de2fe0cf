/** A search made ready: what a pattern, a wish and a stash come to as a problem for the solver, and what an answer is put back into. */
import type { Supply } from "../audit/context.ts";
import { audit, atLeast } from "../audit/audit.ts";
import type { Finding, Mend } from "../audit/finding.ts";
import { floats } from "../audit/floats.ts";
import { contextOf, type JudgeMemory } from "../audit/judge.ts";
import type { YarnNeeds } from "../audit/mends.ts";
import type { Lab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Doubt, Viewing } from "../fabric/contrast.ts";
import { stitchesOf } from "../fabric/measures.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import type { AssignmentProblem } from "./assign.ts";
import { demandsOf, type Demands } from "./demands.ts";
import { dress, inOwnColours } from "./dress.ts";
import type { Target } from "./score.ts";
import { looksByColour, withWantedBands, type Wish } from "./wish.ts";

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
  readonly memory: JudgeMemory;
  readonly suppliesFor: (colourway: Colourway) => readonly Supply[];
  readonly stop?: (() => boolean) | undefined;
}

/** A search made ready: the pattern as wished, its demands and the problem that the solver is given. */
export interface Search {
  readonly input: SearchInput;
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

export function prepare(input: SearchInput): Search {
  const { wish, memory, viewing, doubt } = input;
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
  const demands = demandsOf({ charts, targets, labs, ladder, main, viewing, doubt, memory });
  const costs = costsOf(wish, { targets, yarns, demands });
  const problem = problemOf(input, { targets, yarns, demands, costs });
  return { input, pattern, yarns, labs, targets, demands, problem, costs, ladder, structure, laid, colours };
}

const wasOf = (pattern: Pattern, id: string): Lab =>
  labOfShade(pattern.colours.find((colour) => colour.id === id)!.shade);

/** The colourway's places without its yarns; floats that can be laid on in duplicate stitch are. */
function structureOf({ colourway, viewing, doubt, memory }: SearchInput, pattern: Pattern) {
  const ids = pattern.colours.map(({ id }) => id);
  const own = pattern.colours.map(({ id, name, shade }) => ({ id, name: name ?? id, shade }));
  const plain = inOwnColours(colourway, pattern.charts, ids);
  const judge = (structure: Colourway) =>
    contextOf({ pattern, yarns: own, colourway: structure, viewing, doubt }, memory);
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

function allowedYarns({ yarns, wish }: SearchInput): Yarn[] {
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
  { wish, needs, stop }: SearchInput,
  { targets, yarns, demands, costs }: Pick<Search, "targets" | "yarns" | "demands" | "costs">,
): AssignmentProblem {
  const allow = wish.share?.allow ?? false;
  const indexOf = (colour: string): number => targets.findIndex((target) => target.colour === colour);
  // Two colours that she keeps in one yarn share it, whatever she allows the others.
  const kept = wish.keep ?? [];
  const together = kept.flatMap(({ colour, yarn }, at) =>
    kept.slice(at + 1).flatMap((other) => (other.yarn === yarn ? [[colour, other.colour] as const] : [])),
  );
  const distinct = allow !== true && {
    except: [...(allow === false ? [] : allow), ...together]
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
  const { yarns, viewing, doubt, memory } = input;
  const judged = supplies === "with" ? { supplies: input.suppliesFor(colourway) } : {};
  return audit(contextOf({ pattern, yarns, colourway, viewing, doubt, ...judged }, memory)).filter(
    (finding) => atLeast(finding, "doubt") && !(ladder === "free" && finding.id.startsWith("valueOrder/")),
  );
}

export function colourwayIn({ structure, colours, yarns, pattern }: Search, assignment: readonly number[]): Colourway {
  const chosen = Object.fromEntries(colours.map((colour, index) => [colour, yarns[assignment[index]!]!.id]));
  return dress(structure, chosen, pattern.charts);
}
