/** Finds the key beside charts: swatches of colour, or signs in boxes, outside the grids. */
import type { Pixels } from "../raster/pixels.ts";
import type { Legend } from "./cellLooks.ts";
import type { ChartGrid } from "./chartGrid.ts";

export function findLegend(_pixels: Pixels, _grids: readonly ChartGrid[]): Legend {
  return { entries: [] };
}
