/** The patches of a 24-patch chart whose place in the picture is known, and how well a place explains what is seen there. */
import { encodeSrgb, type LinearRgb } from "../../colour/srgb.ts";
import { linearFromLab } from "../../colour/lab.ts";
import type { Raster } from "../../raster/raster.ts";
import { CHART, CHART_LABS } from "./chart24.ts";
import { place, type Homography, type Point } from "./homography.ts";
import { leastSquares } from "./leastSquares.ts";

export interface SeenPatch {
  /** 0 to 23, row by row from the first patch. */
  readonly index: number;
  /** Linear light of the picture, as decoded: the median of each channel. */
  readonly rgb: LinearRgb;
  /** Pixels, the middle of the patch. */
  readonly at: Point;
  /** Spread within the patch, encoded 0 to 1. */
  readonly spread: number;
}

/** The part of a patch's pitch that is looked at: well inside the patch, the narrowest of which take up three quarters. */
const INSIDE = 0.5;
/** The part that a patch surely fills: looked at to find its middle. */
export const FILLED = 0.72;

/**
 * All 24 patches where `grid` takes (column, row), counted by the middles of patches from 0, to pixels; null where one lies
 * outside the picture.
 */
export function seePatches(picture: Raster, grid: Homography, points = 13, part = INSIDE): SeenPatch[] | null {
  const seen: SeenPatch[] = [];
  for (let index = 0; index < CHART_LABS.length; index++) {
    const patch = seePatch(picture, grid, index, points, part);
    if (!patch) return null;
    seen.push(patch);
  }
  return seen;
}

function seePatch(
  { width, height, data }: Raster,
  grid: Homography,
  index: number,
  points: number,
  part: number,
): SeenPatch | null {
  const column = index % CHART.columns;
  const row = Math.floor(index / CHART.columns);
  const channels: [number[], number[], number[]] = [[], [], []];
  for (let v = 0; v < points; v++)
    for (let u = 0; u < points; u++) {
      const [x, y] = place(grid, column + part * ((u + 0.5) / points - 0.5), row + part * ((v + 0.5) / points - 0.5));
      const [px, py] = [Math.floor(x), Math.floor(y)];
      if (!(px >= 0 && py >= 0 && px < width && py < height)) return null;
      for (let channel = 0; channel < 3; channel++) channels[channel]!.push(data[(py * width + px) * 3 + channel]!);
    }
  const ranked = (list: number[], share: number): number => list[Math.floor(share * (list.length - 1))]!;
  for (const list of channels) list.sort((one, other) => one - other);
  return {
    index,
    rgb: [ranked(channels[0], 0.5), ranked(channels[1], 0.5), ranked(channels[2], 0.5)],
    at: place(grid, column, row),
    spread: Math.max(...channels.map((list) => encodeSrgb(ranked(list, 0.95)) - encodeSrgb(ranked(list, 0.05)))),
  };
}

/** The chart's own colours, encoded as a screen would. */
const NOMINAL_ENCODED = CHART_LABS.map((lab) => linearFromLab(lab).map((value) => encodeSrgb(Math.max(0, value))));

export interface Match {
  /** Root mean square of what no curve per channel explains, encoded 0 to 1. */
  readonly misfit: number;
  /** Root mean square spread within patches, encoded 0 to 1. */
  readonly spread: number;
}

/** How well patches seen are those of the chart, through any smooth rising curve per channel. */
export function matchPatches(patches: readonly SeenPatch[]): Match {
  let squares = 0;
  let spreads = 0;
  for (let channel = 0; channel < 3; channel++) {
    const equations = patches.map(({ index, rgb }) => {
      const nominal = NOMINAL_ENCODED[index]![channel]!;
      return { factors: [1, nominal, nominal * nominal], value: encodeSrgb(rgb[channel]!), weight: 1 };
    });
    const curve = leastSquares(equations, [0, 1, 0], 0.05);
    const [slope, bend] = [curve[1]!, curve[2]!];
    const rises = slope > 0.25 && slope + 2 * bend > 0;
    for (const { factors, value } of equations)
      squares += rises ? (value - factors.reduce((sum, factor, at) => sum + factor * curve[at]!, 0)) ** 2 : 1;
  }
  for (const { spread } of patches) spreads += Math.min(0.3, spread) ** 2;
  return { misfit: Math.sqrt(squares / (3 * patches.length)), spread: Math.sqrt(spreads / patches.length) };
}

/** One number for how unlike the chart patches seen are: the misfit of their colours, and half of how uneven each is. */
export function unlikeness(patches: readonly SeenPatch[]): number {
  const { misfit, spread } = matchPatches(patches);
  return misfit + spread / 2;
}
