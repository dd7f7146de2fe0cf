/** A small difference of shade as three numbers, each in ΔE00: what CIEDE2000 says, straightened so that it can be fitted. */
import type { Lab } from "../../colour/lab.ts";

/** Lighter, and two directions of colour. */
export type Step = readonly [number, number, number];

/**
 * From one shade to another. Its length is about their ΔE00, the better the nearer they are. Source: the weights of CIE
 * 142-2001 (CIEDE2000) at the first shade, without the turn among blues and the wave over hues.
 */
export function shadeStep(from: Lab, to: Lab): Step {
  const chroma = Math.hypot(from[1], from[2]);
  const seventh = chroma ** 7;
  const stretched = 1 + 0.5 * (1 - Math.sqrt(seventh / (seventh + 25 ** 7)));
  const a = from[1] * stretched;
  const longer = Math.hypot(a, from[2]);
  const off = (from[0] - 50) ** 2;
  const light = (to[0] - from[0]) / (1 + (0.015 * off) / Math.sqrt(20 + off));
  const [da, db] = [(to[1] - from[1]) * stretched, to[2] - from[2]];
  // Nearly grey there is no direction of hue, and none is weighed.
  const [cos, sin] = longer > 1e-6 ? [a / longer, from[2] / longer] : [1, 0];
  return [light, (da * cos + db * sin) / (1 + 0.045 * longer), (db * cos - da * sin) / (1 + 0.015 * longer)];
}
