/** Undoes what a camera did to light before it wrote it down: curves from encoded back to proportional, one a channel. */
import { encodeSrgb, type LinearRgb } from "../../colour/srgb.ts";

/** Light as decoded to light in proportion to what fell on the camera; rises. */
export type Curve = (light: number) => number;

/** Light below which logarithms are not asked: a tenth of the lowest step of a byte. */
const LEAST = 3e-5;

/** Slopes of a curve in log–log outside its knots are kept within these; our choice, wider than phones were seen to bend. */
const STEEPEST = 2;
const FLATTEST = 0.5;

/**
 * The rising curve through the knots (light seen, light that it was): a monotone cubic in log–log, straight beyond the ends.
 * Knots that do not rise are left out. Source: vision.md F, "monotone log–log interpolation per channel"; Fritsch, Carlson 1980.
 */
export function curveThrough(knots: readonly (readonly [number, number])[]): Curve {
  const rising: [number, number][] = [];
  for (const [seen, was] of knots.toSorted((one, other) => one[0] - other[0])) {
    const last = rising.at(-1);
    const knot: [number, number] = [Math.log(Math.max(LEAST, seen)), Math.log(Math.max(LEAST, was))];
    if (!last || (knot[0] > last[0] + 1e-3 && knot[1] > last[1] + 1e-3)) rising.push(knot);
  }
  const steps = rising.slice(1).map(([x, y], at) => (y - rising[at]![1]) / (x - rising[at]![0]));
  const bounded = (slope: number | undefined): number => Math.min(STEEPEST, Math.max(FLATTEST, slope ?? 1));
  // At a knot the harmonic mean of the steps beside it, so that the cubic between knots rises.
  const slopes = rising.map((_, at) => {
    const [before, after] = [steps[at - 1], steps[at]];
    if (before === undefined || after === undefined) return bounded(before ?? after);
    return (2 * before * after) / (before + after);
  });
  return (light) => {
    const x = Math.log(Math.max(LEAST, light));
    let at = 0;
    while (at < rising.length && rising[at]![0] < x) at++;
    if (rising.length === 0) return light;
    if (at === 0 || at === rising.length) {
      const end = at === 0 ? 0 : at - 1;
      return Math.exp(rising[end]![1] + bounded(slopes[end]) * (x - rising[end]![0]));
    }
    const [[x0, y0], [x1, y1]] = [rising[at - 1]!, rising[at]!];
    const width = x1 - x0;
    const t = (x - x0) / width;
    const bow =
      t * (1 - t) * width * ((1 - t) * (slopes[at - 1]! - steps[at - 1]!) - t * (slopes[at]! - steps[at - 1]!));
    return Math.exp(y0 + t * (y1 - y0) + bow);
  };
}

export interface CameraHabit {
  /** How strongly the curve is bent: 0 as the standard says, 1 as the phones of the measured photographs do. */
  readonly bend: number;
  /** Slope of the whole, in log–log; 1 as the standard says. */
  readonly slope: number;
}

/**
 * How much steeper than the standard a bent camera is where it writes `encoded`, in log–log: steep in the darks, flat in the
 * lights. Birthplace: fitted by eye to the six greys of three photographs of charts by phones (steps of log light between
 * greys against what they are): about +0.2 below 0.3, 0 at 0.5, −0.25 at 0.75, −0.4 at 0.85.
 */
const bentSlope = (encoded: number): number => 0.25 - 0.9 * encoded * encoded;

const STEPS = 400;
/** ln of the darkest light of the table; below it the curve goes on straight. */
const DARKEST = Math.log(1e-4);

/** The curve of a camera of such a habit, undone; light in any unit. */
export function habitCurve({ bend, slope }: CameraHabit): Curve {
  const step = -DARKEST / STEPS;
  const table = new Float64Array(STEPS + 1);
  for (let at = STEPS; at > 0; at--) {
    const encoded = encodeSrgb(Math.exp(DARKEST + (at - 0.5) * step));
    table[at - 1] = table[at]! - step / (slope * Math.max(0.3, 1 + bend * bentSlope(encoded)));
  }
  return (light) => {
    const at = (Math.log(Math.max(LEAST, light)) - DARKEST) / step;
    const low = Math.min(STEPS - 1, Math.max(0, Math.floor(at)));
    return Math.exp(table[low]! + (at - low) * (table[low + 1]! - table[low]!));
  };
}

export const throughCurves = (curves: readonly Curve[], rgb: LinearRgb): LinearRgb => [
  curves[0]!(rgb[0]),
  curves[1]!(rgb[1]),
  curves[2]!(rgb[2]),
];
