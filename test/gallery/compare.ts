/** Pictures on disk for the gallery: written, read, and compared by eye-sized differences. */
import { join } from "node:path";
import sharp from "sharp";
import { bytesFromRaster, type Raster } from "../../src/raster/raster.ts";

export const pictureFile = (name: string): string => join(import.meta.dirname, "pictures", `${name}.png`);

export async function writePicture(file: string, raster: Raster): Promise<void> {
  const { width, height } = raster;
  await sharp(bytesFromRaster(raster), { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .png({ compressionLevel: 9 })
    .toFile(file);
}

export interface Difference {
  readonly sameSize: boolean;
  /** Largest and mean difference of a channel, in bytes. */
  readonly most: number;
  readonly mean: number;
}

export async function differenceFrom(file: string, raster: Raster): Promise<Difference> {
  const { data, info } = await sharp(file).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  if (info.width !== raster.width || info.height !== raster.height) return { sameSize: false, most: 255, mean: 255 };
  const rgba = bytesFromRaster(raster);
  let most = 0;
  let sum = 0;
  for (let at = 0; at < data.length; at++) {
    const difference = Math.abs(data[at]! - rgba[Math.floor(at / 3) * 4 + (at % 3)]!);
    most = Math.max(most, difference);
    sum += difference;
  }
  return { sameSize: true, most, mean: sum / data.length };
}
