/** What every check is handed: the cloths as measured, the pattern's own beside them, and the names of things. */
import type { Chart } from "../chart/chart.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Viewing } from "../fabric/contrast.ts";
import type { PartContrast } from "../fabric/figures.ts";
import type { Measures } from "../fabric/measures.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { WordLimits } from "../fabric/visibility.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { Finding } from "./finding.ts";

/** One chart as it is used. */
export interface Judged {
  readonly chart: Chart;
  /** The section whose own changes make it differ from the chart's other uses. */
  readonly section: string | null;
  readonly now: Measures;
  /** The same stitches in the pattern's own colours, at the same distance and light. */
  readonly was: Measures;
  /** By index of the band: the parts of its figures, where some figure is far weaker than the pattern's. */
  readonly parts: ReadonlyMap<number, PartsOfBand>;
}

export interface PartsOfBand {
  readonly now: readonly PartContrast[];
  readonly was: readonly PartContrast[];
}

/** Metres of a yarn, worked out elsewhere. */
export interface Supply {
  readonly yarn: string;
  readonly metres: number;
  readonly low: number;
  readonly high: number;
  readonly reserve: number;
  readonly have: number | null;
  readonly short: number | null;
}

export interface AuditContext {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  readonly viewing: Viewing;
  /** V from which each word holds for her, the pattern's own colours included. */
  readonly limits: WordLimits;
  readonly charts: readonly Judged[];
  /** Empty where amounts are not judged. */
  readonly supplies: readonly Supply[];
  readonly ladder: LadderWish;
  /** The longest strand left uncaught at the back, cm. */
  readonly floatCm: number;
}

/** The order from light to dark as the pattern has it, turned over on purpose, or as it comes. */
export type LadderWish = "same" | "reversed" | "free";

export type Check = (context: AuditContext) => Finding[];

/** Each chart as every use of it has it, without the sections that have yarns of their own. */
export const wholeCharts = ({ charts }: Pick<AuditContext, "charts">): Judged[] =>
  charts.filter(({ section }) => section === null);

export function mainColourOf(pattern: Pattern): string | undefined {
  return pattern.colours.find(({ role }) => role === "main")?.id;
}

export const yarnName = (context: Pick<AuditContext, "yarns">, id: string | null): string =>
  context.yarns.find((yarn) => yarn.id === id)?.name ?? "no yarn yet";

/** What a chart colour in a yarn is called in a sentence: the yarn, or the pattern's colour where there is none. */
export function namedInk(
  context: Pick<AuditContext, "yarns" | "pattern">,
  colour: string,
  yarn: string | null,
): string {
  if (yarn !== null) return yarnName(context, yarn);
  return context.pattern.colours.find(({ id }) => id === colour)?.name ?? `colour ${colour}`;
}

/** "row 9" or "rows 9–11". */
export const rowsText = (rows: readonly [number, number]): string =>
  rows[0] === rows[1] ? `row ${rows[0]}` : `rows ${rows[0]}–${rows[1]}`;

/** "grey, lilac and moss". */
export const listText = (names: readonly string[]): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;

/** As `listText`; of more than six the first five are named and the others counted. */
export const shortList = (names: readonly string[]): string =>
  listText(names.length > 6 ? [...names.slice(0, 5), `${names.length - 5} more`] : names);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A number as it is told: two significant digits, no more is known. */
export const told = (value: number): string => String(Number(value.toPrecision(2)));
