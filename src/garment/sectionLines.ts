/** What a section's rounds and stitches become when its chart gets or loses rows or columns: every stitch is knitted where it was. */
import type { Renumbering } from "../chart/renumbering.ts";
import type { Decrease, Section } from "./sections.ts";

export interface RowsChange {
  /** Of the chart's rows. */
  readonly rows: Renumbering;
  /** Rows of the chart, before and after. */
  readonly heights: readonly [number, number];
}

/**
 * New rows are knitted wherever the section passes their place: it becomes so many rounds longer, once for each time that the chart is knitted,
 * and shorter by the rows that go. A section that begins with the chart's first row goes on beginning there, and one that ends with its last row
 * goes on ending there. A decrease stays with the round that it had been put to, and where that goes falls to the next one.
 */
export function sectionWithRows(section: Section, change: RowsChange): Section {
  const numbers = roundNumbers(section, change);
  const { startRow, decreases } = section;
  const rounds = mapped(section.rounds, (count) => roundsAfter(section, change, numbers, count));
  return {
    ...section,
    ...(startRow !== undefined && { startRow: startAfter(startRow, change) }),
    rounds,
    ...(decreases && {
      decreases: mapped(decreases, (list, size) =>
        decreasesAfter(list, numbers, [section.rounds[size] ?? 0, rounds[size] ?? 0]),
      ),
    }),
  };
}

/** The column in which a size's rounds begin goes with its stitches; where they go the next one is the first. The chart's edge stays the edge. */
export const sectionWithColumns = (section: Section, columns: Renumbering, width: number): Section =>
  section.startColumn
    ? {
        ...section,
        startColumn: mapped(section.startColumn, (column) => {
          const after = column === 1 ? 1 : columns.from(column);
          return after > width ? 1 : after;
        }),
      }
    : section;

/** How the section's rounds are numbered after the change; the same in every size. Rounds beyond its last are numbered as if it went on. */
export function roundNumbers(section: Section, change: RowsChange): Renumbering {
  const { rows, heights } = change;
  const start = section.startRow ?? 1;
  // The rounds of each row of the chart from the first round on: gone, or so many new ones before them.
  const once = Array.from({ length: heights[0] }, (_, index) => rows.of(((start - 1 + index) % heights[0]) + 1));
  const kept = once.filter((row) => row !== null);
  const startsAt = startAfter(start, change);
  /** Rounds after the change that come before those of the row, in the first time through. */
  const placeOf = (row: number): number => (row - startsAt + heights[1]) % heights[1];
  const of = (round: number): number | null => {
    const row = once[(round - 1) % heights[0]]!;
    return row === null ? null : Math.floor((round - 1) / heights[0]) * heights[1] + placeOf(row) + 1;
  };
  const keptUpTo = (round: number): number => {
    const times = Math.floor(round / heights[0]);
    return times * kept.length + once.slice(0, round % heights[0]).filter((row) => row !== null).length;
  };
  const nth = (number: number): number => {
    const row = kept[(number - 1) % kept.length]!;
    return Math.floor((number - 1) / kept.length) * heights[1] + placeOf(row) + 1;
  };
  return {
    of,
    from: (round) => nth(keptUpTo(round - 1) + 1),
    upTo: (round) => (keptUpTo(round) === 0 ? 0 : nth(keptUpTo(round))),
  };
}

function startAfter(start: number, { rows, heights }: RowsChange): number {
  if (start === 1) return 1;
  const after = rows.from(start);
  return after > heights[1] ? 1 : after;
}

function roundsAfter(section: Section, { rows, heights }: RowsChange, numbers: Renumbering, count: number): number {
  if (count === 0) return 0;
  const last = numbers.upTo(count);
  const endsAtTop = ((section.startRow ?? 1) - 1 + count) % heights[0] === 0;
  const above = heights[1] - rows.upTo(heights[0]);
  return endsAtTop ? last + above : last;
}

function decreasesAfter(
  list: readonly Decrease[],
  numbers: Renumbering,
  [before, after]: readonly [number, number],
): Decrease[] {
  const moved = list.map((decrease) => ({
    was: decrease.round,
    // What lies beyond the piece stays as far beyond it.
    decrease: {
      ...decrease,
      round: decrease.round > before ? decrease.round + after - before : numbers.from(decrease.round),
    },
  }));
  const kept = moved.filter(({ was, decrease }) => was > before || decrease.round <= after);
  const isLastThere = (one: (typeof moved)[number]): boolean =>
    !kept.some((other) => other.was > one.was && other.was <= before && other.decrease.round === one.decrease.round);
  return kept.filter(isLastThere).map(({ was, decrease }) => {
    // What falls on one round goes in one round, and so does what goes at its beginning.
    const together = kept.filter((other) => other.was <= was && other.decrease.round === decrease.round);
    const atStart = together.reduce((sum, other) => sum + (other.decrease.atStart ?? 0), 0);
    return together.length > 1 && atStart !== 0 ? { ...decrease, atStart } : decrease;
  });
}

const mapped = <From, To>(
  bySize: Readonly<Record<string, From>>,
  change: (value: From, size: string) => To,
): Record<string, To> => Object.fromEntries(Object.entries(bySize).map(([size, value]) => [size, change(value, size)]));
