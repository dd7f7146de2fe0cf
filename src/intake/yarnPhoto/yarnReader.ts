/** Tells the shade of one yarn after another by what a survey of their photograph found. */
import type { Outcome, Problem } from "../../base/problem.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import type { Box, Raster } from "../../raster/raster.ts";
import { carriedOver, middleOf, pixelsOf, type Area } from "./area.ts";
import { areaProblem, doubt, fault } from "./areaProblem.ts";
import { CHART, CHART_LABS } from "./chart24.ts";
import { fitChart, type MixingKind } from "./chartFit.ts";
import type { Point } from "./homography.ts";
import { readByOneReference } from "./oneReference.ts";
import type { PhotoSurvey, SeenReference } from "./survey.ts";
import { chartUncertainty, oneReferenceUncertainty } from "./uncertainty.ts";
import { flecksOf, type PhotographedFleck } from "./yarnFlecks.ts";
import { yarnSurface, type Surface } from "./yarnSurface.ts";

export interface YarnReader {
  readonly reference: ReferenceTold;
  /** Never throws for what is in the picture; no value where the shade cannot be told, and a problem says why. */
  readonly shadeOf: (piece: YarnPiece) => Outcome<PhotographedYarn>;
}

export interface YarnPiece {
  /** The photograph that was surveyed, or any closer look at a part of it. */
  readonly picture: Raster;
  /** What of the surveyed picture `picture` shows, in the surveyed picture's pixels; all of it if not told. */
  readonly covers?: Box;
  /** The yarn and nothing else, in the surveyed picture's pixels. */
  readonly area: Area;
  /** What problems call it: "yarn 3". */
  readonly where: string;
}

export interface PhotographedYarn {
  /** CIELAB, D65, 2°. */
  readonly lab: Lab;
  readonly hex: string;
  /** A ΔE00 that holds the truth in 80 % of cases. */
  readonly uncertainty: number;
  /** Two shades or more where the yarn is not of one colour, the largest first; empty for a plain yarn. */
  readonly flecks: readonly PhotographedFleck[];
}

export interface ReferenceTold {
  readonly kind: SeenReference["kind"];
  /** Whether a chart was found without being shown. */
  readonly found?: boolean;
  /** Pixels: the outer corners of the chart's patches, clockwise from the first patch. */
  readonly corners?: readonly Point[];
  readonly mixing?: MixingKind;
  readonly evened?: boolean;
  /** ΔE00 of its coloured patches, each by the others. */
  readonly leaveOneOut?: { readonly median: number; readonly most: number };
}

/** A part of a yarn burnt out beyond which its shade is not told; our choice: shine on a lit ball is less. */
const TOO_BURNT = 0.25;

/** Cheap: some milliseconds for a chart, less for all else. */
export function yarnReader(survey: PhotoSurvey): YarnReader {
  const reading = readingBy(survey.reference, survey);
  return { reference: reading.told, shadeOf: (piece) => shadeOf(piece, survey, reading) };
}

interface Reading {
  readonly told: ReferenceTold;
  readonly labOf: (rgb: LinearRgb, at: Point) => Lab;
  readonly uncertaintyOf: (surface: Surface, at: Point) => number;
}

function shadeOf(piece: YarnPiece, survey: PhotoSurvey, reading: Reading): Outcome<PhotographedYarn> {
  const { picture, where } = piece;
  const covers = piece.covers ?? { x: 0, y: 0, width: survey.width, height: survey.height };
  const area = carriedOver(piece.area, covers, picture);
  const outside = areaProblem(survey, piece.area, where) ?? areaProblem(picture, area, where);
  if (outside) return { value: null, problems: [outside] };
  const surface = yarnSurface(pixelsOf(picture, area));
  if (surface.clipped > TOO_BURNT) {
    const got = `${Math.round(100 * surface.clipped)} % of it burnt out; photograph it again with less light`;
    return { value: null, problems: [fault(where, "a yarn that is not overexposed", got)] };
  }
  const problems: Problem[] = [];
  if (surface.bottomed > 0.5) {
    const got = "a channel at nothing; the shade may be more saturated";
    problems.push(doubt(where, "a colour that the picture can hold", got));
  }
  const at = middleOf(piece.area);
  const lab = reading.labOf(surface.rgb, at);
  const value: PhotographedYarn = {
    lab,
    hex: hexFromLab(lab),
    uncertainty: reading.uncertaintyOf(surface, at),
    flecks: flecksOf(picture, area, (rgb) => reading.labOf(rgb, at)),
  };
  return { value, problems };
}

function readingBy(reference: SeenReference, size: { readonly width: number; readonly height: number }): Reading {
  if (reference.kind === "patches") return chartReading(reference, size);
  const reading =
    reference.kind === "none"
      ? readByOneReference(null)
      : readByOneReference({ rgb: reference.surface.rgb, known: reference.known });
  return {
    told: { kind: reference.kind },
    labOf: (rgb) => reading.labOf(rgb),
    uncertaintyOf: (surface) => oneReferenceUncertainty(reading, surface.rgb, surface),
  };
}

function chartReading(
  { found, corners, patches }: SeenReference & { kind: "patches" },
  { width, height }: { readonly width: number; readonly height: number },
): Reading {
  const known = patches.map(({ index, rgb, at }) => ({
    rgb,
    at,
    lab: CHART_LABS[index]!,
    isGrey: index >= CHART.firstGrey,
  }));
  const fit = fitChart(known, { width, height });
  const errors = fit.leftOut
    .filter(({ isGrey }) => !isGrey)
    .map(({ error }) => error)
    .sort((one, other) => one - other);
  const mean = (axis: 0 | 1): number => known.reduce((sum, { at }) => sum + at[axis], 0) / known.length;
  const middle: Point = [mean(0), mean(1)];
  return {
    told: {
      kind: "patches",
      found,
      corners,
      mixing: fit.mixing,
      evened: fit.evened,
      leaveOneOut: { median: errors[Math.floor(errors.length / 2)]!, most: errors.at(-1)! },
    },
    labOf: fit.labOf,
    uncertaintyOf: (surface, at) => {
      const apart = Math.hypot(at[0] - middle[0], at[1] - middle[1]) / (Math.hypot(width, height) / 2);
      return chartUncertainty(fit, fit.labOf(surface.rgb, at), surface, apart);
    },
  };
}
