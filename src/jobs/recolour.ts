/** Recolour: the best colourways under a wish from the yarns she owns, and a way kept as a colourway. */
import { judgeMemory, type JudgeMemory } from "../audit/judge.ts";
import { doubtOf } from "../audit/verdicts.ts";
import { isFault, type Problem } from "../base/problem.ts";
import type { Project } from "../document/project.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import type { Clash } from "../recolour/clash.ts";
import { decidingSteps, optionsFor, type DecidingStep, type StepOption } from "../recolour/deciding.ts";
import type { SearchInput } from "../recolour/prepare.ts";
import type { Binding } from "../recolour/reasons.ts";
import { waysUnder, type Way } from "../recolour/ways.ts";
import { wishProblems, type Wish } from "../recolour/wish.ts";
import { amountsOf } from "../plan/amounts.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { colourwayOf, eyeOf, needsOf, suppliesOf } from "./parts.ts";
import { yarnSettings } from "./yarnSettings.ts";

export interface RecolourOptions {
  /** The colourway whose places and wish are kept; the first where missing. */
  readonly colourway?: string | undefined;
  readonly wish?: Wish | undefined;
  readonly ways?: number | undefined;
  readonly distance?: number | undefined;
  readonly light?: number | undefined;
  readonly memory?: JudgeMemory | undefined;
  /** True when the time is up; what was found by then is given. */
  readonly stop?: (() => boolean) | undefined;
  readonly onWay?: ((way: Way, index: number) => void) | undefined;
}

export interface RecolourResult {
  readonly ways: readonly Way[];
  /** Wishes without which the first way would be another. */
  readonly binds: readonly Binding[];
  readonly clash: Clash | null;
  /** Why there are fewer ways than were asked for. */
  readonly note: string | null;
  readonly problems: readonly Problem[];
}

export function recolourProject(project: Project, options: RecolourOptions = {}): RecolourResult {
  const colourway = colourwayOf(project, options.colourway);
  const wish: Wish = {
    ...((options.wish ?? colourway.wish ?? {}) as Wish),
    ...(options.ways === undefined ? {} : { ways: options.ways }),
  };
  const problems = wishProblems(wish, project.pattern, project.yarns);
  if (problems.some(isFault)) return { ways: [], binds: [], clash: null, note: null, problems };
  const found = waysUnder({ ...searchInput(project, colourway, wish, options), onWay: options.onWay });
  return { ...found, problems };
}

/** What is asked of any search in a project. */
function searchInput(
  project: Project,
  colourway: Colourway,
  wish: Wish,
  options: Pick<RecolourOptions, "distance" | "light" | "memory" | "stop">,
): SearchInput {
  const memory = options.memory ?? judgeMemory();
  return {
    pattern: project.pattern,
    yarns: project.yarns,
    colourway,
    wish,
    viewing: { distanceM: options.distance ?? USUAL_VIEWING.distanceM, lux: options.light ?? USUAL_VIEWING.lux },
    doubt: doubtOf(eyeOf(project, memory)),
    needs: needsOf(project, colourway),
    needsFor: (structure, own) => metresBy(project, structure, own),
    memory,
    suppliesFor: (other, yarns) => suppliesOf({ ...project, yarns: [...yarns] }, other),
    stop: options.stop,
  };
}

export interface DecideOptions extends Omit<RecolourOptions, "ways" | "onWay"> {
  /** Chart colours to choose for now, as a step of `decidingOrder` has them. */
  readonly colours: readonly string[];
  /** What is decided already; beside what the wish keeps. */
  readonly decided?: Readonly<Record<string, string>> | undefined;
  /** At most so many options. */
  readonly options?: number | undefined;
}

/** The order in which many colours are best decided; colours that the wish keeps are among them. */
export function decidingOrder(
  project: Project,
  options: Pick<RecolourOptions, "colourway" | "memory"> = {},
): DecidingStep[] {
  return decidingSteps(searchInput(project, colourwayOf(project, options.colourway), {}, options));
}

/** The best yarns for one step, each with the best colourway that follows. */
export function decideNext(
  project: Project,
  options: DecideOptions,
): { options: StepOption[]; problems: readonly Problem[] } {
  const colourway = colourwayOf(project, options.colourway);
  const wished = (options.wish ?? colourway.wish ?? {}) as Wish;
  const decided = options.decided ?? {};
  const wish: Wish = {
    ...wished,
    keep: [
      ...(wished.keep ?? []).filter(({ colour, at }) => at || !Object.hasOwn(decided, colour)),
      ...Object.entries(decided).map(([colour, yarn]) => ({ colour, yarn })),
    ],
  };
  const problems = wishProblems(wish, project.pattern, project.yarns);
  if (problems.some(isFault)) return { options: [], problems };
  return {
    options: optionsFor(searchInput(project, colourway, wish, options), options.colours, options.options),
    problems,
  };
}

/** Metres with reserve of every yarn of a colourway, by its own yarns; none where the pattern is not placed on a garment. */
function metresBy(project: Project, colourway: Colourway, yarns: readonly Yarn[]): Map<string, number> {
  const { pattern } = project;
  if (!pattern.sections?.length) return new Map();
  const amounts = amountsOf({ pattern, yarns, colourway, settings: yarnSettings(project) });
  return new Map(amounts.yarns.map(({ yarn, metres, reserve }) => [yarn, metres + reserve]));
}

/** A way as a new colourway beside the others; none is ever overwritten. */
export function applyWay(
  project: Project,
  way: Pick<Way, "name" | "yarns" | "changes" | "overStitched"> & {
    readonly because?: readonly string[];
    readonly toFind?: readonly { readonly yarn: Yarn }[];
    readonly wish?: object;
  },
  options: { readonly name?: string | undefined; readonly from?: string | undefined } = {},
): { project: Project; colourway: string } {
  const taken = new Set(project.colourways.map(({ id }) => id));
  let number = project.colourways.length + 1;
  while (taken.has(`w${number}`)) number += 1;
  const colourway: Colourway = {
    id: `w${number}`,
    name: options.name ?? way.name,
    from: options.from ?? project.colourways[0]?.id ?? null,
    note: (way.because ?? []).join(" "),
    yarns: way.yarns,
    ...(way.changes.length > 0 ? { changes: [...way.changes] } : {}),
    ...(way.overStitched.length > 0 ? { overStitched: [...way.overStitched] } : {}),
    ...(way.wish && Object.keys(way.wish).length > 0 ? { wish: way.wish } : {}),
  };
  // A shade to look for stands beside her yarns until she has found one; nothing is owned of it.
  const owned = new Set(project.yarns.map(({ id }) => id));
  const stands = (way.toFind ?? []).map(({ yarn }) => yarn).filter(({ id }) => !owned.has(id));
  return {
    project: {
      ...project,
      yarns: [...project.yarns, ...stands],
      colourways: [...project.colourways, colourway],
    },
    colourway: colourway.id,
  };
}
