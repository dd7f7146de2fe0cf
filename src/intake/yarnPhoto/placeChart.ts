/** A chart whose corners were shown by hand: by its frame or by its patches, so that the patches themselves are looked for near by. */
import type { Raster } from "../../raster/raster.ts";
import { CHART } from "./chart24.ts";
import { FILLED, matchPatches, seePatches, type SeenPatch } from "./chartPatches.ts";
import { homographyBetween, place, type Homography, type Point } from "./homography.ts";

/** Half a patch beyond the middle of the outermost, in pitches: patches take up about 0.86 of theirs. */
const EDGE = 0.43;
/** The outer corners of the patches, counted in (column, row) by their middles, clockwise from the first patch. */
export const CORNER_PLACES: readonly Point[] = [
  [-EDGE, -EDGE],
  [CHART.columns - 1 + EDGE, -EDGE],
  [CHART.columns - 1 + EDGE, CHART.rows - 1 + EDGE],
  [-EDGE, CHART.rows - 1 + EDGE],
];

/** How far beyond the middle of the outermost patches her corners may lie, in pitches: the patches' own edge to a wide frame. */
const MARGINS: readonly number[] = [0.38, 0.5, 0.7, 0.95, 1.25, 1.5];
/** Worse than this is not the chart: real photographs gave misfits of at most 0.06; our choice. */
export const WORST_MISFIT = 0.12;
const WORST_SPREAD = 0.12;

export interface PlacedChart {
  /** (column, row) by the middles of patches from 0, to pixels. */
  readonly grid: Homography;
  readonly patches: SeenPatch[];
}

/** @param corners four, clockwise from the first patch, pixels; null where the chart is not there */
export function placeChart(picture: Raster, corners: readonly Point[]): PlacedChart | null {
  // What lies outside the corners on one side does not depend on the other, so sides are tried one at a time, twice.
  let margins = [EDGE, EDGE, EDGE, EDGE];
  const gridOf = ([left, top, right, bottom]: number[]): Homography | null => {
    const [x0, y0, x1, y1] = [-left!, -top!, CHART.columns - 1 + right!, CHART.rows - 1 + bottom!];
    const places: Point[] = [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ];
    return homographyBetween(places, corners);
  };
  const costOf = (tried: number[]): number => costAt(picture, gridOf(tried));
  // All sides alike first, so that a wide frame is not met from a wrong side.
  for (const margin of MARGINS) {
    const tried = [margin, margin, margin, margin];
    if (costOf(tried) < costOf(margins)) margins = tried;
  }
  for (let round = 0; round < 3; round++)
    for (let side = 0; side < 4; side++)
      for (const margin of MARGINS) {
        const tried = margins.with(side, margin);
        if (costOf(tried) < costOf(margins)) margins = tried;
      }
  const grid = gridOf(margins);
  return grid && settledChart(picture, grid);
}

/** The chart at about this grid, moved corner by corner to where it explains most; null where it is no chart. */
export function settledChart(picture: Raster, start: Homography): PlacedChart | null {
  const ends: Point[] = [
    [0, 0],
    [CHART.columns - 1, 0],
    [CHART.columns - 1, CHART.rows - 1],
    [0, CHART.rows - 1],
  ];
  let corners = ends.map(([x, y]): Point => place(start, x, y));
  let cost = costAt(picture, start);
  const pitch = Math.hypot(corners[1]![0] - corners[0]![0], corners[1]![1] - corners[0]![1]) / (CHART.columns - 1);
  for (let step = pitch / 6; step > pitch / 60; step /= 2)
    for (let corner = 0; corner < 4; corner++)
      for (const [dx, dy] of [
        [step, 0],
        [-step, 0],
        [0, step],
        [0, -step],
      ] as const) {
        const [x, y] = corners[corner]!;
        const tried = corners.with(corner, [x + dx, y + dy]);
        const grid = homographyBetween(ends, tried);
        const found = costAt(picture, grid);
        if (found < cost) [cost, corners] = [found, tried];
      }
  const grid = homographyBetween(ends, corners);
  const patches = grid && seePatches(picture, grid);
  if (!patches) return null;
  const { misfit, spread } = matchPatches(patches);
  return misfit <= WORST_MISFIT && spread <= WORST_SPREAD ? { grid, patches } : null;
}

function costAt(picture: Raster, grid: Homography | null): number {
  const patches = grid && seePatches(picture, grid, 7, FILLED);
  if (!patches) return Infinity;
  const { misfit, spread } = matchPatches(patches);
  return misfit + 2 * spread;
}
