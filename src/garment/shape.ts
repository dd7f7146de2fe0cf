/** From a body, its ease and a gauge to a garment: its parts with stitches and rounds that take the charts' repeats, and its schematic. */
import { dropShoulder, vest } from "./shape/upperBody.ts";
import { roundYoke } from "./shape/roundYoke.ts";
import { cuffs, hat, mittens } from "./shape/small.ts";
import type { Lengths, Shaped, ShapeOf } from "./shape/parts.ts";
import type { Body } from "./body.ts";
import type { YokePlan } from "./yokePlan.ts";

export const GARMENTS = [
  "vest",
  "pullover",
  "cardigan",
  "yoke pullover",
  "yoke cardigan",
  "hat",
  "mittens",
  "cuffs",
] as const;
export type Garment = (typeof GARMENTS)[number];

export interface ShapedGarment extends Shaped {
  /** Of a round yoke. */
  readonly yoke?: YokePlan;
}

/**
 * One size of a garment. Every circumference takes the repeats of its chart in the way she chose or the usual one; charts are centred on the lines
 * that matter, the front before the back; a yoke loses its stitches where every band's repeat divides. Charts stand on their rounds from their
 * first row on, and begin again at their top. Sources: trade.md 3; what is common practice or our choice says so beside its number.
 * Limits: straight bodies and sleeves; no short rows, no buttonholes; plain knitting where no chart is meant for a part.
 */
export function shapeOf(garment: Garment, of: ShapeOf): ShapedGarment {
  const lengths = { ...usualLengths(garment, of.body), ...of.lengths };
  switch (garment) {
    case "vest":
      return vest(of, lengths, false);
    case "pullover":
    case "cardigan":
      return dropShoulder(of, lengths, garment === "cardigan");
    case "yoke pullover":
    case "yoke cardigan":
      return roundYoke(of, lengths, garment === "yoke cardigan");
    case "hat":
      return hat(of, lengths);
    case "mittens":
      return mittens(of, lengths);
    case "cuffs":
      return cuffs(of, lengths);
  }
}

/** The measure of the body that a garment's ease is added to. */
export const measureOf = (garment: Garment): keyof Body =>
  garment === "hat" ? "head" : garment === "mittens" || garment === "cuffs" ? "hand" : "chest";

/**
 * Ease in cm where she has said none. Stranded yokes sit with 5 to 10 cm, and thick cloth asks for the upper half of what is standard (trade.md 3);
 * a hat is stretched and a mitten is not (common practice, no source).
 */
export function usualEaseCm(garment: Garment): number {
  if (garment === "hat") return -3;
  return garment === "mittens" || garment === "cuffs" ? 1 : 7.5;
}

/** A grown-up's chest: from there on hems and cuffs are as long as a grown-up's, below in proportion. Our choice. */
const GROWN_CHEST_CM = 90;

/**
 * Lengths to begin with: a hem of 6 cm and cuffs of 5 (5 to 7 are typical for a hem: trade.md 3), a neck of 42 % of the cross back and 18 % of it deep,
 * which gives a medium 17 and 7 cm; armholes of a straight body 3 cm deeper than the arm's, of a vest 2 (common practice, no source).
 */
export function usualLengths(garment: Garment, body: Body): Lengths {
  const small = Math.min(1, body.chest / GROWN_CHEST_CM);
  const isSmall = garment === "hat" || garment === "mittens" || garment === "cuffs";
  return {
    hemRib: (garment === "hat" ? 4 : 6) * small,
    cuffRib: (garment === "cuffs" ? 2 : isSmall ? 6 : 5) * small,
    neckband: 2.5 * small,
    armholeEase: (garment === "vest" ? 2 : 3) * small,
    neckDepth: body.crossBack * 0.18,
    neckWidth: body.crossBack * 0.42,
  };
}
