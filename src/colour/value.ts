/** Lightness as knitters use it: how light a strong colour looks, and the four value classes. */
import { lchFromLab, type Lab } from "./lab.ts";

/**
 * Equivalent achromatic lightness L_EAL: a strong colour looks lighter than a grey of its L* (Helmholtz–Kohlrausch effect).
 * CIELAB D65 in; about 0 to 100 out, above 100 for light vivid colours.
 * Source: High, Green, Nussbaum 2023, Color Res. Appl., doi 10.1002/col.22839; form and coefficients as two public
 * implementations carry them. Limit: it steps by 0.006 C* at hues 90° and 270°, as published.
 * Example: L* 50, C* 50, hue 0° gives 65.66.
 */
export function perceivedLightness(lab: Lab): number {
  const [lightness, chroma, hueDegrees] = lchFromLab(lab);
  const hue = (hueDegrees * Math.PI) / 180;
  const blueYellow = 0.1644 * Math.abs(Math.sin((hue - Math.PI / 2) / 2)) + 0.0603;
  const isReddish = hueDegrees <= 90 || hueDegrees >= 270;
  const red = isReddish ? 0.1307 * Math.abs(Math.cos(hue)) + 0.006 : 0;
  return lightness + (blueYellow + red) * chroma;
}

/** Lightest first. */
export type ValueClass = "light" | "light-medium" | "medium-dark" | "dark";

/** The L* at which each class begins; below the last all is dark. */
export interface ValueLimits {
  readonly light: number;
  readonly lightMedium: number;
  readonly mediumDark: number;
}

/** Common practice, no published source; a setting. */
export const DEFAULT_VALUE_LIMITS: ValueLimits = { light: 72, lightMedium: 55, mediumDark: 35 };

/** The class of an L* (or of a perceived lightness), 0 to 100; a limit belongs to the lighter class. */
export function valueClass(lightness: number, limits: ValueLimits = DEFAULT_VALUE_LIMITS): ValueClass {
  if (lightness >= limits.light) return "light";
  if (lightness >= limits.lightMedium) return "light-medium";
  return lightness >= limits.mediumDark ? "medium-dark" : "dark";
}
