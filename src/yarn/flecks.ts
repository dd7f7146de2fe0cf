/** Heathered yarn: the colours spun into it, each with its share of what one sees. */
import { linearFromLab, labFromLinear, type Lab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import { labOfYarn, type Fleck, type Yarn } from "./yarn.ts";

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

/**
 * How the colours of a yarn follow each other. Heather: mixed finer than a strand is thick, or nobody has said how long they
 * last. Tweed: specks of about a strand. Marl: plies of two or three colours twisted together. Variegated: each colour lasts a
 * stitch or more.
 */
export type FleckKind = "heather" | "tweed" | "marl" | "variegated";

/** Colours that last less than this, mm, are mixed fibres: a strand of the trade's usual thickness is one to two (trade.md 2). Our choice. */
const FINEST_SPECK = 1.5;
/** A ply is at least this part of a yarn of up to five; specks of tweed are less. Our choice. */
const LEAST_PLY = 0.2;
/** Marls of more colours look mixed. Our choice. */
const MOST_PLIES = 3;

/** @param stitchMm length of yarn in a stitch, mm */
export function fleckKindOf(flecks: readonly Fleck[], stitchMm: number): FleckKind {
  const shown = flecks.filter(({ share }) => share > 0);
  const longest = Math.max(0, ...shown.map(({ lengthMm }) => lengthMm ?? 0));
  if (longest < FINEST_SPECK) return "heather";
  if (longest >= stitchMm) return "variegated";
  const ground = 1 - shown.reduce((sum, { share }) => sum + share, 0);
  const shares = [...shown.map(({ share }) => share), ...(ground > NO_GROUND ? [ground] : [])];
  const isPlied = shares.length > 1 && shares.length <= MOST_PLIES && Math.min(...shares) >= LEAST_PLY;
  return isPlied ? "marl" : "tweed";
}

/** A share too small to see: our choice, a hundredth of the surface. */
const NO_GROUND = 0.01;
