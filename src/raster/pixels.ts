/** A picture as a decoder hands it over: encoded bytes, a third of the memory that linear light takes. */
import { assert } from "../base/assert.ts";

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** sRGB, encoded, opaque (white paper laid under what shone through); four bytes to the pixel, rows from the top. */
  readonly rgba: Uint8ClampedArray;
}

/** The bytes as pixels; what shines through gets white paper under it, as viewers do. Changes the bytes in place. */
export function pixelsOf(width: number, height: number, rgba: Uint8ClampedArray): Pixels {
  assert(rgba.length === width * height * 4, `${rgba.length} bytes for ${width} × ${height} pixels of four`);
  for (let at = 3; at < rgba.length; at += 4) {
    const alpha = rgba[at]!;
    if (alpha === 255) continue;
    for (let channel = at - 3; channel < at; channel++)
      rgba[channel] = (rgba[channel]! * alpha + 255 * (255 - alpha)) / 255;
    rgba[at] = 255;
  }
  return { width, height, rgba };
}
