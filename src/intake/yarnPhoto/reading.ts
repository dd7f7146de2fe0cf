/** From what a survey saw to shades: the camera fitted to the reference, and what else makes a yarn's shade unsure. */
import { deltaE2000 } from "../../colour/difference.ts";
import { labFromXyz, xyzFromLab, type Lab } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import type { Frame, CameraPrior } from "./cameraModel.ts";
import { CHART, CHART_LABS } from "./chart24.ts";
import type { SeenPatch } from "./chartPatches.ts";
import { fitCamera, type CameraFit, type KnownColour } from "./fitCamera.ts";
import type { GroundPlace } from "./groundLight.ts";
import type { Point } from "./homography.ts";
import type { KnownNeutral } from "./neutral.ts";
import type { Step } from "./shadeStep.ts";
import type { PhotoSurvey } from "./survey.ts";
import type { Surface } from "./yarnSurface.ts";

export interface Reading {
  readonly labOf: (rgb: LinearRgb, at: Point) => Lab;
  /** A ΔE00 that holds the truth in 80 % of cases. */
  readonly uncertaintyOf: (surface: Surface, at: Point) => number;
  /** ΔE00 of a chart's coloured patches, each by the others. */
  readonly leaveOneOut?: { readonly median: number; readonly most: number };
}

/** Light and cast are whatever the reference says. */
const BY_NEUTRAL: CameraPrior = { usual: 0.15, spread: 0.6, cast: [0.35, 0.35], mixing: 0.06, pairs: 0.08 };
/** A chart shows how channels mix, and is believed before the usual. */
const BY_CHART: CameraPrior = { ...BY_NEUTRAL, mixing: 0.1, pairs: 0.1 };
/** Fewer coloured patches do not show it. */
const FEWEST_COLOURED = 8;
/** Without a reference the camera's own exposure and white are believed as far as cameras are to be. */
const BY_ITSELF: CameraPrior = { ...BY_NEUTRAL, usual: 0.08, spread: 0.3, cast: [0.12, 0.15] };
/** How far a patch of a chart may be from what is printed of it, and from what a camera makes of such a shade elsewhere: ΔE00. */
const PATCH: Step = [0.9, 1.1, 1.1];
const GREY_PATCH: Step = [0.7, 0.6, 0.6];
/** Yarn is dyed otherwise than a reference is printed, and lamps and cameras tell the two apart: ΔE00. */
const OTHER_DYES = { seen: 1.9, unseen: 2.2 };
/** The stronger a colour, the more lamps and cameras differ about it: ΔE00 for each C*. */
const STRONGER = 0.035;
/** What the lit surface of a yarn may be taken too dark or too light by, ln light, at least, and for each part of its spread. */
const LIT = { least: 0.05, spread: 0.3 };
/** A channel at its end: the shade is more saturated than the picture holds, ΔE00; our choice. */
const OUT_OF_RANGE = 5;
const CLIPPED = 8;
/** From a root mean square in three directions of unlike size to what holds four of five: between 1.24 and 1.28. */
const FOUR_IN_FIVE = 1.26;
/** Where one neutral thing is known, curves and lights that no camera has are counted among those it may have: held by trial. */
const FEWER_CAMERAS = 0.9;

export function readingBy({ reference, width, height, ground }: PhotoSurvey): Reading {
  const frame = { width, height };
  if (reference.kind === "patches") return byChart(reference.patches, frame, ground);
  if (reference.kind === "none")
    return told(fitCamera([], ground, BY_ITSELF, frame), { dyes: OTHER_DYES.unseen, part: 1 });
  const known = [
    { rgb: reference.surface.rgb, at: reference.at, lab: reference.known.lab, doubt: doubtOf(reference.known) },
  ];
  return told(fitCamera(known, ground, BY_NEUTRAL, frame), { dyes: OTHER_DYES.unseen, part: FEWER_CAMERAS });
}

/** Nearly neutral things lean along b* rather than a*; a* counts half as much again in ΔE00. */
const doubtOf = ({ spread: [light, a, b] }: KnownNeutral): Step => [light, b, 1.5 * a];

function byChart(patches: readonly SeenPatch[], frame: Frame, ground: readonly GroundPlace[]): Reading {
  const knownBy = (strain: number): KnownColour[] =>
    patches.map(({ index, rgb, at }) => {
      const [light, chroma, hue] = index >= CHART.firstGrey ? GREY_PATCH : PATCH;
      return { rgb, at, lab: CHART_LABS[index]!, doubt: [strain * light, strain * chroma, strain * hue] };
    });
  const coloured = patches.filter(({ index }) => index < CHART.firstGrey).length;
  const prior = coloured >= FEWEST_COLOURED ? BY_CHART : BY_NEUTRAL;
  const first = fitCamera(knownBy(1), ground, prior, frame);
  // A chart that fits badly, for glare or an odd lamp, is believed less.
  const strain = Math.min(3, Math.max(0.7, first.strain));
  const fit = fitCamera(knownBy(strain), ground, prior, frame, first.unknowns);
  const errors = patches
    .map(({ index }, at) => ({ index, error: fit.leftOut[at]! }))
    .filter(({ index }) => index < CHART.firstGrey)
    .map(({ error }) => error)
    .sort((one, other) => one - other);
  return {
    ...told(fit, { dyes: OTHER_DYES.seen * Math.max(1, strain), part: 1 }),
    leaveOneOut: { median: errors[Math.floor(errors.length / 2)]!, most: errors.at(-1)! },
  };
}

function told(fit: CameraFit, { dyes, part }: { readonly dyes: number; readonly part: number }): Reading {
  return {
    labOf: fit.labOf,
    uncertaintyOf: (surface, at) => {
      const lab = fit.labOf(surface.rgb, at);
      const camera = part * Math.sqrt(fit.meanSquareAt(surface.rgb, at));
      const strong = STRONGER * Math.hypot(lab[1], lab[2]);
      return FOUR_IN_FIVE * Math.hypot(camera, dyes, strong, surfaceDoubt(lab, surface));
    },
  };
}

/** ΔE00 of taking the yarn a little lighter or darker than it is, and of what the picture could not hold. */
function surfaceDoubt(lab: Lab, { spread, bottomed, clipped }: Surface): number {
  const part = Math.exp(Math.hypot(LIT.least, LIT.spread * Math.min(1, spread)));
  const [x, y, z] = xyzFromLab(lab);
  const lighter = labFromXyz([x * part, y * part, z * part]);
  return Math.hypot(deltaE2000(lab, lighter), OUT_OF_RANGE * bottomed, CLIPPED * clipped);
}
