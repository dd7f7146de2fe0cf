/** What a camera made of the colours of a known chart, undone: curve, cast, and a mixing of channels, judged by leaving patches out. */
import { deltaE2000 } from "../../colour/difference.ts";
import { labFromXyz, linearFromLab, xyzFromLab, type Lab } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import { WHITE_D65, xyzFromLinear } from "../../colour/xyz.ts";
import type { Point } from "./homography.ts";
import { leastSquares } from "./leastSquares.ts";
import { curveThrough, throughCurves, type Curve } from "./toneCurve.ts";

export interface KnownPatch {
  readonly rgb: LinearRgb;
  /** CIELAB, D65: what it is. */
  readonly lab: Lab;
  readonly at: Point;
  /** A grey's steps tell the curve. */
  readonly isGrey: boolean;
}

/** The picture's size, pixels. */
export interface Frame {
  readonly width: number;
  readonly height: number;
}

export type MixingKind = "diagonal" | "3×3" | "root-polynomial";

export interface ChartFit {
  readonly mixing: MixingKind;
  /** Whether the light was found to fall off across the chart, and was evened. */
  readonly evened: boolean;
  readonly labOf: (rgb: LinearRgb, at: Point) => Lab;
  /** For each patch: what the others say it is, and how far that is from what it is, ΔE00. */
  readonly leftOut: readonly { readonly lab: Lab; readonly error: number; readonly isGrey: boolean }[];
}

const KINDS: readonly MixingKind[] = ["3×3", "root-polynomial"];

/** Evening the light is left out only if the chart's errors are this much smaller without: yarns lie farther off; our choice. */
const WORSE_EVENED = 1.05;

/** The best of the ways to undo a camera, by the mean error over coloured patches left out in turn. */
export function fitChart(patches: readonly KnownPatch[], frame: Frame, kinds: readonly MixingKind[] = KINDS): ChartFit {
  const even = bestOf(patches, kinds, null);
  if (patches.length < 12) return even;
  const evened = bestOf(patches, kinds, frame);
  return meanError(evened) < WORSE_EVENED * meanError(even) ? evened : even;
}

function bestOf(patches: readonly KnownPatch[], kinds: readonly MixingKind[], frame: Frame | null): ChartFit {
  const fits = kinds.map((mixing): ChartFit => {
    const leftOut = patches.map((patch) => {
      const others = patches.filter((other) => other !== patch);
      const lab = fitOnce(others, mixing, frame)(patch.rgb, patch.at);
      return { lab, error: deltaE2000(lab, patch.lab), isGrey: patch.isGrey };
    });
    return { mixing, evened: frame !== null, labOf: fitOnce(patches, mixing, frame), leftOut };
  });
  return fits.reduce((best, fit) => (meanError(fit) < meanError(best) ? fit : best));
}

function meanError({ leftOut }: ChartFit): number {
  const coloured = leftOut.filter(({ isGrey }) => !isGrey);
  const judged = coloured.length > 0 ? coloured : leftOut;
  return judged.reduce((sum, { error }) => sum + error, 0) / judged.length;
}

type LabOf = ChartFit["labOf"];

/** One fit: curves from the greys, then the mixing, then, where wanted, the light across the picture from what is left, and all again. */
function fitOnce(patches: readonly KnownPatch[], mixing: MixingKind, frame: Frame | null): LabOf {
  const flat = fitFlat(patches, mixing, () => 1);
  if (!frame) return flat;
  let light = (_: Point): number => 1;
  let labOf: LabOf = flat;
  for (let round = 0; round < 2; round++) {
    light = lightAcross(patches, labOf, light, frame);
    labOf = fitFlat(patches, mixing, light);
  }
  return labOf;
}

const flattened = (rgb: LinearRgb, light: number): LinearRgb => [rgb[0] / light, rgb[1] / light, rgb[2] / light];

function fitFlat(patches: readonly KnownPatch[], mixing: MixingKind, light: (at: Point) => number): LabOf {
  const greys = patches.filter(({ isGrey }) => isGrey);
  const curves: Curve[] = [0, 1, 2].map((channel) =>
    curveThrough(greys.map(({ rgb, lab, at }) => [rgb[channel]! / light(at), linearFromLab(lab)[channel]!])),
  );
  const straight = (rgb: LinearRgb, at: Point): LinearRgb => throughCurves(curves, flattened(rgb, light(at)));
  const xyzOf = mixingOf(
    mixing,
    patches.map(({ rgb, lab, at }) => ({ rgb: straight(rgb, at), lab })),
  );
  return (rgb, at) => labFromXyz(xyzOf(straight(rgb, at)));
}

type Xyz = [number, number, number];

/** The terms of a mixing; all grow in proportion to the light, so a darker exposure of the same thing keeps its colour. */
const termsOf = (mixing: MixingKind, [r, g, b]: LinearRgb): number[] =>
  mixing === "root-polynomial"
    ? [r, g, b, Math.sqrt(Math.max(0, r * g)), Math.sqrt(Math.max(0, g * b)), Math.sqrt(Math.max(0, r * b))]
    : [r, g, b];

/** How strongly a mixing is held to "the camera already wrote sRGB", against two dozen patches of weight about 1; our choice. */
const PULL = { "3×3": 0.003, "root-polynomial": 0.006 };

/** Source of the root-polynomial: Finlayson, Mackiewicz, Hurlbert 2015, degree 2. */
function mixingOf(
  mixing: MixingKind,
  pairs: readonly { readonly rgb: LinearRgb; readonly lab: Lab }[],
): (rgb: LinearRgb) => Xyz {
  if (mixing === "diagonal") return (rgb) => [...xyzFromLinear(rgb)];
  const columns = [0, 1, 2].map((unit) => xyzFromLinear([+(unit === 0), +(unit === 1), +(unit === 2)]));
  const rows = [0, 1, 2].map((axis) => {
    const guess = [...columns.map((column) => column[axis]!), ...(mixing === "root-polynomial" ? [0, 0, 0] : [])];
    const equations = pairs.map(({ rgb, lab }) => {
      const value = xyzFromLab(lab)[axis]!;
      // The eye's cube root: an error counts by the slope of the cube root where it is made.
      const weight = 1 / Math.max(0.01, value / WHITE_D65[axis]!) ** (4 / 3) / 9;
      return { factors: termsOf(mixing, rgb), value, weight };
    });
    return leastSquares(equations, guess, PULL[mixing]);
  });
  return (rgb) => {
    const terms = termsOf(mixing, rgb);
    const [x, y, z] = rows.map((row) =>
      Math.max(
        0,
        row.reduce((sum, part, at) => sum + part * terms[at]!, 0),
      ),
    );
    return [x!, y!, z!];
  };
}

/** Standard deviations: what a patch's light is off by for other reasons, and light across a picture, in ln light; our choice. */
const OFF_ANYWAY = 0.06;
const SLANT = 0.1;
/** Light at the picture's corner against its middle, ln: usual lenses of phones after their own mending; our choice. */
const CORNER = { usual: -0.05, spread: 0.06 };

/** Light across the picture: a slope and a fall towards the corners, from how much too light or dark each patch came out. */
function lightAcross(
  patches: readonly KnownPatch[],
  labOf: LabOf,
  before: (at: Point) => number,
  { width, height }: Frame,
): (at: Point) => number {
  const half = Math.hypot(width, height) / 2;
  const termsAt = ([x, y]: Point): number[] => {
    const [u, v] = [(x - width / 2) / half, (y - height / 2) / half];
    return [u, v, u * u + v * v, 1];
  };
  const scales = [SLANT, SLANT, CORNER.spread, 1];
  const equations = patches.map(({ rgb, lab, at }) => ({
    factors: termsAt(at).map((term, index) => term * scales[index]!),
    value: Math.log((before(at) * Math.max(1e-4, xyzFromLab(labOf(rgb, at))[1])) / Math.max(1e-4, xyzFromLab(lab)[1])),
    weight: 1 / OFF_ANYWAY ** 2,
  }));
  const found = leastSquares(equations, [0, 0, CORNER.usual / CORNER.spread, 0], 1);
  const factors = found.map((value, index) => value * scales[index]!);
  return (at) => Math.exp(termsAt(at).reduce((sum, term, index) => sum + (index < 3 ? factors[index]! * term : 0), 0));
}
