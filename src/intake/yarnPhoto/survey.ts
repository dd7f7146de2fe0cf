/** What is known of a photograph once its reference was looked at: all that a yarn's shade is then told by, as plain data. */
import type { Outcome, Problem } from "../../base/problem.ts";
import type { Raster } from "../../raster/raster.ts";
import { middleOf, pixelsOf } from "./area.ts";
import { areaProblem, doubt, fault } from "./areaProblem.ts";
import { CHART } from "./chart24.ts";
import { seePatches, type SeenPatch } from "./chartPatches.ts";
import { findChart } from "./findChart.ts";
import { seeGround, type GroundPlace } from "./groundLight.ts";
import { place, type Homography, type Point } from "./homography.ts";
import { knownNeutral, knownProblem, type KnownNeutral, type NeutralReference } from "./neutral.ts";
import { CORNER_PLACES, placeChart } from "./placeChart.ts";
import { BURNT, yarnSurface, type Surface } from "./yarnSurface.ts";

export type PhotoReference =
  | NeutralReference
  /** The four outer corners of a 24-patch chart, clockwise from its first patch. */
  | { readonly kind: "patches"; readonly corners: readonly Point[] }
  /** A 24-patch chart, if there is one in the picture; else the picture is believed as it is. */
  | { readonly kind: "find" }
  /** Nothing to go by: the picture is believed as it is, and no chart is looked for. */
  | { readonly kind: "none" };

/** How a long look is followed and ended. */
export interface Watch {
  /** The share of the work that is done, 0 to 1, rising. */
  readonly onStep?: (share: number) => void;
  /** Asked now and then; true ends the work without a result. */
  readonly stop?: () => boolean;
}

/** Survives a structured clone. */
export interface PhotoSurvey {
  /** Pixels of the picture surveyed; all places are told in them. */
  readonly width: number;
  readonly height: number;
  readonly reference: SeenReference;
  /** Places on what all lies on, by which the light across the picture is known; empty where it is not of one colour. */
  readonly ground: readonly GroundPlace[];
}

export type SeenReference =
  | {
      readonly kind: "patches";
      readonly found: boolean;
      /** Outer corners of the patches, clockwise from the first. */
      readonly corners: readonly Point[];
      /** Those that were not burnt out. */
      readonly patches: readonly SeenPatch[];
    }
  | {
      readonly kind: "grey" | "white";
      readonly surface: Surface;
      readonly at: Point;
      readonly known: KnownNeutral;
    }
  | { readonly kind: "none" };

/** The fewest patches, and greys among them, that a camera is undone by; our choice. */
const FEWEST = { patches: 16, greys: 3 };
/** A part of a reference burnt out beyond which nothing is told by it; our choice. */
const TOO_BURNT = 0.1;
/** Light, as decoded, below which a reference is black. */
const TOO_DARK = 0.002;

/** @param picture decoded to linear light, upright; may be a reduced copy, if patches are still some ten pixels wide */
export function surveyPhoto(picture: Raster, reference: PhotoReference, watch: Watch = {}): Outcome<PhotoSurvey> {
  const problems: Problem[] = [];
  const seen = seeReference(picture, reference, watch, problems);
  if (!seen) return { value: null, problems };
  const { width, height } = picture;
  return { value: { width, height, reference: seen, ground: seeGround(picture) }, problems };
}

export const STOPPED: Problem = { where: "the picture", expected: "time to look", got: "stopped", severity: "note" };

function seeReference(
  picture: Raster,
  reference: PhotoReference,
  watch: Watch,
  problems: Problem[],
): SeenReference | null {
  switch (reference.kind) {
    case "find":
      return seeChartOrNone(picture, watch, problems);
    case "patches": {
      const placed = reference.corners.length === 4 ? placeChart(picture, reference.corners) : null;
      if (placed) return wholePatches(placed.grid, placed.patches, { found: false }, problems);
      const expected = "the four outer corners of a 24-patch chart, clockwise from its first patch";
      const corners = reference.corners.map((corner) => corner.map(Math.round).join(",")).join(" ");
      problems.push(fault("the chart", expected, `nothing like its colours between ${corners}`));
      return null;
    }
    case "none":
      return believed(problems);
    case "grey":
    case "white":
      return seeNeutral(picture, reference, problems);
  }
}

function seeChartOrNone(picture: Raster, watch: Watch, problems: Problem[]): SeenReference | null {
  const grid = findChart(picture, watch);
  if (grid === "stopped") {
    problems.push(STOPPED);
    return null;
  }
  const patches = grid && seePatches(picture, grid);
  if (patches) return wholePatches(grid, patches, { found: true }, problems);
  return believed(problems);
}

function believed(problems: Problem[]): SeenReference {
  const expected = "a grey card, white paper or a 24-patch chart";
  problems.push(doubt("the picture", expected, "none; the camera is believed as it is"));
  return { kind: "none" };
}

function wholePatches(
  grid: Homography,
  all: readonly SeenPatch[],
  { found }: { found: boolean },
  problems: Problem[],
): SeenReference | null {
  const patches = all.filter(({ rgb }) => Math.max(...rgb) < BURNT);
  const burnt = all.length - patches.length;
  const greys = patches.filter(({ index }) => index >= CHART.firstGrey);
  if (patches.length < FEWEST.patches || greys.length < FEWEST.greys) {
    problems.push(fault("the chart", "patches that are not overexposed", `${burnt} of 24 burnt out`));
    return null;
  }
  if (burnt > 0) {
    const got = `${burnt} burnt out, left away; lighter and stronger shades are less sure`;
    problems.push(doubt("the chart", "no patch overexposed", got));
  }
  const corners = CORNER_PLACES.map(([x, y]) => {
    const [across, down] = place(grid, x, y);
    return [Math.round(10 * across) / 10, Math.round(10 * down) / 10] as const;
  });
  return { kind: "patches", found, corners, patches };
}

function seeNeutral(picture: Raster, reference: NeutralReference, problems: Problem[]): SeenReference | null {
  const { kind, area } = reference;
  const where = kind === "grey" ? "the grey card" : "the white paper";
  const wrong = areaProblem(picture, area, where) ?? knownProblem(reference, where);
  if (wrong) {
    problems.push(wrong);
    return null;
  }
  const surface = yarnSurface(pixelsOf(picture, area));
  if (surface.clipped > TOO_BURNT) {
    const got = `${Math.round(100 * surface.clipped)} % of it burnt out; photograph it again with less light`;
    problems.push(fault(where, "a reference that is not overexposed", got));
    return null;
  }
  if (Math.min(...surface.rgb) < TOO_DARK) {
    problems.push(fault(where, "something light enough to compare with", "black, or nearly"));
    return null;
  }
  return { kind, surface, at: middleOf(area), known: knownNeutral(reference) };
}
