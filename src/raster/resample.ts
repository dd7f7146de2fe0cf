/** Fewer pixels for the same picture: each new pixel is the mean light of the area that it covers. */
import { assert } from "../base/assert.ts";
import { createRaster, type Raster } from "./raster.ts";

/**
 * The raster shrunk to a width and height in pixels, each from 1 to what it has. Pixels that straddle a border count by
 * the part that lies inside, so the mean of the picture stays.
 */
export function shrink(raster: Raster, size: { readonly width: number; readonly height: number }): Raster {
  const { width, height } = size;
  assert(width <= raster.width && height <= raster.height, `shrinking to the larger ${width} × ${height}`);
  if (width === raster.width && height === raster.height) return raster;
  const scale = raster.millimetresPerPixel;
  const small = createRaster(width, height, scale === undefined ? undefined : (scale * raster.width) / width);
  const across = coverage(raster.width, width);
  const down = coverage(raster.height, height);
  const strip = new Float64Array(width * 3);
  const total = new Float64Array(width * 3);
  for (let row = 0; row < height; row++) {
    total.fill(0);
    for (let source = down.first[row]!; source <= down.last[row]!; source++) {
      shrinkRow(raster, source, across, strip);
      const part = partOf(down, row, source);
      for (let at = 0; at < strip.length; at++) total[at]! += part * strip[at]!;
    }
    small.data.set(total, row * width * 3);
  }
  return small;
}

/** The raster shrunk to a part of its width and height, above 0 to 1; at least one pixel is left each way. */
export function shrinkBy(raster: Raster, part: number): Raster {
  assert(part > 0 && part <= 1, `shrinking to ${part} of the size`);
  return shrink(raster, {
    width: Math.max(1, Math.round(raster.width * part)),
    height: Math.max(1, Math.round(raster.height * part)),
  });
}

/** Which old pixels each new one covers, and how much of the first and the last of them, as parts of the new one. */
interface Coverage {
  readonly first: Int32Array;
  readonly last: Int32Array;
  readonly firstPart: Float64Array;
  readonly lastPart: Float64Array;
  readonly wholePart: number;
}

function coverage(from: number, to: number): Coverage {
  const cover: Coverage = {
    first: new Int32Array(to),
    last: new Int32Array(to),
    firstPart: new Float64Array(to),
    lastPart: new Float64Array(to),
    wholePart: to / from,
  };
  for (let at = 0; at < to; at++) {
    // Borders are kept as whole numbers of 1/to of an old pixel, so that no sliver is born of rounding.
    const begin = at * from;
    const end = begin + from;
    const first = Math.floor(begin / to);
    const last = Math.ceil(end / to) - 1;
    cover.first[at] = first;
    cover.last[at] = last;
    cover.firstPart[at] = (Math.min(end, (first + 1) * to) - begin) / from;
    cover.lastPart[at] = (end - Math.max(begin, last * to)) / from;
  }
  return cover;
}

function partOf(cover: Coverage, at: number, source: number): number {
  if (source === cover.first[at]!) return cover.firstPart[at]!;
  return source === cover.last[at]! ? cover.lastPart[at]! : cover.wholePart;
}

function shrinkRow({ width, data }: Raster, row: number, across: Coverage, strip: Float64Array): void {
  const start = row * width * 3;
  for (let column = 0; column < strip.length / 3; column++) {
    let red = 0;
    let green = 0;
    let blue = 0;
    for (let source = across.first[column]!; source <= across.last[column]!; source++) {
      const part = partOf(across, column, source);
      const at = start + source * 3;
      red += part * data[at]!;
      green += part * data[at + 1]!;
      blue += part * data[at + 2]!;
    }
    strip[column * 3] = red;
    strip[column * 3 + 1] = green;
    strip[column * 3 + 2] = blue;
  }
}
