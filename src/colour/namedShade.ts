/** A shade guessed from a colour's name alone, with a range as wide as what people call so. */
import { CENTROIDS, PLAIN_NAME_WORDS } from "./names.ts";
import { deltaE2000 } from "./difference.ts";
import type { Lab } from "./lab.ts";

export interface NamedShade {
  /** The ISCC-NBS name that stands in the middle of what was meant, such as "moderate blue". */
  name: string;
  /** CIELAB D65 of that name's centroid. */
  lab: Lab;
  /** A CIEDE2000 difference that holds what is called so in 80 % of cases. */
  uncertainty: number;
}

/**
 * The shade that a few English colour words such as "dark greyish blue" or "red" mean, by the ISCC-NBS names that have all of
 * them; null where no hue is among the words. Other words are passed over. The range is the size of the named part of
 * colour space: from the middle name to nine in ten of the names meant, and a block beyond, as the outermost names are blocks too.
 */
export function shadeOfName(words: readonly string[]): NamedShade | null {
  const known = words.map((word) => (word === "gray" ? "grey" : word)).filter((word) => PLAIN_NAME_WORDS.has(word));
  const hue = known.findLast((word) => HUES.has(word));
  if (hue === undefined) return null;
  // In some languages the hue stands first.
  const sorted = (list: readonly string[]): string => list.toSorted().join(" ");
  const exact = CENTROIDS.filter(({ name }) => sorted(name.split(" ")) === sorted(known));
  const meant = exact.length > 0 ? exact : meantBy(known, hue);
  // A label's words were not chosen by the standard, so a single name stands for its neighbours too.
  const others = meant.length > 1 ? meant : nearest(meant[0]!, NEIGHBOURS + 1);
  const spread = (of: Centroid): number => percentile(others.map(({ lab }) => deltaE2000(of.lab, lab)));
  const middles = meant.map((one) => ({ one, within: spread(one) })).sort((a, b) => a.within - b.within);
  const { one, within } = middles[0]!;
  const block = deltaE2000(one.lab, nearest(one, 2)[1]!.lab);
  return { name: one.name, lab: one.lab, uncertainty: Math.round(within + block) };
}

type Centroid = (typeof CENTROIDS)[number];

/** Names of that hue with as many of the words as can be had; "pale red" is no name, but "red" is a hue. */
function meantBy(words: readonly string[], hue: string): Centroid[] {
  const ofHue = CENTROIDS.filter(({ name }) => name.endsWith(hue));
  const shared = (name: string): number => words.filter((word) => name.split(" ").includes(word)).length;
  const most = Math.max(...ofHue.map(({ name }) => shared(name)));
  const best = ofHue.filter(({ name }) => shared(name) === most);
  // "red" means the reds, not the purplish reds, where both have the word.
  const plain = best.filter(({ name }) =>
    name.split(" ").every((word) => words.includes(word) || !HUE_LIKE.test(word)),
  );
  return plain.length > 0 ? plain : best;
}

const nearest = (to: Centroid, count: number): Centroid[] =>
  CENTROIDS.map((one) => ({ one, far: deltaE2000(to.lab, one.lab) }))
    .sort((a, b) => a.far - b.far)
    .slice(0, count)
    .map(({ one }) => one);

/** What holds nine names in ten, so that with the blocks around the names four in five of all such colours are held (tested over sRGB). */
function percentile(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.ceil(0.9 * (sorted.length - 1))]!;
}

/** Blocks around a block that share an edge with it, about (two in each of hue, value and chroma). */
const NEIGHBOURS = 6;
/** Words that turn a hue to another: "reddish", "olive" before "brown". */
const HUE_LIKE = /ish$|^(?:red|orange|yellow|green|blue|violet|purple|pink|brown|olive)$/;
const HUES: ReadonlySet<string> = new Set(CENTROIDS.map(({ name }) => name.split(" ").at(-1)!));
