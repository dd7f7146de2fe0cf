/** How far apart strands of a yarn lie when they are wound side by side: an estimate from what its label says of thickness. */
import type { Yarn } from "./yarn.ts";

/** An estimate with the range in which most yarns lie. */
export interface StrandPitch {
  readonly mm: number;
  readonly low: number;
  readonly high: number;
}

/**
 * From strand to strand, mm; null where nothing is known of its thickness. Metres in 100 g count before the weight class: for
 * one build of yarn the thickness goes with the root of its weight by length, and 30 mm·√(m per 100 g) is what lies within
 * the wraps per inch of every class (trade.md 2); fluffier and harder spun yarns are up to a quarter off.
 */
export function strandPitchOf({
  metresPer100g,
  weightClass,
}: Pick<Yarn, "metresPer100g" | "weightClass">): StrandPitch | null {
  if (metresPer100g !== undefined && metresPer100g > 0) {
    const mm = PITCH_BY_ROOT / Math.sqrt(metresPer100g);
    return { mm, low: mm * (1 - SPREAD), high: mm * (1 + SPREAD) };
  }
  const wraps = weightClass === undefined ? undefined : WRAPS_PER_INCH[weightClass];
  if (!wraps) return null;
  const [low, high] = [MM_PER_INCH / wraps[1], MM_PER_INCH / wraps[0]];
  return { mm: Math.sqrt(low * high), low, high };
}

const PITCH_BY_ROOT = 30;
const SPREAD = 0.25;
const MM_PER_INCH = 25.4;

/** Wraps per inch of each weight class, 0 lace to 6 super bulky: both columns of trade.md 2 together; of the thickest the lower end is our guess. */
const WRAPS_PER_INCH: readonly (readonly [number, number])[] = [
  [18, 40],
  [14, 24],
  [12, 18],
  [11, 15],
  [9, 12],
  [6, 9],
  [4, 7],
];

/**
 * The length of a fleck, mm, from its length in strands' widths, as a photograph tells it. undefined where the thickness is
 * not known: then the length is not either.
 */
export function fleckLengthMm(
  strands: number | undefined,
  yarn: Pick<Yarn, "metresPer100g" | "weightClass">,
): number | undefined {
  const pitch = strands === undefined ? null : strandPitchOf(yarn);
  return pitch === null || strands === undefined ? undefined : Number((strands * pitch.mm).toPrecision(2));
}
