/** Her eye: what her verdicts on swatches tell of her own threshold against the model's. */
import type { Chart } from "../chart/chart.ts";
import { clothOf } from "../fabric/cloth.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { rowsContrast, UNTUNED, USUAL_VIEWING, type Doubt, type SpectrumMemory } from "../fabric/contrast.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { WORD_LIMITS, type Word } from "../fabric/visibility.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Place } from "../garment/place.ts";
import type { Section } from "../garment/sections.ts";
import type { Texture } from "../vision/masking.ts";
import type { Yarn } from "../yarn/yarn.ts";

/** One look at a swatch: what the model makes of it today, above 0, and what she said. */
export interface SeenVerdict {
  readonly V: number;
  readonly verdict: Word;
}

/** θ, ln of her threshold over the model's: below 0 she sees more than the model says, above 0 less. */
export interface HerEye {
  /** How many verdicts it rests on. */
  readonly verdicts: number;
  /** Mean of θ. */
  readonly theta: number;
  readonly sd: number;
  /** The middle 80 % of what θ may be. */
  readonly low: number;
  readonly high: number;
}

/**
 * θ after some verdicts: P(at least word w) = logistic((ln V − ln t_w − θ) / 0.5) with t = 1, 3, 10 for faint, clear and strong,
 * θ ~ N(0, ln 3) before the first. Each verdict counts alike, whatever their order; without any it is what is known of nobody.
 * Source: vision.md D.
 */
export function herEye(verdicts: readonly SeenVerdict[]): HerEye {
  if (verdicts.length === 0) {
    const { thresholdMean: theta, thresholdSd: sd } = UNTUNED;
    return { verdicts: 0, theta, sd, low: theta - TENTH * sd, high: theta + TENTH * sd };
  }
  const logs = GRID.map((theta) => -(theta ** 2) / (2 * UNTUNED.thresholdSd ** 2));
  for (const verdict of verdicts) addLogLikelihood(logs, verdict);
  const most = logs.reduce((best, log) => Math.max(best, log), -Infinity);
  const weights = logs.map((log) => Math.exp(log - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const theta = weights.reduce((sum, weight, at) => sum + weight * GRID[at]!, 0) / total;
  const variance = weights.reduce((sum, weight, at) => sum + weight * (GRID[at]! - theta) ** 2, 0) / total;
  return {
    verdicts: verdicts.length,
    theta,
    sd: Math.sqrt(variance),
    low: quantile(weights, 0.1 * total),
    high: quantile(weights, 0.9 * total),
  };
}

/** What the numbers of a cloth are told with. */
export const doubtOf = ({ theta, sd }: HerEye): Doubt => ({ thresholdMean: theta, thresholdSd: sd });

/**
 * What one look at something of this V would tell of θ: Fisher's information, averaged over where θ may lie, to be added to 1/sd².
 * Looks add up. Limit: what is learned is on the average a little less than that (van Trees' inequality), most so for the first looks.
 * @param V above 0
 */
export function lookInformation(V: number, { theta, sd }: Pick<HerEye, "theta" | "sd">): number {
  let sum = 0;
  let all = 0;
  for (let step = -LOOK_STEPS; step <= LOOK_STEPS; step++) {
    const away = (step / LOOK_STEPS) * LOOK_REACH;
    const weight = Math.exp(-(away ** 2) / 2);
    all += weight;
    sum += weight * informationAt(Math.log(V) - theta - away * sd);
  }
  return sum / all;
}

/** Three standard deviations hold all but a 400th of a normal distribution; steps of a quarter are far finer than what is summed. */
const LOOK_REACH = 3;
const LOOK_STEPS = 12;

/** Of one look at so much above the limit of what is seen, ln V − θ. */
function informationAt(above: number): number {
  const reached = [WORD_LIMITS.faint, WORD_LIMITS.clear, WORD_LIMITS.strong].map((limit) =>
    logistic((above - Math.log(limit)) / UNSTEADINESS),
  );
  const chances = [1, ...reached, 0];
  const slopes = chances.map((chance) => (chance * (1 - chance)) / UNSTEADINESS);
  let sum = 0;
  for (let word = 0; word + 1 < chances.length; word++) {
    const chance = chances[word]! - chances[word + 1]!;
    if (chance > 0) sum += (slopes[word]! - slopes[word + 1]!) ** 2 / chance;
  }
  return sum;
}

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

/** How unsteady one look is, in ln V. Birthplace: vision.md D, our choice. */
const UNSTEADINESS = 0.5;

/** The lower tenth of a normal distribution lies beyond this many standard deviations. */
const TENTH = 1.2816;

/** Two hundredths of ln V are far below what verdicts could tell apart; e¹⁰ is more than any V. Our choice. */
const STEP = 0.02;
const GRID: readonly number[] = Array.from({ length: 1001 }, (_, at) => (at - 500) * STEP);

/** Each word from the limit that it reaches to the next one that it does not. */
const BETWEEN: Readonly<Record<Word, readonly [number, number]>> = {
  lost: [0, WORD_LIMITS.faint],
  faint: [WORD_LIMITS.faint, WORD_LIMITS.clear],
  clear: [WORD_LIMITS.clear, WORD_LIMITS.strong],
  strong: [WORD_LIMITS.strong, Infinity],
};

function addLogLikelihood(logs: number[], { V, verdict }: SeenVerdict): void {
  const [reached, missed] = BETWEEN[verdict].map((limit) => Math.log(V / limit)) as [number, number];
  // logistic(a) − logistic(b) = logistic(a) logistic(−b) (1 − e^(b−a)), which does not round to nothing far out; the last
  // factor is the same for every θ.
  GRID.forEach((theta, at) => {
    logs[at]! += logLogistic((reached - theta) / UNSTEADINESS) + logLogistic((theta - missed) / UNSTEADINESS);
  });
}

const logLogistic = (x: number): number => (x > 0 ? -Math.log1p(Math.exp(-x)) : x - Math.log1p(Math.exp(x)));

/** Where the sum of the weights passes a mark; each weight is spread over its step. */
function quantile(weights: readonly number[], mark: number): number {
  let sum = 0;
  for (const [at, weight] of weights.entries()) {
    if (sum + weight >= mark) return GRID[at]! + STEP * ((mark - sum) / weight - 0.5);
    sum += weight;
  }
  return GRID.at(-1)!;
}

/** What of a project tells of her eye; a project as it is read has all of it. */
export interface Swatched {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourways: readonly Colourway[];
  readonly swatches?: readonly {
    readonly colourway: string;
    readonly gauge?: Gauge | null;
    readonly looks?: readonly {
      readonly at: Place;
      readonly distanceM: number;
      readonly lux?: number;
      readonly verdict: Word;
    }[];
  }[];
}

/**
 * Every look at every swatch with the V that the model gives it today. Looks at what is gone from the project, or at a place
 * where there is nothing to see whoever looks (one yarn alone), tell nothing and are left out.
 */
export function verdictsOf(
  { pattern, yarns, colourways, swatches = [] }: Swatched,
  memory: SpectrumMemory,
  texture?: Texture,
): SeenVerdict[] {
  return swatches.flatMap(({ colourway: id, gauge, looks = [] }) => {
    const colourway = colourways.find((one) => one.id === id);
    if (!colourway) return [];
    return looks.flatMap(({ at, distanceM, lux = USUAL_VIEWING.lux, verdict }): SeenVerdict[] => {
      const place = lookedAt(at, pattern);
      if (!place) return [];
      const { chart, section, rows } = place;
      const cloth = clothOf({ chart, pattern, yarns, colourway, ...(section ? { section } : {}) });
      const knitted = gauge ? { ...cloth, gauge } : cloth;
      const { V } = rowsContrast(knitted, rows, { distanceM, lux, texture }, memory);
      return V === null || V === 0 ? [] : [{ V, verdict }];
    });
  });
}

interface LookedAt {
  readonly chart: Chart;
  readonly section: Section | undefined;
  readonly rows: readonly [number, number];
}

/** The rows of a chart that a place comes to; null where they are gone, or are not one strip of it. */
function lookedAt(at: Place, { charts, sections = [] }: Pattern): LookedAt | null {
  const section = "section" in at ? sections.find(({ id }) => id === at.section) : undefined;
  const chart = charts.find(({ id }) => id === ("chart" in at ? at.chart : section?.chart));
  if (!chart) return null;
  const height = chart.rows.length;
  const { rows } = "chart" in at ? at : { rows: rowsOfRounds(at.rounds, section?.startRow ?? 1, height) };
  const [from, to] = rows ?? [1, height];
  return from > to || to > height ? null : { chart, section, rows: [from, to] };
}

function rowsOfRounds(
  rounds: readonly [number, number] | undefined,
  startRow: number,
  height: number,
): readonly [number, number] | undefined {
  if (!rounds || rounds[1] - rounds[0] + 1 >= height) return undefined;
  const [from, to] = rounds.map((round) => ((startRow - 1 + round - 1) % height) + 1);
  return [from!, to!];
}
