/** What a swatch leaves open, and why, in words. */
import type { SwatchDoubt } from "./swatchQuestion.ts";

export interface LeftOpen {
  readonly id: string;
  readonly headline: string;
  /**
   * "budget": no swatch of the budget settles it. "room": one could, but what settles more takes its place. "repeat": its repeat goes into
   * another width. "shape": its stitches decrease. "garment": only the garment shows it.
   */
  readonly why: "budget" | "room" | "repeat" | "shape" | "garment";
  readonly sentence: string;
  readonly chance: number;
}

/** A swatch for this doubt alone. */
export interface AloneSwatch {
  readonly stitches: number;
  readonly minutes: number;
  readonly isWithin: boolean;
  /** Whether its repeat goes into the width that was chosen. */
  readonly fits: boolean;
}

/** @param alone null where no swatch at all settles it */
export function leftOpen({ id, kind, headline, chance, options }: SwatchDoubt, alone: AloneSwatch | null): LeftOpen {
  const told = { id, headline, chance };
  if (options.length === 0 || kind === "flecks")
    return {
      ...told,
      why: "garment",
      sentence:
        "No swatch settles it: where a yarn's colours come to lie hangs on how many stitches are in the round. Knit a cuff or the first rounds, and look.",
    };
  if (!alone)
    return {
      ...told,
      why: "shape",
      sentence: "Its stitches decrease from row to row; it shows only in its own shape, a yoke or a crown.",
    };
  const takes = `${alone.stitches} stitches, about ${Math.round(alone.minutes)} minutes`;
  if (!alone.isWithin)
    return { ...told, why: "budget", sentence: `No swatch of this budget settles it: alone it takes ${takes}.` };
  if (!alone.fits)
    return {
      ...told,
      why: "repeat",
      sentence: `Its repeat does not go into this swatch's width; a swatch of its own takes ${takes}.`,
    };
  return {
    ...told,
    why: "room",
    sentence: `There is no room for it in this budget beside what settles more; alone it takes ${takes}.`,
  };
}
