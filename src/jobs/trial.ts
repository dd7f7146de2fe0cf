/** Every yarn tried in the place of one chart colour: what a list of yarns can be sorted by before one is chosen. */
import { assert } from "../base/assert.ts";
import { mainColourOf } from "../audit/context.ts";
import { judgeMemory } from "../audit/judge.ts";
import { crossingPairs, isFlipped } from "../audit/valueOrder.ts";
import { doubtOf } from "../audit/verdicts.ts";
import type { Chart } from "../chart/chart.ts";
import type { Project } from "../document/project.ts";
import { asPattern, clothOf, type Cloth } from "../fabric/cloth.ts";
import { valueLadder } from "../fabric/ladder.ts";
import { measureCloth, type InkWeight } from "../fabric/measures.ts";
import { trialIn, yarnTrials, type TrialShown, type YarnTrial } from "../fabric/trial.ts";
import type { Word } from "../fabric/visibility.ts";
import { toChooseFrom } from "../yarn/owned.ts";
import { labOfYarn, uncertaintyOfYarn, type Yarn } from "../yarn/yarn.ts";
import { asSeenBy } from "./deficient.ts";
import { asKnitted } from "./knitted.ts";
import type { LookedAt } from "./lookedAt.ts";
import { colourwayOf, eyeOf, viewingOf } from "./parts.ts";

export interface TrialOptions extends LookedAt {
  /** The chart colour whose place it is. */
  readonly colour: string;
  /** What is tried; the project's own yarns where missing. A yarn with the id of one of the project's is that yarn. */
  readonly yarns?: readonly Yarn[] | undefined;
}

/** What the place is like in a yarn. */
export interface TrialReading {
  /** The weakest row, band and figure in which the place is knitted; null where there is nothing of the kind to see. */
  readonly row: (TrialShown & { readonly chart: string; readonly row: number }) | null;
  readonly band:
    (TrialShown & { readonly chart: string; readonly band: string; readonly rows: readonly [number, number] }) | null;
  readonly figure: (TrialShown & { readonly chart: string; readonly band: string; readonly against: string }) | null;
  /** Rows of all charts by their word. */
  readonly rows: Readonly<Record<Word, number>>;
  /** In the chart of which it is the largest part; null where no chart has it. */
  readonly weight: Pick<InkWeight, "area" | "share" | "standsOut" | "recurs"> | null;
}

export interface TrialLine extends TrialReading {
  readonly yarn: string;
  readonly yarnName: string;
  /** Chart colours whose order against this one would not be the pattern's. */
  readonly crosses: readonly string[];
  /** Pairs of chart colours in the whole ladder whose order would not be the pattern's. */
  readonly orderChanges: number;
}

export interface TrialResult {
  readonly colourway: string;
  readonly colour: string;
  /** The yarn that is there now. */
  readonly yarn: string | null;
  readonly distance: number;
  readonly light: number;
  /** The same place in the pattern's own colours, all of them. */
  readonly was: TrialReading;
  readonly trials: readonly TrialLine[];
}

/**
 * Each chart as every use of it has it; exceptions by place keep their own yarns. Trials come in the order of the yarns.
 * The colourway and colour were checked by the caller.
 */
export function tryYarns(owned: Project, options: TrialOptions): TrialResult {
  const memory = options.memory ?? judgeMemory();
  const ids = new Set(owned.yarns.map(({ id }) => id));
  const others = (options.yarns ?? []).filter(({ id }) => !ids.has(id));
  const all = { ...owned, yarns: [...owned.yarns, ...others] };
  const { deficiency, severity = 1 } = options;
  const project = asKnitted(deficiency ? asSeenBy(all, deficiency, severity) : all);
  const { pattern } = project;
  const { colour } = options;
  const colourway = colourwayOf(project, options.colourway);
  const viewing = viewingOf(owned, options);
  assert(
    pattern.colours.some(({ id }) => id === colour),
    `a chart colour called ${colour} exists`,
  );
  const asked = { mainColour: mainColourOf(pattern), doubt: doubtOf(eyeOf(owned, memory, viewing.texture)) };
  const knitted = new Map(project.yarns.map((yarn) => [yarn.id, yarn]));
  const yarns = (options.yarns ?? toChooseFrom(owned.yarns, new Set(Object.values(colourway.yarns)))).map(({ id }) => {
    const yarn = knitted.get(id)!;
    return { id, name: yarn.name, lab: labOfYarn(yarn), uncertainty: uncertaintyOfYarn(yarn) };
  });
  const charts = pattern.charts.map((chart) => {
    const { cloth, place } = withHole(project, chart, colourway, colour);
    if (place < 0) {
      const rows = countRows(measureCloth(cloth, viewing, memory, asked).rows.map(({ contrast }) => contrast.shows));
      const was = countRows(
        measureCloth(asPattern(cloth), viewing, memory, asked).rows.map((row) => row.contrast.shows),
      );
      return { chart: chart.id, was: { rows: was }, trials: yarns.map(() => ({ rows })) };
    }
    const was = trialIn(measureCloth(asPattern(cloth), viewing, memory, asked), place, asked);
    return { chart: chart.id, was, trials: yarnTrials(cloth, place, yarns, viewing, memory, asked) };
  });
  const rungs = valueLadder(pattern, project.yarns, colourway);
  return {
    colourway: colourway.id,
    colour,
    yarn: rungs.find((rung) => rung.colour === colour)!.yarn,
    distance: viewing.distanceM,
    light: viewing.lux,
    was: together(charts.map(({ chart, was }) => ({ chart, trial: was }))),
    trials: yarns.map(({ id, name, lab }, index) => {
      const after = rungs.map((rung) => (rung.colour === colour ? { ...rung, lab } : rung));
      const crossings = crossingPairs(after, isFlipped(after));
      return {
        yarn: id,
        yarnName: name,
        ...together(charts.map(({ chart, trials }) => ({ chart, trial: trials[index]! }))),
        crosses: crossings.flatMap(([one, other]) =>
          one.colour === colour ? [other.colour] : other.colour === colour ? [one.colour] : [],
        ),
        orderChanges: crossings.length,
      };
    }),
  };
}

export interface PlaceTrial extends TrialLine {
  /** The chart colour that would have the yarn. */
  readonly colour: string;
  readonly was: TrialReading;
  /** The place as it is now; null where it has no yarn yet. */
  readonly now: TrialReading | null;
}

/**
 * One yarn tried in the place of every chart colour, the others as they are: what a hand that carries it can be told.
 * The colourway and yarn were checked by the caller.
 */
export function tryPlaces(
  project: Project,
  { yarn, ...options }: Omit<TrialOptions, "colour" | "yarns"> & { readonly yarn: string },
): PlaceTrial[] {
  const memory = options.memory ?? judgeMemory();
  const carried = project.yarns.find(({ id }) => id === yarn);
  assert(carried, `a yarn called ${yarn} exists`);
  const colourway = colourwayOf(project, options.colourway);
  return project.pattern.colours.map(({ id: colour }) => {
    const there = project.yarns.find(({ id }) => id === colourway.yarns[colour]);
    const yarns = there && there !== carried ? [carried, there] : [carried];
    const { was, trials } = tryYarns(project, { ...options, memory, colour, yarns });
    return { ...trials[0]!, colour, was, now: there ? (trials[1] ?? trials[0]!) : null };
  });
}

/** The chart's cloth with a yarn of its own in the colour's place, so that it is told from any other; place −1 where it is nowhere. */
function withHole(
  { pattern, yarns }: Project,
  chart: Chart,
  colourway: ReturnType<typeof colourwayOf>,
  colour: string,
): { cloth: Cloth; place: number } {
  let id = "taken out";
  while (yarns.some((yarn) => yarn.id === id)) id += "'";
  const { shade } = pattern.colours.find((one) => one.id === colour)!;
  const cloth = clothOf({
    chart,
    pattern,
    yarns: [...yarns, { id, name: id, shade }],
    colourway: { ...colourway, yarns: { ...colourway.yarns, [colour]: id } },
  });
  return { cloth, place: cloth.inks.findIndex(({ yarn }) => yarn === id) };
}

function countRows(words: readonly (Word | null)[]): Record<Word, number> {
  const counts = { lost: 0, faint: 0, clear: 0, strong: 0 };
  for (const word of words) if (word) counts[word] += 1;
  return counts;
}

/** The weakest of several charts. */
function together(
  charts: readonly { readonly chart: string; readonly trial: Partial<YarnTrial> & Pick<YarnTrial, "rows"> }[],
): TrialReading {
  const weakest = <Part extends "row" | "band" | "figure">(part: Part) =>
    charts.reduce<(NonNullable<YarnTrial[Part]> & { chart: string }) | null>((least, { chart, trial }) => {
      const found = trial[part];
      return found && (!least || found.V < least.V) ? { ...(found as NonNullable<YarnTrial[Part]>), chart } : least;
    }, null);
  const rows = { lost: 0, faint: 0, clear: 0, strong: 0 };
  for (const { trial } of charts) for (const word of WORDS) rows[word] += trial.rows[word];
  const weights = charts.flatMap(({ trial: { weight } }) => (weight ? [weight] : []));
  const [most] = weights.toSorted((a, b) => b.area - a.area);
  return {
    row: weakest("row"),
    band: weakest("band"),
    figure: weakest("figure"),
    rows,
    weight: most ? { area: most.area, share: most.share, standsOut: most.standsOut, recurs: most.recurs } : null,
  };
}

const WORDS: readonly Word[] = ["lost", "faint", "clear", "strong"];
