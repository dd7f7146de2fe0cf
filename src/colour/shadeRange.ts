/** What the uncertainty of a shade leaves open of its lightness. */
import type { Lab } from "./lab.ts";

/**
 * The L* between which the truth lies in 80 % of cases.
 * @param uncertainty ΔE00 that holds the truth in 80 % of cases, 0 upwards
 * @returns ends from 0 to 100; a step of L* counts as CIEDE2000's SL has it, least in the middle greys
 * Limit: which part of an error is one of lightness is ours, held to painted photographs (docs/vision.md F): 0.7 of the uncertainty
 * holds L* in 85 to 91 % of cases by kind of reference, so it is rather wide; in 79 % by a chart in uneven light alone.
 * Example: L* 50 with 5 gives 46.5 to 53.5.
 */
export function lightnessRange([lightness]: Lab, uncertainty: number): [number, number] {
  const apart = uncertainty * LIGHTNESS;
  return [
    Math.max(0, lightness - stepOf(lightness, apart, -1)),
    Math.min(100, lightness + stepOf(lightness, apart, 1)),
  ];
}

/** The L* that makes a difference in lightness alone of so many ΔE00, upwards or downwards. */
function stepOf(lightness: number, deltaE00: number, direction: 1 | -1): number {
  let step = deltaE00;
  for (let round = 0; round < ROUNDS; round++) step = deltaE00 * weightOfLightness(lightness + (direction * step) / 2);
  return step;
}

/** SL at a mean lightness, 0 to 100: what a step of L* is divided by. Source: CIE 142-2001. */
export function weightOfLightness(mean: number): number {
  const square = (mean - 50) ** 2;
  return 1 + (0.015 * square) / Math.sqrt(20 + square);
}

/** Fixed-point rounds; at 5 ΔE00 each brings two digits. */
const ROUNDS = 12;

/** Part of the uncertainty that holds the lightness in 80 % of cases or more. Our choice, as told above. */
const LIGHTNESS = 0.7;
