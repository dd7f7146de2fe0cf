/** Shades of yarns out of a photograph, with how far each may be off. */
import type { Outcome, Problem } from "../base/problem.ts";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import { clipBox, type Box, type Raster } from "../raster/raster.ts";
import { fitChart, type MixingKind } from "./yarnPhoto/chartFit.ts";
import { CHART, CHART_LABS } from "./yarnPhoto/chart24.ts";
import { seePatches, type SeenPatch } from "./yarnPhoto/chartPatches.ts";
import { findChart } from "./yarnPhoto/findChart.ts";
import { place, type Homography, type Point } from "./yarnPhoto/homography.ts";
import { CORNER_PLACES, placeChart } from "./yarnPhoto/placeChart.ts";
import { readByOneReference, type OneReferenceKind } from "./yarnPhoto/oneReference.ts";
import { chartUncertainty, oneReferenceUncertainty } from "./yarnPhoto/uncertainty.ts";
import { flecksOf, type PhotographedFleck } from "./yarnPhoto/yarnFlecks.ts";
import { BURNT, pixelsOf, yarnSurface, type Surface } from "./yarnPhoto/yarnSurface.ts";

export type PhotoReference =
  | { readonly kind: "grey" | "white"; readonly box: Box }
  /** The four outer corners of a 24-patch chart, clockwise from its first patch. */
  | { readonly kind: "patches"; readonly corners: readonly Point[] }
  /** A 24-patch chart, if there is one in the picture; else the picture is believed as it is. */
  | { readonly kind: "find" };

export interface YarnPhotoQuestion {
  readonly yarns: readonly Box[];
  readonly reference: PhotoReference;
}

export interface PhotographedYarn {
  /** CIELAB, D65, 2°; null where it cannot be told, and a problem says why. */
  readonly lab: Lab | null;
  readonly hex: string | null;
  /** A ΔE00 that holds the truth in 80 % of cases. */
  readonly uncertainty: number | null;
  /** Two shades or more where the yarn is not of one colour, the largest first; empty for a plain yarn. */
  readonly flecks: readonly PhotographedFleck[];
}

export interface ReferenceTold {
  readonly kind: OneReferenceKind | "patches";
  /** Whether a chart was found without being shown. */
  readonly found?: boolean;
  /** Pixels: the outer corners of the chart's patches, clockwise from the first patch. */
  readonly corners?: readonly Point[];
  readonly mixing?: MixingKind;
  readonly evened?: boolean;
  /** ΔE00 of its coloured patches, each by the others. */
  readonly leaveOneOut?: { readonly median: number; readonly most: number };
}

export interface YarnPhoto {
  readonly yarns: readonly PhotographedYarn[];
  readonly reference: ReferenceTold;
}

/** A part of a yarn burnt out beyond which its shade is not told; our choice: shine on a lit ball is less. */
const TOO_BURNT = 0.25;
/** The fewest pixels of which a shade is told; our choice. */
const LEAST_PIXELS = 25;

interface Reader {
  readonly told: ReferenceTold;
  readonly labOf: (rgb: LinearRgb, at: Point) => Lab;
  readonly uncertaintyOf: (surface: Surface, at: Point) => number;
}

/**
 * @param picture decoded to linear light, upright
 * @returns no value where the reference cannot be used or no yarn can be told; otherwise a line for each yarn asked for
 */
export function readYarnPhoto(picture: Raster, question: YarnPhotoQuestion): Outcome<YarnPhoto> {
  const problems: Problem[] = [];
  const reader = readerFor(picture, question.reference, problems);
  if (!reader) return { value: null, problems };
  const yarns = question.yarns.map((box, index) => readYarn(picture, box, `yarn ${index + 1}`, reader, problems));
  if (yarns.every(({ lab }) => lab === null)) return { value: null, problems };
  return { value: { yarns, reference: reader.told }, problems };
}

const NOT_TOLD: PhotographedYarn = { lab: null, hex: null, uncertainty: null, flecks: [] };

function readYarn(picture: Raster, box: Box, where: string, reader: Reader, problems: Problem[]): PhotographedYarn {
  const outside = outsideProblem(picture, box, where);
  if (outside) {
    problems.push(outside);
    return NOT_TOLD;
  }
  const pixels = pixelsOf(picture, box);
  const surface = yarnSurface(pixels);
  if (surface.clipped > TOO_BURNT) {
    const got = `${Math.round(100 * surface.clipped)} % of it burnt out; photograph it again with less light`;
    problems.push(problem(where, "a yarn that is not overexposed", got));
    return NOT_TOLD;
  }
  if (surface.bottomed > 0.5)
    problems.push({
      ...problem(where, "a colour that the picture can hold", "a channel at nothing; the shade may be more saturated"),
      severity: "doubt",
    });
  const at: Point = [box.x + box.width / 2, box.y + box.height / 2];
  const lab = reader.labOf(surface.rgb, at);
  return {
    lab,
    hex: hexFromLab(lab),
    uncertainty: reader.uncertaintyOf(surface, at),
    flecks: flecksOf(picture, box, (rgb) => reader.labOf(rgb, at)),
  };
}

function readerFor(picture: Raster, reference: PhotoReference, problems: Problem[]): Reader | null {
  if (reference.kind === "find") {
    const grid = findChart(picture);
    const patches = grid && seePatches(picture, grid);
    if (patches) return chartReader(picture, grid, patches, true, problems);
    problems.push({
      ...problem(
        "the picture",
        "a grey card, white paper or a 24-patch chart",
        "none; the camera is believed as it is",
      ),
      severity: "doubt",
    });
    return oneReader("none", null);
  }
  if (reference.kind === "patches") {
    const placed = placeChart(picture, reference.corners);
    if (!placed) {
      const expected = "the four outer corners of a 24-patch chart, clockwise from its first patch";
      problems.push(problem("the chart", expected, `nothing like its colours between ${reference.corners.join(" ")}`));
      return null;
    }
    return chartReader(picture, placed.grid, placed.patches, false, problems);
  }
  const where = reference.kind === "grey" ? "the grey card" : "the white paper";
  const wrong = outsideProblem(picture, reference.box, where);
  const surface = wrong ? null : yarnSurface(pixelsOf(picture, reference.box));
  if (surface && surface.clipped > TOO_BURNT) {
    const got = `${Math.round(100 * surface.clipped)} % of it burnt out; photograph it again with less light`;
    problems.push(problem(where, "a reference that is not overexposed", got));
    return null;
  }
  if (surface && Math.min(...surface.rgb) < 0.002) {
    problems.push(problem(where, "something light enough to compare with", "black, or nearly"));
    return null;
  }
  if (wrong) problems.push(wrong);
  return surface && oneReader(reference.kind, surface.rgb);
}

function oneReader(kind: OneReferenceKind, seen: LinearRgb | null): Reader {
  const reading = readByOneReference(kind, seen);
  return {
    told: { kind },
    labOf: (rgb) => reading.labOf(rgb),
    uncertaintyOf: (surface) => oneReferenceUncertainty(reading, surface.rgb, surface),
  };
}

/** The fewest patches, and greys among them, that a camera is undone by; our choice. */
const FEWEST = { patches: 16, greys: 3 };

function chartReader(
  { width, height }: Raster,
  grid: Homography,
  patches: readonly SeenPatch[],
  found: boolean,
  problems: Problem[],
): Reader | null {
  const whole = patches.filter(({ rgb }) => Math.max(...rgb) < BURNT);
  const known = whole.map(({ index, rgb, at }) => ({
    rgb,
    at,
    lab: CHART_LABS[index]!,
    isGrey: index >= CHART.firstGrey,
  }));
  const burnt = patches.length - whole.length;
  if (known.length < FEWEST.patches || known.filter(({ isGrey }) => isGrey).length < FEWEST.greys) {
    problems.push(problem("the chart", "patches that are not overexposed", `${burnt} of 24 burnt out`));
    return null;
  }
  if (burnt > 0)
    problems.push({
      ...problem("the chart", "no patch overexposed", `${burnt} burnt out, left away; lighter shades are less sure`),
      severity: "doubt",
    });
  const fit = fitChart(known, { width, height });
  const errors = fit.leftOut
    .filter(({ isGrey }) => !isGrey)
    .map(({ error }) => error)
    .sort((one, other) => one - other);
  const middle: Point = [0, 1].map((axis) => known.reduce((sum, { at }) => sum + at[axis]!, 0) / known.length) as [
    number,
    number,
  ];
  return {
    told: {
      kind: "patches",
      found,
      corners: outerCorners(grid),
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

const outerCorners = (grid: Homography): Point[] =>
  CORNER_PLACES.map(([x, y]) => place(grid, x, y).map((value) => Math.round(10 * value) / 10) as [number, number]);

function outsideProblem(picture: Raster, box: Box, where: string): Problem | null {
  const inside = clipBox(picture, box);
  const isInside = inside.width === box.width && inside.height === box.height;
  const { x, y, width, height } = box;
  if (!isInside)
    return problem(where, `a box within ${picture.width} × ${picture.height} pixels`, `${x},${y},${width},${height}`);
  if (width * height < LEAST_PIXELS)
    return problem(where, `a box of at least ${LEAST_PIXELS} pixels`, `${width} × ${height} pixels`);
  return null;
}

const problem = (where: string, expected: string, got: string): Problem => ({
  where,
  expected,
  got,
  severity: "fault",
});
