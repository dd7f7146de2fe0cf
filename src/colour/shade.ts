/** A shade as she states it: a hex code or CIELAB, with how sure it is. */
import { assert } from "../base/assert.ts";
import { labFromHex, type Lab } from "./lab.ts";

export interface Shade {
  /** "#rgb" or "#rrggbb", sRGB (IEC 61966-2-1). */
  hex?: string;
  /** CIELAB, D65, 2°. Counts where both are given. */
  lab?: readonly number[];
  /** A CIEDE2000 difference that holds the truth in 80 % of cases. */
  uncertainty?: number;
  /** How it is known. */
  from?: ShadeSource;
}

/**
 * "label": the maker's own figure; "photo": a photograph with a reference in it; "screen": compared on a screen with the ball beside
 * it; "eye": picked or typed; "picture": picked off a picture of something knitted, whose light nobody knows.
 */
export type ShadeSource = (typeof SHADE_SOURCES)[number];
export const SHADE_SOURCES = ["label", "photo", "screen", "eye", "picture"] as const;

/** CIELAB (D65, 2°) of a shade that was validated when it was read. */
export function labOfShade(shade: Shade): Lab {
  if (shade.lab) {
    const [lightness, a, b] = shade.lab;
    assert(lightness !== undefined && a !== undefined && b !== undefined, "a shade's lab has three numbers");
    return [lightness, a, b];
  }
  const lab = shade.hex === undefined ? null : labFromHex(shade.hex);
  assert(lab, "a shade has lab or a readable hex");
  return lab;
}
