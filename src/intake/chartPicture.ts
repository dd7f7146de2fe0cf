/** A picture with charts on it - a drawing, a scan, a photograph - made into rows and colours. */
import type { Problem } from "../base/problem.ts";
import type { Pixels } from "../raster/pixels.ts";
import type { CellLooks } from "./cellLooks.ts";
import { cornersOfGrid, type ChartGrid, type Point } from "./chartGrid.ts";
import { findGrids, type FindOptions, type FoundGrid } from "./findGrids.ts";
import { findLegend } from "./findLegend.ts";
import { readCells } from "./readCells.ts";
import { edgesOf } from "./edges.ts";
import { exactGrids } from "./findGrids/exact.ts";
import { linedGrids } from "./linedGrids.ts";
import { uprightGrid, type UprightGrid } from "./uprightGrid.ts";
import type { ReadChart, ReadCharts } from "./readChart.ts";

export interface PictureOptions {
  /** How many colours a chart has, where she knows; otherwise it is found. */
  readonly colours?: number;
  /** Four corners that she set by hand, clockwise from the top left: the chart is looked for within them. */
  readonly within?: readonly Point[];
  /** Told the share that is done, 0 to 1. */
  readonly onStep?: (share: number) => void;
}

export interface PictureRead extends ReadCharts {
  /** How the cells of each chart look, for corrections without the picture. */
  readonly cells: CellLooks[];
}

/**
 * Every chart of a picture, as a page is read: from the top, beside each other from the left. Never throws; what is no
 * chart is said to be none in a problem. From 2 × 2 stitches; lying straight or at an angle, lined or not.
 */
export function readChartPicture(pixels: Pixels, options: PictureOptions = {}): PictureRead {
  const { within, onStep } = options;
  const { width, height } = pixels;
  if (width < SMALLEST || height < SMALLEST)
    return refused(`a picture of ${width} × ${height} pixels, too small for a chart`);
  const finding = onStep && ((share: number): void => onStep(share * FINDING));
  const asked = { ...(within && { within }), ...(finding && { onStep: finding }) };
  const { isQuick, ...found } = gridsOf(pixels, asked);
  const read = readOn(pixels, found, options);
  // What was taken for a chart at the first glance may be none, beside one that lies at an angle.
  return isQuick && read.charts.length === 0 ? readOn(pixels, findGrids(pixels, asked), options) : read;
}

interface Grids {
  readonly grids: FoundGrid[];
  readonly why: string | null;
}

function readOn(pixels: Pixels, { grids, why }: Grids, { colours, onStep }: PictureOptions): PictureRead {
  if (grids.length === 0) return refused(why ?? "nothing that recurs at even steps");
  const legend = findLegend(pixels, grids.map(({ grid }) => grid)); // prettier-ignore
  const charts: { chart: ReadChart; looks: CellLooks; found: FoundGrid }[] = [];
  const reasons: string[] = [];
  for (const [index, found] of inReadingOrder(grids).entries()) {
    const reading =
      onStep && ((share: number): void => onStep(FINDING + ((1 - FINDING) * (index + share)) / grids.length));
    const { chart, looks } = readCells(pixels, found.grid, {
      lined: found.lined,
      exact: found.exact,
      legend,
      ...(colours !== undefined && { colours }),
      ...(reading && { onStep: reading }),
    });
    const reason = noChart(chart, looks, found);
    if (reason === null)
      charts.push({
        chart: { ...chart, confidence: chart.confidence * found.confidence },
        looks,
        found,
      });
    else reasons.push(reason);
  }
  if (charts.length === 0) return refused(reasons[0]!);
  return {
    charts: charts.map(({ chart }) => chart),
    cells: charts.map(({ looks }) => looks),
    problems: charts.flatMap(({ chart, found }, index) =>
      problemsOf(chart, found, charts.length > 1 ? index + 1 : null),
    ),
  };
}

/** What is drawn to the pixel, then what lies straight and is seen clearly; else, and for what is left, what is found at any angle. */
function gridsOf(pixels: Pixels, options: FindOptions): Grids & { readonly isQuick?: boolean } {
  if (options.within || pixels.width * pixels.height > MOST_UPRIGHT || !isDrawnByProgram(pixels))
    return findGrids(pixels, options);
  const [exact] = exactGrids(pixels).grids;
  if (exact && !isByPixel(exact.grid)) return findGrids(pixels, options);
  const edges = edgesOf(pixels);
  const upright = uprightGrid(edges);
  const ruled = linedGrids(edges).filter(({ grid, trust }) => trust >= LEAST_RULED && isChartSized(grid));
  const straight = upright && upright.trust >= SURE_UPRIGHT ? apart([upright, ...ruled]) : ruled;
  // Whatever else hangs together with lines of its own was looked at.
  if (ruled.length > 0) return { grids: straight.map(foundStraight), why: null, isQuick: true };
  const found = findGrids(pixels, options);
  const surest = found.grids[0]?.confidence ?? 0;
  const least = surest === 0 ? LEAST_UPRIGHT : surest < SURE_ANYHOW ? LIKELY_UPRIGHT : SURE_UPRIGHT;
  if (!upright || upright.trust < least) return found;
  return { grids: apart([foundStraight(upright), ...found.grids]), why: null };
}

/** Neither a camera nor a scanner leaves pixels beside each other quite alike. */
function isDrawnByProgram({ width, height, rgba }: Pixels): boolean {
  const every = Math.max(1, Math.floor((width * height) / SAMPLES));
  let [like, all] = [0, 0];
  for (let at = 0; at + 1 < width * height; at += every) {
    const place = at * 4;
    all++;
    if (rgba[place] === rgba[place + 4] && rgba[place + 1] === rgba[place + 5] && rgba[place + 2] === rgba[place + 6])
      like++;
  }
  return like > MOSTLY_LIKE * all;
}

function foundStraight({ grid, lined, trust, edgeOpen }: UprightGrid): FoundGrid {
  const confidence = trust * (edgeOpen ? OPEN_TRUST : 1);
  return { grid, lined, exact: false, confidence, doubts: edgeOpen ? [OPEN_EDGE] : [] };
}

/** The first of those that lie on each other. */
function apart<Of extends { readonly grid: ChartGrid }>(list: readonly Of[]): Of[] {
  const kept: Of[] = [];
  for (const one of list) if (!kept.some(({ grid }) => overlap(grid, one.grid))) kept.push(one);
  return kept;
}

/** Keys and tables have few squares. */
const isChartSized = ({ columns, rows }: ChartGrid): boolean => Math.min(columns, rows) >= 2 && columns * rows >= 9;

/** Any picture of few colours could be read by pixels; a good reading by larger stitches goes before it. */
function isByPixel(grid: ChartGrid): boolean {
  const { left, right } = reach(grid);
  return (right - left) / grid.columns < 1.5;
}

const OPEN_EDGE: Problem = {
  where: "the chart's edge",
  expected: "a line or another colour than the page's around the chart",
  got: "an edge that cannot be seen; compare the number of rows and stitches",
  severity: "doubt",
};

/** Whether the middle of one lies in the other's reach. */
function overlap(one: ChartGrid, other: ChartGrid): boolean {
  const [a, b] = [reach(one), reach(other)];
  const inside = ([x, y]: Point, { left, right, top, bottom }: Reach): boolean =>
    x > left && x < right && y > top && y < bottom;
  return inside(a.middle, b) || inside(b.middle, a);
}

/** From the top, and from the left where two stand beside each other. */
function inReadingOrder(grids: readonly FoundGrid[]): FoundGrid[] {
  const placed = grids.map((found) => ({ found, ...reach(found.grid) }));
  placed.sort((one, other) => one.middle[1] - other.middle[1]);
  const lines: (typeof placed)[] = [];
  for (const one of placed) {
    const line = lines.find((list) => list.some(({ top, bottom }) => one.middle[1] > top && one.middle[1] < bottom));
    if (line) line.push(one);
    else lines.push([one]);
  }
  return lines.flatMap((line) => line.sort((one, other) => one.middle[0] - other.middle[0])).map(({ found }) => found);
}

interface Reach {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly middle: Point;
}

function reach(grid: ChartGrid): Reach {
  const corners = cornersOfGrid(grid);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const mean = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / list.length;
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { left, right, top, bottom, middle: [mean(xs), mean(ys)] };
}

/** Why what lies on a regular grid is all the same no chart, as the end of a sentence; null where it is one. */
function noChart(
  { rows, colours }: ReadChart,
  { signs, evenness }: CellLooks,
  { exact, lined }: FoundGrid,
): string | null {
  const kinds = Object.keys(colours).length;
  const cells = evenness.length;
  if (kinds < 2 && !rows.some((row) => row.includes("-")))
    return "a grid with nothing in it: every square looks the same";
  if (!lined && (rows.every(isPlain) || rows.every((row) => row === rows[0])))
    return "stripes, in which nothing tells stitches";
  const signed = signs.reduce((sum, sign) => sum + (sign >= 0 ? 1 : 0), 0);
  const different = new Set(signs.filter((sign) => sign >= 0)).size;
  if (signed >= LEAST_SIGNED && different > MOST_DIFFERENT * signed)
    return "squares that hold words or numbers, nearly every one something else";
  if (!exact && kinds > LEAST_SIGNED && kinds > MOST_DIFFERENT * cells)
    return "squares of nearly as many colours as there are squares";
  const even = evenness.reduce((sum, part) => sum + (part >= EVEN ? 1 : 0), 0);
  // Lines around every square say more than what stands in it.
  if (even < (lined ? LEAST_EVEN_LINED : LEAST_EVEN) * cells) return "squares that are not of one colour each";
  return null;
}

/** Of one colour from end to end. */
const isPlain = (row: string): boolean => row === row[0]!.repeat(row.length);

function problemsOf(
  chart: ReadChart,
  { doubts, exact, confidence: trust }: FoundGrid,
  number: number | null,
): Problem[] {
  const which = number === null ? "" : `chart ${number}, `;
  const open = exact && trust < 1 && doubts.length === 0 ? [OPEN_EDGE] : [];
  const problems = [...doubts, ...open].map((doubt) => ({ ...doubt, where: which + doubt.where }));
  const { uncertain, confidence } = chart;
  if (uncertain.length > 0) {
    const [row, column] = uncertain[0]!;
    const more = uncertain.length === 1 ? "" : `, and in ${uncertain.length - 1} more`;
    problems.push({
      where: `${which}row ${row}, stitch ${column}`,
      expected: "one of the chart's colours or signs, clearly",
      got: `a stitch in doubt${more}; look at these again`,
      severity: "doubt",
    });
  }
  if (problems.length === 0 && confidence < SURE)
    problems.push({
      where: number === null ? "the chart" : `chart ${number}`,
      expected: "even steps from stitch to stitch",
      got: "a grid that is not quite regular; compare the number of rows and stitches",
      severity: "doubt",
    });
  return problems;
}

function refused(got: string): PictureRead {
  const problem: Problem = {
    where: "the picture",
    expected: "a chart on a regular grid, each square of one colour or with one sign",
    got,
    severity: "fault",
  };
  return { charts: [], cells: [], problems: [problem] };
}

/** Pixels. */
const SMALLEST = 4;
/** Pixels that are looked at, and the part of them that are as the next where a program has drawn. */
const SAMPLES = 40_000;
const MOSTLY_LIKE = 0.6;
/** Pixels; a photograph of more never lies straight to the pixel. */
const MOST_UPRIGHT = 5e6;
/**
 * Ours, on painted charts: how well a straight grid must fit to be taken before one that was found at any angle and is sure,
 * before one that is not, and where there is none.
 */
const SURE_UPRIGHT = 0.95;
const LIKELY_UPRIGHT = 0.8;
const LEAST_UPRIGHT = 0.6;
const SURE_ANYHOW = 0.9;
/** Ours: the part of their length that lines show in a chart that lies straight. */
const LEAST_RULED = 0.9;
/** Ours: how far to trust a reading whose edge cannot be seen. */
const OPEN_TRUST = 0.75;
/** The part of the work that finding the grids is, about: measured on photographs. */
const FINDING = 0.6;
/** Ours, on the painted world: below so many signs or colours nothing is said of how different they are. */
const LEAST_SIGNED = 8;
/** Different signs to a square with a sign: a chart of many signs has a third, a table nearly one. */
const MOST_DIFFERENT = 0.5;
/** The part of a square that has its colour or sign; the part of a chart's squares that do. */
const EVEN = 0.5;
const LEAST_EVEN = 0.7;
const LEAST_EVEN_LINED = 0.25;
const SURE = 0.7;
