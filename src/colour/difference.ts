/** CIEDE2000, the difference between two colours as the eye counts it; about 1 is just noticed side by side. */
import { assert } from "../base/assert.ts";
import type { Lab } from "./lab.ts";

/** Parametric factors; 1 each in reference conditions. A larger kL counts lightness for less, as for woolly texture. */
export interface DifferenceWeights {
  readonly kL?: number;
  readonly kC?: number;
  readonly kH?: number;
}

/**
 * ΔE00 between two colours in CIELAB (any one white), 0 upwards.
 * Source: CIE 142-2001 in the form of Sharma, Wu, Dalal 2005, Color Res. Appl. 30(1):21–30. Limit: made for differences
 * below about 5, and it jumps where hues lie opposite each other.
 * Example: (50, 2.6772, −79.7751) and (50, 0, −82.7485) are 2.0425 apart.
 */
export function deltaE2000(lab1: Lab, lab2: Lab, weights?: DifferenceWeights): number {
  if (weights === undefined) return difference(lab1[0], lab1[1], lab1[2], lab2[0], lab2[1], lab2[2], 1, 1, 1);
  const { kL = 1, kC = 1, kH = 1 } = weights;
  return difference(lab1[0], lab1[1], lab1[2], lab2[0], lab2[1], lab2[2], kL, kC, kH);
}

/**
 * ΔE00 of many pairs: Lab triples one after the other in, one difference for each pair out.
 * Writes into `out`, which has room for all pairs, where it is given.
 */
export function deltaE2000Batch(labs1: Float64Array, labs2: Float64Array, out?: Float64Array): Float64Array {
  assert(labs1.length === labs2.length, `${labs1.length} numbers of Lab against ${labs2.length}`);
  const pairs = Math.floor(labs1.length / 3);
  const differences = out ?? new Float64Array(pairs);
  assert(differences.length >= pairs, `room for ${differences.length} differences of ${pairs}`);
  for (let pair = 0, at = 0; pair < pairs; pair++, at += 3) {
    differences[pair] = difference(
      labs1[at]!,
      labs1[at + 1]!,
      labs1[at + 2]!,
      labs2[at]!,
      labs2[at + 1]!,
      labs2[at + 2]!,
      1,
      1,
      1,
    );
  }
  return differences;
}

/** 25⁷, where chroma stops counting as low. Source: CIE 142-2001. */
const LOW_CHROMA_7 = 25 ** 7;
const RADIANS = Math.PI / 180;

/** Cosines and sines of the phases in T (30°, 6°, 63°) and of the hue of the blue rotation (275°). Source: CIE 142-2001. */
const COS_30 = Math.cos(30 * RADIANS);
const COS_6 = Math.cos(6 * RADIANS);
const SIN_6 = Math.sin(6 * RADIANS);
const COS_63 = Math.cos(63 * RADIANS);
const SIN_63 = Math.sin(63 * RADIANS);
const COS_275 = Math.cos(275 * RADIANS);
const SIN_275 = Math.sin(275 * RADIANS);

/**
 * Left of this cosine a mean hue in the upper half is more than 137° before 275°, where the blue rotation is 3e-12 of a
 * degree: cos 138°, in the upper half.
 */
const BLUE_BEGINS = Math.cos(138 * RADIANS);

/** Square of the sum of the two hue directions, below which they are taken as opposite: within 0.06° of 180°. */
const OPPOSITE = 1e-6;

/** Product of two chromas below which a hue would be rounding noise, and its square below what a double can hold. */
const NEUTRAL = 1e-30;

/**
 * Hues are kept as directions (cosine and sine), not as angles: the mean hue is the sum of two directions, its multiples
 * are polynomials, and of the nine trigonometric calls of the published form one arctangent and one sine are left, in the
 * blues only. Skipped: nothing that a double could show. Opposite hues go the published way, by angles.
 */
function difference(
  L1: number,
  a1: number,
  b1: number,
  L2: number,
  a2: number,
  b2: number,
  kL: number,
  kC: number,
  kH: number,
): number {
  const meanChroma = (Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2)) / 2;
  const stretch = 1.5 - 0.5 * Math.sqrt(lowChromaPart(meanChroma));
  const a1s = a1 * stretch;
  const a2s = a2 * stretch;
  const chroma1 = Math.sqrt(a1s * a1s + b1 * b1);
  const chroma2 = Math.sqrt(a2s * a2s + b2 * b2);
  const mean = (chroma1 + chroma2) / 2;

  // The direction of the mean hue; a neutral has none and takes the other's.
  let c = 1;
  let s = 0;
  let hueDifference = 0;
  const product = chroma1 * chroma2;
  if (product > NEUTRAL) {
    const sumA = a1s * chroma2 + a2s * chroma1;
    const sumB = b1 * chroma2 + b2 * chroma1;
    const square = sumA * sumA + sumB * sumB;
    if (square < OPPOSITE * product * product) {
      const hue1 = hueDegrees(a1s, b1);
      const hue2 = hueDegrees(a2s, b2);
      const turn = hue2 - hue1;
      const isShort = Math.abs(turn) <= 180;
      const sum = hue1 + hue2;
      const meanHue = (isShort ? sum : sum < 360 ? sum + 360 : sum - 360) / 2;
      c = Math.cos(meanHue * RADIANS);
      s = Math.sin(meanHue * RADIANS);
      const shortTurn = isShort ? turn : turn > 0 ? turn - 360 : turn + 360;
      hueDifference = 2 * Math.sqrt(product) * Math.sin((shortTurn * RADIANS) / 2);
    } else {
      const length = Math.sqrt(square);
      c = sumA / length;
      s = sumB / length;
      // 2 √(C1 C2) sin(Δh/2) without the angle: the chord of the turn, signed by it.
      hueDifference = (2 * (a1s * b2 - a2s * b1) * Math.sqrt(product)) / length;
    }
  } else if (mean > 0) {
    c = (a1s + a2s) / (2 * mean);
    s = (b1 + b2) / (2 * mean);
  }

  const c2 = c * c - s * s;
  const s2 = 2 * c * s;
  const c3 = c2 * c - s2 * s;
  const s3 = s2 * c + c2 * s;
  const c4 = c2 * c2 - s2 * s2;
  const s4 = 2 * c2 * s2;
  const T =
    1 -
    0.17 * (c * COS_30 + s * 0.5) +
    0.24 * c2 +
    0.32 * (c3 * COS_6 - s3 * SIN_6) -
    0.2 * (c4 * COS_63 + s4 * SIN_63);

  const fromMiddle = (L1 + L2) / 2 - 50;
  const fromMiddle2 = fromMiddle * fromMiddle;
  const dL = (L2 - L1) / (kL * (1 + (0.015 * fromMiddle2) / Math.sqrt(20 + fromMiddle2)));
  const dC = (chroma2 - chroma1) / (kC * (1 + 0.045 * mean));
  const dH = hueDifference / (kH * (1 + 0.015 * mean * T));
  let square = dL * dL + dC * dC + dH * dH;

  if (s < 0 || c < BLUE_BEGINS) {
    const blue = Math.atan2(s * COS_275 - c * SIN_275, c * COS_275 + s * SIN_275) / (25 * RADIANS);
    const turned = Math.sin(60 * RADIANS * Math.exp(-blue * blue));
    square -= 2 * Math.sqrt(lowChromaPart(mean)) * turned * dC * dH;
  }
  return Math.sqrt(square);
}

/** C⁷ / (C⁷ + 25⁷). */
function lowChromaPart(chroma: number): number {
  const squared = chroma * chroma;
  const seventh = squared * squared * squared * chroma;
  return seventh / (seventh + LOW_CHROMA_7);
}

function hueDegrees(a: number, b: number): number {
  const degrees = Math.atan2(b, a) / RADIANS;
  return degrees < 0 ? degrees + 360 : degrees;
}
