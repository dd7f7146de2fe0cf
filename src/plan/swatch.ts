/** The swatch that settles most: the smallest piece of knitting that answers what a check leaves open, within her budget. */
import type { Problem } from "../base/problem.ts";
import type { Chart } from "../chart/chart.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { coverDoubts, type Covering } from "./covering.ts";
import { swatchChart, type SwatchKey, type SwatchKnitted } from "./swatchChart.ts";
import { laidOut, stripsOf, type Laid, type Strips } from "./swatchLaid.ts";
import { leftOpen, type AloneSwatch, type LeftOpen } from "./swatchLeft.ts";
import {
  MANNERS,
  minutesFor,
  rowsInMinutes,
  USUAL_PACE,
  type MannerOf,
  type Pace,
  type SwatchManner,
} from "./swatchManner.ts";
import type { SwatchBudget, SwatchQuestion } from "./swatchQuestion.ts";
import { fitsIn, stripOf, widthOf, widthsFor, type Strip } from "./swatchRows.ts";
import { swatchYarns, type SwatchYarn } from "./swatchYarns.ts";

export interface SwatchPlan extends Pick<SwatchKnitted, "rows"> {
  readonly manner: SwatchManner;
  /** The swatch's own chart, edge stitches and all, as it is knitted; null where nothing is to be knitted. */
  readonly chart: Chart | null;
  readonly key: readonly SwatchKey[];
  /** The yarns of the chart, and what is laid on in duplicate stitch afterwards. */
  readonly colourway: Colourway | null;
  /** Edge stitches at the right and at the left are among the stitches. */
  readonly across: { readonly stitches: number; readonly edges: readonly [number, number] };
  readonly size: { readonly widthMm: number; readonly heightMm: number };
  /** Knitted, without cast-on and cast-off. */
  readonly stitches: number;
  /** With cast-on and cast-off, without duplicate stitches. */
  readonly minutes: number;
  readonly minutesLow: number;
  readonly minutesHigh: number;
  readonly duplicateStitches: number;
  readonly covers: readonly Covered[];
  readonly leaves: readonly LeftOpen[];
  readonly yarns: readonly SwatchYarn[];
  /** How far her threshold is known, as a factor either way that holds in 80 % of cases: now, and likely once all was looked at. */
  readonly threshold: { readonly now: number; readonly after: number };
  /** Knitting the whole repeat of the charts in doubt instead, in the same manner. */
  readonly wholeRepeat: { readonly stitches: number };
  /** False where the search was ended early: there may be a smaller swatch. */
  readonly proven: boolean;
  readonly problems: readonly Problem[];
  /** How to knit it and what it is worth, in sentences. */
  readonly said: readonly string[];
}

interface Covered {
  readonly id: string;
  readonly headline: string;
  /** "seen": look at these rows of the swatch. "threshold": it likely follows from how the others look to her. */
  readonly by: "seen" | "threshold";
  readonly swatchRows: readonly number[];
  readonly chance: number;
}

/**
 * Every width that shows whole repeats is tried, and for each the rows are chosen by an exact covering (`covering.ts`): the greatest sum of
 * chances that something told is wrong and gets settled, then the fewest stitches, then the narrower swatch. Rows keep the order of the
 * chart. Limits: rows in which stitches decrease are left to the garment's own shape, and so is what only a whole garment shows.
 */
export function planSwatch(question: SwatchQuestion): SwatchPlan {
  const strips = stripsOf(question);
  const terms = termsOf(question);
  const kept = bestOf(question, strips, terms);
  const settled = kept?.covering.settled ?? [];
  const covers = question.doubts.flatMap(({ id, headline, chance }, at): Covered[] => {
    const by = settled[at];
    return by ? [{ id, headline, by, swatchRows: by === "seen" ? kept!.seenIn(at) : [], chance }] : [];
  });
  const leaves = question.doubts.flatMap((doubt, at) =>
    settled[at] ? [] : [leftOpen(doubt, aloneFor(question, strips, terms, at, kept?.width ?? null))],
  );
  return {
    ...piece(question, kept, terms),
    covers,
    leaves,
    wholeRepeat: { stitches: wholeRepeat(question, terms.manner) },
  };
}

/** In which manner, how fast, for how long. */
interface Terms {
  readonly name: SwatchManner;
  readonly manner: MannerOf;
  readonly pace: Pace;
  readonly budget: SwatchBudget | undefined;
}

const termsOf = ({ manner = "round", pace = USUAL_PACE, budget }: SwatchQuestion): Terms => ({
  name: manner,
  manner: MANNERS[manner],
  pace,
  budget,
});

interface Kept {
  readonly width: number;
  readonly across: number;
  readonly laid: Laid;
  readonly covering: Covering;
  readonly knitted: SwatchKnitted;
  /** Rows of the swatch that show a doubt, by the doubt's place in the question. */
  readonly seenIn: (doubt: number) => number[];
}

function bestOf(question: SwatchQuestion, strips: Strips, terms: Terms): Kept | null {
  let best: {
    readonly width: number;
    readonly across: number;
    readonly laid: Laid;
    readonly covering: Covering;
  } | null = null;
  for (const { width, across, laid, most } of widthsOf(question, strips, terms)) {
    if (best && most < best.covering.weight - ROUNDING) continue;
    const covering = coverDoubts(laid.problem, question.most === undefined ? {} : { most: question.most });
    const more = best ? covering.weight - best.covering.weight : Infinity;
    const isSmaller = best !== null && covering.knitted * across < best.covering.knitted * best.across;
    if (more > ROUNDING || (more > -ROUNDING && isSmaller)) best = { width, across, laid, covering };
  }
  if (!best || best.covering.knitted === 0) return null;
  const { laid, covering, width } = best;
  const knitted = swatchChart(question, laid, covering.rows, { width, manner: terms.manner });
  return { ...best, knitted, seenIn: (doubt) => seenIn(question, laid, knitted, doubt) };
}

/** The widths with what they can settle at most, the greatest first, and of equals the narrower. */
function widthsOf(question: SwatchQuestion, strips: Strips, terms: Terms) {
  const usable = strips.doubts.flat().filter((strip) => strip !== null);
  return widthsFor(usable, question.gauge)
    .flatMap((width) => {
      const across = acrossOf(width, terms.manner);
      const mostRows = rowsWithin(terms, across);
      if (mostRows <= 0) return [];
      const laid = laidOut(question, strips, width, mostRows);
      return [{ width, across, laid, most: weightWithin(laid) }];
    })
    .sort((a, b) => b.most - a.most || a.width - b.width);
}

/** Of the doubts that some option of the width settles, or all its looks together. */
function weightWithin({ problem: { doubts, looks, precision } }: Laid): number {
  const all = looks.reduce((sum, { information, options }) => sum + (options.length > 0 ? information : 0), precision);
  return doubts.reduce(
    (sum, { weight, options, times, precision: from }) =>
      sum + (options.length >= times || (from !== null && from <= all) ? weight : 0),
    0,
  );
}

/** Chances are summed; a billionth is arithmetic. */
const ROUNDING = 1e-9;

const acrossOf = (width: number, { edges }: MannerOf): number => width + edges[0] + edges[1];

function rowsWithin({ budget, pace, manner }: Terms, across: number): number {
  if (!budget) return Infinity;
  if ("stitches" in budget) return Math.floor(budget.stitches / across);
  return rowsInMinutes(budget.minutes, across, pace.stitches, manner);
}

function seenIn(
  { doubts }: SwatchQuestion,
  { problem, places }: Laid,
  { rowOf }: SwatchKnitted,
  doubt: number,
): number[] {
  const about = new Set(doubts[doubt]!.rows);
  const knitted = problem.doubts[doubt]!.options.filter((option) => option.every((row) => rowOf.has(row)));
  const rows = knitted.flatMap((option) => {
    const own = option.filter((row) => about.has(places[row]!.row));
    return (own.length > 0 ? own : option).map((row) => rowOf.get(row)!);
  });
  return [...new Set(rows)].sort((a, b) => a - b);
}

/** A swatch for one doubt and nothing else, as small as can be. */
function aloneFor(
  question: SwatchQuestion,
  strips: Strips,
  terms: Terms,
  at: number,
  width: number | null,
): AloneSwatch | null {
  const own = strips.doubts[at]!.filter((strip): strip is Strip => strip !== null);
  const only = { ...question, doubts: [{ ...question.doubts[at]!, precision: null }], looks: [] };
  const made = widthsFor(own, question.gauge).flatMap((wide) => {
    const { problem } = laidOut(only, { doubts: [own], looks: [] }, wide, Infinity);
    const { weight, knitted } = coverDoubts(problem);
    const across = acrossOf(wide, terms.manner);
    return weight > 0 ? [{ across, rows: knitted, isWithin: knitted <= rowsWithin(terms, across) }] : [];
  });
  const [least] = made.toSorted(
    (a, b) => Number(b.isWithin) - Number(a.isWithin) || a.rows * a.across - b.rows * b.across,
  );
  if (!least) return null;
  return {
    stitches: least.rows * least.across,
    minutes: minutesFor(least.rows, least.across, terms.pace.stitches, terms.manner),
    isWithin: least.isWithin,
    fits: width !== null && own.filter((strip) => fitsIn(strip, width)).length >= question.doubts[at]!.times,
  };
}

/** Every row of the charts that have doubts, in whole repeats of all they hold. */
function wholeRepeat({ cloths, doubts, gauge }: SwatchQuestion, manner: MannerOf): number {
  const charts = new Set(
    doubts.flatMap(({ options }) => options.flat().map(({ cloth }) => cloths[cloth]!.cloth.chart.id)),
  );
  return cloths.reduce((sum, { cloth, section }, at) => {
    if (section !== null || !charts.has(cloth.chart.id)) return sum;
    const { height, width } = cloth.grid;
    const strip = stripOf(
      cloths.map((one) => one.cloth),
      [{ cloth: at, rows: [1, height] }],
      gauge,
    );
    return sum + height * acrossOf(strip ? widthOf(strip) : width, manner);
  }, 0);
}

function piece(
  question: SwatchQuestion,
  kept: Kept | null,
  { name, manner, pace }: Terms,
): Omit<SwatchPlan, "covers" | "leaves" | "wholeRepeat"> {
  const factor = (precision: number): number => Math.exp(EIGHTY_PERCENT / Math.sqrt(precision));
  const now = factor(question.precision);
  if (!kept) return { ...NOTHING, manner: name, threshold: { now, after: now } };
  const { knitted, across, covering, laid } = kept;
  const rows = covering.knitted;
  const { widthMm, heightMm } = stitchSizeMm(question.gauge);
  const minutes = (stitches: number): number => minutesFor(rows, across, stitches, manner);
  const looked = laid.problem.looks.filter(({ options }) =>
    options.some((option) => option.every((row) => knitted.rowOf.has(row))),
  );
  const told = looked.reduce((sum, { information }) => sum + information, question.precision);
  const { yarns, duplicateStitches, problems } = swatchYarns(question, knitted, manner);
  return {
    manner: name,
    chart: knitted.chart,
    key: knitted.key,
    colourway: knitted.colourway,
    rows: knitted.rows,
    across: { stitches: across, edges: manner.edges },
    size: { widthMm: across * widthMm, heightMm: rows * heightMm },
    stitches: rows * across,
    minutes: minutes(pace.stitches),
    minutesLow: minutes(pace.most),
    minutesHigh: minutes(pace.least),
    duplicateStitches,
    yarns,
    threshold: { now, after: factor(told) },
    proven: covering.proven,
    problems,
    said: [manner.said, ...SAID],
  };
}

/** Ends of a range that holds four of five of a normal distribution, in standard deviations. */
const EIGHTY_PERCENT = 1.2816;

const SAID = [
  "Wash it as the garment will be washed, dry it flat, and look from where you will be seen. What you see then outranks everything a screen says.",
  "What follows from your threshold follows only if the rows of the swatch look about as foretold; say of each how it looks, and plan again.",
  "A swatch does not show how colours weigh in the whole garment, and its own share of each is not the garment's.",
];

const NOTHING = {
  chart: null,
  key: [],
  colourway: null,
  rows: [],
  across: { stitches: 0, edges: [0, 0] },
  size: { widthMm: 0, heightMm: 0 },
  stitches: 0,
  minutes: 0,
  minutesLow: 0,
  minutesHigh: 0,
  duplicateStitches: 0,
  yarns: [],
  proven: true,
  problems: [],
  said: [],
} as const;
