/** How one band lies over the one below: whether their middles meet, all round, now and then, or never. */
import { greatestCommonDivisor, leastCommonMultiple, nearestToZero, remainder } from "../base/divisors.ts";
import type { Grid } from "./chart.ts";
import { centreOf, type Centre } from "./centres.ts";
import type { BandStructure } from "./structure.ts";

/**
 * lined up: middle over middle. half a repeat: middle over the gap between two. half a stitch: it would be one of the two, but one middle lies
 * on a stitch and the other between two. shifted: by some other number of stitches, the same all round. drifting: neither repeat goes into
 * the other, so that they part and meet again. leaning: one of them has no middle.
 */
export type Meeting = "lined up" | "half a repeat" | "half a stitch" | "shifted" | "drifting" | "leaning";

export interface Alignment {
  /** Ids of the bands. */
  readonly below: string;
  readonly above: string;
  /** Rows of both and those between. */
  readonly rows: readonly [number, number];
  /** Plain rows that lie between them. */
  readonly between: number;
  /** Stitches of the two repeats, below and above. */
  readonly repeats: readonly [number, number];
  readonly meets: Meeting;
  /**
   * Stitches by which the upper middle lies to the left of the lower one that is nearest, within half the smaller repeat; of a drift how near
   * they come at best. null for what leans.
   */
  readonly offBy: number | null;
  /** Stitches after which it is the same again: the least common multiple of the repeats. */
  readonly every: number;
  /** The first column from the right at which both have their middle; null where that is nowhere. */
  readonly meetAt: number | null;
}

/** Every band with a figure over the next one below that has one, lowest first; plain rows may lie between. */
export function alignmentsOf(grid: Grid, structure: readonly BandStructure[]): Alignment[] {
  const figures = structure.filter(({ kind }) => kind !== "plain");
  const centres = figures.map((band) => centreOf(grid, band));
  return figures.slice(1).map((above, index): Alignment => {
    const below = figures[index]!;
    const met = meeting(centres[index]!, centres[index + 1]!, [below.repeat.stitches, above.repeat.stitches]);
    return {
      below: below.band.id,
      above: above.band.id,
      rows: [below.band.rows[0], above.band.rows[1]],
      between: above.band.rows[0] - below.band.rows[1] - 1,
      repeats: [below.repeat.stitches, above.repeat.stitches],
      ...met,
    };
  });
}

type Met = Pick<Alignment, "meets" | "offBy" | "every" | "meetAt">;

/** How two rows of middles lie: everything is counted in half stitches, so that it is exact. */
export function meeting(below: Centre | null, above: Centre | null, repeats: readonly [number, number]): Met {
  const [one, other] = repeats;
  const shared = greatestCommonDivisor(one, other);
  const every = leastCommonMultiple(repeats);
  if (!below || !above) return { meets: "leaning", offBy: null, every, meetAt: null };
  const halves = Math.round(2 * (above.column - below.column));
  const offBy = nearestToZero(halves, 2 * shared) / 2;
  const meetAt = offBy === 0 ? firstMeeting(below, above, every) : null;
  return { meets: shared === Math.min(one, other) ? classOf(offBy, shared) : "drifting", offBy, every, meetAt };
}

/** @param repeat the smaller repeat, which goes into the other */
export function classOf(offBy: number, repeat: number): Meeting {
  const away = Math.abs(offBy);
  if (away === 0) return "lined up";
  // Of an odd repeat a whole number of stitches comes no nearer to its half.
  if (2 * away === repeat || (repeat % 2 === 1 && Number.isInteger(away) && 2 * away === repeat - 1))
    return "half a repeat";
  return away === 0.5 || 2 * away === repeat - 1 ? "half a stitch" : "shifted";
}

function firstMeeting(below: Centre, above: Centre, every: number): number | null {
  const start = remainder(below.column - 1, below.repeat) + 1;
  for (let column = start; column < start + every; column += below.repeat)
    if (Number.isInteger((column - above.column) / above.repeat)) return column;
  return null;
}
