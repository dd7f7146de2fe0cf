/** Dye lots and what is left of them: a part-ball in another lot is the same yarn, but she wants to know. */
import { metresFromGrams } from "./lengths.ts";
import type { Lot, Yarn } from "./yarn.ts";

/** Grams owned over all lots; null where nobody has said. Lots without a weight count for nothing. */
export function gramsOwned(yarn: Yarn): number | null {
  const weighed = lotsOfYarn(yarn).filter((lot) => lot.grams !== undefined);
  if (weighed.length === 0) return yarn.grams ?? null;
  return weighed.reduce((sum, lot) => sum + lot.grams!, 0);
}

/** The lots; grams stated on the yarn itself are read as one lot. */
export function lotsOfYarn(yarn: Yarn): Lot[] {
  if (yarn.lots && yarn.lots.length > 0) return yarn.lots;
  return yarn.grams === undefined ? [] : [{ id: "l1", grams: yarn.grams }];
}

/** Metres owned; null where weight or thickness is not known. */
export function metresOwned(yarn: Yarn): number | null {
  const grams = gramsOwned(yarn);
  return grams === null || yarn.metresPer100g === undefined ? null : metresFromGrams(grams, yarn.metresPer100g);
}

/** How the grams are known: every lot that has any was on the scales, none was, or some; null where nobody has said any. */
export function gramsKnownFrom(yarn: Yarn): "scales" | "label" | "both" | null {
  const lots = lotsOfYarn(yarn).filter(({ grams }) => grams !== undefined);
  if (lots.length === 0) return null;
  if (lots.every(({ weighed }) => weighed)) return "scales";
  return lots.some(({ weighed }) => weighed) ? "both" : "label";
}

/**
 * The lots after so many grams were knitted: each is used up before the next is begun, in the order of the list; none goes below
 * nothing. What was read off a scale before is not what a scale reads now.
 */
export function lotsAfter(lots: readonly Lot[], gramsUsed: number): Lot[] {
  let toTake = Math.max(0, gramsUsed);
  return lots.map((lot) => {
    if (lot.grams === undefined) return lot;
    const taken = Math.min(lot.grams, toTake);
    toTake -= taken;
    if (taken === 0) return lot;
    const { weighed: _before, ...rest } = lot;
    return { ...rest, grams: lot.grams - taken };
  });
}

/** Grams of a yarn that are promised to a project, as a shelf remembers it. */
export interface PromisedGrams {
  readonly yarn: string;
  readonly project: string;
  /** Missing: nobody has said how many. */
  readonly grams?: number;
}

/** Grams of a yarn that are promised in all, but to the project `except`; a promise without grams counts for nothing. */
export const gramsPromised = (promised: readonly PromisedGrams[], yarn: string, except?: string): number =>
  promised
    .filter((one) => one.yarn === yarn && one.project !== except)
    .reduce((sum, { grams }) => sum + (grams ?? 0), 0);
