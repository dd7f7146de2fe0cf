/** How thick a yarn is in the words of the trade: the classes whose published range holds its metres, overlaps and all. */
import weights from "./data/yarnWeights.json" with { type: "json" };
import { yardsPerPoundFromMetresPer100g } from "./lengths.ts";
import type { Yarn } from "./yarn.ts";

/**
 * The classes, 0 lace to 7 jumbo, whose range holds so many metres per 100 g in either of two published tables, the finest first.
 * The tables differ and ranges of neighbours overlap, so that one yarn may well be "fingering or sport".
 * Source: data/yarnWeights.json. Limit: jumbo has no published length; whatever is that thick comes out as super chunky.
 * Example: 420 gives fingering; 350 gives fingering and sport.
 */
export function weightClassesOf(metresPer100g: number): number[] {
  // The table of yards counts in whole ones.
  const yards = Math.round(yardsPerPoundFromMetresPer100g(metresPer100g));
  return weights.rows
    .filter(
      (row) =>
        row.metresPer100g.some((range) => holds(range, metresPer100g)) ||
        (row.yardsPerPound !== null && holds(row.yardsPerPound, yards)),
    )
    .map((row) => row.class);
}

export interface KnownWeightClass {
  /** Finest first; empty where nothing is known. */
  readonly classes: readonly number[];
  /** The label's word counts before what the metres suggest. */
  readonly from: "label" | "metres" | null;
}

/** What is known of a yarn's class; its metres are never guessed from it. */
export function knownWeightClass({
  weightClass,
  metresPer100g,
}: Pick<Yarn, "weightClass" | "metresPer100g">): KnownWeightClass {
  if (weightClass !== undefined) return { classes: [weightClass], from: "label" };
  if (metresPer100g !== undefined) return { classes: weightClassesOf(metresPer100g), from: "metres" };
  return { classes: [], from: null };
}

/** The trade's names, 0 lace to 7 jumbo. */
export const WEIGHT_CLASS_NAMES: readonly string[] = weights.rows.map(({ name }) => name);

/** "fingering or sport". */
export const weightClassWords = (classes: readonly number[]): string =>
  classes.map((one) => WEIGHT_CLASS_NAMES[one] ?? `class ${one}`).join(" or ");

const holds = ([least, most]: readonly (number | null)[], value: number): boolean =>
  value >= (least ?? 0) && value <= (most ?? Infinity);
