/** A section band by band as it is knitted: on how many stitches each stands, whether its repeat closes there, how it meets the band below. */
import { leastCommonMultiple, nearestToZero } from "../base/divisors.ts";
import { classOf, meeting, type Alignment, type Meeting } from "../chart/alignment.ts";
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
  /** Stitches of the first round over whole repeats; null where the piece is cut open or stitches were changed at its edges, and repeats break there anyhow. */
  readonly over: number | null;
  /** The chart row of its first round. */
  readonly row: number;
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
  const found: {
    band: RoundBand;
    rounds: [number, number];
    stitches: [number, number];
    over: number | null;
    row: number;
  }[] = [];
  let before: Round | null = null;
  let stitches = section.stitches[size] ?? 0;
  const isCut = (section.beside ?? []).some(({ kind }) => kind === "steek");
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
      const over = atEdges || isCut ? null : repeatsIn(stitches, band.repeat).over;
      found.push({
        band,
        rounds: [round.round, round.round],
        stitches: [stitches, stitches],
        over,
        row: round.chartRow,
      });
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

/** A section band by band, in one size. */
export interface KnittedSection {
  readonly section: Section;
  readonly bands: readonly BandRounds[];
}

/** How a band meets another on which it is knitted though it does not lie above it in a chart: in the next section, or where the chart begins again. */
export interface RoundMeeting extends Pick<Alignment, "meets" | "offBy" | "every" | "repeats"> {
  /** Ids of the sections; the same where a chart begins again. */
  readonly sections: readonly [string, string];
  readonly below: string;
  readonly above: string;
  /** The upper band's first round in its section. */
  readonly round: number;
  /** Rounds of no figure between them. */
  readonly between: number;
}

/**
 * Of each section the first band over the last one of the section before it in the list that ends with as many stitches, its round beginning
 * in the same place; where it is told from which it goes on, of those. Where the number changes between two sections stitches were joined or bound off, and nobody knows what stands on what.
 * And in each section the lowest band over the uppermost wherever the chart begins again.
 * @param knitted sections in the order of knitting
 */
export function meetingsInRounds(knitted: readonly KnittedSection[], size: string): RoundMeeting[] {
  return knitted.flatMap((upper, index) => {
    const first = upper.section.stitches[size];
    const { from } = upper.section;
    const lower = knitted
      .slice(0, index)
      .findLast((one) => endOf(one, size) === first && (from === undefined || from.includes(one.section.id)));
    return [...(lower ? meetingOfSections(lower, upper, size) : []), ...meetingsAgain(upper, size)];
  });
}

function endOf({ section, bands }: KnittedSection, size: string): number | null {
  const rounds = section.rounds[size];
  const last = section.decreases?.[size]
    ?.toSorted((a, b) => a.round - b.round)
    .findLast(({ round }) => round <= (rounds ?? 0));
  return rounds && bands.length > 0 ? (last?.to ?? section.stitches[size] ?? null) : null;
}

function meetingOfSections(lower: KnittedSection, upper: KnittedSection, size: string): RoundMeeting[] {
  const [below, above] = [lower.bands.at(-1)!, upper.bands[0]];
  if (!above || below.stitches[1] !== above.stitches[0]) return [];
  const between = lower.section.rounds[size]! - below.rounds[1] + above.rounds[0] - 1;
  return [{ ...met([lower, below], [upper, above], size), between }];
}

function meetingsAgain(knitted: KnittedSection, size: string): RoundMeeting[] {
  const seen = new Set<string>();
  return knitted.bands.slice(1).flatMap((above, index): RoundMeeting[] => {
    const below = knitted.bands[index]!;
    if (above.row > below.row || below.stitches[1] !== above.stitches[0] || seen.has(above.band.id)) return [];
    seen.add(above.band.id);
    return [{ ...met([knitted, below], [knitted, above], size), between: above.rounds[0] - below.rounds[1] - 1 }];
  });
}

function met(
  [lower, below]: readonly [KnittedSection, BandRounds],
  [upper, above]: readonly [KnittedSection, BandRounds],
  size: string,
): Omit<RoundMeeting, "between"> {
  const inRound = ({ section }: KnittedSection, { centre }: RoundBand): Centre | null =>
    centre && { ...centre, column: centre.column - (section.startColumn?.[size] ?? 1) + 1 };
  const repeats = [below.band.repeat, above.band.repeat] as const;
  const { meets, offBy, every } = meeting(inRound(lower, below.band), inRound(upper, above.band), repeats);
  return {
    sections: [lower.section.id, upper.section.id],
    below: below.band.id,
    above: above.band.id,
    round: above.rounds[0],
    meets,
    offBy,
    every,
    repeats,
  };
}
