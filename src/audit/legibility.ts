/** Does every row and figure part from its ground at her distance, as it does in the pattern? */
import type { Severity } from "../base/problem.ts";
import type { Want } from "../chart/chart.ts";
import type { Area } from "../fabric/areas.ts";
import type { Contrast } from "../fabric/contrast.ts";
import type { PartContrast } from "../fabric/figures.ts";
import { wordOf, WORD_LIMITS, type WordLimits } from "../fabric/visibility.ts";
import type { BandMeasure, RowMeasure } from "../fabric/measures.ts";
import {
  capital,
  listText,
  mainColourOf,
  namedInk,
  rowsText,
  told,
  type AuditContext,
  type Judged,
} from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function legibility(context: AuditContext): Finding[] {
  return context.charts.flatMap((judged) => {
    const rows = rowFindings(context, judged);
    const figures = figureFindings(context, judged);
    const parts = partFindings(context, judged, [...rows, ...figures]);
    const told = [...rows, ...figures, ...parts];
    return [...told, ...wantFindings(context, judged, told)];
  });
}

export interface Shown {
  readonly V: number;
  readonly was: number | null;
}

/** Whether something shows as well as may be expected of its place: as she wants it, or about as well as in the pattern's own colours. */
export const showsEnough = ({ V, was }: Shown, want: Want | undefined, limits = WORD_LIMITS): boolean =>
  V >= enoughV(was, want, limits);

/** The V from which something shows enough where the pattern's own colours have `was`. */
export function enoughV(was: number | null, want: Want | undefined, limits = WORD_LIMITS): number {
  if (want === "soft") return 0;
  const wanted = want === "strong" ? limits.strong : limits.clear;
  const asInPattern = was === null ? wanted : Math.min(wanted, was * THRESHOLDS.worseThanPattern);
  // A place that the pattern itself leaves faint may be faint.
  return want !== "strong" && was !== null && was < limits.clear ? Math.min(asInPattern, limits.faint) : asInPattern;
}

interface Verdict {
  readonly severity: Severity;
  /** "hue": it shows, but hue alone tells its colours apart where the pattern has light and dark. */
  readonly by: "contrast" | "hue";
}

interface Seen {
  readonly V: number;
  readonly lightDark: number;
  /** Between the two colours, L*. */
  readonly deltaL: number;
  readonly was: { readonly V: number | null; readonly lightDark: number | null };
}

/** How bad it is that something shows as it does; null where it is as it should be. */
function verdict({ V, lightDark, deltaL, was }: Seen, want: Want | undefined, limits: WordLimits): Verdict | null {
  if (!showsEnough({ V, was: was.V }, want, limits)) {
    const expected = was.V ?? limits.clear;
    return { severity: V < limits.faint && expected >= limits.clear ? "fault" : "doubt", by: "contrast" };
  }
  const byHue =
    want !== "soft" &&
    deltaL < THRESHOLDS.oneValue &&
    lightDark < (V < limits.strong ? limits.clear : limits.faint) &&
    (was.lightDark ?? 0) >= limits.clear &&
    lightDark < was.lightDark! * THRESHOLDS.worseThanPattern;
  return byHue ? { severity: "doubt", by: "hue" } : null;
}

function rowFindings(context: AuditContext, judged: Judged): Finding[] {
  const findings: Finding[] = [];
  let run: { rows: RowMeasure[]; verdict: Verdict } | null = null;
  const close = (): void => {
    if (run) findings.push(rowFinding(context, judged, run.rows, run.verdict));
    run = null;
  };
  judged.now.rows.forEach((row, index) => {
    const was = judged.was.rows[index]!.contrast;
    const found = rowVerdict(context, judged, row, was);
    if (!found) return close();
    const last = run?.rows.at(-1);
    const joins =
      last?.band === row.band &&
      run?.verdict.severity === found.severity &&
      run.verdict.by === found.by &&
      toldApart(last.contrast) === toldApart(row.contrast);
    if (!joins) close();
    run = { rows: [...(run?.rows ?? []), row], verdict: found };
  });
  close();
  return findings;
}

function rowVerdict(context: AuditContext, judged: Judged, row: RowMeasure, was: Contrast): Verdict | null {
  const { V, lightDark, deltaL } = row.contrast;
  if (V === null || lightDark === null || deltaL === null || !isHeldTo(context, row, was)) return null;
  return verdict({ V, lightDark, deltaL, was }, judged.now.bands[row.band]!.band.want, context.limits);
}

/**
 * Whether a row is held to showing: not one that she has made plain on purpose, nor a plain row that goes on above or below in the
 * pattern, where a second yarn of nearly its colour is no fault.
 */
export const isHeldTo = (context: AuditContext, row: RowMeasure, was: Contrast): boolean =>
  !meantPlain(context, row) && (was.V !== null || row.contrast.areas.length > 1);

/** What is told apart: the yarns of a row, or a stripe and what it is most easily confused with. */
export function toldApart({ areas, figures: [figure] }: Contrast): string {
  return pairKey(areas.length === 1 && figure ? [figure.area, figure.against] : areas);
}

const pairKey = (areas: readonly Area[]): string => [...new Set(areas.map(({ key }) => key))].sort().join("+");

/** A row that she has deliberately knitted in one yarn, by a change at that place. */
function meantPlain(context: AuditContext, { contrast }: RowMeasure): boolean {
  if (contrast.areas.length !== 1) return false;
  return new Set(contrast.areas[0]!.colours.map((colour) => context.colourway.yarns[colour])).size > 1;
}

function rowFinding(
  context: AuditContext,
  judged: Judged,
  found: readonly RowMeasure[],
  { severity, by }: Verdict,
): Finding {
  const rows: [number, number] = [found[0]!.row, found.at(-1)!.row];
  // The weakest speaks for all of them.
  const { row, contrast, band } = found.toSorted((a, b) => a.contrast.V! - b.contrast.V!)[0]!;
  const V = contrast.V!;
  const { limits } = context;
  const was = judged.was.rows.find((one) => one.row === row)!.contrast;
  const { id: bandId, grounds, want } = judged.now.bands[band]!.band;
  const main = mainColourOf(context.pattern);
  const asGround = contrast.areas.length === 1 ? [main] : grounds.map((ground) => judged.now.cloth.grid.ids[ground]);
  const areas = inOrder(contrast, new Set(asGround.filter((colour) => colour !== undefined)));
  const names = areas.map((area) => namedInk(context, area.colours[0]!, area.yarn));
  return {
    id: `legibility/${placeId(judged)}/${rows.join("-")}/${toldApart(contrast)}`,
    severity,
    where: placeOf(judged, rows, bandId, areas),
    numbers: {
      V,
      lightDark: contrast.lightDark,
      deltaL: contrast.deltaL,
      was: was.V,
      distanceM: context.viewing.distanceM,
      shows: contrast.shows,
    },
    headline: `${capital(rowsText(rows))}, ${pairText(areas, names)}: ${by === "hue" ? hueText(contrast.lightDark!, limits) : contrast.shows}`,
    sentence: [
      pairSentence(areas, names, contrast, by, context),
      ...(was.V === null
        ? []
        : [`In the pattern's own colours ${rows[0] === rows[1] ? "it is" : "they are"} ${was.shows}.`]),
      ...(want === "strong" && V >= limits.clear ? ["You wanted this band strong."] : []),
      ...(straddles(contrast) ? ["A swatch settles it."] : []),
    ].join(" "),
  };
}

/** Figures that their rows do not already tell of: two colours of a band that touch. */
function figureFindings(context: AuditContext, judged: Judged): Finding[] {
  const { limits } = context;
  return judged.was.bands.flatMap((was, index) => {
    const measure = judged.now.bands[index]!;
    if (measure.band.want === "soft") return [];
    const rows = judged.now.rows.filter(({ band }) => band === index);
    const seen = new Set<string>();
    return was.contrast.figures.flatMap((before) => {
      const areas = [before.area, before.against].map(({ colours }) => nowIn(measure, colours[0]!));
      const [area, against] = areas;
      if (!area || !against) return [];
      const key = pairKey([area, against]);
      const inOneRow = rows.filter(({ contrast }) =>
        areas.every((one) => contrast.areas.some((own) => own.key === one!.key)),
      );
      // A row of these two alone has told of them, and so has a row that one yarn has made plain.
      if (seen.has(key) || inOneRow.some(({ contrast }) => pairKey(contrast.areas) === key)) return [];
      const merged = area.key === against.key;
      if (merged && !rows.some(({ row }) => sharesRow(judged.was, row, before))) return [];
      const figure = merged
        ? { area, against, V: 0, lightDark: 0, low: 0, high: 0, shows: wordOf(0) }
        : measure.contrast.figures.find((one) => pairKey([one.area, one.against]) === key);
      if (!figure) return [];
      const step = !merged && inOneRow.length === 0 && isShadingStep(measure.band, judged, before);
      // A shading step inside a motif need not be seen; it is missed only where the pattern has a strong break. Our choice.
      const expected = step ? limits.strong : limits.clear;
      const found =
        before.V < expected
          ? null
          : verdict({ ...figure, deltaL: deltaL(area, against), was: before }, measure.band.want, limits);
      if (!found) return [];
      seen.add(key);
      return [figureFinding(context, judged, measure, figure, before, found)];
    });
  });
}

/** The area of a band in which a chart colour lies now. */
const nowIn = ({ contrast }: BandMeasure, colour: string): Area | undefined =>
  contrast.areas.find(({ colours }) => colours.includes(colour));

const deltaL = (one: Area, other: Area): number => Math.abs(one.lab[0] - other.lab[0]);

function sharesRow({ rows }: Judged["was"], row: number, { area, against }: Figure): boolean {
  const { areas } = rows.find((one) => one.row === row)!.contrast;
  return [area, against].every(({ key }) => areas.some((own) => own.key === key));
}

/** Two shades of one ground, or of one pattern, that only lie above one another: they are meant to melt. */
function isShadingStep({ grounds, pattern }: BandMeasure["band"], { now }: Judged, { area, against }: Figure): boolean {
  const places = [area, against].map(({ colours }) => now.cloth.grid.ids.indexOf(colours[0]!));
  return places.every((at) => grounds.includes(at)) || places.every((at) => pattern.includes(at));
}

type Figure = Contrast["figures"][number];

function figureFinding(
  context: AuditContext,
  judged: Judged,
  { band }: BandMeasure,
  figure: Figure,
  was: Figure,
  { severity, by }: Verdict,
): Finding {
  const { area, against, V, lightDark, shows } = figure;
  const rows = band.rows as [number, number];
  const areas = area.key === against.key ? [area] : [area, against];
  const names = areas.map((one) => namedInk(context, one.colours[0]!, one.yarn));
  const place = capital(band.name ?? rowsText(rows));
  const { distanceM } = context.viewing;
  const why =
    areas.length === 1
      ? `${capital(names[0]!)} has taken the place of ${listText(area.colours)}: where they meet nothing is left to see.`
      : by === "hue"
        ? `Where ${names[0]} meets ${names[1]} they differ in hue and hardly in value, ${told(deltaL(area, against))} apart in L*: the figure is ${shows}${rangeText(figure)}.`
        : `Where ${names[0]} meets ${names[1]}, ${told(deltaL(area, against))} apart in L*, the figure is ${shows} at ${distanceM} m${rangeText(figure)}.`;
  return {
    id: `figure/${placeId(judged)}/${band.id}/${pairKey(areas)}`,
    severity,
    where: placeOf(judged, rows, band.id, areas),
    numbers: { V, lightDark, was: was.V, distanceM, shows },
    headline: `${place}, ${areas.length === 1 ? pairText(areas, names) : `${names[0]} against ${names[1]}`}: ${by === "hue" ? hueText(lightDark, context.limits) : shows}`,
    sentence: `${why} In the pattern's own colours it is ${was.shows}.`,
  };
}

/** Small shapes that are lost though the pattern has them clear, where neither their rows nor their colours as a whole tell of it. */
function partFindings(context: AuditContext, judged: Judged, found: readonly Finding[]): Finding[] {
  const { limits } = context;
  return [...judged.parts].flatMap(([index, { now, was }]) => {
    const measure = judged.now.bands[index]!;
    if (measure.band.want === "soft") return [];
    const lost = was.flatMap((before) => {
      const part = now.find(
        ({ area, against, rows, times }) =>
          area.colours.includes(before.area.colours[0]!) &&
          against.colours.includes(before.against.colours[0]!) &&
          rows[0] === before.rows[0] &&
          rows[1] === before.rows[1] &&
          times === before.times,
      );
      if (!part || before.V < limits.clear || part.V >= limits.faint) return [];
      const colours = [part.area, part.against].flatMap((area) => area.colours);
      const known = found.some(
        ({ where }) =>
          where.rows[0] <= part.rows[1] &&
          where.rows[1] >= part.rows[0] &&
          [part.area, part.against].every((area) => area.colours.some((colour) => where.colours?.includes(colour))) &&
          where.colours?.every((colour) => colours.includes(colour)),
      );
      return known ? [] : [{ part, was: before }];
    });
    const pairs = new Set(lost.map(({ part }) => pairOf(part)));
    return [...pairs].map((pair) =>
      partFinding(
        context,
        judged,
        measure,
        lost.filter(({ part }) => pairOf(part) === pair),
      ),
    );
  });
}

const pairOf = ({ area, against }: PartContrast): string => pairKey([area, against]);

interface LostPart {
  readonly part: PartContrast;
  readonly was: PartContrast;
}

/** The parts of one pair of colours in a band are told together; the weakest speaks for them. */
function partFinding(
  context: AuditContext,
  judged: Judged,
  { band }: BandMeasure,
  parts: readonly LostPart[],
): Finding {
  const rows: [number, number] = [
    Math.min(...parts.map(({ part }) => part.rows[0])),
    Math.max(...parts.map(({ part }) => part.rows[1])),
  ];
  const { part, was } = parts.toSorted((one, other) => one.part.V - other.part.V)[0]!;
  const { area, against, V, lightDark, shows } = part;
  const names = [area, against].map(({ colours, yarn }) => namedInk(context, colours[0]!, yarn));
  const { distanceM } = context.viewing;
  const times = parts.reduce((sum, each) => sum + each.part.times, 0);
  const one = times === 1;
  const shapes = one ? "a small shape" : `${times} small shapes`;
  return {
    id: `part/${placeId(judged)}/${band.id}/${pairKey([area, against])}`,
    severity: "doubt",
    where: placeOf(judged, rows, band.id, [area, against]),
    numbers: { V, lightDark, was: was.V, distanceM, shows, times },
    headline: `${capital(rowsText(rows))}, ${shapes} of ${names[0]} in ${names[1]}: ${shows}`,
    sentence:
      `The larger shapes there show, ${one ? "this one does" : "these do"} not: ${listText(names)} are ` +
      `${told(deltaL(area, against))} apart in L*, too little for so small a shape at ${distanceM} m: ${shows}${rangeText(part)}. ` +
      `In the pattern's own colours ${one ? "it is" : "they are"} ${was.shows}.`,
  };
}

/** A band wanted soft is left in peace while it is soft and told of when it is hard; one wanted clear or strong is held to it. */
function wantFindings(context: AuditContext, judged: Judged, told: readonly Finding[]): Finding[] {
  const { limits } = context;
  return judged.now.bands.flatMap(({ band, contrast }, index): Finding[] => {
    const { V } = contrast;
    const was = judged.was.bands[index]!.contrast.V ?? 0;
    const { want } = band;
    if (V === null || want === undefined) return [];
    if (want === "soft")
      return V < limits.strong || V * THRESHOLDS.worseThanPattern <= was
        ? []
        : [wantFinding(context, judged, band, contrast, { want, was, severity: "doubt" })];
    if (V >= limits[want] || told.some(({ where }) => where.band === band.id)) return [];
    const severity = V < was * THRESHOLDS.worseThanPattern || was >= limits[want] ? "doubt" : "note";
    return [wantFinding(context, judged, band, contrast, { want, was, severity })];
  });
}

function wantFinding(
  context: AuditContext,
  judged: Judged,
  { id, name, rows }: BandMeasure["band"],
  contrast: Contrast,
  { want, was, severity }: { want: Want; was: number; severity: Severity },
): Finding {
  const place = [rows[0], rows[1]] as [number, number];
  const areas = inOrder(contrast, new Set());
  const names = areas.map((area) => namedInk(context, area.colours[0]!, area.yarn));
  const { distanceM } = context.viewing;
  return {
    id: `${want === "soft" ? "soft" : "want"}/${placeId(judged)}/${id}`,
    severity,
    where: placeOf(judged, place, id, areas),
    numbers: { V: contrast.V, was, distanceM, shows: contrast.shows },
    headline: `${capital(name ?? rowsText(place))}: wanted ${want}, shows ${contrast.shows}`,
    sentence: [
      `In ${listText(names)} this band is ${contrast.shows} at ${distanceM} m${rangeText(contrast)}; you wanted it ${want}.`,
      `In the pattern's own colours it is ${wordOf(was, context.limits)}.`,
      ...(straddles(contrast) ? ["A swatch settles it."] : []),
    ].join(" "),
  };
}

/** What is told of colours that light and dark do not part. */
const hueText = (lightDark: number, limits: WordLimits): string =>
  wordOf(lightDark, limits) === "lost" ? "told apart by hue alone" : "told apart mostly by hue";

/** The figure first, its ground after it: the band's ground, or of a stripe the main colour; else what has more stitches. At most three are named. */
function inOrder(contrast: Contrast, grounds: ReadonlySet<string>): readonly Area[] {
  const [figure] = contrast.figures;
  const isGround = ({ colours }: Area): number => Number(colours.some((colour) => grounds.has(colour)));
  if (contrast.areas.length === 1)
    return figure ? [figure.area, figure.against].sort((a, b) => isGround(a) - isGround(b)) : contrast.areas;
  return contrast.areas.toSorted((a, b) => isGround(a) - isGround(b) || a.stitches - b.stitches).slice(0, 3);
}

/** "grey on lilac"; one yarn in the place of several chart colours: "B and C both in grey". */
function pairText(areas: readonly Area[], names: readonly string[]): string {
  if (areas.length > 1) return names.join(" on ");
  const [{ colours }] = areas as [Area];
  return `${listText(colours)} ${colours.length === 2 ? "both" : "all"} in ${names[0]}`;
}

/** Why, the word and its range: "Grey and lilac are nearly one value, 4.5 apart in L*: faint at 1.5 m (between lost and clear)." */
function pairSentence(
  areas: readonly Area[],
  names: readonly string[],
  contrast: Contrast,
  by: Verdict["by"],
  { viewing, limits }: AuditContext,
): string {
  if (areas.length === 1)
    return `${capital(names[0]!)} has taken the place of ${listText(areas[0]!.colours)}: nothing is left to see.`;
  const { deltaL, lightDark } = contrast;
  const pair = capital(listText(names));
  const apart = `${told(deltaL!)} apart in L*`;
  const shows = `${contrast.shows} at ${viewing.distanceM} m`;
  if (by === "hue")
    return `${pair} differ in hue and hardly in value, ${apart}: ${shows} by their hue, ${wordOf(lightDark!, limits)} without it${rangeText(contrast)}.`;
  const near =
    deltaL! < THRESHOLDS.oneValue
      ? `nearly one value, ${apart}`
      : deltaL! < CLOSE
        ? `close in value, ${apart}`
        : `${apart}, little for so fine a pattern`;
  return `${pair} are ${near}: ${shows}${rangeText(contrast)}.`;
}

/** Common practice, no source: a difference in L* of 8 to 15 whispers. */
const CLOSE = 15;

function rangeText({ low, high }: Pick<Contrast, "low" | "high">): string {
  if (low === null || high === null) return "";
  const [least, most] = [wordOf(low), wordOf(high)];
  if (least !== most) return ` (between ${least} and ${most})`;
  return most === "lost" ? " (even at best)" : "";
}

const straddles = ({ low, high }: Contrast): boolean => low !== null && high !== null && wordOf(low) !== wordOf(high);

const placeId = ({ chart, section }: Judged): string => (section ? `${chart.id}@${section}` : chart.id);

function placeOf(
  { chart, section }: Judged,
  rows: [number, number],
  band: string,
  areas: readonly Area[],
): Finding["where"] {
  return {
    chart: chart.id,
    rows,
    band,
    colours: areas.flatMap(({ colours }) => colours),
    yarns: areas.flatMap(({ yarn }) => (yarn === null ? [] : [yarn])),
    ...(section ? { section } : {}),
  };
}
