/** Decodes pictures to linear light and encodes them; the only place that knows picture files. The library is large, so it is loaded when it is wanted. */
import { pixelsOf, type Pixels } from "../raster/pixels.ts";
import { rasterFromBytes, type Raster } from "../raster/raster.ts";
import { EXIT, Refusal } from "./io.ts";

/** What a file begins with, where it begins like a kind of file that we know. */
export type FileKind = "picture" | "pdf" | "svg" | "web page" | "other picture" | "nothing" | "text";

/** Source: the formats' own specifications (magic numbers of PNG, JPEG, RIFF/WebP, PDF, GIF, TIFF, BMP, ISO media). */
export function kindOfFile(bytes: Uint8Array): FileKind {
  if (bytes.length === 0) return "nothing";
  const start = Buffer.from(bytes.subarray(0, 512)).toString("latin1");
  if (start.startsWith("\x89PNG\r\n\x1a\n") || start.startsWith("\xff\xd8\xff")) return "picture";
  if (start.startsWith("RIFF") && start.slice(8, 12) === "WEBP") return "picture";
  if (/^.{4}ftypavi[fs]/s.test(start)) return "picture";
  if (start.startsWith("%PDF-")) return "pdf";
  if (/^GIF8|^II\*\0|^MM\0\*|^BM.{4}\0{4}|^.{4}ftyp/s.test(start)) return "other picture";
  if (/^(\xef\xbb\xbf)?\s*(<\?xml[^>]*>\s*)?(<!--.*?-->\s*)*(<!DOCTYPE svg[^>]*>\s*)?<svg[\s/>]/s.test(start))
    return "svg";
  if (/^(\xef\xbb\xbf)?\s*(<!--.*?-->\s*)*<(!DOCTYPE html|html|head|body)[\s/>]/is.test(start)) return "web page";
  return "text";
}

/** PNG, JPEG, WebP or AVIF in linear light, as she sees it. Refuses with 65. */
export async function decodePicture(path: string, bytes: Uint8Array): Promise<Raster> {
  const { width, height, data } = await decoded(path, bytes);
  return rasterFromBytes(width, height, data);
}

/** The same, encoded as it is shown: a third of the memory. */
export async function decodePixels(path: string, bytes: Uint8Array): Promise<Pixels> {
  const { width, height, data } = await decoded(path, bytes);
  return pixelsOf(width, height, new Uint8ClampedArray(data.buffer, data.byteOffset, data.length));
}

/** Turned as its camera was held, in sRGB, four bytes to the pixel. */
async function decoded(path: string, bytes: Uint8Array): Promise<{ width: number; height: number; data: Buffer }> {
  const { default: sharp } = await import("sharp");
  try {
    const { data, info } = await sharp(bytes, { failOn: "error" })
      .autoOrient()
      .toColourspace("srgb")
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, data };
  } catch (error) {
    const reason = error instanceof Error ? error.message.split("\n")[0] : String(error);
    throw new Refusal(
      EXIT.badInput,
      `${path} cannot be read as a picture (${reason}). Save it again as PNG and try that.`,
    );
  }
}

const MILLIMETRES_PER_INCH = 25.4;

/** A PNG in true size: the file says how many pixels an inch has. */
export async function encodePng(picture: {
  readonly width: number;
  readonly height: number;
  readonly millimetresPerPixel: number;
  readonly rgba: Uint8ClampedArray;
}): Promise<Uint8Array> {
  const { width, height, millimetresPerPixel, rgba } = picture;
  const { default: sharp } = await import("sharp");
  return sharp(rgba, { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .withMetadata({ density: MILLIMETRES_PER_INCH / millimetresPerPixel })
    .png()
    .toBuffer();
}
