/** Reads a drawn picture exactly: where every stitch is a rectangle of one colour to the pixel, nothing need be guessed. */
import type { Box } from "../raster/raster.ts";
import { stepBetween } from "./edges.ts";

/** One way to read a box of pixels as a chart. */
export interface CrispChart {
  /** Pixels of the picture. */
  readonly box: Box;
  /** Where each column of stitches begins and ends inside its lines, in pixels from the left of the picture. */
  readonly columns: readonly Span[];
  readonly rows: readonly Span[];
  readonly lined: boolean;
  /** The byte place of a pixel of the lines' colour; −1 without lines. */
  readonly line: number;
  /** In how many stretches the borders that are seen divide the box, across and down together. */
  readonly stretches: number;
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The chart that fills the box, or null where the box is not wholly made of stitches and lines. */
export function readCrisp(bytes: Uint8ClampedArray, stride: number, box: Box): CrispChart | null {
  return chartOn(bytes, stride, box, stretchesOf(bytes, stride, box, STEP));
}

/** The same for a picture that was resized or drawn between pixels, without lines: what is blended at a border belongs to both sides. */
export function readSoft(bytes: Uint8ClampedArray, stride: number, box: Box): CrispChart | null {
  const { across, down } = stretchesOf(bytes, stride, box, SOFT_STEP);
  if (across.length * down.length > MOST_PIECES) return null;
  const middleOf = ({ from, to }: Span): number => (from + to) >> 1;
  const rows = down.map(middleOf);
  const columns = across.map(middleOf);
  const sharp: Axes<Span> = {
    across: withoutBlends(across, (x) => rows.map((y) => (y * stride + x) * 4), bytes),
    down: withoutBlends(down, (y) => columns.map((x) => (y * stride + x) * 4), bytes),
  };
  if (sharp.across.length < 2 || sharp.down.length < 2) return null;
  const wide = evenSpans(sharp.across);
  const high = wide && evenSpans(sharp.down);
  const stretches = sharp.across.length + sharp.down.length;
  const isLarge = (spans: readonly Span[]): boolean => spans.at(-1)!.to - spans[0]!.from >= LEAST_SOFT * spans.length;
  if (!wide || !high || !isLarge(wide) || !isLarge(high)) return null;
  return { box, columns: wide, rows: high, lined: false, line: -1, stretches };
}

/** Stretches of a pixel or two that lie between their neighbours in colour are shared out to them. */
function withoutBlends(
  stretches: readonly Span[],
  placesAt: (index: number) => number[],
  bytes: Uint8ClampedArray,
): Span[] {
  const out: { from: number; to: number }[] = [];
  const isThin = (span: Span | undefined): boolean => span !== undefined && lengthOf(span) <= 2;
  for (let index = 0; index < stretches.length;) {
    let after = index;
    while (isThin(stretches[after])) after++;
    const last = out.at(-1);
    const next = stretches[after];
    const from = stretches[index]!.from;
    const to = stretches[Math.max(index, after - 1)]!.to;
    if (after === index || to - from > WIDEST_BLEND) {
      for (const stop = Math.max(after, index + 1); index < stop; index++) out.push({ ...stretches[index]! });
      continue;
    }
    if (last && next) {
      const [before, behind] = [placesAt(last.to - 2), placesAt(next.from + 1)];
      const isBlend = stretches.slice(index, after).every(({ from: x }) =>
        placesAt(x).every((place, each) =>
          [0, 1, 2].every((channel) => {
            const [one, other] = [bytes[before[each]! + channel]!, bytes[behind[each]! + channel]!];
            const value = bytes[place + channel]!;
            return value >= Math.min(one, other) - SOFT_STEP && value <= Math.max(one, other) + SOFT_STEP;
          }),
        ),
      );
      if (!isBlend) {
        for (; index < after; index++) out.push({ ...stretches[index]! });
        continue;
      }
    }
    const middle = (from + to) / 2;
    if (last) last.to = next ? middle : to;
    if (next) out.push({ from: last ? middle : from, to: next.to });
    index = after + 1;
  }
  return out;
}

function chartOn(bytes: Uint8ClampedArray, stride: number, box: Box, { across, down }: Axes<Span>): CrispChart | null {
  if (across.length < 2 || down.length < 2) return null;
  const grid: Grid = { bytes, stride, across, down };
  // What is in so many pieces as there are pixels has no lines that are thinner than its stitches.
  const pieces = across.length * down.length;
  const lined = pieces <= MOST_PIECES ? linedChart(grid) : null;
  const stretches = across.length + down.length;
  if (lined) return { box, ...lined, lined: true, stretches };
  const columns = evenSpans(across);
  const rows = columns && evenSpans(down);
  return columns && rows && { box, columns, rows, lined: false, line: -1, stretches };
}

/** The picture in as few pieces as possible: between two neighbouring borders nothing changes. */
interface Grid {
  readonly bytes: Uint8ClampedArray;
  readonly stride: number;
  readonly across: readonly Span[];
  readonly down: readonly Span[];
}

function stretchesOf(bytes: Uint8ClampedArray, stride: number, box: Box, step: number): Axes<Span> {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length >> 2);
  const changesAcross = new Uint8Array(box.width);
  const changesDown = new Uint8Array(box.height);
  for (let y = 0; y < box.height; y++) {
    const start = (box.y + y) * stride + box.x;
    let changed = y === 0;
    for (let x = 0, at = start; x < box.width; x++, at++) {
      const word = words[at]!;
      if (x > 0 && words[at - 1] !== word && !changesAcross[x] && stepBetween(bytes, at * 4 - 4, at * 4) >= step) {
        changesAcross[x] = 1;
      }
      if (!changed && words[at - stride] !== word && stepBetween(bytes, (at - stride) * 4, at * 4) >= step) {
        changed = true;
      }
    }
    if (changed && y > 0) changesDown[y] = 1;
  }
  return { across: spansBetween(changesAcross, box.x), down: spansBetween(changesDown, box.y) };
}

function spansBetween(changes: Uint8Array, offset: number): Span[] {
  const spans: Span[] = [];
  let from = 0;
  for (let at = 1; at <= changes.length; at++) {
    if (at < changes.length && !changes[at]) continue;
    spans.push({ from: offset + from, to: offset + at });
    from = at;
  }
  return spans;
}

const lengthOf = ({ from, to }: Span): number => to - from;

function linedChart(grid: Grid): Pick<CrispChart, "columns" | "rows" | "line"> | null {
  const { across, down, bytes } = grid;
  const plain = plainStretches(grid);
  const colours: number[] = [];
  for (const place of [...plain.across, ...plain.down]) {
    if (place >= 0 && !colours.some((other) => stepBetween(bytes, other, place) < STEP)) colours.push(place);
  }
  const attempt = (some: readonly number[]): Pick<CrispChart, "columns" | "rows" | "line"> | null => {
    const kindOf = (place: number): number =>
      place < 0 ? -1 : some.findIndex((colour) => stepBetween(bytes, colour, place) < STEP);
    const lines = { across: plain.across.map(kindOf), down: plain.down.map(kindOf) };
    keepCrossing(grid, lines, some);
    const columns = spansBetweenLines(across, lines.across);
    const rows = columns && spansBetweenLines(down, lines.down);
    return columns && rows && linesCrossStitches(grid, lines, some, columns, rows)
      ? { columns, rows, line: some[0]! }
      : null;
  };
  for (const colour of colours) {
    const found = attempt([colour]);
    if (found) return found;
  }
  // Every fifth or tenth line may have a colour of its own, as may the frame.
  for (const colour of colours) {
    for (const other of colours) {
      const found = other === colour ? null : attempt([colour, other]);
      if (found) return found;
    }
  }
  return null;
}

/** The byte place of its colour for each stretch that is of one colour from end to end, but where such others cross it; else −1. */
function plainStretches({ bytes, stride, across, down }: Grid): Axes<number> {
  const plainAcross = across.map(() => -1);
  const plainDown = down.map(() => -1);
  const at = (column: number, row: number): number => (down[row]!.from * stride + across[column]!.from) * 4;
  for (let changed = true; changed;) {
    changed = false;
    const crossedRows = down.map((_, row) => row).filter((row) => plainDown[row]! < 0);
    const newAcross = across.flatMap((_, column) => {
      if (plainAcross[column]! >= 0 || crossedRows.length === 0) return [];
      const first = at(column, crossedRows[0]!);
      return crossedRows.every((row) => stepBetween(bytes, first, at(column, row)) < STEP)
        ? [[column, first] as const]
        : [];
    });
    const crossedColumns = across.map((_, column) => column).filter((column) => plainAcross[column]! < 0);
    const newDown = down.flatMap((_, row) => {
      if (plainDown[row]! >= 0 || crossedColumns.length === 0) return [];
      const first = at(crossedColumns[0]!, row);
      return crossedColumns.every((column) => stepBetween(bytes, first, at(column, row)) < STEP)
        ? [[row, first] as const]
        : [];
    });
    for (const [column, place] of newAcross) [plainAcross[column], changed] = [place, true];
    for (const [row, place] of newDown) [plainDown[row], changed] = [place, true];
  }
  return { across: plainAcross, down: plainDown };
}

interface Axes<Of> {
  across: Of[];
  down: Of[];
}

/** Leaves only the lines that run from end to end, crossed by nothing but lines: what crosses no lines is a plain row of stitches. */
function keepCrossing({ bytes, stride, across, down }: Grid, lines: Axes<number>, colours: readonly number[]): void {
  const runs = (own: number, crossing: readonly number[], placeOf: (index: number) => number): boolean =>
    crossing.every((kind, index) => {
      const place = placeOf(index);
      return kind < 0
        ? stepBetween(bytes, colours[own]!, place) < STEP
        : colours.some((colour) => stepBetween(bytes, colour, place) < STEP);
    });
  const at = (column: number, row: number): number => (down[row]!.from * stride + across[column]!.from) * 4;
  for (let dropped = true; dropped;) {
    dropped = false;
    for (const [column, kind] of lines.across.entries()) {
      if (kind < 0 || runs(kind, lines.down, (row) => at(column, row))) continue;
      [lines.across[column], dropped] = [-1, true];
    }
    for (const [row, kind] of lines.down.entries()) {
      if (kind < 0 || runs(kind, lines.across, (column) => at(column, row))) continue;
      [lines.down[row], dropped] = [-1, true];
    }
  }
}

/** Whether lines of another colour also cross the stitches that have the first lines' colour; they do not cross the page. */
function linesCrossStitches(
  { bytes, stride, across, down }: Grid,
  lines: Axes<number>,
  colours: readonly number[],
  columns: readonly Span[],
  rows: readonly Span[],
): boolean {
  const others = (kinds: readonly number[], stretches: readonly Span[]): Span[] =>
    stretches.filter((_, index) => kinds[index] === 1);
  const shows = (x: number, y: number): boolean => stepBetween(bytes, colours[1]!, (y * stride + x) * 4) < STEP;
  const middleOf = ({ from, to }: Span): number => (from + to) >> 1;
  return (
    others(lines.across, across).every((line) => rows.every((row) => shows(line.from, middleOf(row)))) &&
    others(lines.down, down).every((line) => columns.every((column) => shows(middleOf(column), line.from)))
  );
}

/**
 * The stitches between lines, about as large as each other; a run of stitches of the lines' own colour is divided evenly.
 * `kinds`: −1 for stitches, 0 for lines, 1 for the fewer lines of another colour.
 */
function spansBetweenLines(stretches: readonly Span[], kinds: readonly number[]): Span[] | null {
  const gaps = stretches.filter((_, index) => kinds[index]! < 0).map(lengthOf);
  const lines = stretches.filter((_, index) => kinds[index]! >= 0).map(lengthOf);
  const others = kinds.filter((kind) => kind === 1).length;
  if (gaps.length < 2 || lines.length === 0 || others * 2 > lines.length + 2) return null;
  const gap = middle(gaps);
  if (gaps.some((length) => length < 0.5 * gap || length > 1.6 * gap + 1)) return null;
  const drawn = lines.filter((length) => length < MERGED * gap);
  const thin = middle(drawn);
  if (!(thin <= THICKEST * gap)) return null;
  const thicker = Math.max(...drawn) - thin;
  const spans: Span[] = [];
  for (const [index, stretch] of stretches.entries()) {
    if (kinds[index]! < 0) {
      if (index > 0 && kinds[index - 1]! < 0) return null;
      spans.push(stretch);
      continue;
    }
    const length = lengthOf(stretch);
    // Where a line of the other colour stands beside it, or the chart ends, it has no line of its own there.
    const [atLine, atEnd] = [index - 1, index + 1].reduce(
      ([beside, ending], other) =>
        kinds[other] === undefined ? [beside, ending + 1] : [beside + (kinds[other] >= 0 ? 1 : 0), ending],
      [0, 0] as [number, number],
    );
    const step = gap + thin;
    if (length < MERGED * (atLine > 0 ? gap : step)) continue;
    if (kinds[index] !== 0) return null;
    const own = thin * (1 - atLine);
    const count = Math.max(1, Math.round((length - own + (thin * atEnd) / 2) / step));
    const left = length - count * step;
    // A line more than stitches stands within the chart, and at its end where it has a frame.
    const more = thicker * Math.ceil((count + 1) / 5);
    const less = atLine > 0 ? more : 0;
    if (left < own - thin * atEnd - 1 - less || left > own + 1 + more) return null;
    const begins = index === 0 ? (left >= own - thin / 2 ? thin : 0) : kinds[index - 1]! >= 0 ? 0 : thin;
    for (let each = 0; each < count; each++) {
      const from = stretch.from + begins + each * step;
      spans.push({ from: Math.min(from, stretch.to - 1), to: Math.min(from + gap, stretch.to) });
    }
  }
  return spans;
}

/** Stitches of one size that meet all borders: the largest such size, whole pixels before parts of them; null for none. */
function evenSpans(stretches: readonly Span[]): Span[] | null {
  const start = stretches[0]!.from;
  const length = stretches.at(-1)!.to - start;
  const borders = stretches.slice(1).map(({ from }) => from - start);
  const whole = borders.reduce(commonDivisor, length);
  if (whole > 1 && length / whole >= 2) return spansOf(start, length, length / whole);
  // A picture resized by taking pixels twice or leaving them out has borders within a pixel of even steps.
  for (let count = 2; length / count >= LEAST_UNEVEN; count++) {
    const step = length / count;
    if (!borders.every((border) => Math.abs(border - Math.round(border / step) * step) <= UNEVEN)) continue;
    // By chance so many borders would lie so near the steps, for some of the counts tried.
    const met = new Set(borders.map((border) => Math.round(border / step)));
    if (count * Math.min(1, (2 * UNEVEN + 0.5) / step) ** met.size < 0.001) return spansOf(start, length, count);
  }
  return length <= MOST_STITCHES ? spansOf(start, length, length) : null;
}

function spansOf(start: number, length: number, count: number): Span[] {
  return Array.from({ length: count }, (_, index) => ({
    from: start + Math.round((index * length) / count),
    to: start + Math.round(((index + 1) * length) / count),
  }));
}

const commonDivisor = (one: number, other: number): number => (other === 0 ? one : commonDivisor(other, one % other));

const middle = (numbers: readonly number[]): number =>
  numbers.toSorted((one, other) => one - other)[numbers.length >> 1]!;

/** Bytes: two pixels that differ by less are of one colour. */
const STEP = 3;
/** Bytes within which a resized picture keeps one colour, for sharpening filters ring at borders. */
const SOFT_STEP = 16;
/** Pixels of a border that is blended, at most, and of a stitch with such borders, at least. */
const WIDEST_BLEND = 4;
const LEAST_SOFT = 4;
/** Lines are thinner than this part of the stitch between them. */
const THICKEST = 0.4;
/** A line as thick as this part of a stitch is stitches of the line's colour. */
const MERGED = 0.8;
/** Beyond this many pieces it is no drawing of rectangles. */
const MOST_PIECES = 4_000_000;
/** Pixels by which a border may be off its even step, and the least step for which that tells anything. */
const UNEVEN = 0.75;
const LEAST_UNEVEN = 2.5;
/** Stitches across a picture that may be one pixel to a stitch: the largest charts of the trade are about 400. */
const MOST_STITCHES = 512;
