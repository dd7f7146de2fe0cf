/** What a garment's pieces are put together from: parts with stitches and rounds, each a section of the plan. */
import { centred, type CentredBand, type Line } from "../centring.ts";
import type { Body } from "../body.ts";
import type { Gauge } from "../gauge.ts";
import type { Piece } from "../schematic.ts";
import { roundChoices, usualChoice, type RoundChoice } from "../roundChoices.ts";
import type { RoundBand } from "../rounds.ts";
import type { Beside, Decrease } from "../sections.ts";

/** Where a chart can be knitted, or another gauge holds. */
export const PARTS = ["rib", "body", "sleeve", "yoke", "crown", "hand"] as const;
export type Part = (typeof PARTS)[number];

/** What has to be known of a chart to place it. */
export interface ChartFacts {
  readonly id: string;
  readonly width: number;
  /** Of each row, lowest first, the band in which it lies; null in plain rows. */
  readonly bandOfRow: readonly (RoundBand | null)[];
  /** Stitches of each row, lowest first, of a chart that narrows by places without a stitch, as a yoke's may; missing for one that does not. */
  readonly stitchesOfRow?: readonly number[];
}

/** Lengths in cm that are the garment's and not the body's. */
export interface Lengths {
  hemRib: number;
  cuffRib: number;
  neckband: number;
  /** Of a drop shoulder or a vest: how much deeper than on the body. */
  armholeEase: number;
  /** Front neck below the shoulders; for a vest the V begins with the armhole. */
  neckDepth: number;
  neckWidth: number;
}

/** What she has settled of one part: another count or number of rounds than the usual, or which way of taking the repeats. */
export interface PartChoice {
  readonly stitches?: number;
  readonly rounds?: number;
  readonly how?: RoundChoice["how"];
}

export interface ShapeOf {
  readonly size: string;
  readonly body: Body;
  /** Added to the body's measure around. */
  readonly easeCm: number;
  readonly gauge: Gauge;
  readonly gauges?: Partial<Record<Part, Gauge>>;
  readonly charts?: Partial<Record<Part, ChartFacts>>;
  readonly lengths?: Partial<Lengths>;
  readonly steekStitches?: number;
  readonly choices?: Partial<Record<Part, PartChoice>>;
}

/** What stands beside the chart in one size; see `Beside`. */
export interface ShapedBeside extends Pick<Beside, "kind"> {
  readonly name: string;
  readonly stitches: number;
  readonly after: number;
  readonly skips?: number;
}

/** A part in one size, as it will be a section. */
export interface ShapedPart {
  readonly id: string;
  readonly name: string;
  readonly part: Part;
  /** Id of its chart; null for plain knitting. */
  readonly chart: string | null;
  readonly startRow: number;
  readonly stitches: number;
  readonly rounds: number;
  readonly startColumn: number;
  readonly decreases: readonly Decrease[];
  readonly beside: readonly ShapedBeside[];
  readonly from: readonly string[];
  /** Its own where it is not the pattern's. */
  readonly gauge: Gauge | null;
  /** How the bands lie on the lines that matter; none for plain knitting. */
  readonly centring: readonly CentredBand[];
}

/** A count around, and what else it could have been. */
export interface Measured {
  readonly part: Part;
  /** Around the chest, around the sleeve… */
  readonly name: string;
  readonly wantedCm: number;
  readonly chosen: RoundChoice;
  readonly choices: readonly RoundChoice[];
}

/** A length along rows, and what it would cost to end with the chart. */
export interface Height {
  readonly name: string;
  readonly wantedCm: number;
  readonly cm: number;
  readonly rounds: number;
  /** Row of the chart with which it ends, and rows of the chart; null for plain knitting. */
  readonly endsIn: { readonly row: number; readonly of: number } | null;
  /** Rounds that end with the chart's last row, below and above, with their cost in cm; none that cost a third of the length or more, or where it ends so. */
  readonly whole: readonly { readonly rounds: number; readonly costCm: number }[];
}

export type ShapeNote =
  | { readonly kind: "steek"; readonly stitches: number; readonly names: readonly string[] }
  | { readonly kind: "back neck"; readonly cm: number }
  | { readonly kind: "arm widened"; readonly from: number; readonly to: number; readonly upperArmCm: number }
  | { readonly kind: "yoke deeper"; readonly wantedCm: number; readonly cm: number }
  | { readonly kind: "in pattern"; readonly rounds: readonly number[] }
  | { readonly kind: "columns run on"; readonly section: string }
  | { readonly kind: "opposite"; readonly section: string; readonly shows: "half a repeat on" | "neither" };

export interface Shaped {
  readonly parts: readonly ShapedPart[];
  readonly pieces: readonly Piece[];
  readonly measured: readonly Measured[];
  readonly heights: readonly Height[];
  readonly notes: readonly ShapeNote[];
  /** Around the chest, head or hand as it will be, cm. */
  readonly finishedCm: number;
}

export const gaugeOf = (of: ShapeOf, part: Part): Gauge => of.gauges?.[part] ?? of.gauge;

export const roundsIn = (cm: number, gauge: Gauge): number => Math.max(1, Math.round((cm * gauge.rows) / 10));
export const stitchesIn = (cm: number, gauge: Gauge): number => Math.round((cm * gauge.stitches) / 10);
export const cmOfStitches = (stitches: number, gauge: Gauge): number => (stitches * 10) / gauge.stitches;
export const cmOfRounds = (rounds: number, gauge: Gauge): number => (rounds * 10) / gauge.rows;

/** Rounds that are knitted of a chart, from which of its rows on. */
export interface Knitted {
  readonly startRow: number;
  readonly rounds: number;
}

/** The bands that are knitted of a chart, each with the rows that it has there; a band that is not reached asks for nothing. */
export function bandsOf(
  chart: ChartFacts | undefined,
  { startRow, rounds }: Knitted = { startRow: 1, rounds: Infinity },
): { band: RoundBand; rows: number }[] {
  const all = chart?.bandOfRow ?? [];
  const rows = new Map<RoundBand, number>();
  for (let index = 0; index < Math.min(rounds, all.length); index++) {
    const band = all[(startRow - 1 + index) % all.length];
    if (band) rows.set(band, (rows.get(band) ?? 0) + 1);
  }
  return [...rows].map(([band, count]) => ({ band, rows: count }));
}

/**
 * Stitches beyond whole repeats that make both edges of a piece that is cut open alike: one for motifs whose middle lies on a stitch
 * (trade.md 3), none where it lies between two; where a chart has both, by most rows.
 */
export function balanceOf(chart: ChartFacts | undefined, knitted?: Knitted): 0 | 1 {
  const sides = bandsOf(chart, knitted).reduce(
    (sum, { band, rows }) => sum + (band.centre ? (Number.isInteger(band.centre.column) ? rows : -rows) : 0),
    0,
  );
  return chart && sides >= 0 ? 1 : 0;
}

/** Around a piece: the count that she chose, or the usual one, of all ways to take the chart's repeats. */
export function around(
  of: ShapeOf,
  part: Part,
  wanted: {
    readonly name: string;
    readonly cm: number;
    readonly rounds: number;
    /** Of the chart, where the piece goes on above these rounds. */
    readonly knitted?: Knitted;
    readonly balance?: 0 | 1;
    readonly every?: number;
    readonly hasSides?: boolean;
  },
): Measured {
  const { name, cm, rounds, balance = 0, every = 1, hasSides = false } = wanted;
  const gauge = gaugeOf(of, part);
  const bands = bandsOf(of.charts?.[part], wanted.knitted ?? { startRow: 1, rounds }).map(
    ({ band: { id, repeat } }) => ({ id, repeat }),
  );
  const choices = roundChoices({ cm, gauge, bands, balance, rounds, every });
  // There are ribs of many sizes: no count holds for all of them.
  const { stitches, how } = part === "rib" ? {} : (of.choices?.[part] ?? {});
  const found = cmOfStitches(stitches ?? 0, gauge);
  const own: RoundChoice | null =
    stitches === undefined ? null : { how: "nearest", stitches, panel: 0, cm: found, costCm: found - cm };
  const chosen = own ?? choices.find((choice) => choice.how === how) ?? usualChoice(choices, hasSides);
  return { part, name, wantedCm: cm, chosen, choices };
}

/** Of a length that carries a chart from some row on. */
export function heightOf(
  name: string,
  wantedCm: number,
  rounds: number,
  {
    gauge,
    chart,
    startRow = 1,
  }: { readonly gauge: Gauge; readonly chart: ChartFacts | undefined; readonly startRow?: number },
): Height {
  const cm = cmOfRounds(rounds, gauge);
  const height = chart?.bandOfRow.length ?? 0;
  if (height === 0) return { name, wantedCm, cm, rounds, endsIn: null, whole: [] };
  const first = height - startRow + 1;
  const over = (rounds - first + 10 * height) % height;
  const whole = (over === 0 ? [] : [rounds - over, rounds - over + height])
    .map((count) => ({ rounds: count, costCm: cmOfRounds(count, gauge) - wantedCm }))
    .filter((one) => one.rounds > 0 && Math.abs(one.costCm) <= MOST_LONGER * wantedCm);
  return {
    name,
    wantedCm,
    cm,
    rounds,
    endsIn: { row: ((startRow - 1 + rounds - 1) % height) + 1, of: height },
    whole,
  };
}

/** A length that differs by more is another garment's. Our choice. */
const MOST_LONGER = 1 / 3;

/** A part without shaping, to be changed where it has some; a chart is knitted where one is meant for the part. */
export function partOf(
  of: ShapeOf,
  part: Part,
  own: Pick<ShapedPart, "id" | "name" | "stitches" | "rounds" | "from"> &
    Partial<ShapedPart> & { readonly lines?: readonly Line[]; readonly maySlip?: boolean; readonly plain?: true },
): ShapedPart {
  const { lines = [], plain = false, maySlip = false, ...fields } = own;
  const chart = plain ? undefined : of.charts?.[part];
  const { startColumn, bands } = chart
    ? centred({
        width: chart.width,
        bands: bandsOf(chart, { startRow: own.startRow ?? 1, rounds: own.rounds }),
        lines,
        maySlip,
      })
    : { startColumn: 1, bands: [] };
  return {
    part,
    chart: chart?.id ?? null,
    startRow: 1,
    startColumn,
    decreases: [],
    beside: [],
    gauge: of.gauges?.[part] ?? null,
    centring: bands,
    ...fields,
  };
}

/**
 * Stitches that go or come a few at a time, evenly over the rounds: never in the first, and several times the step in a round only where there
 * are more steps than rounds.
 * @param where stitches of each step at the beginning of the round; or the names of what each step lies on either side of
 */
export function evenly(
  { from, to, rounds }: { readonly from: number; readonly to: number; readonly rounds: number },
  step: number,
  where: number | readonly string[] = 0,
): Decrease[] {
  const steps = Math.floor(Math.abs(to - from) / step);
  const sign = Math.sign(to - from);
  const places = Array.from({ length: steps }, (_, index) =>
    Math.min(rounds, Math.max(2, Math.round(((index + 1) * (rounds + 1)) / (steps + 1)))),
  );
  return [...new Set(places)].map((round) => {
    const here = places.filter((place) => place === round).length;
    const before = places.filter((place) => place <= round).length;
    const decrease = { round, to: from + sign * step * before };
    if (typeof where === "number") return where === 0 ? decrease : { ...decrease, atStart: -sign * here * where };
    return { ...decrease, at: Array.from({ length: here }, () => where).flat() };
  });
}

/** Stitches of all rounds of a part, with what stands beside the chart's. */
export function stitchesOf(part: ShapedPart): number {
  const beside = part.beside.reduce((sum, { stitches }) => sum + stitches, 0);
  let sum = 0;
  for (let round = 1; round <= part.rounds; round++)
    sum += beside + (part.decreases.findLast((decrease) => decrease.round <= round)?.to ?? part.stitches);
  return sum;
}
