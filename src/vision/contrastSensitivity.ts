/** How little contrast the eye can see: castleCSF, static and foveal, in its three channels. */

/**
 * Contrast sensitivity (1 / threshold contrast in the channel's own response over the background's A response).
 * @param frequency cycles per degree, > 0
 * @param luminance cd/m² of the background
 * @param area deg² of the patch
 * Source: castleCSF v0.2.4 (Ashraf, Mantiuk, Chapiro, Wuerger 2024, J. Vision 24(4):5), at 0 Hz and the fovea; its transient
 * term is below 1e-8 there and left out. Limits: too sensitive by 2 to 6 dB above 20 cycles per degree; see `chromaticGuard`.
 */
export function sensitivity(channel: Channel, frequency: number, luminance: number, area: number): number {
  return Math.sqrt(sensitivitySquared(parametersAt(channel, luminance), frequency, Math.log10(frequency), area));
}

export type Channel = "lightDark" | "redGreen" | "yellowViolet";

interface Mechanism {
  readonly peak: (luminance: number) => number;
  readonly peakFrequency: (luminance: number) => number;
  readonly bandwidth: number;
  /** Loss below the peak frequency at which the curve flattens; 0 keeps it at its peak. */
  readonly truncation: number;
  readonly areaConstant: number;
  readonly areaFrequency: number;
}

const risingWithLight =
  (p1: number, p2: number, p3: number) =>
  (luminance: number): number =>
    p1 * (1 + p2 / luminance) ** -p3;

const risingAndFalling =
  (p1: number, p2: number, p3: number, p4: number, p5: number) =>
  (luminance: number): number =>
    p1 * (1 + p2 / luminance) ** -p3 * (1 - (1 + p4 / luminance) ** -p5);

/** Parameters of castleCSF v0.2.4. */
const MECHANISMS: Record<Channel, Mechanism> = {
  lightDark: {
    peak: risingAndFalling(56.4947, 7.54726, 0.144532, 5.58341e-7, 9.66862e9),
    peakFrequency: risingWithLight(1.78119, 91.5718, 0.256682),
    bandwidth: 0.000213047,
    truncation: 0.100207,
    areaConstant: 157.103,
    areaFrequency: 0.702338,
  },
  redGreen: {
    peak: risingWithLight(681.434, 38.0038, 0.480386),
    peakFrequency: () => 0.0178364,
    bandwidth: 2.42104,
    truncation: 0,
    areaConstant: 2816.44,
    areaFrequency: 0.0711058,
  },
  yellowViolet: {
    peak: risingWithLight(166.683, 62.8974, 0.41193),
    peakFrequency: () => 0.00425753,
    bandwidth: 2.68197,
    truncation: 0,
    areaConstant: 2.82789e7,
    areaFrequency: 0.000635093,
  },
};

/** A mechanism with everything that depends on light alone worked out, for passes over many frequencies. */
export interface Tuned {
  readonly peakSquared: number;
  readonly logPeakFrequency: number;
  /** Squared profile = exp(falloff · (log10 f − log10 fm)²). */
  readonly falloff: number;
  readonly flatSquared: number;
  readonly areaConstant: number;
  readonly areaFrequencySquared: number;
}

/** @param luminance cd/m² the eye is adapted to, above 0 */
export function parametersAt(channel: Channel, luminance: number): Tuned {
  const mechanism = MECHANISMS[channel];
  return {
    peakSquared: mechanism.peak(luminance) ** 2,
    logPeakFrequency: Math.log10(mechanism.peakFrequency(luminance)),
    falloff: (-2 * Math.LN10) / 2 ** mechanism.bandwidth,
    flatSquared: (1 - mechanism.truncation) ** 2,
    areaConstant: mechanism.areaConstant,
    areaFrequencySquared: mechanism.areaFrequency ** 2,
  };
}

/** Squared sensitivity: the form in which it is summed. `log10Frequency` is handed in because its caller has it. */
export const sensitivitySquared = (tuned: Tuned, frequency: number, log10Frequency: number, area: number): number =>
  profileSquared(tuned, log10Frequency) * extentSquared(tuned, frequency, area);

/** The part of the squared sensitivity that light changes, by way of the peak and where it lies. */
export function profileSquared(tuned: Tuned, log10Frequency: number): number {
  const octave = log10Frequency - tuned.logPeakFrequency;
  let profile = Math.exp(tuned.falloff * octave * octave);
  if (octave < 0 && profile < tuned.flatSquared) profile = tuned.flatSquared;
  return tuned.peakSquared * profile;
}

/** The part of the squared sensitivity that the extent of the patch changes, and light does not. */
export function extentSquared(
  { areaConstant, areaFrequencySquared }: Pick<Tuned, "areaConstant" | "areaFrequencySquared">,
  frequency: number,
  area: number,
): number {
  const frequencySquared = frequency * frequency;
  const critical = areaConstant / (1 + frequencySquared / areaFrequencySquared);
  return (frequencySquared * critical) / (1 + critical / area);
}

/** Nothing finer than this is seen, cycles per degree. Birthplace: vision.md B5, our choice. */
export const FINEST_FREQUENCY = 60;

/** Birthplace: vision.md B5, our choice: puts the acuity for hue alone at 11 to 12 cycles per degree (Mullen 1985). */
const GUARD_FREQUENCY = 9.4;

/** Factor on the sensitivity of both colour channels: published data at high frequencies may hold light–dark artefacts. */
export function chromaticGuard(frequency: number): number {
  const squared = (frequency / GUARD_FREQUENCY) ** 2;
  return Math.exp(-squared * squared);
}
