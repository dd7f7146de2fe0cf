/** A picture file opened by the browser: read in linear light, as closely as is asked and only where it is asked. */
import type { Outcome } from "../../base/problem.ts";
import { transform, type Matrix3 } from "../../base/matrix3.ts";
import { LINEAR_OF_BYTE } from "../../colour/srgb.ts";
import { clipBox, createRaster, type Box, type Raster } from "../../raster/raster.ts";
import { HEAD_BYTES, inInks, pictureHead, tooLarge, unopened } from "./pictureHead.ts";

export interface OpenPicture {
  /** Pixels, upright. */
  readonly width: number;
  readonly height: number;
  /**
   * The mean light of squares of `step` × `step` pixels inside the box, from its top left; what is left over at the far
   * edges is left away. `onStep` hears how much is done, 0 to 1.
   */
  readonly read: (box: Box, step: number, onStep?: (share: number) => void) => Raster;
  /** A small picture of the box for the eye, its longer side no more than `most` pixels. */
  readonly small: (box: Box, most: number) => OffscreenCanvas;
  /** Lets the memory go; nothing can be asked of it any more. */
  readonly close: () => void;
}

/** Pixels read from the browser at once: 8 MB, so that a large photograph never lies in memory twice. Our choice. */
const STRIP_PIXELS = 2_000_000;

/** A file that cannot be opened is a problem with a sentence. */
export async function openPicture(file: Blob): Promise<Outcome<OpenPicture>> {
  const head = pictureHead(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  const refused = tooLarge(head) ?? inInks(head);
  if (refused) return { value: null, problems: [refused] };
  // Turned upright by its own note, and in its own colours: a bitmap keeps what lies outside sRGB.
  const bitmap = await createImageBitmap(file).catch(() => null);
  if (!bitmap) return { value: null, problems: [unopened(head)] };
  return { value: opened(bitmap, head.hasProfile ? "display-p3" : "srgb"), problems: [] };
}

function opened(bitmap: ImageBitmap, colorSpace: PredefinedColorSpace): OpenPicture {
  const { width, height } = bitmap;
  return {
    width,
    height,
    read: (wanted, step, onStep) => {
      const box = clipBox(bitmap, wanted);
      const raster = createRaster(Math.floor(box.width / step), Math.floor(box.height / step));
      const deep = Math.max(1, Math.floor(STRIP_PIXELS / (raster.width * step) / step));
      const [across, down] = [raster.width * step, Math.min(deep, raster.height) * step];
      const canvas = new OffscreenCanvas(across, down);
      const context = contextOf(canvas, colorSpace);
      for (let row = 0; row < raster.height; row += deep) {
        const rows = Math.min(deep, raster.height - row);
        const pixels = [box.x, box.y + row * step, across, rows * step] as const;
        layWhite(context, across, rows * step);
        context.drawImage(bitmap, ...pixels, 0, 0, across, rows * step);
        const strip = context.getImageData(0, 0, across, rows * step, { colorSpace });
        addMeans(strip, step, raster, row);
        onStep?.((row + rows) / raster.height);
      }
      return raster;
    },
    small: (wanted, most) => {
      const box = clipBox(bitmap, wanted);
      const scale = Math.min(1, most / Math.max(box.width, box.height));
      const [across, down] = [Math.max(1, Math.round(box.width * scale)), Math.max(1, Math.round(box.height * scale))];
      const canvas = new OffscreenCanvas(across, down);
      const context = contextOf(canvas, colorSpace);
      context.imageSmoothingQuality = "high";
      layWhite(context, across, down);
      context.drawImage(bitmap, box.x, box.y, box.width, box.height, 0, 0, across, down);
      return canvas;
    },
    close: () => bitmap.close(),
  };
}

function contextOf(canvas: OffscreenCanvas, colorSpace: PredefinedColorSpace): OffscreenCanvasRenderingContext2D {
  return canvas.getContext("2d", { willReadFrequently: true, colorSpace })!;
}

/** What shines through is white paper, as viewers do. */
function layWhite(context: OffscreenCanvasRenderingContext2D, width: number, height: number): void {
  context.fillStyle = "#fff";
  context.fillRect(0, 0, width, height);
}

/** Linear Display P3 to linear sRGB. Source: W3C, CSS Color Module Level 4, sample code, rounded. */
export const SRGB_FROM_P3: Matrix3 = [
  1.2249401763, -0.2249401763, 0, -0.0420569547, 1.0420569547, 0, -0.0196375546, -0.0786360456, 1.0982736001,
];

/** Means of squares of a strip, laid down as rows of the raster from `firstRow` on. */
function addMeans(strip: ImageData, step: number, raster: Raster, firstRow: number): void {
  const { data, width } = strip;
  const rows = Math.floor(strip.height / step);
  // The browser says what it gave: one that knows no wide colours gives sRGB whatever was asked.
  const isWide = strip.colorSpace === "display-p3";
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < raster.width; column++) {
      let [r, g, b] = [0, 0, 0];
      for (let y = row * step; y < (row + 1) * step; y++) {
        const end = (y * width + (column + 1) * step) * 4;
        for (let at = (y * width + column * step) * 4; at < end; at += 4) {
          r += LINEAR_OF_BYTE[data[at]!]!;
          g += LINEAR_OF_BYTE[data[at + 1]!]!;
          b += LINEAR_OF_BYTE[data[at + 2]!]!;
        }
      }
      const part = 1 / (step * step);
      const to = ((firstRow + row) * raster.width + column) * 3;
      [r, g, b] = isWide ? transform(SRGB_FROM_P3, [r * part, g * part, b * part]) : [r * part, g * part, b * part];
      raster.data[to] = r;
      raster.data[to + 1] = g;
      raster.data[to + 2] = b;
    }
}
