/** A 24-patch chart found in a picture by itself: patches of one colour that stand in a lattice and have the chart's colours. */
import type { Raster } from "../../raster/raster.ts";
import { shrinkBy } from "../../raster/resample.ts";
import { CHART } from "./chart24.ts";
import { unlikeness, seePatches } from "./chartPatches.ts";
import { flatPatches, type FlatPatch, type Flatness } from "./flatPatches.ts";
import { homographyBetween, type Homography, type Point } from "./homography.ts";
import { growLattice, stepsFrom, type Placed } from "./patchLattice.ts";
import { settledChart, WORST_MISFIT } from "./placeChart.ts";
import type { Watch } from "./survey.ts";

/** The longer sides, pixels, at which is looked, and how flat a patch must be there: usual, then grainy, then small and pale. */
const LOOKS: readonly (Flatness & { readonly side: number })[] = [
  { side: 640, step: 0.05, drift: 0.1 },
  { side: 1100, step: 0.05, drift: 0.1 },
  { side: 640, step: 0.025, drift: 0.06 },
  { side: 1100, step: 0.03, drift: 0.14 },
  { side: 400, step: 0.06, drift: 0.12 },
  { side: 1600, step: 0.05, drift: 0.1 },
];
/** Patches of the lattice that must have been seen; the others, black on black, are found by their place. */
const FEWEST_SEEN = 11;
/** Ground with a weave is full of little squares: after so many beginnings of a lattice, all likely ones have been tried. */
const MOST_BEGUN = 6000;

/** (column, row) by the middles of patches from 0, to pixels; null where no chart is found. */
export function findChart(picture: Raster, { onStep, stop }: Watch = {}): Homography | null | "stopped" {
  const shrunk = new Map<number, Raster>();
  for (const [index, look] of LOOKS.entries()) {
    if (stop?.()) return "stopped";
    onStep?.(index / LOOKS.length);
    const part = Math.min(1, look.side / Math.max(picture.width, picture.height));
    // What is enlarged shows no more.
    if (part === 1 && look.side > LOOKS[1]!.side) continue;
    const small = shrunk.get(part) ?? shrinkBy(picture, part);
    shrunk.set(part, small);
    const found = chartAmong(small, flatPatches(small, look), stop);
    if (!found) continue;
    const settled = settledChart(picture, scaled(found, [picture.width / small.width, picture.height / small.height]));
    if (settled) {
      onStep?.(1);
      return settled.grid;
    }
  }
  return stop?.() ? "stopped" : null;
}

const scaled = (h: Homography, [x, y]: Point): Homography => [
  h[0]! * x,
  h[1]! * x,
  h[2]! * x,
  h[3]! * y,
  h[4]! * y,
  h[5]! * y,
  h[6]!,
  h[7]!,
];

function chartAmong(small: Raster, flats: readonly FlatPatch[], stop: Watch["stop"]): Homography | null {
  let best: Homography | null = null;
  let least = WORST_MISFIT;
  let begun = 0;
  const spent = new Set<FlatPatch>();
  for (const seed of flats.toSorted((one, other) => other.area - one.area)) {
    if (spent.has(seed)) continue;
    if (begun > MOST_BEGUN || stop?.()) break;
    for (const [along, across] of stepsFrom(seed, flats)) {
      begun++;
      const placed = growLattice(seed, along, across, flats);
      if (placed.length < FEWEST_SEEN) continue;
      for (const { flat } of placed) spent.add(flat);
      const found = bestWindow(small, placed);
      if (!found || found.unlike > WORST_MISFIT) continue;
      if (found.unlike < least) [least, best] = [found.unlike, found.grid];
      break;
    }
  }
  return best;
}

interface Window {
  readonly grid: Homography;
  readonly unlike: number;
}

/** Of all ways to lay the chart on the lattice, any way round but not mirrored, the one whose colours are most like it. */
function bestWindow(small: Raster, placed: readonly Placed[]): Window | null {
  let best: Window | null = null;
  for (let turn = 0; turn < 4; turn++) {
    const turned = placed.map(({ on, flat }) => ({ on: turnedBy(on, turn), at: flat.at }));
    const columns = turned.map(({ on }) => on[0]);
    const rows = turned.map(({ on }) => on[1]);
    for (let left = Math.min(...columns) - 2; left <= Math.max(...columns) - CHART.columns + 3; left++)
      for (let top = Math.min(...rows) - 2; top <= Math.max(...rows) - CHART.rows + 3; top++) {
        const inside = turned
          .map(({ on, at }) => ({ on: [on[0] - left, on[1] - top] as const, at }))
          .filter(({ on: [x, y] }) => x >= 0 && y >= 0 && x < CHART.columns && y < CHART.rows);
        if (inside.length < FEWEST_SEEN) continue;
        const grid = homographyBetween(
          inside.map(({ on }) => on),
          inside.map(({ at }) => at),
        );
        const patches = grid && seePatches(small, grid, 3);
        const unlike = patches ? unlikeness(patches) : Infinity;
        if (grid && unlike < (best?.unlike ?? Infinity)) best = { grid, unlike };
      }
  }
  return best;
}

function turnedBy([x, y]: Point, turn: number): Point {
  return turn === 0 ? [x, y] : turnedBy([-y, x], turn - 1);
}
