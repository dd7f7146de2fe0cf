/** How visible a pattern of flat colours is: its spectrum by radius, seen through contrast sensitivity at a distance. */
import { assert } from "../base/assert.ts";
import type { Vector3 } from "../base/matrix3.ts";
import {
  chromaticGuard,
  extentSquared,
  FINEST_FREQUENCY,
  parametersAt,
  profileSquared,
  sensitivitySquared,
} from "./contrastSensitivity.ts";
import { maskOf, maskTuning, type Texture } from "./masking.ts";
import { WHITE_RESPONSE } from "./opponent.ts";
import { adaptingLuminance, distanceForDegree, millimetresPerDegree } from "./viewing.ts";

/**
 * The power of a pattern of n areas by radius of frequency. For each pair of areas j < k the *negated* real cross-power of their
 * indicators, mean removed; since the indicators of all areas add up to nothing, these pairs hold everything:
 * ⟨j,j⟩ = Σ_k −⟨j,k⟩, and the power of colours c is Σ_{j<k} (c_j − c_k)² · (−⟨j,k⟩).
 */
export interface RadialSpectrum {
  /** Number of areas, each of one colour. */
  readonly count: number;
  /** Part of the surface of each area; they add up to 1. */
  readonly shares: readonly number[];
  /** Radii, cycles per mm, ascending: each the power-weighted mean of what fell into its bin. */
  readonly frequencies: Float64Array;
  /** `powers[pairIndex(count, j, k)]`, one value a radius. */
  readonly powers: readonly Float64Array[];
  /** First moments of ln f about the bin's radius, so that a pair that lies off the common mean is not misjudged. */
  readonly moments: readonly Float64Array[];
  /** Lowest radius at which the pattern can have power, cycles per mm. */
  readonly lowest: number;
  /** Area of the patch that is looked at, mm². */
  readonly areaMm2: number;
  /** One cycle per stitch, cycles per mm. */
  readonly textureFrequency: number;
}

/** The place of a pair j < k among the n(n−1)/2 pairs. */
export const pairIndex = (count: number, j: number, k: number): number => (j * (2 * count - j - 1)) / 2 + (k - j - 1);

export interface Eye {
  readonly texture: Texture;
  /** g: adaptation to the room and stray light, a part of white. */
  readonly veil: number;
  /** |ΔC_A| counts at most this much. */
  readonly contrastCap: number;
}

/** Squared gains G² of every pair in the three channels: V² of a channel is Σ pairs (ΔC_pair)² · G². */
export interface Gains {
  readonly lightDark: Float64Array;
  readonly redGreen: Float64Array;
  readonly yellowViolet: Float64Array;
}

/**
 * @param luminance cd/m² the eye is adapted to
 * Source: vision.md B1, B2, B5, B7; pooling exponent 2 over space and frequency.
 */
export const gainsOf = (spectrum: RadialSpectrum, distanceMm: number, luminance: number, eye: Eye): Gains =>
  gainsIn(viewOf(spectrum, distanceMm, eye), luminance);

/** A spectrum as it lies before the eye at one distance: all that light does not change, so that another light costs little. */
export interface View {
  readonly distanceMm: number;
  readonly texture: Texture;
  /** Cycles per degree of the cloth's own texture. */
  readonly textureFrequency: number;
  /** Of the patch, deg². */
  readonly area: number;
  /** log10 of the frequencies, cycles per degree, at which the eye's curve is read. */
  readonly logs: Float64Array;
  /** Light–dark: what the extent of the patch makes of each frequency, and how the texture is tuned to it. */
  readonly extents: Float64Array;
  readonly tunings: Float64Array;
  /** Power of every pair at each frequency. */
  readonly powers: readonly Float64Array[];
  /** The colour channels' squared gains of every pair at a peak sensitivity of 1: light changes nothing but their peak. */
  readonly redGreen: Float64Array;
  readonly yellowViolet: Float64Array;
}

/** Step of ln f for the slope of the eye's curve; any small one will do. */
const SLOPE_STEP = 1e-3;

/** Any light at all: what is asked of the channels here does not depend on it. */
export const SOME_LIGHT = 100;

/**
 * What one distance makes of a spectrum, whatever the light: the bins that are still seen and the eye's curves there.
 * @param distanceMm mm, > 0
 * Source: vision.md B2
 */
export function viewOf(spectrum: RadialSpectrum, distanceMm: number, eye: Eye): View {
  const scale = millimetresPerDegree(distanceMm);
  const area = spectrum.areaMm2 / (scale * scale);
  const finest = FINEST_FREQUENCY * (1 + 1e-9);
  const beyond = spectrum.frequencies.findIndex((frequency) => frequency * scale > finest);
  const bins = beyond < 0 ? spectrum.frequencies.length : beyond;
  // With more than two areas the curve is read twice in each bin: a pair may lie off the bin's mean, and the slope mends it.
  const readings = spectrum.count === 2 ? 1 : 2;
  const at = (place: number): number =>
    spectrum.frequencies[place % bins]! * scale * (place < bins ? 1 : Math.exp(SLOPE_STEP));
  const frequencies = Float64Array.from({ length: bins * readings }, (_, place) => at(place));
  const powers = spectrum.powers.map((power, pair) => {
    if (readings === 1) return power.subarray(0, bins);
    const steps = spectrum.moments[pair]!.subarray(0, bins).map((moment) => moment / SLOPE_STEP);
    const both = new Float64Array(2 * bins);
    for (let bin = 0; bin < bins; bin++) both[bin] = power[bin]! - steps[bin]!;
    both.set(steps, bins);
    return both;
  });
  const textureFrequency = spectrum.textureFrequency * scale;
  const logs = frequencies.map(Math.log10);
  const guards = frequencies.map((frequency) => chromaticGuard(frequency) ** 2);
  const lightDark = parametersAt("lightDark", SOME_LIGHT);
  const hueGains = (channel: "redGreen" | "yellowViolet"): Float64Array => {
    const tuned = { ...parametersAt(channel, SOME_LIGHT), peakSquared: 1 };
    const weights = frequencies.map(
      (frequency, place) => 2 * sensitivitySquared(tuned, frequency, logs[place]!, area) * guards[place]!,
    );
    return Float64Array.from(powers, (power) => product(power, weights));
  };
  return {
    distanceMm,
    texture: eye.texture,
    textureFrequency,
    area,
    logs,
    extents: frequencies.map((frequency) => extentSquared(lightDark, frequency, area)),
    tunings: frequencies.map((frequency) => maskTuning(frequency, textureFrequency)),
    powers,
    redGreen: hueGains("redGreen"),
    yellowViolet: hueGains("yellowViolet"),
  };
}

/** @param luminance cd/m² the eye is adapted to */
export function gainsIn(view: View, luminance: number): Gains {
  const lightDark = parametersAt("lightDark", luminance);
  const { stitchPower, floorPower } = maskOf(view.texture, view.textureFrequency, lightDark, view.area);
  const weights = new Float64Array(view.logs.length);
  for (let place = 0; place < weights.length; place++) {
    const squared = profileSquared(lightDark, view.logs[place]!) * view.extents[place]!;
    weights[place] = (2 * squared) / (1 + stitchPower * view.tunings[place]! + floorPower * squared);
  }
  const redGreen = parametersAt("redGreen", luminance).peakSquared;
  const yellowViolet = parametersAt("yellowViolet", luminance).peakSquared;
  return {
    lightDark: Float64Array.from(view.powers, (power) => product(power, weights)),
    redGreen: view.redGreen.map((gain) => gain * redGreen),
    yellowViolet: view.yellowViolet.map((gain) => gain * yellowViolet),
  };
}

function product(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let place = 0; place < one.length; place++) sum += one[place]! * other[place]!;
  return sum;
}

/** The visibility of something in each channel, before they are joined: V of light–dark is masked, the others are unweighted. */
export interface ChannelVisibility {
  readonly lightDark: number;
  readonly redGreen: number;
  readonly yellowViolet: number;
}

/** V = sqrt(V_A² + q² (V_R² + V_Y²)), vision.md B7a; q = 0 counts light–dark alone, q = 1 counts hue in full. */
export function join(v: ChannelVisibility, hueWeight: number): number {
  return Math.hypot(v.lightDark, hueWeight * v.redGreen, hueWeight * v.yellowViolet);
}

/** What the colours of a pattern contribute, apart from distance: its mean and the light the eye is adapted to. */
export interface Field {
  readonly responses: readonly Vector3[];
  /** A_mean + g · A_white: the denominator of every contrast. */
  readonly background: number;
  readonly luminance: number;
  /** min(1, cap / range of A over the pattern). */
  readonly capFactor: number;
}

/** @param responses (A, R, Y) of each area; @param meanY area mean of luminance factor Y; @param lux on the cloth */
export function fieldOf(
  shares: readonly number[],
  responses: readonly Vector3[],
  meanY: number,
  lux: number,
  eye: Eye,
): Field {
  assert(shares.length === responses.length, "one colour for each area");
  let mean = 0;
  let least = Infinity;
  let most = -Infinity;
  responses.forEach(([lightDark], index) => {
    // A colour that is listed and not used is not there to be seen.
    if (shares[index] === 0) return;
    mean += shares[index]! * lightDark;
    least = Math.min(least, lightDark);
    most = Math.max(most, lightDark);
  });
  const background = mean + eye.veil * WHITE_RESPONSE;
  const range = (most - least) / background;
  return {
    responses,
    background,
    luminance: adaptingLuminance(lux, meanY, eye.veil),
    capFactor: range > eye.contrastCap ? eye.contrastCap / range : 1,
  };
}

/** The pattern as a whole: is there any pattern? */
export function patternVisibility(spectrum: RadialSpectrum, field: Field, gains: Gains): ChannelVisibility {
  const sums: [number, number, number] = [0, 0, 0];
  for (let j = 0; j < spectrum.count; j++)
    for (let k = j + 1; k < spectrum.count; k++)
      addPair(sums, pairIndex(spectrum.count, j, k), field.responses[j]!, field.responses[k]!, gains);
  return scaled(sums, field, field.capFactor);
}

/**
 * The figure of area j against k: what would be lost if j were knitted in k's colour (vision.md B8).
 * Its own contrast is capped, not the pattern's.
 */
export function figureVisibility(
  spectrum: RadialSpectrum,
  field: Field,
  gains: Gains,
  figure: { readonly area: number; readonly against: number },
  cap: number,
): ChannelVisibility {
  const { area, against } = figure;
  const sums: [number, number, number] = [0, 0, 0];
  for (let other = 0; other < spectrum.count; other++) {
    if (other === area) continue;
    const pair = pairIndex(spectrum.count, Math.min(area, other), Math.max(area, other));
    addPair(sums, pair, field.responses[area]!, field.responses[against]!, gains);
  }
  const range = Math.abs(field.responses[area]![0] - field.responses[against]![0]) / field.background;
  return scaled(sums, field, range > cap ? cap / range : 1);
}

function addPair(sums: [number, number, number], pair: number, one: Vector3, other: Vector3, gains: Gains): void {
  sums[0] += (one[0] - other[0]) ** 2 * gains.lightDark[pair]!;
  sums[1] += (one[1] - other[1]) ** 2 * gains.redGreen[pair]!;
  sums[2] += (one[2] - other[2]) ** 2 * gains.yellowViolet[pair]!;
}

// A sum of cross-powers may come out a rounding error below nothing.
const rootOf = (square: number): number => Math.sqrt(Math.max(0, square));

const scaled = (sums: readonly [number, number, number], field: Field, capFactor: number): ChannelVisibility => ({
  lightDark: (capFactor * rootOf(sums[0])) / field.background,
  redGreen: rootOf(sums[1]) / field.background,
  yellowViolet: rootOf(sums[2]) / field.background,
});

/** Nearer than this nobody looks at a garment, mm. Birthplace: vision.md B2, our choice. */
export const NEAREST_MM = 300;

/** ln of the largest step inwards: V is not monotone, so a longer one might pass over the crossing (vision.md B2). */
export const STEP_INWARDS = Math.log(1.03);

/**
 * The farthest distance in mm at which `visibleAt` reaches a threshold, from the far side. 0 = never;
 * beyond = still at or above it where the pattern's coarsest frequency meets 60 cycles per degree, a boundary of the model.
 */
export function farthest(
  spectrum: RadialSpectrum,
  visibleAt: (distanceMm: number) => number,
  threshold: number,
): { distanceMm: number; beyond: boolean } {
  const start = distanceForDegree(FINEST_FREQUENCY / spectrum.lowest);
  if (start <= NEAREST_MM) return { distanceMm: 0, beyond: false };
  if (visibleAt(start) >= threshold) return { distanceMm: start, beyond: true };
  const nearest = Math.log(NEAREST_MM);
  let far = Math.log(start);
  while (far > nearest) {
    const near = Math.max(nearest, far - STEP_INWARDS);
    if (visibleAt(Math.exp(near)) >= threshold) return { distanceMm: Math.exp(bisect(near, far)), beyond: false };
    far = near;
  }
  return { distanceMm: 0, beyond: false };

  function bisect(near: number, away: number): number {
    // 20 halvings of 3 % leave less than a ten-millionth.
    for (let halving = 0; halving < 20; halving++) {
      const middle = (near + away) / 2;
      if (visibleAt(Math.exp(middle)) >= threshold) near = middle;
      else away = middle;
    }
    return near;
  }
}
