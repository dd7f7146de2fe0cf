/** The score of a colourway under a wish: how unlike the pattern's own light and dark, contrasts, hues and loudness it is. */
import { deltaE2000 } from "../colour/difference.ts";
import { lchFromLab, type Lab } from "../colour/lab.ts";
import { plainName } from "../colour/names.ts";
import { valueClass } from "../colour/value.ts";

/** What one chart colour is measured against. */
export interface Target {
  readonly colour: string;
  readonly was: Lab;
  /** The lightness wanted there: the pattern's, or mirrored. */
  readonly lightness: number;
  /** Part of the fabric, 0 to 1. */
  readonly area: number;
  readonly looks: readonly string[];
}

export interface Terms {
  /** L* away from the wanted lightness. */
  readonly value: number;
  /** L* away from the wanted difference to the neighbours. */
  readonly contrast: number;
  /** ΔE00 away from the pattern's colour. */
  readonly hue: number;
  /** Chroma above the pattern's. */
  readonly loudness: number;
}

/**
 * What a unit of each term costs, in steps of L*. Our choice: replacement value by value is the natural answer, a hue near the
 * pattern's and no louder breaks ties.
 */
export const TERM_WEIGHTS: Terms = { value: 1, contrast: 0.5, hue: 0.15, loudness: 0.25 };

/** A free ladder keeps a little of the pattern's own lightness, so that equal answers are decided. Our choice. */
const FREE_VALUE = 0.1;

/** Chroma may grow by this much before it counts as louder. Our choice: about what one sees. */
const CHROMA_GRACE = 5;

/** Colours of little area matter too: an accent is chosen, not filled in. Our choice. */
const BASE_IMPORTANCE = 0.4;

export const importanceOf = (area: number, colours: number): number =>
  BASE_IMPORTANCE + (1 - BASE_IMPORTANCE) * area * colours;

/** The terms that one yarn in one place brings, before importance. Infinity where a look forbids it. */
export function placeTerms(target: Target, lab: Lab, ladder: "same" | "reversed" | "free"): Omit<Terms, "contrast"> {
  const [, wasChroma] = lchFromLab(target.was);
  const [, chroma] = lchFromLab(lab);
  const value = Math.abs(lab[0] - target.lightness) * (ladder === "free" ? FREE_VALUE : 1);
  let hue = deltaE2000(lab, target.was);
  let loudness = Math.max(0, chroma - wasChroma - CHROMA_GRACE);
  for (const be of target.looks) {
    // Three and two times the usual weight, and chroma held below 0.7 of the pattern's, or above 1.3: our choice.
    if (be === "like-original") hue *= 3;
    if (be === "quieter") loudness = 2 * Math.max(0, chroma - 0.7 * wasChroma);
    if (be === "louder") loudness = 2 * Math.max(0, 1.3 * wasChroma + CHROMA_GRACE - chroma);
    if (be === "light" || be === "dark") loudness += valueClass(lab[0]) === be ? 0 : Infinity;
    if (be.startsWith("hue:")) loudness += plainName(lab).split(" ").includes(be.slice("hue:".length)) ? 0 : Infinity;
  }
  return { value, hue, loudness };
}

export const sumOfTerms = (terms: Terms): number =>
  TERM_WEIGHTS.value * terms.value +
  TERM_WEIGHTS.contrast * terms.contrast +
  TERM_WEIGHTS.hue * terms.hue +
  TERM_WEIGHTS.loudness * terms.loudness;
