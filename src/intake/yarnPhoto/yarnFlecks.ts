/** The few shades of a yarn that is not of one colour: heathers, tweeds, marls. */
import { deltaE2000 } from "../../colour/difference.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import { clusterColours } from "../../raster/cluster.ts";
import type { Box, Raster } from "../../raster/raster.ts";
import { boxOf, isRegion, pixelsOf, type Area } from "./area.ts";
import { lengthsInStrands } from "./fleckLength.ts";
import { BURNT, yarnSurface } from "./yarnSurface.ts";

export interface PhotographedFleck {
  readonly lab: Lab;
  readonly hex: string;
  /** Part of the yarn's surface, 0 to 1. */
  readonly share: number;
  /** How long it lasts along the yarn, in widths of a strand as wound; missing where strands cannot be told apart. */
  readonly strands?: number;
}

/** Pixels that are clustered: enough to see a fleck of a hundredth. */
const MOST_LOOKED_AT = 1600;
/** What takes up less is dirt or the picture's noise; our choice. */
const LEAST_SHARE = 0.02;
/** Shadow and shine of one dye keep its colour and change its light: light counts for so much where flecks are told apart. */
const LIGHT_COUNTS = 0.3;
/** ΔE00 at that reckoning from which two shades are two dyes; our choice. */
const TWO_DYES = 7;

/** Shades with their shares, largest first; empty where the yarn is of one colour. */
export function flecksOf(picture: Raster, area: Area, labOf: (rgb: LinearRgb) => Lab): PhotographedFleck[] {
  const all = pixelsOf(picture, area).filter((pixel) => Math.max(...pixel) < BURNT);
  // Pixels are left out, not averaged: a mean of two dyes would be a third.
  const step = Math.ceil(all.length / MOST_LOOKED_AT);
  const pixels = all.filter((_, at) => at % step === 0);
  if (pixels.length === 0) return [];
  const labs = pixels.map(labOf);
  const middle = labs.reduce((sum, [lightness]) => sum + lightness, 0) / labs.length;
  // Lightness is drawn together, and very dark pixels, whose hue is noise, towards grey.
  const dulled = ([lightness, a, b]: Lab): Lab => {
    const sure = Math.min(1, lightness / 25);
    return [middle + LIGHT_COUNTS * (lightness - middle), a * sure, b * sure];
  };
  const dull = labs.map(dulled);
  const { centres, assignment } = clusterColours(dull);
  const dyes: { centre: Lab; members: number[] }[] = [];
  centres.forEach((centre, index) => {
    const members = Array.from(assignment.keys()).filter((at) => assignment[at] === index);
    const same = dyes.find((dye) => deltaE2000(dye.centre, centre) < TWO_DYES);
    if (same) same.members.push(...members);
    else dyes.push({ centre, members });
  });
  const seen = dyes.filter(({ members }) => members.length >= LEAST_SHARE * pixels.length);
  if (seen.length < 2) return [];
  const total = seen.reduce((sum, { members }) => sum + members.length, 0);
  const ordered = seen.toSorted((one, other) => other.members.length - one.members.length);
  const strands = lengthsInStrands(picture, coreOf(area), ordered.length, (rgb) =>
    nearest(
      dulled(labOf(rgb)),
      ordered.map(({ centre }) => centre),
    ),
  );
  return ordered.map(({ members }, at) => {
    const lab = labOf(yarnSurface(members.map((member) => pixels[member]!)).rgb);
    const fleck = { lab, hex: hexFromLab(lab), share: members.length / total };
    return strands ? { ...fleck, strands: strands[at]! } : fleck;
  });
}

/** Of an outline the middle: it is round a yarn, and this part of its box lies in a round one. */
const CORE = 0.64;

function coreOf(area: Area): Box {
  const { x, y, width, height } = boxOf(area);
  const part = isRegion(area) ? CORE : 1;
  return {
    x: Math.ceil(x + (width * (1 - part)) / 2),
    y: Math.ceil(y + (height * (1 - part)) / 2),
    width: Math.floor(width * part),
    height: Math.floor(height * part),
  };
}

/** By plain distance: the shades are far apart, and there are many pixels. */
function nearest(lab: Lab, centres: readonly Lab[]): number {
  let best = 0;
  let least = Infinity;
  centres.forEach((centre, at) => {
    const far = Math.hypot(lab[0] - centre[0], lab[1] - centre[1], lab[2] - centre[2]);
    if (far < least) [best, least] = [at, far];
  });
  return best;
}
