/** Encoded sRGB to linear light and back, because light adds up in proportion only before encoding. */
import type { Vector3 } from "../base/matrix3.ts";

/** Linear light with the primaries of sRGB; 0 to 1 inside the gamut, outside it any number. */
export type LinearRgb = Vector3;

/**
 * Linear light of one encoded channel. Both 0 to 1; outside, the curve is mirrored about 0 so that it stays invertible.
 * Source: IEC 61966-2-1:1999.
 */
export function decodeSrgb(encoded: number): number {
  const size = Math.abs(encoded);
  const linear = size <= 0.04045 ? size / 12.92 : ((size + 0.055) / 1.055) ** 2.4;
  return encoded < 0 ? -linear : linear;
}

/** Encoded channel of linear light: the inverse of `decodeSrgb`. Source: IEC 61966-2-1:1999. */
export function encodeSrgb(linear: number): number {
  const size = Math.abs(linear);
  const encoded = size <= 0.0031308 ? size * 12.92 : 1.055 * size ** (1 / 2.4) - 0.055;
  return linear < 0 ? -encoded : encoded;
}

/** Linear light of the 256 byte values: a picture asks for it millions of times. */
export const LINEAR_OF_BYTE: Float64Array = Float64Array.from({ length: 256 }, (_, byte) => decodeSrgb(byte / 255));

/** Three bytes, 0 to 255, to linear light. Fractions of a byte are allowed. */
export function linearFromBytes(red: number, green: number, blue: number): LinearRgb {
  return [decodeSrgb(red / 255), decodeSrgb(green / 255), decodeSrgb(blue / 255)];
}

/** Linear light to three bytes, clipped to the gamut channel by channel and rounded. */
export function bytesFromLinear(rgb: LinearRgb): [number, number, number] {
  return [byteFromLinear(rgb[0]), byteFromLinear(rgb[1]), byteFromLinear(rgb[2])];
}

/** One channel of linear light to a byte, clipped and rounded. */
export function byteFromLinear(linear: number): number {
  return Math.round(255 * Math.min(1, Math.max(0, encodeSrgb(linear))));
}

/** Linear light of "#rgb" or "#rrggbb" in either case; null where the text is no such code. */
export function parseHex(text: string): LinearRgb | null {
  const digits = /^#([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(text.trim())?.[1];
  if (digits === undefined) return null;
  const long = digits.length === 6 ? digits : digits.replace(/./g, "$&$&");
  const code = Number.parseInt(long, 16);
  return linearFromBytes(code >> 16, (code >> 8) & 255, code & 255);
}

/** "#rrggbb", clipped to the gamut. */
export function hexFromLinear(rgb: LinearRgb): string {
  return `#${bytesFromLinear(rgb)
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("")}`;
}
