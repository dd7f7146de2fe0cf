/** Colours of a knitted thing off a picture of it: several places of one colour taken together, and how far the result may be off. */
import type { Problem } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import type { PhotographedYarn } from "./yarnPhoto/yarnReader.ts";

export interface PictureColour {
  /** CIELAB, D65, 2°. */
  readonly lab: Lab;
  readonly hex: string;
  /** ΔE00 from the middle that holds four of five of the places; null for a single one, of which nothing is known. */
  readonly spread: number | null;
  /** ΔE00 that holds the truth in 80 % of cases: what the light and the camera leave open, and how unlike the places are. */
  readonly uncertainty: number;
}

/** ΔE00 by which places of one colour on one garment differ for folds and uneven light, where only one was picked; our choice. */
const SINGLE_PLACE = 3;

/** The places of one colour taken together, each as it was read; null where there are none. */
export function colourOfPlaces(places: readonly Pick<PhotographedYarn, "lab" | "uncertainty">[]): PictureColour | null {
  const [first] = places;
  if (!first) return null;
  const mean = ([0, 1, 2] as const).map((part) => places.reduce((sum, { lab }) => sum + lab[part], 0) / places.length);
  const lab: Lab = [mean[0]!, mean[1]!, mean[2]!];
  const spread = places.length === 1 ? null : spreadAbout(lab, places);
  // Light and camera are the same in every place: more places do not make them surer.
  const common = Math.max(...places.map(({ uncertainty }) => uncertainty));
  return { lab, hex: hexFromLab(lab), spread, uncertainty: Math.hypot(common, spread ?? SINGLE_PLACE) };
}

function spreadAbout(middle: Lab, places: readonly { readonly lab: Lab }[]): number {
  const apart = places.map(({ lab }) => deltaE2000(middle, lab)).sort((one, other) => one - other);
  return apart[Math.ceil(0.8 * apart.length) - 1]!;
}

/** Whether a place shows more than one colour: its frame lies over an edge, and its colour is that of neither. */
export function mixedPlace({ flecks }: Pick<PhotographedYarn, "flecks">, where: string): Problem | null {
  const apart = Math.max(0, ...flecks.flatMap((one) => flecks.map((other) => deltaE2000(one.lab, other.lab))));
  if (apart < MIXED) return null;
  return { where, expected: "one colour", got: "two or more; a smaller place lies within one", severity: "doubt" };
}

/** ΔE00 between the parts of one place, beyond which they are two yarns rather than one heather; our choice. */
const MIXED = 15;
