/**
 * The camera that a photograph's known colours speak for, and how sure that is: the likeliest of all cameras by what was seen
 * and by how cameras are spread, with the curvature there as its doubt (Laplace's approximation), found by Levenberg and Marquardt.
 */
import type { Lab } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import { cameraOf, GROUND, UNKNOWNS, type Camera, type Frame, type CameraPrior } from "./cameraModel.ts";
import type { GroundPlace } from "./groundLight.ts";
import type { Point } from "./homography.ts";
import { shadeStep, type Step } from "./shadeStep.ts";
import { dot, inverse, solveDamped, timesVector } from "./symmetric.ts";

export interface KnownColour {
  readonly rgb: LinearRgb;
  readonly at: Point;
  /** CIELAB, D65: what it is. */
  readonly lab: Lab;
  /** Standard deviations, ΔE00, of its light, its chroma and its hue: how far it may be otherwise. */
  readonly doubt: Step;
}

export interface CameraFit {
  /** The camera itself: where a fit to nearly the same may start. */
  readonly unknowns: Float64Array;
  readonly labOf: (rgb: LinearRgb, at: Point) => Lab;
  /** Mean square, in ΔE00, of how far `labOf` may be off there, because of what is not known of camera and light. */
  readonly meanSquareAt: (rgb: LinearRgb, at: Point) => number;
  /** For each known colour: how far it would be missed, ΔE00, if it had not been known. */
  readonly leftOut: readonly number[];
  /** How much larger than their doubts the known colours' misses are; about 1. */
  readonly strain: number;
}

/** Steps are many and small, because curve and light take each other's place. */
const ROUNDS = 30;
/** What a table differs by from place to place, ln light, and as how many places all of it counts. */
const GROUND_DOUBT = 0.04;
const GROUND_COUNTS = 16;
/** How far the ground's light at the picture's middle is from the mean of its places, ln. */
const GROUND_LIGHT = 0.3;
/** Curve and light settle in so many turns. */
const GROUND_ROUNDS = 2;
/** A step that betters the whole by less than this part is the last. */
const ENOUGH = 1e-4;
/** What numbers are moved by to see what follows: small against their spread of 1. */
const NUDGE = 1e-3;

export function fitCamera(
  known: readonly KnownColour[],
  ground: readonly GroundPlace[],
  prior: CameraPrior,
  frame: Frame,
  start: Float64Array = new Float64Array(UNKNOWNS),
): CameraFit {
  const { found, jacobian, residuals } = likeliest(known, ground, prior, frame, start);
  const covariance = inverse(normalMatrix(jacobian));
  const camera = cameraOf(found, prior, frame);
  const slopesAt = slopesOf(found, prior, frame);
  // Residuals come in threes, each in units of its doubt.
  const own = 3 * known.length;
  const leftOut = known.map(({ doubt }, index) => {
    const missed = residuals.subarray(3 * index, 3 * index + 3);
    const blown = withoutItself(jacobian, covariance, 3 * index);
    return Math.hypot(...blown.map((row, axis) => doubt[axis as 0 | 1 | 2] * dot(row, missed)));
  });
  return {
    unknowns: found,
    labOf: camera.labOf,
    meanSquareAt: (rgb, at) => slopesAt(rgb, at).reduce((sum, slope) => sum + quadratic(covariance, slope), 0),
    leftOut,
    strain: strainOf(residuals.subarray(0, own), jacobian.slice(0, own), covariance),
  };
}

interface Likeliest {
  readonly found: Float64Array;
  /** Rows of residuals by columns of unknowns. */
  readonly jacobian: Float64Array[];
  readonly residuals: Float64Array;
}

function likeliest(
  known: readonly KnownColour[],
  ground: readonly GroundPlace[],
  prior: CameraPrior,
  frame: Frame,
  start: Float64Array,
): Likeliest {
  let best = nearestTo(start, known, [], prior, frame);
  if (ground.length === 0) return best;
  // What the ground's light is in proportion depends on the curve, and is held while the rest is fitted: otherwise the darkest of
  // all cameras would be found, for which everything is alike.
  for (let round = 0; round < GROUND_ROUNDS; round++) {
    const { straight } = cameraOf(best.found, prior, frame);
    const logs = ground.map(({ rgb }) => straight(rgb));
    const mean = ([0, 1, 2] as const).map((axis) => logs.reduce((sum, log) => sum + log[axis], 0) / logs.length);
    const places = ground.map(({ at }, index) => ({ at, logs: logs[index]!.map((log, axis) => log - mean[axis]!) }));
    best = nearestTo(best.found, known, places, prior, frame);
  }
  return best;
}

interface LitPlace {
  readonly at: Point;
  /** ln light, channel by channel, against the mean of all places. */
  readonly logs: readonly number[];
}

function nearestTo(
  start: Float64Array,
  known: readonly KnownColour[],
  ground: readonly LitPlace[],
  prior: CameraPrior,
  frame: Frame,
): Likeliest {
  // Many places say the same: together they count as so many.
  const doubtOfPlace = GROUND_DOUBT * Math.sqrt(Math.max(1, ground.length / GROUND_COUNTS));
  const residualsOf = (unknowns: Float64Array): Float64Array => {
    const camera = cameraOf(unknowns, prior, frame);
    const residuals = new Float64Array(3 * (known.length + ground.length));
    known.forEach(({ rgb, at, lab, doubt }, index) => {
      const step = shadeStep(lab, camera.labOf(rgb, at));
      for (const axis of [0, 1, 2] as const) residuals[3 * index + axis] = step[axis] / doubt[axis];
    });
    ground.forEach(({ at, logs }, index) => {
      const light = camera.lightAt(at);
      for (const axis of [0, 1, 2] as const)
        residuals[3 * (known.length + index) + axis] = calmed(
          (light[axis] + GROUND_LIGHT * unknowns[GROUND + axis]! - logs[axis]!) / doubtOfPlace,
        );
    });
    return residuals;
  };
  const costOf = (residuals: Float64Array, unknowns: Float64Array): number => squares(residuals) + squares(unknowns);
  let found = start;
  let residuals = residualsOf(found);
  let cost = costOf(residuals, found);
  let damping = 0.01;
  let jacobian = jacobianAt(residualsOf, found, residuals);
  for (let round = 0; round < ROUNDS; round++) {
    const normal = normalMatrix(jacobian);
    const sides = new Float64Array(UNKNOWNS);
    for (let column = 0; column < UNKNOWNS; column++) {
      let sum = found[column]!;
      for (let row = 0; row < residuals.length; row++) sum += jacobian[row]![column]! * residuals[row]!;
      sides[column] = -sum;
    }
    let gained = 0;
    for (let tries = 0; tries < 6 && gained === 0; tries++) {
      const step = solveDamped(normal, sides, damping);
      const tried = found.map((value, at) => value + step[at]!);
      const triedResiduals = residualsOf(tried);
      const triedCost = costOf(triedResiduals, tried);
      if (triedCost < cost) {
        gained = (cost - triedCost) / cost;
        [found, residuals, cost] = [tried, triedResiduals, triedCost];
        damping = Math.max(1e-6, damping / 5);
      } else damping *= 6;
    }
    if (gained === 0) break;
    jacobian = jacobianAt(residualsOf, found, residuals);
    if (gained < ENOUGH) break;
  }
  return { found, jacobian, residuals };
}

function jacobianAt(
  residualsOf: (unknowns: Float64Array) => Float64Array,
  at: Float64Array,
  residuals: Float64Array,
): Float64Array[] {
  const jacobian = Array.from(residuals, () => new Float64Array(UNKNOWNS));
  for (let column = 0; column < UNKNOWNS; column++) {
    const nudged = at.slice();
    nudged[column]! += NUDGE;
    const moved = residualsOf(nudged);
    for (let row = 0; row < residuals.length; row++) jacobian[row]![column] = (moved[row]! - residuals[row]!) / NUDGE;
  }
  return jacobian;
}

/** How the shade told somewhere moves with each unknown: three rows, in ΔE00. The nudged cameras are made once. */
function slopesOf(found: Float64Array, prior: CameraPrior, frame: Frame) {
  const camera = cameraOf(found, prior, frame);
  let nudged: readonly Camera[] | null = null;
  return (rgb: LinearRgb, at: Point): Float64Array[] => {
    nudged ??= Array.from(found, (_, column) => {
      const moved = found.slice();
      moved[column]! += NUDGE;
      return cameraOf(moved, prior, frame);
    });
    const here = camera.labOf(rgb, at);
    const slopes = [new Float64Array(UNKNOWNS), new Float64Array(UNKNOWNS), new Float64Array(UNKNOWNS)];
    nudged.forEach(({ labOf }, column) => {
      const step = shadeStep(here, labOf(rgb, at));
      slopes.forEach((slope, axis) => (slope[column] = step[axis as 0 | 1 | 2] / NUDGE));
    });
    return slopes;
  };
}

/** Grows as the root beyond 2, so that a place that is no ground does not pull. */
const calmed = (value: number): number =>
  Math.abs(value) <= 2 ? value : Math.sign(value) * Math.sqrt(4 * Math.abs(value) - 4);

const squares = (values: Float64Array): number => values.reduce((sum, value) => sum + value * value, 0);

/** J'J and the spread of the unknowns, which is 1 each. */
function normalMatrix(jacobian: readonly Float64Array[]): Float64Array[] {
  const normal = Array.from({ length: UNKNOWNS }, (_, at) => {
    const row = new Float64Array(UNKNOWNS);
    row[at] = 1;
    return row;
  });
  for (const slopes of jacobian)
    for (let row = 0; row < UNKNOWNS; row++) {
      const part = slopes[row]!;
      for (let column = 0; column < UNKNOWNS; column++) normal[row]![column]! += part * slopes[column]!;
    }
  return normal;
}

function quadratic(covariance: readonly Float64Array[], slope: Float64Array): number {
  return dot(slope, timesVector(covariance, slope));
}

/** The residuals' mean square against what would be expected of that many colours and unknowns. */
function strainOf(
  residuals: Float64Array,
  jacobian: readonly Float64Array[],
  covariance: readonly Float64Array[],
): number {
  const used = jacobian.reduce((sum, slope) => sum + quadratic(covariance, slope), 0);
  return Math.sqrt(squares(residuals) / Math.max(1, residuals.length - used));
}

/** (1 − H)⁻¹ for the three residuals from `first`: what turns a miss into what it would be without this colour. */
function withoutItself(
  jacobian: readonly Float64Array[],
  covariance: readonly Float64Array[],
  first: number,
): Float64Array[] {
  const rows = [0, 1, 2].map((at) => jacobian[first + at]!);
  const leverage = rows.map((row) => {
    const carried = timesVector(covariance, row);
    return rows.map((other) => dot(other, carried));
  });
  const left = leverage.map((row, at) => Float64Array.from(row, (value, column) => (at === column ? 1 : 0) - value));
  return inverse(left);
}
