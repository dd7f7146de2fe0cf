/** How far a yarn goes, round by round in the order of knitting: a leftover's promise that it will finish the round it begins. */
import type { Colourway } from "../fabric/colourway.ts";
import type { Knitting } from "./knitting.ts";
import type { AmountSettings } from "./settings.ts";
import { emptyTally, metresOf, rangeOf, type Tally } from "./tally.ts";
import { tallyRound } from "./tallySection.ts";

export interface RoundPlace {
  readonly section: string;
  /** From 1; 0: before the first. */
  readonly round: number;
}

/** Where a yarn comes to its end: the last round that it finishes; null where it finishes none. */
export interface YarnEnd {
  /** Every round that asks for it is finished. */
  readonly lasts: boolean;
  readonly last: RoundPlace | null;
  /** The same if it is used up as fast, and as slowly, as may be. */
  readonly soonest: RoundPlace | null;
  readonly latest: RoundPlace | null;
  /** The first round that it cannot finish; null where it lasts. */
  readonly endsIn: RoundPlace | null;
}

export interface YarnEndOf {
  readonly knitting: Knitting;
  readonly colourway: Colourway;
  readonly settings: AmountSettings;
  readonly yarn: string;
  /** What there is of it. */
  readonly metres: number;
  /** The last round that is knitted already; from the beginning where missing. */
  readonly after?: RoundPlace;
}

/**
 * A yarn never ends within a round that it finishes: the tails of its start and stop are reckoned where it is joined, cast-on and cast-off stay
 * out. Example: 21 m, which are 5 g at 420 m to 100 g, carry 8 rounds of 240 stitches as one of two equal colours at 28 × 30, at 2.4 m each.
 */
export function yarnEnd({ knitting, colourway, settings, yarn, metres, after }: YarnEndOf): YarnEnd {
  const tally = emptyTally();
  const reached: Record<"last" | "soonest" | "latest", { at: RoundPlace | null; open: boolean }> = {
    last: { at: null, open: true },
    soonest: { at: null, open: true },
    latest: { at: null, open: true },
  };
  let endsIn: RoundPlace | null = null;
  let isAhead = after === undefined;
  for (const section of knitting.sections) {
    const sinceUse = { rounds: Infinity };
    for (const round of section.rounds) {
      const place = { section: section.id, round: round.round };
      if (!isAhead) {
        isAhead = section.id === after!.section && round.round > after!.round;
        // A section that she has not begun comes after all of the one she is in.
        if (!isAhead) continue;
      }
      const takes = takenBy(yarn, { section, colourway, settings }, round, tally);
      sinceUse.rounds += 1;
      if (!takes) continue;
      if (sinceUse.rounds > settings.restRounds) tally.tailsM += settings.tailsM;
      sinceUse.rounds = 0;
      const { low, high } = rangeOf(tally, settings);
      const used = { last: metresOf(tally, settings.slack), soonest: high, latest: low };
      for (const key of ["last", "soonest", "latest"] as const) {
        const one = reached[key];
        if (one.open && used[key] <= metres) one.at = place;
        else one.open = false;
      }
      if (!reached.last.open && endsIn === null) endsIn = place;
      if (!reached.latest.open) return { lasts: false, ...placesOf(reached), endsIn };
    }
    if (!isAhead && section.id === after!.section) isAhead = true;
  }
  return { lasts: reached.last.open, ...placesOf(reached), endsIn };
}

const placesOf = (
  reached: Record<"last" | "soonest" | "latest", { at: RoundPlace | null }>,
): Pick<YarnEnd, "last" | "soonest" | "latest"> => ({
  last: reached.last.at,
  soonest: reached.soonest.at,
  latest: reached.latest.at,
});

/** Adds what a round takes of one yarn; false where it takes none. */
function takenBy(
  yarn: string,
  of: Parameters<typeof tallyRound>[0],
  round: Parameters<typeof tallyRound>[1],
  tally: Tally,
): boolean {
  const others = emptyTally();
  const before = tally.stitches + tally.duplicateStitches + tally.linesM;
  tallyRound(of, round, (strand) => (strand === yarn ? tally : others));
  return tally.stitches + tally.duplicateStitches + tally.linesM > before;
}
