/** Rows and columns that come in or go out, for a colourway: its changes and what is laid on go with their stitches. */
import { isOfRows, renumberingOf, type LinesEdit } from "../chart/chartLines.ts";
import { renumberedRange, type Renumbering } from "../chart/renumbering.ts";
import type { Place } from "../garment/place.ts";
import { roundNumbers } from "../garment/sectionLines.ts";
import { liesOn } from "./bandShift.ts";
import { rowsChange } from "./chartLines.ts";
import type { Colourway, OverStitch } from "./colourway.ts";
import type { Pattern } from "./pattern.ts";

/** The colourway afterwards; what names only stitches that have gone goes too. @param pattern as it was before */
export function colourwayWithLines(colourway: Colourway, edit: LinesEdit, pattern: Pattern): Colourway {
  const { changes, overStitched } = colourway;
  const placeAfter = placesWith(edit, pattern);
  return {
    ...colourway,
    ...(changes && {
      changes: changes.flatMap((change) => {
        const at = placeAfter(change.at);
        return at ? [{ ...change, at }] : [];
      }),
    }),
    ...(overStitched && {
      overStitched: overStitched.flatMap((over) => {
        const at = placeAfter(over.at);
        if (!at) return [];
        return liesOn(over, edit.chart, pattern) ? stitchedAfter({ ...over, at }, edit, pattern) : [{ ...over, at }];
      }),
    }),
  };
}

/** Each place as it is called afterwards; null where all of it has gone. @param pattern as it was before */
export function placesWith(edit: LinesEdit, pattern: Pattern): (place: Place) => Place | null {
  if (!isOfRows(edit)) return (place) => place;
  const rows = renumberingOf(edit);
  const rounds = new Map(roundsWith(edit, pattern));
  return (place) => {
    if ("chart" in place) {
      if (place.chart !== edit.chart || !place.rows) return place;
      const range = renumberedRange(rows, place.rows);
      return range && { ...place, rows: range };
    }
    const numbers = rounds.get(place.section);
    if (!numbers || !place.rounds) return place;
    const range = renumberedRange(numbers, place.rounds);
    return range && { ...place, rounds: range };
  };
}

/** By the id of each section of the chart, how its rounds are numbered afterwards. @param pattern as it was before */
export function roundsWith(edit: LinesEdit, pattern: Pattern): [string, Renumbering][] {
  if (!isOfRows(edit)) return [];
  const change = rowsChange(pattern, edit);
  return (pattern.sections ?? []).flatMap((section): [string, Renumbering][] =>
    section.chart === edit.chart ? [[section.id, roundNumbers(section, change)]] : [],
  );
}

type Line = NonNullable<OverStitch["lines"]>[number];
type Corner = Line[number];

/** Without what was laid on stitches that have gone; nothing is left where that was all. */
function stitchedAfter(over: OverStitch, edit: LinesEdit, pattern: Pattern): OverStitch[] {
  const part = isOfRows(edit) ? 0 : 1;
  const { rows } = pattern.charts.find(({ id }) => id === edit.chart)!;
  const numbers = renumberingOf(edit);
  const cells = over.cells?.flatMap((cell): [number, number][] => {
    const number = numbers.of(cell[part]);
    return number === null ? [] : [cell.with(part, number) as [number, number]];
  });
  const lines =
    over.lines && linesAfter(over.lines, part, numbers, part === 0 ? rows.length : (rows[0] as string).length);
  const isEmpty = (list: readonly unknown[] | undefined): boolean => !list || list.length === 0;
  const had = !isEmpty(over.cells) || !isEmpty(over.lines);
  if (had && isEmpty(cells) && isEmpty(lines)) return [];
  return [{ ...over, ...(cells && { cells }), ...(lines && { lines }) }];
}

/**
 * Lines that hang together keep their shape about their stitches: what is uppermost of them, or leftmost, stays on the stitches before it,
 * everything else on those after. So a single line between old stitches and new ones goes with the stitches above it, or to its left.
 */
function linesAfter(lines: readonly Line[], part: 0 | 1, numbers: Renumbering, last: number): Line[] {
  const spans = spansOf(lines, part);
  return lines.flatMap((line, index): Line[] => {
    const [low, high] = spans[index]!;
    const after = (at: number): number =>
      (at === high && high > low) || at === last ? numbers.upTo(at) : numbers.from(at + 1) - 1;
    if (high > low && after(high) === after(low)) return [];
    const [one, other] = [line[0][part], line[1][part]];
    const isWithin = one === other && one > 0 && numbers.of(one) === null && numbers.of(one + 1) === null;
    const moved = line.map((corner) => corner.with(part, after(corner[part])) as Corner) as Line;
    return isWithin || (isPoint(moved) && !isPoint(line)) ? [] : [moved];
  });
}

const isPoint = ([one, other]: Line): boolean => one[0] === other[0] && one[1] === other[1];

/** For each line from where to where the shape reaches that it makes with those whose corners it shares, one over another. */
function spansOf(lines: readonly Line[], part: 0 | 1): (readonly [number, number])[] {
  let shapes: { readonly corners: ReadonlySet<string>; readonly lines: readonly number[] }[] = [];
  lines.forEach((line, index) => {
    const ends = line.map(String);
    const joined = shapes.filter(({ corners }) => ends.some((end) => corners.has(end)));
    shapes = shapes.filter((shape) => !joined.includes(shape));
    shapes.push({
      corners: new Set([...ends, ...joined.flatMap(({ corners }) => [...corners])]),
      lines: [index, ...joined.flatMap((shape) => shape.lines)],
    });
  });
  const spans: (readonly [number, number])[] = [];
  for (const shape of shapes) {
    const places = shape.lines.flatMap((index) => lines[index]!.map((corner) => corner[part]));
    const span = [Math.min(...places), Math.max(...places)] as const;
    for (const index of shape.lines) spans[index] = span;
  }
  return spans;
}
