/** Tells the shade of one yarn after another by what a survey of their photograph found. */
import type { Outcome, Problem } from "../../base/problem.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import type { Box, Raster } from "../../raster/raster.ts";
import { carriedOver, middleOf, pixelsOf, type Area } from "./area.ts";
import { areaProblem, doubt, fault } from "./areaProblem.ts";
import type { Point } from "./homography.ts";
import { readingBy, type Reading } from "./reading.ts";
import type { PhotoSurvey, SeenReference } from "./survey.ts";
import { flecksOf, type PhotographedFleck } from "./yarnFlecks.ts";
import { yarnSurface } from "./yarnSurface.ts";

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
  /** ΔE00 of its coloured patches, each by the others. */
  readonly leaveOneOut?: { readonly median: number; readonly most: number };
}

/** A part of a yarn burnt out beyond which its shade is not told; our choice: shine on a lit ball is less. */
const TOO_BURNT = 0.25;

/** A fraction of a second for a chart, less for all else; one reader serves all yarns of a photograph. */
export function yarnReader(survey: PhotoSurvey): YarnReader {
  const reading = readingBy(survey);
  const { reference } = survey;
  const told: ReferenceTold =
    reference.kind === "patches"
      ? { kind: "patches", found: reference.found, corners: reference.corners, ...leaveOneOut(reading) }
      : { kind: reference.kind };
  return { reference: told, shadeOf: (piece) => shadeOf(piece, survey, reading) };
}

const leaveOneOut = ({ leaveOneOut }: Reading) => (leaveOneOut ? { leaveOneOut } : {});

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
