/** Plain names for colours, so that a shade can be told in words. */
import { assert } from "../base/assert.ts";
import isccNbs from "./data/isccNbs.json" with { type: "json" };
import { deltaE2000 } from "./difference.ts";
import { labFromHex, type Lab } from "./lab.ts";

/**
 * The ISCC-NBS name of a CIELAB colour (D65), lower case, British spelling: the one with the nearest centroid by ΔE00.
 * Limit: names are approximate. The published names are blocks of Munsell space, of which these are the middles, and some
 * middles lay outside sRGB.
 */
export function plainName(lab: Lab): string {
  let nearest = CENTROIDS[0]!;
  let least = Infinity;
  for (const centroid of CENTROIDS) {
    const distance = deltaE2000(lab, centroid.lab);
    if (distance < least) {
      least = distance;
      nearest = centroid;
    }
  }
  return nearest.name;
}

/** Every name's middle, CIELAB D65. */
export const CENTROIDS: readonly { name: string; lab: Lab }[] = Object.entries(isccNbs.names).map(([name, hex]) => {
  const lab = labFromHex(hex);
  assert(lab, `the centroid of ${name} has no readable hex`);
  return { name, lab };
});

/** Every word that a plain name may hold: "blue", "greyish", "dark" … */
export const PLAIN_NAME_WORDS: ReadonlySet<string> = new Set(CENTROIDS.flatMap(({ name }) => name.split(" ")));
