/** Tells the chart of a drawn picture from the page around it, where stitches of the page's colour may stand at the chart's edge. */
import type { Box } from "../raster/raster.ts";
import { regionsOf } from "./chartRegions.ts";
import { readCrisp, readSoft, type CrispChart, type Span } from "./crisp.ts";
import { stepBetween, type Edges } from "./edges.ts";

export interface ChosenChart extends CrispChart {
  /** Whether the picture leaves open where the chart ends: plain stitches at the edge and page would look the same. */
  readonly edgeOpen: boolean;
}

/** Most often one; several where they stand on one page with lines of their own around them. */
export function chooseCrisp(edges: Edges): ChosenChart[] {
  const { bytes, width, height } = edges;
  const picture: Box = { x: 0, y: 0, width, height };
  const whole = readCrisp(bytes, width, picture);
  let best: ChosenChart | null = whole && { ...whole, edgeOpen: false };
  for (const page of pageColours(bytes, width, height)) {
    const box = inkBox(bytes, width, height, page);
    if (!box || (box.width === width && box.height === height)) continue;
    const inner = readCrisp(bytes, width, box);
    if (inner) best = whole ? between(bytes, width, picture, whole, inner, page) : onPage(bytes, width, inner, page);
    if (best?.box === box) break;
  }
  if (best && stepOf(best.columns) > 1 && stepOf(best.rows) > 1) return [best];
  const among = amongWords(edges);
  return among.length > 0 || !best ? among : [best];
}

/** The same for a picture whose borders lie between pixels. */
export function chooseSoft({ bytes, width, height }: Edges): ChosenChart | null {
  const picture: Box = { x: 0, y: 0, width, height };
  const whole = readSoft(bytes, width, picture);
  for (const page of pageColours(bytes, width, height)) {
    const box = inkBox(bytes, width, height, page);
    const inner = box && readSoft(bytes, width, box);
    if (inner) return whole ? between(bytes, width, picture, whole, inner, page) : onPage(bytes, width, inner, page);
  }
  return whole && { ...whole, edgeOpen: false };
}

/** The pieces of the picture that are wholly a chart, with title, numbers and key around them. */
function amongWords(edges: Edges): ChosenChart[] {
  const { bytes, width, height } = edges;
  const page = pagePlace(edges);
  if (page < 0) return [];
  const pieces = regionsOf(edges).flatMap((region) => {
    const box = inkBox(bytes, width, height, page, region);
    if (!box || box.width * box.height < LEAST_PART * width * height) return [];
    const chart = readCrisp(bytes, width, box);
    return chart && stepOf(chart.columns) > 1 && stepOf(chart.rows) > 1 ? [onPage(bytes, width, chart, page)] : [];
  });
  pieces.sort((one, other) => areaOf(other) - areaOf(one));
  // Without lines of its own colour a chart may be in several pieces.
  const whole = pieces.filter(({ edgeOpen, lined }) => lined && !edgeOpen);
  const apart = whole.filter((one, index) => !whole.slice(0, index).some((other) => overlap(one.box, other.box)));
  return apart.length > 0 ? apart : pieces.slice(0, 1);
}

const overlap = (one: Box, other: Box): boolean =>
  one.x < other.x + other.width &&
  other.x < one.x + one.width &&
  one.y < other.y + other.height &&
  other.y < one.y + one.height;

const areaOf = ({ box }: CrispChart): number => box.width * box.height;

/** The place of a pixel of the page's colour at the picture's rim; −1 where there is none. */
function pagePlace({ bytes, width, height, paper }: Edges): number {
  if (!paper) return -1;
  for (let at = 0; at < width * height; at++) {
    if (paper.every((value, channel) => Math.abs(value - bytes[at * 4 + channel]!) < SAME)) return at * 4;
  }
  return -1;
}

/** The chart within the page: its edge is open where the page's colour is also a stitch's and no line parts them. */
function onPage(bytes: Uint8ClampedArray, stride: number, chart: CrispChart, page: number): ChosenChart {
  const lineSeen = chart.lined && stepBetween(bytes, chart.line, page) >= SAME;
  return { ...chart, edgeOpen: !lineSeen && has(bytes, stride, chart, page) };
}

/** Whether all of the picture is the chart, or only what is not of the colour of its rim. */
function between(
  bytes: Uint8ClampedArray,
  stride: number,
  picture: Box,
  whole: CrispChart,
  inner: CrispChart,
  page: number,
): ChosenChart {
  if (whole.columns.length === inner.columns.length && whole.rows.length === inner.rows.length)
    return { ...whole, edgeOpen: false };
  const [column, row] = [stepOf(inner.columns), stepOf(inner.rows)];
  const isFiner = stepOf(whole.columns) < 0.8 * column || stepOf(whole.rows) < 0.8 * row;
  // A few borders may all be whole steps apart by chance.
  const proven = inner.lined || Math.sqrt(column * row) ** (4 - inner.stretches) < UNLIKELY ** 2;
  if (isFiner && !proven) return { ...whole, edgeOpen: true };
  if (isFiner || whole.lined !== inner.lined || !endsEvenly(whole.columns) || !endsEvenly(whole.rows))
    return onPage(bytes, stride, inner, page);
  const { box } = inner;
  const thickest = Math.max(thickestLine(inner.columns), thickestLine(inner.rows));
  const margins = [
    { margin: box.x, spans: inner.columns },
    { margin: picture.width - box.x - box.width, spans: inner.columns },
    { margin: box.y, spans: inner.rows },
    { margin: picture.height - box.y - box.height, spans: inner.rows },
  ].filter(({ margin }) => margin > thickest);
  // A strip of the lines' colour that is wider than a line and narrower than a stitch is page.
  if (whole.lined && margins.some(({ margin, spans }) => margin < 0.8 * stepOf(spans)))
    return onPage(bytes, stride, inner, page);
  // How often margins of any width would be whole stitches wide; lines of the page's colour leave more room for it.
  const room = whole.lined ? 3 : 1;
  const sure = whole.lined ? UNLIKELY ** 2 : UNLIKELY;
  const touched = 4 - margins.length;
  const chance = margins.reduce(
    (product, { spans }) => product * Math.min(1, room / stepOf(spans)),
    ONE_SIDED ** touched,
  );
  if (has(bytes, stride, inner, page)) {
    // A margin one stitch wide all around, or nearly, is common enough to leave it open.
    if (touched > 0) return { ...whole, edgeOpen: chance > sure || touched === 1 };
    return chance < UNLIKELY ? { ...whole, edgeOpen: true } : { ...inner, edgeOpen: true };
  }
  // A ring of a colour that the chart has not is page, and so mostly is one of the lines' colour.
  if (touched === 0 || (whole.lined && touched < 3)) return { ...inner, edgeOpen: chance < UNLIKELY };
  const narrow = margins.every(({ margin, spans }) => margin < NARROW * stepOf(spans));
  const isRim = narrow || chance < (touched === 3 ? UNLIKELY : UNLIKELY ** 2);
  return isRim ? { ...whole, edgeOpen: chance > UNLIKELY || touched === 1 } : { ...inner, edgeOpen: true };
}

/** Pixels from stitch to stitch, on the mean. */
const stepOf = (spans: readonly Span[]): number => (spans.at(-1)!.from - spans[0]!.from) / (spans.length - 1);

/** Pixels between neighbouring stitches, at most. */
const thickestLine = (spans: readonly Span[]): number =>
  Math.max(...spans.slice(1).map(({ from }, index) => from - spans[index]!.to));

function endsEvenly(spans: readonly Span[]): boolean {
  const lengths = spans.map(({ from, to }) => to - from);
  const inner = lengths.slice(1, -1);
  if (inner.length === 0) return true;
  const [least, most] = [Math.min(...inner), Math.max(...inner)];
  const slack = stepOf(spans) - most;
  return [lengths[0]!, lengths.at(-1)!].every((length) => length >= least - 1 && length <= most + Math.max(1, slack));
}

function has(bytes: Uint8ClampedArray, stride: number, { columns, rows }: CrispChart, page: number): boolean {
  return rows.some((row) =>
    columns.some((column) => {
      const place = ((row.from + row.to) >> 1) * stride + ((column.from + column.to) >> 1);
      return stepBetween(bytes, place * 4, page) < SAME;
    }),
  );
}

/** The byte places of the different colours that fill sides of the picture, the one of the most sides first. */
function pageColours(bytes: Uint8ClampedArray, width: number, height: number): number[] {
  const colours: { place: number; sides: number }[] = [];
  const sides = [
    { start: 0, step: 1, count: width },
    { start: (height - 1) * width, step: 1, count: width },
    { start: 0, step: width, count: height },
    { start: width - 1, step: width, count: height },
  ];
  for (const { start, step, count } of sides) {
    const first = start * 4;
    let even = true;
    for (let at = 1; even && at < count; at++) even = stepBetween(bytes, first, (start + at * step) * 4) < SAME;
    if (!even) continue;
    const known = colours.find(({ place }) => stepBetween(bytes, first, place) < SAME);
    if (known) known.sides++;
    else colours.push({ place: first, sides: 1 });
  }
  return colours.sort((one, other) => other.sides - one.sides).map(({ place }) => place);
}

/** What is left when the page's rows and columns are taken off at all sides. */
function inkBox(
  bytes: Uint8ClampedArray,
  width: number,
  height: number,
  page: number,
  region: Box = { x: 0, y: 0, width, height },
): Box | null {
  const blank = (start: number, step: number, count: number): boolean => {
    for (let at = 0; at < count; at++) if (stepBetween(bytes, (start + at * step) * 4, page) >= SAME) return false;
    return true;
  };
  let [left, right, top, bottom] = [region.x, region.x + region.width, region.y, region.y + region.height];
  while (top < bottom && blank(top * width + left, 1, right - left)) top++;
  if (top === bottom) return null;
  while (blank((bottom - 1) * width + left, 1, right - left)) bottom--;
  while (blank(top * width + left, width, bottom - top)) left++;
  while (blank(top * width + right - 1, width, bottom - top)) right--;
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/** Bytes within which a pixel has the page's colour. */
const SAME = 3;
/** How often a chart on a page reaches a side of the picture without any margin: ours, a guess. */
const ONE_SIDED = 0.3;
/** Stitches: a plain border of a colour of its own is rarely deeper. */
const NARROW = 2.5;
/** Part of the picture that a chart among words takes, at least. */
const LEAST_PART = 0.05;
/** A chance below which margins as wide as whole stitches are stitches. */
const UNLIKELY = 0.05;
