/** Stitches as pixels, one each: what the small pictures of charts and the drawing desk are painted from. */
import { NO_STITCH, type Grid } from "../../chart/chart.ts";
import { linearFromLab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import { bytesFromLinear } from "../../colour/srgb.ts";
import type { PatternColour } from "../../fabric/pattern.ts";

/** A canvas with a pixel a stitch; where there is no stitch it is clear. */
export function cellPicture(grid: Grid, pixels: Uint32Array): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  canvas.width = grid.width;
  canvas.height = grid.height;
  const context = canvas.getContext("2d")!;
  const image = context.createImageData(grid.width, grid.height);
  const packed = new Uint32Array(image.data.buffer);
  // Row 1 is lowest and column 1 rightmost, so the picture is the cells from the last to the first.
  const last = grid.cells.length - 1;
  for (let at = 0; at <= last; at++) packed[last - at] = pixels[grid.cells[at]!]!;
  context.putImageData(image, 0, 0);
  return canvas;
}

/** Stitches whose colour the pattern does not know; a checked file has none. */
const UNKNOWN = 0xff808080;

/** The pixel of every cell value, as a canvas keeps it in the memory of all today's machines: alpha, blue, green, red. */
export function cellPixels(ids: readonly string[], colours: readonly PatternColour[]): Uint32Array {
  const pixels = new Uint32Array(256).fill(UNKNOWN);
  pixels[NO_STITCH] = 0;
  for (const [index, id] of ids.entries()) {
    const colour = colours.find((one) => one.id === id);
    if (!colour) continue;
    const [r, g, b] = bytesFromLinear(linearFromLab(labOfShade(colour.shade)));
    pixels[index] = ((255 << 24) | (b << 16) | (g << 8) | r) >>> 0;
  }
  return pixels;
}
