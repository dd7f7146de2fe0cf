/** The part of a yarn that is the yarn: without the paper band, the tag or the card that lies in its outline. */
import { smoothed, type Plane } from "../../raster/plane.ts";
import type { Mask } from "./outline.ts";

/** Two colours are two things when so much of all difference lies between them: over 0.75 there is a gap. Our choice. */
const TWO_THINGS = 0.78;
/** Less than this part is a shine; our choice. */
const LEAST = 0.08;
/** Colour counts against lightness, which light changes too. Our choice. */
const WEIGHTS = [0.5, 2, 2] as const;

/**
 * A mask of the larger of two parts where a piece falls into two by colour, lying apart and not strand by strand; else the
 * mask itself. The cut is where the parts differ most (Otsu 1979), along the colour in which the piece changes most.
 *
 * @param planes lightness and two of colour, over the whole picture
 */
export function mainPart(mask: Mask, planes: readonly Plane[]): Mask {
  const { width, height, left, top } = mask;
  const soft = WEIGHTS.map((weight, axis) => {
    const plane = planes[axis]!;
    const part: Plane = { width, height, data: new Float32Array(width * height) };
    for (let y = 0, at = 0; y < height; y++)
      for (let x = 0; x < width; x++, at++) {
        const row = Math.max(0, Math.min(plane.height - 1, y + top));
        part.data[at] = weight * plane.data[row * plane.width + Math.max(0, Math.min(plane.width - 1, x + left))]!;
      }
    return smoothed(part, 1).data;
  });
  const own = Array.from(mask.data.keys()).filter((at) => mask.data[at]);
  const along = mostChange(own, soft);
  const sorted = Float64Array.from(own, (at) => along(at)).sort();
  const { cut, between } = bestCut(sorted);
  if (between < TWO_THINGS) return mask;
  const above = own.filter((at) => along(at) > cut);
  const share = above.length / own.length;
  if (Math.min(share, 1 - share) < LEAST) return mask;
  const data = new Float32Array(width * height);
  for (const at of own) data[at] = along(at) > cut === share >= 0.5 ? 1 : 0;
  return { ...mask, data };
}

/** Along the direction in which numbers vary most: some steps of power iteration on their covariance. */
function mostChange(own: readonly number[], axes: readonly Float32Array[]): (at: number) => number {
  const mean = axes.map((axis) => own.reduce((sum, at) => sum + axis[at]!, 0) / own.length);
  const covariance = axes.map((one, i) =>
    axes.map((other, j) => own.reduce((sum, at) => sum + (one[at]! - mean[i]!) * (other[at]! - mean[j]!), 0)),
  );
  let way = [1, 0.9, 0.8];
  for (let turn = 0; turn < 12; turn++) {
    const next = covariance.map((row) => row.reduce((sum, value, j) => sum + value * way[j]!, 0));
    const length = Math.hypot(...next) || 1;
    way = next.map((value) => value / length);
  }
  return (at) => axes.reduce((sum, axis, i) => sum + way[i]! * axis[at]!, 0);
}

/** Where sorted numbers are best cut in two, and what part of their variance then lies between the two. */
function bestCut(sorted: Float64Array): { readonly cut: number; readonly between: number } {
  const count = sorted.length;
  const total = sorted.reduce((sum, value) => sum + value, 0);
  const mean = total / count;
  const variance = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0) / count;
  let [cut, most, sum] = [sorted[0]!, 0, 0];
  for (let below = 1; below < count; below++) {
    sum += sorted[below - 1]!;
    const part = below / count;
    const between = part * (1 - part) * (sum / below - (total - sum) / (count - below)) ** 2;
    if (between > most) [cut, most] = [sorted[below - 1]!, between];
  }
  return { cut, between: variance > 0 ? most / variance : 0 };
}
