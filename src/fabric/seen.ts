/** The seen image: the fabric as it looks from a distance, at hand's scale, without the detail that could not be seen. */
import { assert } from "../base/assert.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { meanColour, type Raster } from "../raster/raster.ts";
import { lookAt, lookAtShading, type Look } from "../vision/eye.ts";
import type { Cloth } from "./cloth.ts";
import type { Viewing } from "./contrast.ts";
import { renderCloth, type RenderOptions } from "./render.ts";
import { eyeBefore, HUE_WEIGHT, USUAL_EYE } from "./visibility.ts";

/**
 * The cloth as `renderCloth` gives it, seen from a distance. The flat pattern, without the relief of the stitches, decides
 * what of the colours is lost; the relief is kept as far as its own light and shadow would be seen.
 * Source: vision.md B; a model of ordinary eyesight, not tested on knitting.
 */
export function seenCloth(cloth: Cloth, from: Viewing, options: Omit<RenderOptions, "surface">): Raster {
  const look = lookAtCloth(cloth, from);
  const knitted = renderCloth(cloth, options);
  const plain = cloth.inks.some(({ flecks }) => flecks.length > 0)
    ? renderCloth({ ...cloth, inks: cloth.inks.map((ink) => ({ ...ink, flecks: [] })) }, options)
    : knitted;
  const flat = renderCloth(cloth, { ...options, surface: "flat" });
  const squares = renderCloth(cloth, { ...options, surface: "square" });
  const colours = lookAt(flat, look, squares);
  const scale = knitted.millimetresPerPixel;
  assert(scale !== undefined, "a rendered cloth knows its scale");

  const { width, height } = knitted;
  const shading = new Float32Array(width * height);
  for (let at = 0, pixel = 0; at < knitted.data.length; at += 3, pixel++) {
    const under = flat.data[at]! + flat.data[at + 1]! + flat.data[at + 2]!;
    shading[pixel] = under > 1e-6 ? (plain.data[at]! + plain.data[at + 1]! + plain.data[at + 2]!) / under : 1;
  }
  const mean = meanColour(flat);
  const meanY = 0.2126 * mean[0] + 0.7152 * mean[1] + 0.0722 * mean[2];
  const relief = lookAtShading({ width, height, data: shading }, scale, meanY, look).data;
  const fine = reliefLeft(shading, relief);
  const data = new Float32Array(knitted.data.length);
  for (let at = 0, pixel = 0; at < data.length; pixel++) {
    const light = relief[pixel]!;
    const was = shading[pixel]!;
    for (let channel = 0; channel < 3; channel++, at++) {
      // What neither colour nor relief accounts for: flecks, and the mixed pixels at the edges of stitches.
      const rest = (knitted.data[at]! - flat.data[at]! * was) * fine;
      data[at] = Math.max(0, colours.data[at]! * light + rest);
    }
  }
  return { ...knitted, data };
}

/** How much of the relief is left, 0 to 1: what is as fine as fibres goes with it. */
function reliefLeft(before: Float32Array, after: Float32Array): number {
  let was = 0;
  let is = 0;
  for (let at = 0; at < before.length; at++) {
    was += (before[at]! - 1) ** 2;
    is += (after[at]! - 1) ** 2;
  }
  return was > 0 ? Math.min(1, Math.sqrt(is / was)) : 1;
}

export function lookAtCloth(cloth: Cloth, { distanceM, lux, texture }: Viewing): Look {
  const { widthMm, heightMm } = stitchSizeMm(cloth.gauge);
  return {
    distanceMm: distanceM * 1000,
    lux,
    texture: eyeBefore(texture).texture,
    textureFrequency: 1 / Math.sqrt(widthMm * heightMm),
    veil: USUAL_EYE.veil,
    hueWeight: HUE_WEIGHT.usual,
  };
}
