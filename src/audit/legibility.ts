/** Does every row and figure part from its ground at her distance, as it does in the pattern? */
import type { Severity } from "../base/problem.ts";
import type { Want } from "../chart/chart.ts";
import type { Area } from "../fabric/areas.ts";
import type { Contrast } from "../fabric/contrast.ts";
import { wordOf, WORD_LIMITS, type Word } from "../fabric/visibility.ts";
import type { BandMeasure, RowMeasure } from "../fabric/measures.ts";
import { capital, namedInk, rowsText, told, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function legibility(context: AuditContext): Finding[] {
  return context.charts.flatMap((judged) => [
    ...rowFindings(context, judged),
    ...figureFindings(context, judged),
    ...softFindings(context, judged),
  ]);
}

export interface Shown {
  readonly V: number;
  readonly was: number | null;
}

/** Whether something shows as well as may be expected of its place: as she wants it, or about as well as in the pattern's own colours. */
export function showsEnough({ V, was }: Shown, want: Want | undefined): boolean {
  if (want === "soft") return true;
  const wanted = want === "strong" ? WORD_LIMITS.strong : WORD_LIMITS.clear;
  if (V >= wanted || (was !== null && V >= was * THRESHOLDS.worseThanPattern)) return true;
  // A place that the pattern itself leaves faint may be faint.
  return want !== "strong" && was !== null && was < WORD_LIMITS.clear && wordOf(V) === "faint";
}

/** How bad it is that something shows as it does; null where it is as it should be. */
function verdict(shown: Shown, want: Want | undefined): Severity | null {
  if (showsEnough(shown, want)) return null;
  const expected = shown.was ?? WORD_LIMITS.clear;
  return wordOf(shown.V) === "lost" && expected >= WORD_LIMITS.clear ? "fault" : "doubt";
}

function rowFindings(context: AuditContext, judged: Judged): Finding[] {
  const findings: Finding[] = [];
  let run: { first: RowMeasure; last: RowMeasure; severity: Severity } | null = null;
  const close = (): void => {
    if (run) findings.push(rowFinding(context, judged, run.first, run.last, run.severity));
    run = null;
  };
  judged.now.rows.forEach((row, index) => {
    const { V } = row.contrast;
    const was = judged.was.rows[index]!.contrast.V;
    const want = judged.now.bands[row.band]!.band.want;
    const severity = V === null || meantPlain(context, row) ? null : verdict({ V, was }, want);
    if (!severity) return close();
    const joins: boolean =
      run !== null &&
      run.severity === severity &&
      run.last.band === row.band &&
      samePair(run.last.contrast, row.contrast);
    if (!joins) close();
    run = run && joins ? { ...run, last: row } : { first: row, last: row, severity };
  });
  close();
  return findings;
}

const samePair = (one: Contrast, other: Contrast): boolean => pairKey(one.areas) === pairKey(other.areas);

const pairKey = (areas: readonly Area[]): string =>
  areas
    .map(({ key }) => key)
    .sort()
    .join("+");

/** A row that she has deliberately knitted in one yarn, by a change at that place. */
function meantPlain(context: AuditContext, { contrast }: RowMeasure): boolean {
  if (contrast.areas.length !== 1) return false;
  return new Set(contrast.areas[0]!.colours.map((colour) => context.colourway.yarns[colour])).size > 1;
}

function rowFinding(
  context: AuditContext,
  judged: Judged,
  first: RowMeasure,
  last: RowMeasure,
  severity: Severity,
): Finding {
  const { contrast } = first;
  const V = contrast.V!;
  const word = wordOf(V);
  const rows: [number, number] = [first.row, last.row];
  const was = judged.was.rows.find(({ row }) => row === first.row)!.contrast;
  const { band } = judged.now.bands[first.band]!;
  const names = pairNames(context, contrast);
  return {
    id: `legibility/${placeId(judged)}/${rows.join("-")}/${pairKey(contrast.areas)}`,
    severity,
    where: placeOf(judged, rows, band.id, coloursOf(contrast), yarnsOf(contrast)),
    numbers: {
      V,
      lightDark: contrast.lightDark,
      deltaL: contrast.deltaL,
      was: was.V,
      distanceM: context.viewing.distanceM,
      shows: word,
    },
    headline: `${capital(rowsText(rows))}, ${names.join(" on ")}: ${word}`,
    sentence: `${pairSentence(contrast, names)} At ${context.viewing.distanceM} m ${rowsAre(rows)} ${word} ${rangeText(contrast)}${wasText(was)}`,
  };
}

const rowsAre = (rows: readonly [number, number]): string => (rows[0] === rows[1] ? "it is" : "they are");

/** Figures that their rows do not already tell of: two colours of a band that touch. */
function figureFindings(context: AuditContext, judged: Judged): Finding[] {
  return judged.now.bands.flatMap((measure, index) => {
    if (measure.band.want === "soft") return [];
    const was = judged.was.bands[index]!;
    const rows = judged.now.rows.filter(({ band }) => band === index);
    return measure.contrast.figures.flatMap((figure) => {
      const told = rows.some(({ contrast }) => pairKey(contrast.areas) === pairKey([figure.area, figure.against]));
      const before = was.contrast.figures.find((other) => sameFigure(other, figure));
      const severity = told ? null : verdict({ V: figure.V, was: before?.V ?? null }, measure.band.want);
      if (!severity || !before) return [];
      return [figureFinding(context, judged, measure, figure, before.V, severity)];
    });
  });
}

type Figure = Contrast["figures"][number];

const sameFigure = (was: Figure, now: Figure): boolean => {
  const hold = (area: Area, colours: Area): boolean => area.colours.some((colour) => colours.colours.includes(colour));
  return (
    (hold(was.area, now.area) && hold(was.against, now.against)) ||
    (hold(was.area, now.against) && hold(was.against, now.area))
  );
};

function figureFinding(
  context: AuditContext,
  judged: Judged,
  { band }: BandMeasure,
  figure: Figure,
  was: number,
  severity: Severity,
): Finding {
  const names = [figure.area, figure.against].map((area) => namedInk(context, area.colours[0]!, area.yarn));
  const rows = band.rows as [number, number];
  return {
    id: `figure/${placeId(judged)}/${band.id}/${pairKey([figure.area, figure.against])}`,
    severity,
    where: placeOf(
      judged,
      rows,
      band.id,
      [figure.area, figure.against].map(({ colours }) => colours[0]!),
      [figure.area, figure.against].map(({ yarn }) => yarn),
    ),
    numbers: {
      V: figure.V,
      lightDark: figure.lightDark,
      was,
      distanceM: context.viewing.distanceM,
      shows: figure.shows,
    },
    headline: `${capital(band.name ?? rowsText(rows))}: ${names.join(" against ")} is ${figure.shows}`,
    sentence:
      `The band reads, but where ${names[0]} meets ${names[1]} nothing parts them: V ${told(figure.V)} at ` +
      `${context.viewing.distanceM} m, against ${told(was)} in the pattern's own colours.`,
  };
}

/** A band wanted soft is left in peace while it is soft, and told of when it is hard. */
function softFindings(context: AuditContext, judged: Judged): Finding[] {
  return judged.now.bands.flatMap(({ band, contrast }, index): Finding[] => {
    const { V } = contrast;
    const was = judged.was.bands[index]!.contrast.V ?? 0;
    if (band.want !== "soft" || V === null || V < WORD_LIMITS.strong || V * THRESHOLDS.worseThanPattern <= was)
      return [];
    const rows = band.rows as [number, number];
    return [
      {
        id: `soft/${placeId(judged)}/${band.id}`,
        severity: "doubt",
        where: placeOf(judged, rows, band.id, coloursOf(contrast), yarnsOf(contrast)),
        numbers: { V, was, distanceM: context.viewing.distanceM, shows: contrast.shows },
        headline: `${capital(band.name ?? rowsText(rows))}: wanted soft, shows ${contrast.shows}`,
        sentence: `You wanted this band soft. In ${pairNames(context, contrast).join(" and ")} it is ${contrast.shows} at ${context.viewing.distanceM} m: V ${told(V)}, from 10 on strong.`,
      },
    ];
  });
}

/** The pattern's colour first, its ground after it: the fewer stitches, the figure. */
function inOrder(contrast: Contrast): readonly Area[] {
  const [figure] = contrast.figures;
  const areas =
    contrast.areas.length === 1 && figure
      ? [figure.area, figure.against]
      : contrast.areas.toSorted((a, b) => a.stitches - b.stitches);
  return areas.length > 2 ? areas.slice(0, 3) : areas;
}

function pairNames(context: AuditContext, contrast: Contrast): string[] {
  const areas = inOrder(contrast);
  // One yarn in the place of several chart colours.
  if (areas.length === 1)
    return areas[0]!.colours.slice(0, 2).map((colour) => `${namedInk(context, colour, areas[0]!.yarn)} (${colour})`);
  return areas.map((area) => namedInk(context, area.colours[0]!, area.yarn));
}

const coloursOf = (contrast: Contrast): string[] => inOrder(contrast).flatMap(({ colours }) => colours);
const yarnsOf = (contrast: Contrast): (string | null)[] => inOrder(contrast).map(({ yarn }) => yarn);

function pairSentence(contrast: Contrast, names: readonly string[]): string {
  const { deltaL } = contrast;
  if (deltaL === null || (contrast.areas.length === 1 && contrast.figures.length === 0))
    return "One yarn in the place of several colours.";
  const near = deltaL < 8 ? "nearly one value" : deltaL < 15 ? "close in value" : "too close for so fine a figure";
  return `${capital(names[0]!)} and ${names[1]} are ${near} (${told(deltaL)} apart in L*).`;
}

function rangeText({ low, high }: Contrast): string {
  if (low === null || high === null) return "";
  const [least, most] = [wordOf(low), wordOf(high)] as [Word, Word];
  const range = least === most ? "surely so" : `between ${least} and ${most}`;
  return `(${range}). A swatch settles it.`;
}

function wasText({ V }: Contrast): string {
  return V === null ? "" : ` In the pattern's own colours it is ${wordOf(V)}.`;
}

const placeId = ({ chart, section }: Judged): string => (section ? `${chart.id}@${section}` : chart.id);

function placeOf(
  { chart, section }: Judged,
  rows: [number, number],
  band: string,
  colours: string[],
  yarns: (string | null)[],
): Finding["where"] {
  return {
    chart: chart.id,
    rows,
    band,
    colours,
    yarns: yarns.filter((yarn) => yarn !== null),
    ...(section ? { section } : {}),
  };
}
