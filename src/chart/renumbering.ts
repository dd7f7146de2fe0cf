/** How rows, columns or rounds are numbered once some of them have come in or gone out. */
import type { Rows } from "./strip.ts";

export interface Renumbering {
  /** The number that it has afterwards; null for what has gone. */
  readonly of: (number: number) => number | null;
  /** The first that is left from there on; one more than the last where none is. */
  readonly from: (number: number) => number;
  /** The last that is left up to there; 0 where none is. */
  readonly upTo: (number: number) => number;
}

/** @param at number of the first of those that come in */
export function comeIn(at: number, count: number): Renumbering {
  const of = (number: number): number => (number < at ? number : number + count);
  return { of, from: of, upTo: of };
}

export function goneOut([from, to]: Rows): Renumbering {
  const count = to - from + 1;
  const beyond = (number: number, inside: number): number =>
    number < from ? number : number > to ? number - count : inside;
  return {
    of: (number) => (number >= from && number <= to ? null : beyond(number, 0)),
    from: (number) => beyond(number, from),
    upTo: (number) => beyond(number, from - 1),
  };
}

/** What came in between belongs to the range too; null where all of it has gone. */
export function renumberedRange({ from, upTo }: Renumbering, [first, last]: Rows): [number, number] | null {
  const range: [number, number] = [from(first), upTo(last)];
  return range[0] <= range[1] ? range : null;
}
