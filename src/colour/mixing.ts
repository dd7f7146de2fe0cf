/** Colours seen from so far that they melt: light averages by visible area, before any encoding. */
import { assert } from "../base/assert.ts";
import { labFromLinear, linearFromLab, type Lab } from "./lab.ts";
import type { LinearRgb } from "./srgb.ts";

/**
 * The mean of linear light by area (partitive mixing). Shares are areas in any unit, none negative; they need not sum to 1.
 * Limit: right for stitches and plies side by side; an intimate blend of fibres looks darker than this.
 */
export function mixLinear(parts: readonly { readonly linear: LinearRgb; readonly share: number }[]): LinearRgb {
  let red = 0;
  let green = 0;
  let blue = 0;
  let total = 0;
  for (const { linear, share } of parts) {
    red += share * linear[0];
    green += share * linear[1];
    blue += share * linear[2];
    total += share;
  }
  assert(total > 0, "a mixture has a part with a share above 0");
  return [red / total, green / total, blue / total];
}

/** The same for CIELAB (D65): mixed in linear light, told in Lab. */
export function mixLab(parts: readonly { readonly lab: Lab; readonly share: number }[]): Lab {
  return labFromLinear(mixLinear(parts.map(({ lab, share }) => ({ linear: linearFromLab(lab), share }))));
}
