/** The score of a colourway under a wish: how unlike the pattern's own light and dark, contrasts, hues and loudness it is. */
import { deltaE2000 } from "../colour/difference.ts";
import { lchFromLab, type Lab } from "../colour/lab.ts";
import { plainName } from "../colour/names.ts";
import { valueClass } from "../colour/value.ts";
import type { Wish } from "./wish.ts";

/** What one place, a chart colour or rows of one that she has pinned to a yarn, is measured against. */
export interface Target {
  readonly colour: string;
  readonly was: Lab;
  /** The lightness wanted there: the pattern's, or mirrored. */
  readonly lightness: number;
  /** Part of the fabric, 0 to 1. */
  readonly area: number;
  readonly looks: readonly string[];
  /** The yarn that it keeps in any case, where that is known. */
  readonly fixed: Lab | null;
  /** It is rows of a chart colour, not all of it; nothing is to be chosen there. */
  readonly pinned: boolean;
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
  /** How much fainter rows and figures are than in the pattern's own colours: ln of V, over the fabric. */
  readonly showing: number;
}

export const TERM_NAMES = ["value", "contrast", "hue", "loudness", "showing"] as const satisfies (keyof Terms)[];

/**
 * What a unit of each term costs, in steps of L*. Our choice: replacement value by value is the natural answer, a hue near the
 * pattern's and no louder breaks ties; a fabric that shows half as well throughout costs about 4 L* in every colour.
 */
export const TERM_WEIGHTS: Terms = { value: 1, contrast: 0.5, hue: 0.15, loudness: 0.25, showing: 6 };

/** Her own weights are factors on the usual ones. Twice and half for a character kept closely or freely: our choice. */
const CHARACTER = { close: 2, usual: 1, free: 0.5 } as const;

export function weightsOf({ weights = {}, character = "usual" }: Wish): Terms {
  const kept = CHARACTER[character];
  const factor = (term: keyof Terms): number => weights[term] ?? 1;
  return {
    value: TERM_WEIGHTS.value * factor("value"),
    contrast: TERM_WEIGHTS.contrast * factor("contrast") * kept,
    hue: TERM_WEIGHTS.hue * factor("hue"),
    loudness: TERM_WEIGHTS.loudness * factor("loudness") * kept,
    showing: TERM_WEIGHTS.showing * factor("showing"),
  };
}

/** A free ladder keeps a little of the pattern's own lightness, so that equal answers are decided. Our choice. */
const FREE_VALUE = 0.1;

/** Chroma may grow by this much before it counts as louder. Our choice: about what one sees. */
const CHROMA_GRACE = 5;

/** Three times the usual weight for one colour that is to be like the original's. Our choice. */
const LIKE_ORIGINAL = 3;

/** Chroma held below 0.7 of the pattern's, or above 1.3 and the grace, at twice the usual weight. Our choice. */
const LOUDNESS = { quieter: 0.7, louder: 1.3, weight: 2 } as const;

/** Colours of little area matter too: an accent is chosen, not filled in. Our choice. */
const BASE_IMPORTANCE = 0.4;

export const importanceOf = (area: number, colours: number): number =>
  BASE_IMPORTANCE + (1 - BASE_IMPORTANCE) * area * colours;

export interface Taste {
  readonly ladder: "same" | "reversed" | "free";
  /** The whole fabric, where a colour has no look of its own. */
  readonly fabric?: "quieter" | "louder" | undefined;
  /** The pattern's loud places stay loud too, not only its quiet ones quiet. */
  readonly close: boolean;
}

/** The terms that one yarn in one place brings, before importance. */
export function placeTerms(target: Target, lab: Lab, taste: Taste): Pick<Terms, "value" | "hue" | "loudness"> {
  const [, wasChroma] = lchFromLab(target.was);
  const [, chroma] = lchFromLab(lab);
  const value = Math.abs(lab[0] - target.lightness) * (taste.ladder === "free" ? FREE_VALUE : 1);
  const hue = deltaE2000(lab, target.was) * (target.looks.includes("like-original") ? LIKE_ORIGINAL : 1);
  const asks = target.looks.findLast((be) => be === "quieter" || be === "louder") ?? taste.fabric;
  if (asks === "quieter")
    return { value, hue, loudness: LOUDNESS.weight * Math.max(0, chroma - LOUDNESS.quieter * wasChroma) };
  if (asks === "louder") {
    const wanted = LOUDNESS.louder * wasChroma + CHROMA_GRACE;
    return { value, hue, loudness: LOUDNESS.weight * Math.max(0, wanted - chroma) };
  }
  const away = taste.close ? Math.abs(chroma - wasChroma) : chroma - wasChroma;
  return { value, hue, loudness: Math.max(0, away - CHROMA_GRACE) };
}

/** Whether a place may be that shade, by what she wants it to look like. */
export const looksAllow = ({ looks }: Target, lab: Lab): boolean =>
  looks.every((be) => {
    if (be === "light" || be === "dark") return valueClass(lab[0]) === be;
    return !be.startsWith("hue:") || plainName(lab).split(" ").includes(be.slice("hue:".length));
  });

/** A figure may be so much fainter before more of it costs nothing more, ln of V: a third is a word lost. Our choice. */
const MOST_SHORTFALL = Math.log(3);

/** How much fainter than the pattern has it something shows: ln of V, from 0. */
export const shortfall = (V: number, was: number): number =>
  V >= was ? 0 : Math.min(MOST_SHORTFALL, Math.log(was / Math.max(V, Number.MIN_VALUE)));

export const sumOfTerms = (terms: Terms, weights: Terms): number =>
  TERM_NAMES.reduce((sum, term) => sum + weights[term] * terms[term], 0);
