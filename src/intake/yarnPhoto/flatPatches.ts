/** Areas of one colour in a picture that are about as wide as high and have straight sides, as the patches of a chart are. */
import type { Raster } from "../../raster/raster.ts";
import type { Point } from "./homography.ts";

export interface FlatPatch {
  /** Pixels: its middle. */
  readonly at: Point;
  /** Pixels. */
  readonly area: number;
}

/** How unlike, encoded, neighbouring pixels of a patch may be, and each pixel and the patch's first: noise, and uneven light. */
export interface Flatness {
  readonly step: number;
  readonly drift: number;
}

/** Fewer pixels have no shape. */
const FEWEST = 24;
/** A patch fills no more than this part of the picture: two dozen of them do not lie on it otherwise. */
const MOST_PART = 1 / 20;
/** A parallelogram fills 1 of what its scatter says, an ellipse 1.05 and anything ragged less; our choice. */
const FULLNESS = { least: 0.83, most: 1.15 };
/** Longest over shortest spread, squared, of a patch seen at a slant; our choice. */
const SLIMMEST = 9;

export function flatPatches({ width, height, data }: Raster, { step, drift }: Flatness): FlatPatch[] {
  // The square root is near enough to how pictures are encoded, and quick.
  const encoded = new Float32Array(data.length);
  for (let at = 0; at < data.length; at++) encoded[at] = Math.sqrt(Math.min(1, Math.max(0, data[at]!)));
  const seen = new Uint8Array(width * height);
  const queue = new Int32Array(width * height);
  const isNear = (one: number, other: number, limit: number): boolean =>
    Math.abs(encoded[one * 3]! - encoded[other * 3]!) <= limit &&
    Math.abs(encoded[one * 3 + 1]! - encoded[other * 3 + 1]!) <= limit &&
    Math.abs(encoded[one * 3 + 2]! - encoded[other * 3 + 2]!) <= limit;
  const flats: FlatPatch[] = [];
  for (let first = 0; first < seen.length; first++) {
    if (seen[first]) continue;
    seen[first] = 1;
    queue[0] = first;
    let length = 1;
    let [sx, sy, sxx, sxy, syy] = [0, 0, 0, 0, 0];
    for (let head = 0; head < length; head++) {
      const pixel = queue[head]!;
      const x = pixel % width;
      const y = (pixel - x) / width;
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
      syy += y * y;
      for (let side = 0; side < 4; side++) {
        if ((side === 0 && x === 0) || (side === 1 && x === width - 1)) continue;
        const next = side === 0 ? pixel - 1 : side === 1 ? pixel + 1 : side === 2 ? pixel - width : pixel + width;
        if (next < 0 || next >= seen.length || seen[next]) continue;
        if (!isNear(pixel, next, step) || !isNear(first, next, drift)) continue;
        seen[next] = 1;
        queue[length++] = next;
      }
    }
    if (length < FEWEST || length > MOST_PART * seen.length) continue;
    const [mx, my] = [sx / length, sy / length];
    const [a, b, c] = [sxx / length - mx * mx, sxy / length - mx * my, syy / length - my * my];
    const determinant = Math.max(1e-9, a * c - b * b);
    // A parallelogram's area is 12 times the root of the determinant of its second moments.
    const fullness = length / (12 * Math.sqrt(determinant));
    const long = (a + c) / 2 + Math.hypot((a - c) / 2, b);
    if (fullness < FULLNESS.least || fullness > FULLNESS.most || long * long > SLIMMEST * determinant) continue;
    flats.push({ at: [mx + 0.5, my + 0.5], area: length });
  }
  return flats;
}
