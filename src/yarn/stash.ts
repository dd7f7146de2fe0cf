/** The yarns she owns, looked through: nearest to a shade, from light to dark, or only some of them. */
import { deltaE2000 } from "../colour/difference.ts";
import type { Lab } from "../colour/lab.ts";
import { lightnessRange } from "../colour/shadeRange.ts";
import { valueClass, type ValueClass, type ValueLimits } from "../colour/value.ts";
import { gramsOwned } from "./lots.ts";
import { knownWeightClass } from "./weightClass.ts";
import { labOfYarn, uncertaintyOfYarn, type Yarn } from "./yarn.ts";

export interface Near {
  yarn: Yarn;
  /** CIEDE2000 to the shade looked for. */
  deltaE00: number;
}

/** The `count` yarns nearest to a shade (CIELAB D65), nearest first; of two alike the one listed first. Yarns without a shade are left out. */
export function nearestByShade(yarns: readonly Yarn[], lab: Lab, count: number): Near[] {
  return yarns
    .filter(hasShade)
    .map((yarn) => ({ yarn, deltaE00: deltaE2000(labOfYarn(yarn), lab) }))
    .sort((one, other) => one.deltaE00 - other.deltaE00)
    .slice(0, Math.max(0, count));
}

/** Lightest first, by L*; yarns without a shade last, in the order given. */
export function sortByLightness(yarns: readonly Yarn[]): Yarn[] {
  const lightness = (yarn: Yarn): number => (hasShade(yarn) ? labOfYarn(yarn)[0] : -Infinity);
  return yarns
    .map((yarn) => ({ yarn, L: lightness(yarn) }))
    .sort((one, other) => (one.L === other.L ? 0 : other.L - one.L))
    .map(({ yarn }) => yarn);
}

/** The value class of a yarn's L*, and before or after it those that its shade's range reaches too; lightest first. */
export function valueClassesOf(yarn: Yarn, limits?: ValueLimits): ValueClass[] {
  if (!hasShade(yarn)) return [];
  const [low, high] = lightnessRange(labOfYarn(yarn), uncertaintyOfYarn(yarn));
  const from = LIGHTEST_FIRST.indexOf(valueClass(high, limits));
  const to = LIGHTEST_FIRST.indexOf(valueClass(low, limits));
  return LIGHTEST_FIRST.slice(from, to + 1);
}

const LIGHTEST_FIRST: readonly ValueClass[] = ["light", "light-medium", "medium-dark", "dark"];

export interface StashFilter {
  /** Words that must all occur in name, maker, fibre, note or lot; case does not count. */
  words?: string;
  /** What else a yarn may be found by, by its id: the plain name of its colour. */
  names?: ReadonlyMap<string, string>;
  /** Words that must all occur in maker or fibre. */
  make?: string;
  /** A yarn whose range leaves it between two passes for either. */
  classes?: readonly ValueClass[];
  /** 0 lace to 7 jumbo; a yarn that may be either of two passes for either. */
  weightClasses?: readonly number[];
  /** At least so many grams owned; a yarn of unknown weight does not pass. */
  grams?: number;
  /** Metres per 100 g, inclusive; a yarn of unknown thickness does not pass. */
  metresPer100g?: readonly [number, number];
  /** Ids of yarns that do not pass, as those that are promised. */
  without?: ReadonlySet<string>;
  /** Only those whose shade nobody has measured. */
  unmeasured?: boolean;
}

/** The yarns that meet every condition given, in the order given. */
export function filterStash(yarns: readonly Yarn[], filter: StashFilter): Yarn[] {
  const { classes, weightClasses, grams, metresPer100g: thickness, without } = filter;
  const words = wordsOf(filter.words);
  const make = wordsOf(filter.make);
  return yarns.filter((yarn) => {
    const { id, name, maker, fibre, note, lots = [] } = yarn;
    if (!holdsAll(words, [name, maker, fibre, note, ...lots.map(({ lot }) => lot), filter.names?.get(id)]))
      return false;
    if (!holdsAll(make, [maker, fibre])) return false;
    if (without?.has(id)) return false;
    if (filter.unmeasured && isMeasured(yarn)) return false;
    if (grams !== undefined && !((gramsOwned(yarn) ?? -1) >= grams)) return false;
    if (classes && !valueClassesOf(yarn).some((one) => classes.includes(one))) return false;
    if (weightClasses && !knownWeightClass(yarn).classes.some((one) => weightClasses.includes(one))) return false;
    if (thickness) {
      const [least, most] = thickness;
      if (yarn.metresPer100g === undefined) return false;
      if (yarn.metresPer100g < least || yarn.metresPer100g > most) return false;
    }
    return true;
  });
}

/** Whether it can be placed by colour at all. */
export function hasShade(yarn: Yarn): boolean {
  return yarn.shade !== undefined || (yarn.flecks ?? []).some((fleck) => fleck.share > 0);
}

/** Whether its shade was measured: by a maker, on a photograph with a reference, or with the ball beside the screen. */
export function isMeasured({ shade }: Pick<Yarn, "shade">): boolean {
  return shade?.from === "label" || shade?.from === "photo" || shade?.from === "screen";
}

const wordsOf = (typed = ""): string[] => typed.toLowerCase().split(/\s+/).filter(Boolean);

function holdsAll(words: readonly string[], texts: readonly (string | undefined)[]): boolean {
  if (words.length === 0) return true;
  const text = texts.filter(Boolean).join(" ").toLowerCase();
  return words.every((word) => text.includes(word));
}
