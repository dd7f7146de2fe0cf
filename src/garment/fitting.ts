/** How repeats go into a round: what is left over, which rounds take them all, where a motif comes to lie, what front and back show. */
import { leastCommonMultiple, remainder } from "../base/divisors.ts";

/** Whole repeats in a round, and the stitches left over: 324 in repeats of 20 is 16 and 4. */
export const repeatsIn = (stitches: number, repeat: number): { readonly times: number; readonly over: number } => ({
  times: Math.floor(stitches / repeat),
  over: stitches % repeat,
});

/** The nearest rounds that take all the repeats, below and above; below is null where it would be none. Equal where the round does already. */
export function roundsThatFit(
  stitches: number,
  repeats: readonly number[],
): { readonly below: number | null; readonly above: number } {
  const step = leastCommonMultiple(repeats);
  const below = Math.floor(stitches / step) * step;
  return { below: below === 0 ? null : below, above: Math.ceil(stitches / step) * step };
}

/**
 * The repeats that come nearest to one and go into a round, the largest below and the least above: 18 and 27 of 324 for 20.
 * 1 goes into every round; null where none above is at most twice as wide, for then it is another motif. Our choice.
 */
export function repeatsThatFit(
  stitches: number,
  repeat: number,
): { readonly below: number; readonly above: number | null } {
  let below = repeat;
  while (stitches % below !== 0) below -= 1;
  let above = repeat;
  while (above <= 2 * repeat && stitches % above !== 0) above += 1;
  return { below, above: above <= Math.min(2 * repeat, stitches - 1) ? above : null };
}

/**
 * The chart column for the round's first stitch that brings an axis to a stitch of the round: (a − C) mod r, columns and stitches counted from
 * 0 in knitting order (trade.md 3). Both may lie between two stitches; one on and one between cannot meet, and the column is the next one to
 * the right.
 * @returns from 0 to repeat − 1
 */
export function startColumnFor({
  axis,
  stitch,
  repeat,
}: {
  readonly axis: number;
  readonly stitch: number;
  readonly repeat: number;
}): number {
  return remainder(Math.floor(axis - stitch), repeat);
}

/**
 * Whether the stitch opposite shows the same as one at the front: "same" with an even number of repeats; with an odd one "half a repeat on",
 * which looks well only where the motif has its other axis there; "neither" where the round does not take whole repeats, or is odd.
 */
export function oppositeShows(stitches: number, repeat: number): "same" | "half a repeat on" | "neither" {
  const half = stitches / 2 / repeat;
  if (stitches % repeat !== 0 || stitches % 2 !== 0) return "neither";
  return Number.isInteger(half) ? "same" : "half a repeat on";
}
