/** How a pattern looks from every distance at once, so that how far it reads is found without looking again. */
import {
  chromaticGuard,
  extentSquared,
  FINEST_FREQUENCY,
  parametersAt,
  profileSquared,
  type Channel,
} from "./contrastSensitivity.ts";
import { maskOf, maskTuning } from "./masking.ts";
import { distanceForDegree, millimetresPerDegree } from "./viewing.ts";
import {
  gainsIn,
  NEAREST_MM,
  pairIndex,
  SOME_LIGHT,
  STEP_INWARDS,
  viewOf,
  type Eye,
  type Field,
  type RadialSpectrum,
} from "./visibility.ts";

/** Squared gains of every pair at distances from far to near; light–dark light by light, worked out when a light is asked for. */
export interface Reach {
  readonly spectrum: RadialSpectrum;
  readonly eye: Eye;
  /** mm, descending: where the lowest frequency meets 60 cycles per degree, then steps of 3 %, then the nearest. */
  readonly distances: Float64Array;
  /** At a peak sensitivity of 1: light changes nothing but their peak. Pair after pair, each as long as `distances`. */
  readonly redGreen: Float64Array;
  readonly yellowViolet: Float64Array;
  /** By the number of a light on the scale of LIGHT_STEP. */
  readonly lightDark: Map<number, LightDark>;
}

/** Light–dark in one light: ln of all pairs' gains together at each distance, and each pair's part of it. */
interface LightDark {
  readonly logs: Float64Array;
  readonly parts: Float64Array;
}

/** Without any distance where the pattern's lowest frequency is too fine even at the nearest. */
export function reachOf(spectrum: RadialSpectrum, eye: Eye): Reach {
  const start = distanceForDegree(FINEST_FREQUENCY / spectrum.lowest);
  const steps = start > NEAREST_MM ? Math.ceil(Math.log(start / NEAREST_MM) / STEP_INWARDS) : -1;
  const distances = Float64Array.from({ length: steps + 1 }, (_, step) =>
    step === steps ? NEAREST_MM : start * Math.exp(-step * STEP_INWARDS),
  );
  const { redGreen, yellowViolet } = hueGains(spectrum, distances);
  return { spectrum, eye, distances, redGreen, yellowViolet, lightDark: new Map() };
}

/** What is asked of a reach: of which colours, and of the pattern as a whole or of one area against another. */
export interface Seen {
  readonly field: Field;
  /** Weight of each pair's squared difference: (A, R, Y), with the cap and the background in it. */
  readonly pairs: readonly { readonly index: number; readonly squares: readonly [number, number, number] }[];
}

/** The pattern's pairs, or those of one area as if it lay on the other. Source: as `patternVisibility` and `figureVisibility`. */
export function seenThings(
  { count }: RadialSpectrum,
  field: Field,
  eye: Eye,
  figure?: { readonly area: number; readonly against: number },
): Seen {
  const { responses, background } = field;
  const pairs: { index: number; squares: [number, number, number] }[] = [];
  const range = figure ? Math.abs(responses[figure.area]![0] - responses[figure.against]![0]) / background : 0;
  const cap = figure ? (range > eye.contrastCap ? eye.contrastCap / range : 1) : field.capFactor;
  for (let j = 0; j < count; j++)
    for (let k = j + 1; k < count; k++) {
      if (figure && j !== figure.area && k !== figure.area) continue;
      const [one, other] = figure
        ? [responses[figure.area]!, responses[figure.against]!]
        : [responses[j]!, responses[k]!];
      const square = (channel: 0 | 1 | 2): number => ((one[channel] - other[channel]) / background) ** 2;
      pairs.push({ index: pairIndex(count, j, k), squares: [cap * cap * square(0), square(1), square(2)] });
    }
  return { field, pairs };
}

/**
 * The farthest distance in mm at which something is at least at a threshold, for several ways of asking at once, as `farthest`
 * finds it: 0 = never, beyond = still so where the lowest frequency meets 60 cycles per degree. Between two steps of 3 % V is taken to
 * be a power of the distance; held to `farthest` by test.
 */
export function farthestOf(
  reach: Reach,
  { field, pairs }: Seen,
  asked: readonly { readonly hueWeight: number; readonly threshold: number }[],
): { readonly distanceMm: number; readonly beyond: boolean }[] {
  const { distances, redGreen, yellowViolet } = reach;
  const count = distances.length;
  const found = asked.map(() => ({ distanceMm: 0, beyond: false }));
  const hues = asked.map(({ hueWeight }) => hueWeight * hueWeight);
  const limits = asked.map(({ threshold }) => threshold * threshold);
  const before = new Float64Array(asked.length);
  let open = asked.map((_, which) => which);
  const redPeak = parametersAt("redGreen", field.luminance).peakSquared;
  const yellowPeak = parametersAt("yellowViolet", field.luminance).peakSquared;
  const [one, two, three, four] = lightsAround(reach, field.luminance);
  for (let at = 0; at < count && open.length > 0; at++) {
    let lightDark = 0;
    let red = 0;
    let yellow = 0;
    for (const { index, squares } of pairs) {
      const place = index * count + at;
      const part =
        one.weight * one.parts[place]! +
        two.weight * two.parts[place]! +
        three.weight * three.parts[place]! +
        four.weight * four.parts[place]!;
      lightDark += squares[0] * part;
      red += squares[1] * redGreen[place]!;
      yellow += squares[2] * yellowViolet[place]!;
    }
    const log =
      one.weight * one.logs[at]! +
      two.weight * two.logs[at]! +
      three.weight * three.logs[at]! +
      four.weight * four.logs[at]!;
    // V² by each weight of hue. A sum of cross-powers may come out a rounding error below nothing.
    lightDark = Math.max(0, lightDark) * Math.exp(log);
    const hue = Math.max(0, red) * redPeak + Math.max(0, yellow) * yellowPeak;
    let reached = false;
    for (const which of open) {
      const now = lightDark + hues[which]! * hue;
      if (now >= limits[which]!) {
        reached = true;
        const distanceMm =
          at === 0 ? distances[0]! : between(distances[at - 1]!, distances[at]!, before[which]!, now, limits[which]!);
        found[which] = { distanceMm, beyond: at === 0 };
      } else before[which] = now;
    }
    if (reached) open = open.filter((which) => found[which]!.distanceMm === 0);
  }
  return found;
}

/** Where V², a power of the distance between two places, is at its limit; the nearer one where V begins there. */
function between(far: number, near: number, farSquare: number, nearSquare: number, limit: number): number {
  if (!(farSquare > 0)) return near;
  const part = Math.log(nearSquare / limit) / Math.log(nearSquare / farSquare);
  return near * (far / near) ** part;
}

/**
 * ln of the luminance between two lights that are worked out. Between four of them a cubic of ln G² errs by less than 2e-3: where
 * the curve of the eye is cut flat below its peak it has a corner. A pair's own part hardly changes with light.
 */
const LIGHT_STEP = 0.5;

interface Light extends LightDark {
  readonly weight: number;
}

/** The four lights about a luminance and what each counts for: cubic interpolation after Lagrange. */
function lightsAround(reach: Reach, luminance: number): [Light, Light, Light, Light] {
  const place = Math.log(luminance) / LIGHT_STEP;
  const first = Math.floor(place) - 1;
  const t = place - first;
  return [
    { weight: -((t - 1) * (t - 2) * (t - 3)) / 6, ...lightDarkIn(reach, first) },
    { weight: (t * (t - 2) * (t - 3)) / 2, ...lightDarkIn(reach, first + 1) },
    { weight: -(t * (t - 1) * (t - 3)) / 2, ...lightDarkIn(reach, first + 2) },
    { weight: (t * (t - 1) * (t - 2)) / 6, ...lightDarkIn(reach, first + 3) },
  ];
}

function lightDarkIn(reach: Reach, knot: number): LightDark {
  let known = reach.lightDark.get(knot);
  if (!known) reach.lightDark.set(knot, (known = partsOf(lightDarkAt(reach, Math.exp(knot * LIGHT_STEP)), reach)));
  return known;
}

function partsOf(gains: Float64Array, { distances, spectrum }: Reach): LightDark {
  const count = distances.length;
  const logs = distances.map((_, at) => {
    let sum = 0;
    for (let pair = 0; pair < spectrum.powers.length; pair++) sum += gains[pair * count + at]!;
    return Math.log(Math.max(sum, LEAST));
  });
  return { logs, parts: gains.map((gain, place) => gain / Math.exp(logs[place % count]!)) };
}

/** Far below anything that is seen, so that nothing has a logarithm. */
const LEAST = 1e-30;

function lightDarkAt({ spectrum, eye, distances }: Reach, luminance: number): Float64Array {
  const tuned = parametersAt("lightDark", luminance);
  const { frequencies, powers, moments, count, areaMm2 } = spectrum;
  const logs = frequencies.map(Math.log10);
  const weights = new Float64Array(frequencies.length);
  const gains = new Float64Array(powers.length * distances.length);
  const tunings = frequencies.map((frequency) => maskTuning(frequency, spectrum.textureFrequency));
  distances.forEach((distance, at) => {
    if (at === 0) {
      // At the very edge one bin decides: it is looked at as everything else is.
      const exact = gainsIn(viewOf(spectrum, distance, eye), luminance).lightDark;
      exact.forEach((gain, pair) => (gains[pair * distances.length] = gain));
      return;
    }
    const scale = millimetresPerDegree(distance);
    const area = areaMm2 / (scale * scale);
    const { stitchPower, floorPower } = maskOf(eye.texture, spectrum.textureFrequency * scale, tuned, area);
    const shift = Math.log10(scale) - tuned.logPeakFrequency;
    const bins = binsSeen(frequencies, scale);
    for (let bin = 0; bin < bins; bin++) {
      const profile = tuned.peakSquared * profileAt(logs[bin]! + shift);
      const squared = profile * extentSquared(tuned, frequencies[bin]! * scale, area);
      weights[bin] = (2 * squared) / (1 + stitchPower * tunings[bin]! + floorPower * squared);
    }
    sumInto(gains, at, distances.length, { weights, bins, powers, moments, frequencies, count });
  });
  return gains;
}

function hueGains(
  spectrum: RadialSpectrum,
  distances: Float64Array,
): { redGreen: Float64Array; yellowViolet: Float64Array } {
  const { frequencies, powers, moments, count, areaMm2 } = spectrum;
  const logs = frequencies.map(Math.log10);
  const weights = new Float64Array(frequencies.length);
  const gainsIn = (channel: "redGreen" | "yellowViolet"): Float64Array => {
    const tuned = parametersAt(channel, SOME_LIGHT);
    const curve = HUE_CURVES[channel];
    const gains = new Float64Array(powers.length * distances.length);
    distances.forEach((distance, at) => {
      const scale = millimetresPerDegree(distance);
      const area = areaMm2 / (scale * scale);
      const shift = Math.log10(scale);
      const bins = binsSeen(frequencies, scale);
      for (let bin = 0; bin < bins; bin++)
        weights[bin] = 2 * read(curve, logs[bin]! + shift) * extentSquared(tuned, frequencies[bin]! * scale, area);
      sumInto(gains, at, distances.length, { weights, bins, powers, moments, frequencies, count });
    });
    return gains;
  };
  return { redGreen: gainsIn("redGreen"), yellowViolet: gainsIn("yellowViolet") };
}

/** Bins below 60 cycles per degree, with room for rounding; frequencies ascend. */
function binsSeen(frequencies: Float64Array, scale: number): number {
  const finest = (FINEST_FREQUENCY * (1 + 1e-9)) / scale;
  let low = 0;
  let high = frequencies.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (frequencies[middle]! <= finest) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Σ power · weight for each pair; with more than two areas a pair's own place in a bin is mended by the slope of the weights. */
function sumInto(
  gains: Float64Array,
  at: number,
  stride: number,
  of: {
    readonly weights: Float64Array;
    readonly bins: number;
    readonly powers: readonly Float64Array[];
    readonly moments: readonly Float64Array[];
    readonly frequencies: Float64Array;
    readonly count: number;
  },
): void {
  const { weights, bins, powers, moments, frequencies, count } = of;
  for (let pair = 0; pair < powers.length; pair++) {
    const power = powers[pair]!;
    let sum = 0;
    for (let bin = 0; bin < bins; bin++) sum += power[bin]! * weights[bin]!;
    if (count > 2) {
      const moment = moments[pair]!;
      for (let bin = 0; bin < bins; bin++) {
        const [before, after] = [Math.max(0, bin - 1), Math.min(bins - 1, bin + 1)];
        if (before === after || moment[bin] === 0) continue;
        const slope = (weights[after]! - weights[before]!) / Math.log(frequencies[after]! / frequencies[before]!);
        sum += moment[bin]! * slope;
      }
    }
    gains[pair * stride + at] = sum;
  }
}

/** A curve over the logarithm of frequency, read between its points. */
interface Curve {
  readonly from: number;
  readonly values: Float64Array;
}

/** Decades of frequency between two points: a straight line between them errs by less than 1e-5 of the curve's peak. */
const CURVE_STEP = 1 / 1024;

function curveOf(from: number, to: number, value: (log10: number) => number): Curve {
  const points = Math.ceil((to - from) / CURVE_STEP) + 2;
  return { from, values: Float64Array.from({ length: points }, (_, point) => value(from + point * CURVE_STEP)) };
}

function read({ from, values }: Curve, log10: number): number {
  const place = Math.min(values.length - 1.001, Math.max(0, (log10 - from) / CURVE_STEP));
  const point = Math.trunc(place);
  const low = values[point]!;
  return low + (place - point) * (values[point + 1]! - low);
}

const FREE = parametersAt("lightDark", SOME_LIGHT);

/** The light–dark profile over frequency's distance from its peak, in decades: light changes where the peak lies, not the form. */
const PROFILE: Curve = curveOf(-3, 3, (log10) =>
  profileSquared({ ...FREE, peakSquared: 1, logPeakFrequency: 0 }, log10),
);
const profileAt = (log10: number): number => read(PROFILE, log10);

const hueCurve = (channel: Exclude<Channel, "lightDark">): Curve => {
  const tuned = { ...parametersAt(channel, SOME_LIGHT), peakSquared: 1 };
  return curveOf(-3, 2, (log10) => profileSquared(tuned, log10) * chromaticGuard(10 ** log10) ** 2);
};
/** The colour channels' profiles with their guard, over log10 of cycles per degree. */
const HUE_CURVES = { redGreen: hueCurve("redGreen"), yellowViolet: hueCurve("yellowViolet") };
