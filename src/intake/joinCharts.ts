/** One chart that is spread over several pages or pictures, put together: which part lies where, and what they share. */
import type { Problem } from "../base/problem.ts";
import { meetingOf, type Meeting } from "./joinCharts/overlap.ts";
import { sameColours } from "./joinCharts/sameColours.ts";
import { NOTHING, stacked, turned, type Sheet } from "./joinCharts/sheet.ts";
import { laidTogether } from "./joinCharts/laidTogether.ts";
import type { ReadChart } from "./readChart.ts";

export interface Joint {
  /** Charts by their index, from 0. */
  readonly first: number;
  readonly second: number;
  /** Where the second lies, seen from the first. */
  readonly side: "above" | "below" | "left" | "right";
  /** Rows, or columns, that both have. */
  readonly overlap: number;
  /** 0 to 1: an estimate. 1 where she said so. */
  readonly sureness: number;
}

export interface JoinedChart {
  readonly chart: ReadChart;
  readonly joints: Joint[];
  /** Joints that are not sure, and cells that two parts show differently. */
  readonly problems: Problem[];
}

export interface JoinOptions {
  /** She has said that they are parts of one chart: then they are put together also where nothing but their order speaks for it. */
  readonly areOne?: boolean;
}

/**
 * The charts as one, from the row numbers beside them, else from rows or columns that two of them show, else from their order:
 * the first on top, or at the left. Null where their sizes do not fit, where numbers leave a gap, or where too little says that they are one.
 */
export function joinCharts(charts: readonly ReadChart[], { areOne = false }: JoinOptions = {}): JoinedChart | null {
  if (charts.length < 2) return null;
  const { maps } = sameColours(charts);
  const one = areOne || areNamedAlike(charts);
  let sheets = charts.map((chart, index) => sheetOf(chart, maps[index]!, index));
  const joints: Joint[] = [];
  while (sheets.length > 1) {
    const found = bestMeeting(sheets) ?? (one ? nextInOrder(sheets, orderOf(charts)) : null);
    if (!found) return null;
    const { upper, lower, across, meeting } = found;
    const [top, bottom] = across ? [turned(upper), turned(lower)] : [upper, lower];
    const flat = stacked(top, bottom, meeting.overlap);
    joints.push(jointOf(top, bottom, across, meeting));
    sheets = [...sheets.filter((sheet) => sheet !== upper && sheet !== lower), across ? turned(flat) : flat];
  }
  return joinedBy(charts, joints);
}

/** The charts as one by these joints; null where they leave a chart out, or say two things. */
export function joinedBy(charts: readonly ReadChart[], joints: readonly Joint[]): JoinedChart | null {
  const laid = laidTogether(charts, joints);
  return laid && { ...laid, joints: [...joints] };
}

function sheetOf(chart: ReadChart, map: ReadonlyMap<string, string>, index: number): Sheet {
  const [rows, columns] = [chart.rows.length, chart.rows[0]?.length ?? 0];
  const cells = new Int16Array(rows * columns);
  const sureness = new Uint8Array(rows * columns);
  for (const [row, text] of chart.rows.entries())
    for (let column = 0; column < columns; column++) {
      const id = text[column]!;
      cells[row * columns + column] = id === "-" ? NOTHING : map.get(id)!.charCodeAt(0);
      sureness[row * columns + column] = Number(chart.sureness?.[row]?.[column] ?? 9);
    }
  return {
    columns,
    rows,
    cells,
    sureness,
    firstRow: chart.firstRow ?? null,
    firstColumn: chart.firstColumn ?? null,
    parts: [{ chart: index, top: 0, left: 0, rows, columns }],
  };
}

/** The same name on several pages: a chart that is spread over them. */
function areNamedAlike(charts: readonly ReadChart[]): boolean {
  const names = new Set(charts.map(({ name }) => name?.trim().toLowerCase()));
  const pages = new Set(charts.map(({ page }) => page));
  return names.size === 1 && !names.has(undefined) && pages.size === charts.length;
}

interface Found {
  /** The left one, where they lie side by side. */
  readonly upper: Sheet;
  readonly lower: Sheet;
  readonly across: boolean;
  readonly meeting: Meeting;
}

/** The two that most clearly go on in one another; null where none do. */
function bestMeeting(sheets: readonly Sheet[]): Found | null {
  const sides = [false, true].map((across) => ({ across, whole: across ? sheets.map(turned) : sheets }));
  let best: Found | null = null;
  for (const { across, whole } of sides)
    for (const [index, upper] of whole.entries())
      for (const [other, lower] of whole.entries()) {
        const meeting = index === other ? null : meetingOf(upper, lower, whole);
        if (!meeting || meeting.evidence < LEAST_EVIDENCE) continue;
        if (best && meeting.evidence <= best.meeting.evidence) continue;
        best = { upper: sheets[index]!, lower: sheets[other]!, across, meeting };
      }
  return best;
}

/** With nothing but their order to go by: the first two whose sizes fit, the first on top, or at the left. */
function nextInOrder(sheets: readonly Sheet[], order: readonly number[]): Found | null {
  const firstOf = (sheet: Sheet): number => Math.min(...sheet.parts.map(({ chart }) => order[chart]!));
  const ordered = sheets.toSorted((one, other) => firstOf(one) - firstOf(other));
  for (const [index, upper] of ordered.entries())
    for (const lower of ordered.slice(index + 1))
      for (const across of [false, true]) {
        const [one, two] = across ? [turned(upper), turned(lower)] : [upper, lower];
        const meeting = meetingOf(one, two, [one, two]);
        if (!meeting) continue;
        return { upper, lower, across, meeting: { ...meeting, sureness: meeting.sureness * SURENESS_OF_ORDER } };
      }
  return null;
}

/** By their pages where each has its own, else as they were handed in. */
function orderOf(charts: readonly ReadChart[]): number[] {
  const pages = charts.map(({ page }) => page);
  const numbered = pages.every((page) => page !== null) && new Set(pages).size === pages.length;
  return charts.map(({ page }, index) => (numbered ? page! : index));
}

/** The joint in words of two charts that lie at the meeting edge, one right over the other. */
function jointOf(upper: Sheet, lower: Sheet, across: boolean, { overlap, sureness, evidence }: Meeting): Joint {
  const above = upper.parts.filter((part) => part.top + part.rows === upper.rows);
  const below = lower.parts.filter((part) => part.top === 0);
  const pairs = above.flatMap((one) =>
    below.filter((other) => other.left === one.left).map((other) => [one, other] as const),
  );
  const [one, other] = pairs[0] ?? [above[0]!, below[0]!];
  // That they meet at all is as likely as the evidence says; that the number of rows is right comes on top.
  const meets = 1 / (1 + Math.exp(-evidence));
  return {
    first: one.chart,
    second: other.chart,
    side: across ? "right" : "below",
    overlap,
    sureness: Math.round(100 * sureness * Math.max(meets, 0.5)) / 100,
  };
}

/** Logarithm: two charts are put together where what is seen is three times likelier then. Our choice. */
const LEAST_EVIDENCE = 1.1;
/** That pages lie as they follow each other is a guess: charts begin at the bottom, pages at the top. Our choice. */
const SURENESS_OF_ORDER = 0.5;
