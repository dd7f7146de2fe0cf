/** What may be wrong with an area that somebody drew, in a sentence. */
import type { Problem } from "../../base/problem.ts";
import { boxOf, isRegion, pixelCount, type Area } from "./area.ts";

/** The fewest pixels of which a shade is told; our choice. */
const LEAST_PIXELS = 25;

/** Null where the area can be read. */
export function areaProblem(
  size: { readonly width: number; readonly height: number },
  area: Area,
  where: string,
): Problem | null {
  const noun = isRegion(area) ? "an outline" : "a box";
  if (isRegion(area) && area.outline.length < 3)
    return fault(where, "an outline of at least three points", `${area.outline.length}`);
  const { x, y, width, height } = boxOf(area);
  const told = [x, y, width, height].map((value) => Math.round(value)).join(",");
  const isInside = x >= 0 && y >= 0 && x + width <= size.width && y + height <= size.height;
  if (!isInside) return fault(where, `${noun} within ${size.width} × ${size.height} pixels`, told);
  if (pixelCount(area) < LEAST_PIXELS)
    return fault(
      where,
      `${noun} of at least ${LEAST_PIXELS} pixels`,
      `${Math.round(width)} × ${Math.round(height)} pixels`,
    );
  return null;
}

export const fault = (where: string, expected: string, got: string): Problem => ({
  where,
  expected,
  got,
  severity: "fault",
});
export const doubt = (where: string, expected: string, got: string): Problem => ({
  where,
  expected,
  got,
  severity: "doubt",
});
