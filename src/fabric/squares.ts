/** The cloth as plain squares of colour, at any size: the pattern alone, without the shape of stitches. */
import { NO_STITCH } from "../chart/chart.ts";
import { linearFromLab } from "../colour/lab.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import { createRaster, type Raster } from "../raster/raster.ts";
import type { Cloth } from "./cloth.ts";
import { drawLines, type DrawnPart } from "./embroidery.ts";

/** Cells stretched to a size in pixels; a pixel on an edge takes from each cell as much as it covers. */
export function squaresOf(
  cloth: Cloth,
  part: DrawnPart,
  size: { readonly width: number; readonly height: number },
): Raster {
  const raster = squaresInLight(
    cloth,
    part,
    size,
    cloth.inks.map(({ lab }) => linearFromLab(lab)),
  );
  drawLines(raster, cloth, part);
  return raster;
}

/** The same in any light, one for each ink, without lines. */
export function squaresInLight(
  { grid, gauge, cells }: Cloth,
  { from, to, repeatsAcross }: DrawnPart,
  { width, height }: { readonly width: number; readonly height: number },
  light: readonly LinearRgb[],
): Raster {
  const columns = grid.width * repeatsAcross;
  const raster = createRaster(width, height, (100 / gauge.stitches) * (columns / width));
  const across = sharesOf(columns, width);
  const lines = Array.from({ length: to - from + 1 }, (_, down) => lineOf(to - down));
  for (const { cell, pixel, share } of sharesOf(lines.length, height)) {
    const line = lines[cell]!;
    for (let at = 0, into = pixel * width * 3; at < line.length; at++, into++) raster.data[into]! += share * line[at]!;
  }
  return raster;

  function lineOf(row: number): Float32Array {
    const line = new Float32Array(width * 3);
    for (const { cell, pixel, share } of across) {
      const ink = cells[row * grid.width - 1 - (cell % grid.width)]!;
      const paint = ink === NO_STITCH ? ROOM : light[ink]!;
      for (let channel = 0; channel < 3; channel++) line[pixel * 3 + channel]! += share * paint[channel]!;
    }
    return line;
  }
}

/** The neutral room where there is no stitch. 0.4 of white in linear light. Our choice. */
export const ROOM: LinearRgb = [0.4, 0.4, 0.4];

/** Which cell covers which part of which pixel. */
function sharesOf(cells: number, pixels: number): { cell: number; pixel: number; share: number }[] {
  const shares: { cell: number; pixel: number; share: number }[] = [];
  for (let pixel = 0; pixel < pixels; pixel++) {
    const [start, end] = [(pixel * cells) / pixels, ((pixel + 1) * cells) / pixels];
    for (let cell = Math.floor(start); cell < end - 1e-9 && cell < cells; cell++) {
      const share = (Math.min(end, cell + 1) - Math.max(start, cell)) * (pixels / cells);
      if (share > 1e-9) shares.push({ cell, pixel, share });
    }
  }
  return shares;
}
