/** The yarns she owns, looked through: nearest to a shade, from light to dark, or only some of them. */
import { deltaE2000 } from "../colour/difference.ts";
import type { Lab } from "../colour/lab.ts";
import { valueClass, type ValueClass } from "../colour/value.ts";
import { gramsOwned } from "./lots.ts";
import { labOfYarn, type Yarn } from "./yarn.ts";

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

export interface StashFilter {
  /** Words that must all occur in name, maker, fibre, note or lot; case does not count. */
  words?: string;
  classes?: readonly ValueClass[];
  /** At least so many grams owned; a yarn of unknown weight does not pass. */
  grams?: number;
  /** Metres per 100 g, inclusive; a yarn of unknown thickness does not pass. */
  metresPer100g?: readonly [number, number];
}

/** The yarns that meet every condition given, in the order given. */
export function filterStash(yarns: readonly Yarn[], filter: StashFilter): Yarn[] {
  const words = (filter.words ?? "").toLowerCase().split(/\s+/).filter(Boolean);
  return yarns.filter((yarn) => {
    const text = textOfYarn(yarn);
    if (!words.every((word) => text.includes(word))) return false;
    if (filter.classes && !(hasShade(yarn) && filter.classes.includes(valueClass(labOfYarn(yarn)[0])))) return false;
    if (filter.grams !== undefined && !((gramsOwned(yarn) ?? -1) >= filter.grams)) return false;
    if (filter.metresPer100g) {
      const [least, most] = filter.metresPer100g;
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

function textOfYarn(yarn: Yarn): string {
  const lots = (yarn.lots ?? []).map((lot) => lot.lot);
  return [yarn.name, yarn.maker, yarn.fibre, yarn.note, ...lots].filter(Boolean).join(" ").toLowerCase();
}
