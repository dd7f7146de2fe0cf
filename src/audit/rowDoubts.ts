/** Rows in doubt: those whose range reaches to both sides of what is asked of them, gathered into the questions that one look answers. */
import { stripeAt } from "../fabric/contrast.ts";
import type { RowMeasure } from "../fabric/measures.ts";
import { wordOf } from "../fabric/visibility.ts";
import type { Cloth } from "../fabric/cloth.ts";
import { areasOf } from "../fabric/areas.ts";
import { capital, listText, namedInk, rowsText, type AuditContext, type Judged } from "./context.ts";
import type { OpenDoubt, OpenLook, SwatchRows } from "./doubts.ts";
import { enoughV, isHeldTo, toldApart } from "./legibility.ts";
import { lookInformation, type HerEye } from "./verdicts.ts";

/**
 * Every look that a swatch can offer and the doubts among them. Rows in the same yarns whose V is about the same are one question: a look
 * at any of them answers it, for they differ by what is known (how the stitches lie) and not by what is open (the shades, the weight of
 * hue, her threshold).
 */
export function rowDoubts(
  context: AuditContext,
  eye: HerEye,
): { readonly looks: OpenLook[]; readonly doubts: OpenDoubt[] } {
  const looks: OpenLook[] = [];
  const doubts: OpenDoubt[] = [];
  for (const alike of questions(context)) {
    const options = alike.map(({ place }) => [place]);
    const [{ V }] = alike as [Row];
    const open = alike.flatMap((row) => {
      const doubt = openRow(context, eye, row);
      return doubt ? [{ ...row, ...doubt }] : [];
    });
    if (open.length > 0) doubts.push(doubtOf(context, open, { options, look: looks.length }));
    looks.push({ information: lookInformation(V, eye), options });
  }
  return { looks, doubts };
}

/** A row that can be looked at, where it lies with its neighbours. */
interface Row {
  readonly judged: Judged;
  readonly measure: RowMeasure;
  readonly V: number;
  readonly place: SwatchRows;
}

/** V of two rows are one when they differ by less than this factor: half of what one look is unsteady by. Our choice. */
const ABOUT_THE_SAME = 1.25;

/** All rows at which there is something to see, gathered by yarns and V, the lowest row first. */
function questions(context: AuditContext): Row[][] {
  const byYarns = new Map<string, Row[]>();
  context.charts.forEach((judged, cloth) => {
    const whole = context.charts.find(({ chart, section }) => chart.id === judged.chart.id && section === null)!;
    for (const measure of judged.now.rows) {
      const { V } = measure.contrast;
      if (V === null || V === 0) continue;
      const rows = rowsAround(judged.now.cloth, measure);
      // A section's own cloth differs from its chart's in some rows only.
      if (judged !== whole && sameYarns(judged.now.cloth, whole.now.cloth, rows)) continue;
      const key = `${measure.contrast.areas.length} ${toldApart(measure.contrast)}`;
      const known = byYarns.get(key);
      const row = { judged, measure, V, place: { cloth, rows } };
      if (known) known.push(row);
      else byYarns.set(key, [row]);
    }
  });
  return [...byYarns.values()].flatMap((rows) => {
    const groups: Row[][] = [];
    for (const row of rows.toSorted((a, b) => a.V - b.V)) {
      const last = groups.at(-1);
      if (last && row.V <= last[0]!.V * ABOUT_THE_SAME) last.push(row);
      else groups.push([row]);
    }
    return groups;
  });
}

/** The row between its neighbours; a stripe of one colour whole. */
function rowsAround(cloth: Cloth, { row, contrast }: RowMeasure): readonly [number, number] {
  const stripe = contrast.areas.length === 1 ? stripeAt(cloth, row) : null;
  return withNeighbours(cloth, stripe ? [stripe.from, stripe.to] : [row, row]);
}

export const withNeighbours = (cloth: Cloth, [from, to]: readonly [number, number]): readonly [number, number] => [
  Math.max(1, from - 1),
  Math.min(cloth.grid.height, to + 1),
];

function sameYarns(one: Cloth, other: Cloth, [from, to]: readonly [number, number]): boolean {
  const keys = (cloth: Cloth, row: number): string =>
    areasOf(cloth, row, row)
      .areas.map(({ key }) => key)
      .join();
  for (let row = from; row <= to; row++) if (keys(one, row) !== keys(other, row)) return false;
  return true;
}

interface Openness {
  readonly chance: number;
  readonly precision: number | null;
}

function openRow(context: AuditContext, eye: HerEye, { judged, measure }: Row): Openness | null {
  const was = judged.was.rows.find(({ row }) => row === measure.row)!.contrast;
  if (!isHeldTo(context, measure, was)) return null;
  const { want } = judged.now.bands[measure.band]!.band;
  const { V, low, high } = measure.contrast;
  return openAt({ V: V!, low: low!, high: high! }, enoughV(was.V, want, context.limits), eye);
}

/**
 * Whether a range reaches to both sides of a limit, how likely it then is that the word told is the wrong one, and how well her threshold
 * must be known, as 1/sd², for the range likely to lie on one side; null where that alone would never do. `low` and `high` are over her
 * threshold, `V` and the limit the model's.
 */
export function openAt(
  { V, low, high }: { readonly V: number; readonly low: number; readonly high: number },
  limitV: number,
  { theta, sd }: HerEye,
): Openness | null {
  const limit = limitV / Math.exp(theta);
  if (limitV === 0 || low >= limit || high < limit) return null;
  const own = V / Math.exp(theta);
  // The ends of the range without the threshold's part of it, in ln V.
  const below = Math.max(0, Math.log(own / low) - TENTH * sd);
  const above = Math.max(0, Math.log(high / own) - TENTH * sd);
  const away = Math.log(own / limit);
  const beyond = away >= 0 ? below : above;
  return {
    chance: Number.isFinite(beyond) ? lowerTail((-TENTH * Math.abs(away)) / Math.hypot(beyond, TENTH * sd)) : EVEN,
    precision: precisionFor({ away, below, above }, sd),
  };
}

/**
 * The least 1/sd² of her threshold with which the range lies on one side of the limit in four of five outcomes. As little as is then left
 * open of it, as much has its middle moved: squares add.
 */
function precisionFor(
  { away, below, above }: { readonly away: number; readonly below: number; readonly above: number },
  sd: number,
): number | null {
  for (let left = sd - SD_STEP; left > 0; left -= SD_STEP) {
    const moves = Math.sqrt(sd ** 2 - left ** 2);
    const enough = upTo((away - below - TENTH * left) / moves);
    const tooLittle = upTo((-away - above - TENTH * left) / moves);
    if (enough + tooLittle >= HOLDS) return 1 / left ** 2;
  }
  return null;
}

/** A hundredth of ln V: far finer than what looks could tell apart. */
const SD_STEP = 0.01;

/** Something is settled when it is in so many of the outcomes, as everywhere where a range is told. */
const HOLDS = 0.8;

const upTo = (z: number): number => (z <= 0 ? lowerTail(z) : 1 - lowerTail(-z));

/** A range's ends are the tenths of a normal distribution. */
const TENTH = 1.2816;

/** What hue alone tells apart, nobody can foretell. */
export const EVEN = 0.5;

/** Of the standard normal distribution below z: Abramowitz and Stegun 26.2.17, to 1e-7; from memory. @param z at most 0 */
export function lowerTail(z: number): number {
  const t = 1 / (1 - 0.2316419 * z);
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return (Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI)) * series;
}

type OpenRow = Row & Openness;

function doubtOf(
  context: AuditContext,
  open: readonly OpenRow[],
  { options, look }: Pick<OpenDoubt, "options" | "look">,
): OpenDoubt {
  // The one of which least is known speaks for all.
  const [worst] = open.toSorted((a, b) => b.chance - a.chance || a.measure.row - b.measure.row) as [OpenRow];
  const { judged, measure } = worst;
  const { contrast } = measure;
  const rows = open.filter(({ judged: own }) => own === judged).map(({ measure: { row } }) => row);
  const [figure] = contrast.figures;
  const areas = contrast.areas.length === 1 && figure ? [figure.area, figure.against] : contrast.areas;
  const figureFirst = areas.toSorted((a, b) => a.stitches - b.stitches);
  const names = listText(figureFirst.map(({ colours, yarn }) => namedInk(context, colours[0]!, yarn)));
  const place = rowsTexts(rows);
  const least = open.some(({ precision }) => precision === null);
  return {
    id: `row/${judged.chart.id}${judged.section ? `@${judged.section}` : ""}/${Math.min(...rows)}/${toldApart(contrast)}`,
    kind: "row",
    chart: judged.chart.id,
    section: judged.section,
    rows: rows.toSorted((a, b) => a - b),
    headline: `${capital(place)}: ${names}`,
    sentence: `${capital(contrast.shows!)} at ${context.viewing.distanceM} m, between ${wordOf(contrast.low!)} and ${wordOf(contrast.high!)}.`,
    chance: worst.chance,
    options,
    times: 1,
    look,
    precision: least ? null : Math.max(...open.map(({ precision }) => precision!)),
  };
}

/** "rows 5–9, 11 and 68". */
function rowsTexts(rows: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const row of rows.toSorted((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && row === last[1] + 1) last[1] = row;
    else runs.push([row, row]);
  }
  if (runs.length === 1) return rowsText(runs[0]!);
  return `rows ${listText(runs.map((run) => rowsText(run).replace(/^rows? /, "")))}`;
}
