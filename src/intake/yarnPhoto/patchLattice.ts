/** Patches that follow each other at even steps in two directions, as those of a chart do, at any slant. */
import type { FlatPatch } from "./flatPatches.ts";
import type { Point } from "./homography.ts";

export interface Placed {
  /** Column and row, counted from the first patch; rows run clockwise of columns, as on a picture that is not mirrored. */
  readonly on: Point;
  readonly flat: FlatPatch;
  readonly along: Point;
  readonly across: Point;
}

/** A step from patch to patch in patch widths: the gap between them is narrow. */
const STEP = { least: 0.8, most: 1.9 };
/** The sine of the angle between the two directions, at a slant. */
const LEAST_SINE = 0.6;
/** How far from where a neighbour is expected it may be, in steps: perspective changes them slowly. */
const ASTRAY = 0.25;
/** More than a chart has: a lattice that goes on is a weave. */
const MOST = 60;

/** Steps to two neighbours of about the same size, the second clockwise of the first, the nearest first: diagonals come last. */
export function stepsFrom(seed: FlatPatch, flats: readonly FlatPatch[]): [Point, Point][] {
  const side = Math.sqrt(seed.area);
  const steps = flats
    .filter((flat) => flat !== seed && areAlike(seed, flat))
    .map(({ at }): Point => [at[0] - seed.at[0], at[1] - seed.at[1]])
    .filter((step) => Math.hypot(...step) < STEP.most * side && Math.hypot(...step) > STEP.least * side);
  const pairs = steps.flatMap((along) =>
    steps
      .filter((across) => {
        const turn = along[0] * across[1] - along[1] * across[0];
        return turn > LEAST_SINE * Math.hypot(...along) * Math.hypot(...across);
      })
      .map((across): [Point, Point] => [along, across]),
  );
  const length = ([along, across]: [Point, Point]): number => Math.hypot(...along) + Math.hypot(...across);
  return pairs.sort((one, other) => length(one) - length(other));
}

const areAlike = (one: FlatPatch, other: FlatPatch): boolean => one.area < 2 * other.area && other.area < 2 * one.area;

/** From one patch outwards; each step is corrected by what was found beside it, so a slant does not matter. */
export function growLattice(seed: FlatPatch, along: Point, across: Point, flats: readonly FlatPatch[]): Placed[] {
  const reachOfAll = 9 * Math.sqrt(seed.area);
  const near = flats.filter(({ at }) => Math.hypot(at[0] - seed.at[0], at[1] - seed.at[1]) < reachOfAll);
  const placed: Placed[] = [{ on: [0, 0], flat: seed, along, across }];
  const taken = new Set<FlatPatch>([seed]);
  const used = new Set<string>(["0,0"]);
  for (const from of placed) {
    if (placed.length > MOST) break;
    for (const [column, row] of NEIGHBOURS) {
      const on: Point = [from.on[0] + column, from.on[1] + row];
      if (used.has(on.join())) continue;
      const step = column !== 0 ? from.along : from.across;
      const sign = column + row;
      const expected: Point = [from.flat.at[0] + sign * step[0], from.flat.at[1] + sign * step[1]];
      const reach = ASTRAY * Math.hypot(...step);
      const flat = near.find(
        (other) =>
          !taken.has(other) &&
          Math.hypot(other.at[0] - expected[0], other.at[1] - expected[1]) < reach &&
          areAlike(from.flat, other),
      );
      if (!flat) continue;
      taken.add(flat);
      used.add(on.join());
      const walked: Point = [sign * (flat.at[0] - from.flat.at[0]), sign * (flat.at[1] - from.flat.at[1])];
      placed.push({
        on,
        flat,
        along: column !== 0 ? walked : from.along,
        across: row !== 0 ? walked : from.across,
      });
    }
  }
  return placed;
}

const NEIGHBOURS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;
