/** Heathered yarn: the colours spun into it, each with its share of what one sees. */
import { linearFromLab, labFromLinear, type Lab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import { labOfYarn, type Yarn } from "./yarn.ts";

export interface Part {
  lab: Lab;
  /** Part of the surface; the parts of a yarn add to 1. */
  share: number;
}

/**
 * The colours a heathered yarn shows at hand's distance, shares adding to 1. Added in linear light by share they give
 * the shade it shows from afar (`labOfYarn`), so the ground between the flecks is what is left of that shade.
 * Where no light is left for it (flecks brighter than the whole), the ground is black and the parts come out lighter than the shade.
 */
export function partsOfYarn(yarn: Yarn): Part[] {
  const far = labOfYarn(yarn);
  const flecks = (yarn.flecks ?? []).filter((fleck) => fleck.share > 0);
  const total = flecks.reduce((sum, fleck) => sum + fleck.share, 0);
  if (total === 0) return [{ lab: far, share: 1 }];
  // Without a shade of its own, or with shares that fill the yarn, there is no ground between the flecks.
  if (!yarn.shade || total >= 1 - NO_GROUND) {
    return flecks.map((fleck) => ({ lab: labOfShade(fleck.shade), share: fleck.share / total }));
  }
  const ground = [...linearFromLab(far)];
  for (const fleck of flecks) {
    const linear = linearFromLab(labOfShade(fleck.shade));
    for (let channel = 0; channel < 3; channel++) ground[channel]! -= fleck.share * linear[channel]!;
  }
  const left = 1 - total;
  const [red, green, blue] = ground.map((light) => Math.max(0, light / left)) as [number, number, number];
  return [
    { lab: labFromLinear([red, green, blue]), share: left },
    ...flecks.map((fleck) => ({ lab: labOfShade(fleck.shade), share: fleck.share })),
  ];
}

/** A share too small to see: our choice, a hundredth of the surface. */
const NO_GROUND = 0.01;
