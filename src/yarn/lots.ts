/** Dye lots and what is left of them: a part-ball in another lot is the same yarn, but she wants to know. */
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
