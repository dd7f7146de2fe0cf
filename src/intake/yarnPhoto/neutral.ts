/** What a grey card or a sheet of paper is taken to be, and how far it may be otherwise. */
import type { Problem } from "../../base/problem.ts";
import { labFromXyz, type Lab } from "../../colour/lab.ts";
import { WHITE_D65 } from "../../colour/xyz.ts";
import type { Area } from "./area.ts";
import { fault } from "./areaProblem.ts";

/** Paper with much brightener, natural white or cream, grey recycled, or not known. */
export const PAPER_TINTS = ["bright", "cream", "recycled", "unknown"] as const;
export type PaperTint = (typeof PAPER_TINTS)[number];

export type NeutralReference =
  /** A grey card; `reflectance` above 0 to 1, 0.18 unless she says otherwise; `lab` (D65) where it was measured. */
  | { readonly kind: "grey"; readonly area: Area; readonly reflectance?: number; readonly lab?: Lab }
  /** White paper; `tint` "unknown" unless she says otherwise; `lab` (D65) where it was measured. */
  | { readonly kind: "white"; readonly area: Area; readonly tint?: PaperTint; readonly lab?: Lab };

export interface KnownNeutral {
  readonly lab: Lab;
  /** Standard deviations of L*, a*, b*. */
  readonly spread: Lab;
}

/** A grey card reflects 18 % (the trade's usage). */
const CARD = 0.18;
/** How far cards differ from what is printed on them: from memory of cards sold, rounded up. */
const CARD_SPREAD: Lab = [0.8, 0.5, 0.7];
/** What she measured, she measured about so well; our choice. */
const MEASURED_SPREAD: Lab = [0.4, 0.3, 0.4];
/** From memory of office papers under daylight; brightener makes paper bluish there and hardly so by lamps. */
const PAPERS: Readonly<Record<PaperTint, KnownNeutral>> = {
  bright: { lab: [94.5, 1.5, -6], spread: [1.2, 0.8, 2.5] },
  cream: { lab: [93, 0.3, 5], spread: [1.5, 0.8, 2.5] },
  recycled: { lab: [86, 0, 3], spread: [3, 0.7, 2] },
  unknown: { lab: [93, 0.5, -1.5], spread: [3, 0.9, 4] },
};

export function knownNeutral(reference: NeutralReference): KnownNeutral {
  if (reference.lab) return { lab: reference.lab, spread: MEASURED_SPREAD };
  if (reference.kind === "white") return PAPERS[reference.tint ?? "unknown"];
  const [x, y, z] = WHITE_D65;
  const part = reference.reflectance ?? CARD;
  return { lab: labFromXyz([x * part, y * part, z * part]), spread: CARD_SPREAD };
}

/** Null where what she says of it can be. */
export function knownProblem(reference: NeutralReference, where: string): Problem | null {
  const { lab } = reference;
  if (lab && !(lab[0] >= 20 && lab[0] <= 100 && Math.hypot(lab[1], lab[2]) < 20))
    return fault(where, "CIELAB of something nearly neutral, L* from 20", lab.join(" "));
  const reflectance = reference.kind === "grey" ? reference.reflectance : undefined;
  if (reflectance !== undefined && !(reflectance >= 0.03 && reflectance <= 0.95))
    return fault(where, "a reflectance from 0.03 to 0.95", `${reflectance}`);
  return null;
}
