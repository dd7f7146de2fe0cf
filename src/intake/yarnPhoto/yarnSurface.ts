/** The colour of a yarn in a picture: not its shadows between strands, not its shine, not its fuzz. */
import type { LinearRgb } from "../../colour/srgb.ts";

export interface Surface {
  /** Mean linear light, as decoded, of the lit surface. */
  readonly rgb: LinearRgb;
  /** How much lighter or darker it might have been taken: from the main mode to the lit surface, ln light. */
  readonly spread: number;
  /** The part that is burnt out. */
  readonly clipped: number;
  /** The part of the lit surface where a channel is black although another is not: more saturated than the picture can hold. */
  readonly bottomed: number;
  readonly pixels: number;
}

/** A channel from here on is burnt out: 254 of 255, encoded. */
export const BURNT = 0.991;
/** A channel below this is black: 1 of 255, encoded. */
const BLACK = 0.0005;
/** Where lightness is looked at: the narrowest window, ln light, in which the mode is sought; our choice. */
const NARROWEST = 0.12;
/** Pixels of the main dye lie within so much of its mode, ln light: deeper is shadow, lighter is shine; our choice. */
const DYE = { below: 0.9, above: 0.5 };
/**
 * Of a dye's pixels by rising light, those that face the light and neither shine nor are the picture's own grain: on a round
 * strand the upper third is within a few percent of what the dye sends back; our choice, between plied strands, which have less lit
 * surface, and felt, which has no shadows.
 */
const LIT = { from: 0.6, to: 0.8 };

/** Light of a pixel, weighted as the eye does. Source: IEC 61966-2-1, the row of Y. */
export const lightness = (r: number, g: number, b: number): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** The main mode of light among pixels and the mean colour of what of it is lit. */
export function yarnSurface(pixels: readonly LinearRgb[]): Surface {
  const whole = pixels.filter((pixel) => Math.max(...pixel) < BURNT);
  const clipped = 1 - whole.length / Math.max(1, pixels.length);
  const kept = whole.length > 0 ? whole : pixels;
  const logs = kept.map((pixel) => Math.log(Math.max(1e-5, lightness(...pixel))));
  const mode = mainMode(Float64Array.from(logs).sort());
  const dye = Array.from(logs.keys())
    .filter((at) => logs[at]! > mode - DYE.below && logs[at]! < mode + DYE.above)
    .sort((one, other) => logs[one]! - logs[other]!);
  const lit = dye.slice(Math.floor(LIT.from * dye.length), Math.max(1, Math.ceil(LIT.to * dye.length)));
  const taken = (lit.length > 0 ? lit : dye).map((at) => kept[at]!);
  const mean = (channel: 0 | 1 | 2): number => taken.reduce((sum, pixel) => sum + pixel[channel], 0) / taken.length;
  const rgb: LinearRgb = [mean(0), mean(1), mean(2)];
  const bottomed =
    taken.filter((pixel) => Math.min(...pixel) < BLACK && Math.max(...pixel) > 0.01).length / taken.length;
  return {
    rgb,
    spread: Math.abs(Math.log(Math.max(1e-5, lightness(...rgb))) - mode),
    clipped,
    bottomed,
    pixels: pixels.length,
  };
}

/**
 * Where ln light is densest, as the eye would draw the hump: counts in narrow bins, smoothed by a window as wide as half the
 * middle half of the light, so that noise makes no mode of its own.
 */
function mainMode(sorted: Float64Array): number {
  const part = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))]!;
  const window = Math.max(NARROWEST, (part(0.75) - part(0.25)) / 2);
  let best = part(0.5);
  let most = 0;
  let low = 0;
  let high = 0;
  const from = part(0.02);
  const step = window / 12;
  for (let at = from; at <= part(0.98) + step; at += step) {
    while (low < sorted.length && sorted[low]! < at - window / 2) low++;
    while (high < sorted.length && sorted[high]! <= at + window / 2) high++;
    if (high - low > most) {
      most = high - low;
      // The middle of what lies in the window, not of the window: a shoulder does not pull the mode about.
      best = sorted[Math.floor((low + high - 1) / 2)]!;
    }
  }
  return best;
}
