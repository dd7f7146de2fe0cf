/** DIN99o, where plain distance is nearly CIEDE2000: the space in which colours are gathered into heaps. */
import type { Vector3 } from "../base/matrix3.ts";
import type { Lab } from "./lab.ts";

/** L99, a99, b99: about 0 to 100, −50 to 50; a step of 1 is about 0.8 ΔE00. */
export type Din99 = Vector3;

/** Scales lightness so that white stays 100: 303.67 as the standard prints it. */
const LIGHTNESS_SCALE = 100 / Math.log(1.39);
const TURN = (26 * Math.PI) / 180;
const COS_TURN = Math.cos(TURN);
const SIN_TURN = Math.sin(TURN);

/**
 * DIN99o of CIELAB (D65), kE = kCH = 1.
 * Source: DIN 6176:2018-10; constants from memory, held against another library in the test.
 */
export function din99FromLab([lightness, a, b]: Lab): Din99 {
  const e = a * COS_TURN + b * SIN_TURN;
  const f = 0.83 * (b * COS_TURN - a * SIN_TURN);
  const grey = Math.hypot(e, f);
  const lightness99 = LIGHTNESS_SCALE * Math.log(1 + 0.0039 * lightness);
  if (grey === 0) return [lightness99, 0, 0];
  const chroma = Math.log(1 + 0.075 * grey) / 0.0435;
  const cos = e / grey;
  const sin = f / grey;
  return [lightness99, chroma * (cos * COS_TURN - sin * SIN_TURN), chroma * (sin * COS_TURN + cos * SIN_TURN)];
}
