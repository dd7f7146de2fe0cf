/** Grams, metres and balls of one yarn, and the ways in which a label says how thick it is. */
import { assert } from "../base/assert.ts";

/** Metres in so many grams. */
export function metresFromGrams(grams: number, metresPer100g: number): number {
  return (grams * thickness(metresPer100g)) / 100;
}

/** Grams of so many metres. */
export function gramsFromMetres(metres: number, metresPer100g: number): number {
  return (metres * 100) / thickness(metresPer100g);
}

/** Whole balls that hold so many metres: a shop does not sell a part of one. */
export function ballsFromMetres(metres: number, ball: Ball): number {
  return Math.max(0, Math.ceil(metres / thickness(ball.metres) - ROUNDING));
}

/** A ball or skein as its band states it. */
export interface Ball {
  metres: number;
  grams: number;
}

/** Metres per 100 g of a ball: 105 m in 25 g is 420. */
export function metresPer100gFromBall(ball: Ball): number {
  return (100 * ball.metres) / thickness(ball.grams);
}

/** Tex, grams per kilometre: 100 000 over metres per 100 g. The relation is its own inverse. */
export const texFromMetresPer100g = (metresPer100g: number): number => 100_000 / thickness(metresPer100g);
export const metresPer100gFromTex = (tex: number): number => 100_000 / thickness(tex);

/** Resultant metric count Nm, metres per gram of the plied yarn. */
export const metricCountFromMetresPer100g = (metresPer100g: number): number => thickness(metresPer100g) / 100;

/** A yarn written "plies/Nm", such as 2/8.4: the count is that of the single strand. */
export const metresPer100gFromMetricCount = (count: number, plies = 1): number =>
  (100 * thickness(count)) / thickness(plies);

export const yardsPerPoundFromMetresPer100g = (metresPer100g: number): number =>
  (YARDS_PER_POUND * thickness(metresPer100g)) / 100;
export const metresPer100gFromYardsPerPound = (yardsPerPound: number): number =>
  (100 * thickness(yardsPerPound)) / YARDS_PER_POUND;

/**
 * A count in hanks per pound, divided over its plies.
 * `yardsPerHank` is 560 for worsted, 840 for cotton, 200 for Galashiels (trade hank lengths).
 */
export const metresPer100gFromHanks = (count: number, plies: number, yardsPerHank: number): number =>
  metresPer100gFromYardsPerPound((thickness(count) * yardsPerHank) / thickness(plies));

export const YARDS_PER_HANK = { worsted: 560, cotton: 840, galashiels: 200 } as const;

/** Metres of a yard and grams of a pound: International Yard and Pound agreement, 1959, exact. */
export const METRES_PER_YARD = 0.9144;
export const GRAMS_PER_POUND = 453.59237;

/** Yards per pound of one metre per gram: 496.055. */
const YARDS_PER_POUND = GRAMS_PER_POUND / METRES_PER_YARD;

/** Balls: a billionth of one is arithmetic, not yarn. */
const ROUNDING = 1e-9;

function thickness(value: number): number {
  assert(value > 0, `a length or count is above zero, got ${value}`);
  return value;
}
