/** A picture in linear light, the only form in which averaging pixels gives the colour that is seen from afar. */
import { assert } from "../base/assert.ts";
import { byteFromLinear, decodeSrgb, LINEAR_OF_BYTE, type LinearRgb } from "../colour/srgb.ts";

export interface Raster {
  readonly width: number;
  readonly height: number;
  /** Linear light, sRGB primaries, three numbers to the pixel, rows from the top, each from the left. */
  readonly data: Float32Array;
  readonly millimetresPerPixel?: number;
}

/** A rectangle of whole pixels; x and y are counted from 0 at the top left. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A black raster. Width and height are whole numbers of at least 1. */
export function createRaster(width: number, height: number, millimetresPerPixel?: number): Raster {
  assert(Number.isInteger(width) && width > 0, `a raster of ${width} pixels wide`);
  assert(Number.isInteger(height) && height > 0, `a raster of ${height} pixels high`);
  const data = new Float32Array(width * height * 3);
  return millimetresPerPixel === undefined ? { width, height, data } : { width, height, data, millimetresPerPixel };
}

/**
 * A raster of encoded RGBA bytes, four to the pixel. What shines through is white paper, and it is laid under before
 * decoding, as viewers do, so that she gets the colours that she saw.
 */
export function rasterFromBytes(width: number, height: number, rgba: Uint8Array | Uint8ClampedArray): Raster {
  assert(rgba.length === width * height * 4, `${rgba.length} bytes for ${width} × ${height} pixels of four`);
  const raster = createRaster(width, height);
  const { data } = raster;
  for (let from = 0, to = 0; from < rgba.length; from += 4, to += 3) {
    const alpha = rgba[from + 3]!;
    for (let channel = 0; channel < 3; channel++) {
      const byte = rgba[from + channel]!;
      data[to + channel] =
        alpha === 255 ? LINEAR_OF_BYTE[byte]! : decodeSrgb((byte * alpha + 255 * (255 - alpha)) / (255 * 255));
    }
  }
  return raster;
}

/** Encoded RGBA bytes, opaque, clipped to the gamut and rounded. */
export function bytesFromRaster({ width, height, data }: Raster): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray(width * height * 4);
  for (let from = 0, to = 0; from < data.length; from += 3, to += 4) {
    rgba[to] = quickByte(data[from]!);
    rgba[to + 1] = quickByte(data[from + 1]!);
    rgba[to + 2] = quickByte(data[from + 2]!);
    rgba[to + 3] = 255;
  }
  return rgba;
}

/** The linear light from which on a byte or a higher one is nearest; a picture has no time for a power per channel. */
const BYTE_BEGINS = Float64Array.from({ length: 257 }, (_, byte) =>
  byte === 256 ? Infinity : decodeSrgb((byte - 0.5) / 255),
);
/** Steps fine enough that the right byte is at most one above that of its step: encoding rises by 12.92 · 255 / 4096 < 1. */
const BYTE_STEPS = 4096;
const BYTE_OF_STEP = Uint8Array.from({ length: BYTE_STEPS + 1 }, (_, step) => byteFromLinear(step / BYTE_STEPS));

function quickByte(linear: number): number {
  if (!(linear > 0)) return 0;
  if (linear >= 1) return 255;
  const byte = BYTE_OF_STEP[Math.floor(linear * BYTE_STEPS)]!;
  return linear >= BYTE_BEGINS[byte + 1]! ? byte + 1 : byte;
}

/** The part of a box that lies on the raster; empty boxes have a width or height of 0. */
export function clipBox({ width, height }: { readonly width: number; readonly height: number }, box: Box): Box {
  const x = Math.min(width, Math.max(0, box.x));
  const y = Math.min(height, Math.max(0, box.y));
  const right = Math.min(width, Math.max(x, box.x + box.width));
  const bottom = Math.min(height, Math.max(y, box.y + box.height));
  return { x, y, width: right - x, height: bottom - y };
}

/** The part of the raster inside the box; what of the box lies outside the raster is left away, but not all may. */
export function crop(raster: Raster, box: Box): Raster {
  const { x, y, width, height } = clipBox(raster, box);
  const part = createRaster(width, height, raster.millimetresPerPixel);
  for (let row = 0; row < height; row++) {
    const from = ((y + row) * raster.width + x) * 3;
    part.data.set(raster.data.subarray(from, from + width * 3), row * width * 3);
  }
  return part;
}

/** The mean light of the raster, or of the part of it inside the box. */
export function meanColour(raster: Raster, box: Box = { x: 0, y: 0, ...raster }): LinearRgb {
  const { x, y, width, height } = clipBox(raster, box);
  assert(width > 0 && height > 0, "a mean colour needs at least one pixel");
  const sum: [number, number, number] = [0, 0, 0];
  for (let row = y; row < y + height; row++) {
    const end = (row * raster.width + x + width) * 3;
    for (let at = (row * raster.width + x) * 3; at < end; at += 3) {
      sum[0] += raster.data[at]!;
      sum[1] += raster.data[at + 1]!;
      sum[2] += raster.data[at + 2]!;
    }
  }
  const pixels = width * height;
  return [sum[0] / pixels, sum[1] / pixels, sum[2] / pixels];
}
