/** Shaded motifs: rows that belong together though their colours change, because they mirror about a centre row. */
import { cellAt, NO_STITCH, type Grid } from "./chart.ts";
import { rowColours } from "./counts.ts";
import { motifsIn } from "./motifChange.ts";
import { smallestTile } from "./recurrence.ts";
import type { Rows } from "./strip.ts";

/**
 * Cuts rows `from` to `to` into strips, lowest first: one-colour rows together, rows of the same two or more colours
 * together but for a change of motif among them, and the strips of a shaded motif joined. Strips are joined, the highest such span first, when
 *
 * - their rows mirror about a centre row: each row and its opposite part the stitches in the same way, whatever the
 *   colours, so that a motif shaded only one way counts too;
 * - neighbouring strips share a colour;
 * - none but the centre is a motif by itself: three rows or more that mirror about their own centre and are not all alike;
 * - the outermost strips are not rows of even dashes (one and one, two and two) round something else: those are frames;
 * - the only plain row is the centre, and then what lies on either side of it does not mirror by itself.
 */
export function stripsOf(grid: Grid, from: number, to: number): Rows[] {
  const rows = readRows(grid, from, to);
  const segments = segmentsOf(rows);
  const spans = mirroredSpans(rows, segments).toSorted((a, b) => heightOf(segments, b) - heightOf(segments, a));
  const taken = new Map<number, Span>();
  for (const span of spans) {
    if (segments.some((_, index) => index >= span.first && index <= span.last && taken.has(index))) continue;
    for (let index = span.first; index <= span.last; index++) taken.set(index, span);
  }
  const strips: Rows[] = [];
  for (let index = 0; index < segments.length; index++) {
    const last = taken.get(index)?.last ?? index;
    strips.push([from + segments[index]!.start, from + segments[last]!.end - 1]);
    index = last;
  }
  return strips;
}

interface Row {
  readonly colours: readonly number[];
  /** How the row parts its stitches, colours renamed in order of use: equal for rows that differ only in colour. */
  readonly shape: string;
  readonly evenDashes: boolean;
  /** Stitches after which the row recurs. */
  readonly repeat: number;
}

/** Neighbouring rows of the same colours, or neighbouring plain rows; `start` and `end` index rows, `end` exclusive. */
interface Segment {
  readonly start: number;
  end: number;
  readonly plain: boolean;
  readonly colours: Set<number>;
}

interface Span {
  readonly first: number;
  readonly last: number;
}

function readRows(grid: Grid, from: number, to: number): Row[] {
  const rows: Row[] = [];
  for (let row = from; row <= to; row++) {
    const colours = rowColours(grid, row);
    const cells = Array.from({ length: grid.width }, (_, index) => cellAt(grid, row, index + 1));
    const shape = cells.map((cell) => (cell === NO_STITCH ? "-" : String(colours.indexOf(cell)))).join(" ");
    rows.push({
      colours,
      shape,
      evenDashes: colours.length === 2 && new Set(runLengths(cells)).size === 1,
      repeat: smallestTile(cells),
    });
  }
  return rows;
}

/** Lengths of the runs of equal cells, joined end to end. */
function runLengths(cells: readonly number[]): number[] {
  const starts = cells.flatMap((cell, index) => (cell === cells.at(index - 1) ? [] : [index]));
  return starts.map((start, index) => (starts[index + 1] ?? starts[0]! + cells.length) - start);
}

function segmentsOf(rows: readonly Row[]): Segment[] {
  const segments: Segment[] = [];
  for (const [index, row] of rows.entries()) {
    const plain = row.colours.length < 2;
    const last = segments.at(-1);
    const same = last && last.plain === plain && (plain || sameColours(last.colours, row.colours));
    if (same) {
      last.end = index + 1;
      for (const colour of row.colours) last.colours.add(colour);
    } else segments.push({ start: index, end: index + 1, plain, colours: new Set(row.colours) });
  }
  return segments.flatMap((segment) =>
    segment.plain
      ? [segment]
      : motifsIn(rows.slice(segment.start, segment.end)).map(([start, end]) => ({
          ...segment,
          start: segment.start + start,
          end: segment.start + end,
        })),
  );
}

const sameColours = (one: ReadonlySet<number>, other: readonly number[]): boolean =>
  one.size === other.length && other.every((colour) => one.has(colour));

function mirroredSpans(rows: readonly Row[], segments: readonly Segment[]): Span[] {
  const spans: Span[] = [];
  for (let first = 0; first < segments.length; first++) {
    if (segments[first]!.plain) continue;
    for (let last = first + 1; last < segments.length; last++) {
      const segment = segments[last]!;
      const below = segments[last - 1]!;
      if (![...segment.colours].some((colour) => below.colours.has(colour))) break;
      if (segment.plain && segment.end - segment.start > 1) break;
      if (!segment.plain && isOneMotif(rows, segments.slice(first, last + 1))) spans.push({ first, last });
    }
  }
  return spans;
}

function isOneMotif(rows: readonly Row[], parts: readonly Segment[]): boolean {
  const { start } = parts[0]!;
  const { end } = parts.at(-1)!;
  const centre = (start + end - 1) / 2;
  if (!Number.isInteger(centre) || !mirrors(rows, start, end)) return false;
  for (const part of parts) {
    const isCentre = part.start <= centre && centre < part.end;
    if (part.plain ? !isCentre || mirrors(rows, start, centre) : !isCentre && isMotifByItself(rows, part)) return false;
  }
  const framed = [parts[0]!, parts.at(-1)!].some((part) => allEvenDashes(rows, part.start, part.end));
  return !framed || allEvenDashes(rows, start, end);
}

const isMotifByItself = (rows: readonly Row[], { start, end }: Segment): boolean =>
  end - start >= 3 && mirrors(rows, start, end) && new Set(rows.slice(start, end).map(({ shape }) => shape)).size > 1;

function mirrors(rows: readonly Row[], start: number, end: number): boolean {
  for (let low = start, high = end - 1; low < high; low++, high--) {
    if (rows[low]!.shape !== rows[high]!.shape) return false;
  }
  return true;
}

const allEvenDashes = (rows: readonly Row[], start: number, end: number): boolean =>
  rows.slice(start, end).every(({ evenDashes }) => evenDashes);

const heightOf = (segments: readonly Segment[], { first, last }: Span): number =>
  segments[last]!.end - segments[first]!.start;
