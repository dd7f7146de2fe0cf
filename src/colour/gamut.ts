/** What an sRGB screen can show of CIELAB, so that a picker may say what it cannot. */
import { labFromLch, lchFromLab, linearFromLab, type Lab } from "./lab.ts";

/** A channel this far outside 0 to 1 still rounds to the byte at its end: half a byte near black, encoded. */
const ROUNDING = 1e-4;

/** Whether a screen with the primaries of sRGB (IEC 61966-2-1) can show the colour (CIELAB, D65). */
export function isOnScreen(lab: Lab): boolean {
  return linearFromLab(lab).every((channel) => channel >= -ROUNDING && channel <= 1 + ROUNDING);
}

/** The colour itself where a screen can show it, else the nearest in chroma at its hue and lightness; L* is held to 0 to 100. */
export function ontoScreen(lab: Lab): Lab {
  const [lightness, chroma, hue] = lchFromLab([Math.min(100, Math.max(0, lab[0])), lab[1], lab[2]]);
  return labFromLch([lightness, Math.min(chroma, mostChroma(lightness, hue)), hue]);
}

/** The greatest chroma that a screen shows at a lightness (L* 0 to 100) and hue (degrees), within 0.01. */
export function mostChroma(lightness: number, hueDegrees: number): number {
  let inside = 0;
  let outside = 150;
  while (outside - inside > 0.01) {
    const middle = (inside + outside) / 2;
    if (isOnScreen(labFromLch([lightness, middle, hueDegrees]))) inside = middle;
    else outside = middle;
  }
  return inside;
}
