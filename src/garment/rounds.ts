/** A section band by band as it is knitted: on how many stitches each stands, whether its repeat closes there, how it meets the band below. */
import { leastCommonMultiple, nearestToZero } from "../base/divisors.ts";
import { classOf, type Meeting } from "../chart/alignment.ts";
import type { Centre } from "../chart/centres.ts";
import { repeatsIn } from "./fitting.ts";
import { roundsOf, type Round, type Section } from "./sections.ts";

/** What has to be known of a band of the chart; rows of no figure have null for it. */
export interface RoundBand {
  readonly id: string;
  /** Stitches after which the chart's rows recur as they tile the round. */
  readonly repeat: number;
  readonly centre: Centre | null;
}

/** A band as it is knitted once. */
export interface BandRounds {
  readonly band: RoundBand;
  /** Rounds of the section, from 1. */
  readonly rounds: readonly [number, number];
  /** Stitches in its first and in its last round. */
  readonly stitches: readonly [number, number];
  /** Stitches of the first round over whole repeats; null where the stitches were changed at the edges of the piece, and repeats break there anyhow. */
  readonly over: number | null;
}

/** How a band meets the one below it through a round of decreases that are spread over the whole round. */
export interface MeetingThroughDecreases {
  readonly below: string;
  readonly above: string;
  /** The band's first round. */
  readonly round: number;
  readonly stitches: readonly [number, number];
  /** Repeats in the round, below and above. */
  readonly times: readonly [number, number];
  readonly meets: Meeting;
  /** Stitches of the upper round by which its middle lies further on in the order of knitting than the nearest lower one; null where they drift. */
  readonly offBy: number | null;
}

/**
 * Decreases that take at least a tenth of the round are spread over it, as in a yoke (25 to 40 %: trade.md 3); fewer shape an armhole or a neck
 * at its edges. Our choice.
 */
const SPREAD = 0.9;

/** @param bandOfRow the band of each chart row, lowest first; null where no figure is */
export function bandRounds(section: Section, bandOfRow: readonly (RoundBand | null)[], size: string): BandRounds[] {
  const found: { band: RoundBand; rounds: [number, number]; stitches: [number, number]; over: number | null }[] = [];
  let before: Round | null = null;
  let stitches = section.stitches[size] ?? 0;
  let atEdges = false;
  for (const round of roundsOf(section, bandOfRow.length, size)) {
    if (stitches !== round.stitches) atEdges = round.stitches > SPREAD * stitches;
    stitches = round.stitches;
    const band = bandOfRow[round.chartRow - 1]!;
    const last = found.at(-1);
    const goesOn =
      last?.band === band && before !== null && last.rounds[1] === before.round && before.chartRow < round.chartRow;
    if (goesOn) {
      last.rounds[1] = round.round;
      last.stitches[1] = round.stitches;
    } else if (band) {
      const over = atEdges ? null : repeatsIn(stitches, band.repeat).over;
      found.push({ band, rounds: [round.round, round.round], stitches: [stitches, stitches], over });
    }
    before = round;
  }
  return found;
}

/** Where neighbouring bands stand on different numbers of stitches, and both numbers are whole repeats. */
export function meetingsThroughDecreases(
  section: Section,
  knitted: readonly BandRounds[],
  size: string,
): MeetingThroughDecreases[] {
  const start = section.startColumn?.[size] ?? 1;
  return knitted.slice(1).flatMap((above, index): MeetingThroughDecreases[] => {
    const below = knitted[index]!;
    const stitches = [below.stitches[1], above.stitches[0]] as const;
    const times = [stitches[0] / below.band.repeat, stitches[1] / above.band.repeat] as const;
    if (stitches[0] === stitches[1] || above.over !== 0 || !times.every(Number.isInteger)) return [];
    const [lower, upper] = [
      turnOf(below.band.centre, start, stitches[0]),
      turnOf(above.band.centre, start, stitches[1]),
    ];
    const most = Math.max(...times);
    const drifts = leastCommonMultiple(times) !== most;
    // A decrease moves what lies beside it by up to a stitch, so that less than half a stitch is nothing.
    const offBy =
      lower === null || upper === null || drifts
        ? null
        : Math.round(nearestToZero(upper - lower, 1 / most) * stitches[1]) + 0;
    const meets = drifts ? "drifting" : offBy === null ? "leaning" : nearClass(offBy, Math.round(stitches[1] / most));
    return [{ below: below.band.id, above: above.band.id, round: above.rounds[0], stitches, times, meets, offBy }];
  });
}

/** Where a middle lies as a part of the round, from its first stitch on. */
const turnOf = (centre: Centre | null, start: number, stitches: number): number | null =>
  centre && (centre.column - start + 0.5) / stitches;

const nearClass = (offBy: number, repeat: number): Meeting => {
  const met = classOf(offBy, repeat);
  return met === "half a stitch" ? "half a repeat" : met;
};
