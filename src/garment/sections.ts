/** A section: a chart placed on the rounds and stitches of a piece, by size. */
import { assert } from "../base/assert.ts";
import type { Gauge } from "./gauge.ts";

export interface Size {
  id: string;
  name?: string;
  chestCm?: number;
}

/** Stitches beside those of the chart, in every round of a section, worked in the round's two strands by turns so that nothing floats behind them. */
export interface Beside {
  /** A steek is cut open; a panel of plain stitches at the sides takes up what repeats leave over. */
  kind: "steek" | "panel";
  name?: string;
  /** By size. */
  stitches: Record<string, number>;
  /** Stitches of the chart before it in the section's first round; 0: at the round's beginning. Missing: nobody has said. */
  after?: Record<string, number>;
  /** Columns of the chart that are passed over there, because their stitches were cast off. */
  skips?: Record<string, number>;
}

/** From this round on the section has so many stitches: fewer than before, or more. */
export interface Decrease {
  round: number;
  to: number;
  /** Stitches that go at the beginning of the round, of those that go; below 0 they come. None where it is missing. */
  atStart?: number;
  /** Names of what stands beside the chart, once for each stitch that goes on either side of it. Missing: over the round, or at its ends. */
  at?: string[];
}

export interface Section {
  id: string;
  name?: string;
  chart: string;
  /** Chart row of the first round, 1 where it is missing. */
  startRow?: number;
  rounds: Record<string, number>;
  stitches: Record<string, number>;
  startColumn?: Record<string, number>;
  decreases?: Record<string, Decrease[]>;
  gauge?: Gauge | null;
  on?: boolean;
  beside?: Beside[];
  /** Ids of the sections whose stitches it goes on with or picks up; none for one that is cast on. Missing: nobody has said. */
  from?: string[];
}

export interface Round {
  /** From 1, in the order of knitting. */
  readonly round: number;
  readonly chartRow: number;
  readonly stitches: number;
  /** Chart column of the round's first stitch, counted on beyond the chart's edges where stitches went or came there. */
  readonly startColumn: number;
  /** Where columns of the chart are passed over: after so many stitches of the round, so many columns. */
  readonly gaps: readonly { readonly after: number; readonly columns: number }[];
}

/** Stitches of a round beside those of the chart. */
export const stitchesBeside = ({ beside = [] }: Pick<Section, "beside">, size: string): number =>
  beside.reduce((sum, { stitches }) => sum + (stitches[size] ?? 0), 0);

/** Every round of a section in one size; the chart begins again when the rounds pass its top. Empty for a size that the section does not have. */
export function roundsOf(section: Section, chartHeight: number, size: string): Round[] {
  assert(chartHeight > 0, "a chart has rows");
  const count = section.rounds[size] ?? 0;
  const cast = section.stitches[size] ?? 0;
  const startColumn = section.startColumn?.[size] ?? 1;
  const decreases = (section.decreases?.[size] ?? []).toSorted((a, b) => a.round - b.round);
  const placed = (section.beside ?? []).flatMap(({ name, after, skips }) => {
    const at = after?.[size];
    return at === undefined ? [] : [{ name, after: at, skips: skips?.[size] ?? 0 }];
  });
  return Array.from({ length: count }, (_, index) => {
    const round = index + 1;
    const done = decreases.filter((decrease) => decrease.round <= round);
    const goneAt = (name: string | undefined): number =>
      done.reduce((sum, { at = [] }) => sum + at.filter((one) => one === name).length, 0);
    const atStart = placed.filter(({ after }) => after === 0).reduce((sum, { name }) => sum + goneAt(name), 0);
    return {
      round,
      chartRow: (((section.startRow ?? 1) - 1 + index) % chartHeight) + 1,
      stitches: done.at(-1)?.to ?? cast,
      startColumn: startColumn + atStart + done.reduce((sum, { atStart: own = 0 }) => sum + own, 0),
      gaps: gapsIn(placed, goneAt),
    };
  });
}

/** Stitches that went on either side of a place leave a gap there, and move what comes after it nearer to the round's beginning. */
function gapsIn(
  placed: readonly { readonly name: string | undefined; readonly after: number; readonly skips: number }[],
  goneAt: (name: string | undefined) => number,
): Round["gaps"] {
  const before = (place: number): number =>
    placed.reduce((sum, { name, after }) => {
      if (after > place) return sum;
      // On either side of what lies before it, and on the near side of the place itself.
      return sum + goneAt(name) * (after === 0 || after === place ? 1 : 2);
    }, 0);
  return placed
    .filter(({ after }) => after > 0)
    .map(({ name, after, skips }) => ({ after: after - before(after), columns: skips + 2 * goneAt(name) }))
    .filter(({ columns }) => columns > 0)
    .sort((a, b) => a.after - b.after);
}
