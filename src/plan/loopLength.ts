/** Loop length: how much yarn one stitch takes, from the density of the fabric. */
import { assert } from "../base/assert.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";

export type Relaxed = "dry-relaxed" | "wet-relaxed" | "fully-relaxed";

/**
 * Munden's constant ks (stitch density in loops/cm² × loop length in cm squared), without a unit, by state of the cloth:
 * off the needles and rested; soaked and dried flat; agitated and tumble dried.
 * Source: Munden 1959, J. Textile Inst. 50, T448 (dry and wet, from memory, unverified); Knapton et al. 1968,
 * Textile Res. J. 38, 999 (fully relaxed, product of kc 5.5 and kw 4.2).
 */
export const MUNDEN_KS: Readonly<Record<Relaxed, number>> = {
  "dry-relaxed": 19.0,
  "wet-relaxed": 21.6,
  "fully-relaxed": 23.1,
};

/** Float slack as a part of the width passed: usual, and the sensible least and most (common practice, no source). */
export const SLACK = { usual: 0.1, least: 0, most: 0.2 } as const;

/**
 * Length of yarn in one plain stitch, in mm: 10·√(ks / S), S = stitches × rows per cm². A swatch that was soaked and
 * dried flat, as a hand knitter's is, is wet-relaxed; between dry and fully relaxed lies −6 % to +3.4 %.
 * Limit: plain knitting, one strand. Example: 28 × 30 per 10 cm, wet-relaxed: 16.04 mm.
 */
export function loopLengthMm(gauge: Gauge, ks: number = MUNDEN_KS["wet-relaxed"]): number {
  assert(gauge.stitches > 0 && gauge.rows > 0, "a gauge has stitches and rows above 0");
  return 10 * Math.sqrt(ks / ((gauge.stitches / 10) * (gauge.rows / 10)));
}

/** Length of strand that passes behind one stitch, in mm: its width and the slack of the float. */
export function floatLengthMm(gauge: Gauge, slack: number = SLACK.usual): number {
  return stitchSizeMm(gauge).widthMm * (1 + slack);
}
