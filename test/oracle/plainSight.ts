/**
 * A picture looked at from a distance once more: slow and plain, every sum written out and every level gone through, nothing kept,
 * skipped or shared between channels. Only what a level is (its frequency, its gain) is taken from src; thresholds are `plainEye.ts`.
 */
import { frequencyOf, POWER_GAIN } from "../../src/vision/pyramid.ts";
import { weigher, VEIL, type Triple } from "./plainEye.ts";

export type Grid = readonly (readonly number[])[];

export interface PlainSight {
  readonly distanceMm: number;
  readonly lux: number;
  readonly millimetresPerPixel: number;
  readonly stitch: { readonly widthMm: number; readonly heightMm: number };
  readonly threshold: number;
  readonly wraps: boolean;
  /** Luminance factor of the picture's mean. */
  readonly meanY: number;
}

/** (A, R, Y) of every pixel, row by row, before and after. The picture itself is what judges. */
export function plainSight(channels: readonly [Grid, Grid, Grid], sight: PlainSight): Grid[] {
  const { wraps } = sight;
  const height = channels[0].length;
  const room = Math.max(1, Math.floor(Math.log2(wraps ? height : Math.min(height, channels[0][0]!.length))) - 1);
  const blurs = channels.map((channel) => {
    const all: Grid[] = [channel];
    for (let level = 0; level < room; level++) all.push(halve(all[level]!, wraps));
    return all;
  });
  const details = blurs.map((all) =>
    all.slice(0, -1).map((fine, level) => less(fine, twice(all[level + 1]!, sizeOf(fine), wraps))),
  );
  const mean = (one: Grid, other: Grid): Grid => around(halve(product(one, other), wraps), wraps);
  const grounds = groundsIn(blurs[0]!, sight);
  const own = details.map((levels, channel) => {
    const powers = levels.map((detail) => mean(detail, detail));
    return powers.map((power, level) =>
      power.map((row, y) =>
        row.map((here, x) => {
          const fine = level > 0 ? halve(powers[level - 1]!, wraps)[y]![x]! : 0;
          const coarse = level + 1 < room ? twice(powers[level + 1]!, sizeOf(power), wraps)[y]![x]! : 0;
          const all = here + fine + coarse;
          if (all < 1e-14) return 0;
          // The balance is read in 97 steps.
          const balance = Math.round(48 * ((fine - coarse) / all)) / 48;
          const weight = weightAt(channel, frequencyOf(level, balance) / sight.millimetresPerPixel, sight);
          return (weight * all) / POWER_GAIN / grounds[level + 1]![y]![x]! ** 2;
        }),
      ),
    );
  });
  const joint = own[0]!.map((level, at) =>
    level.map((row, y) => row.map((v, x) => v + own[1]![at]![y]![x]! + own[2]![at]![y]![x]!)),
  );
  return channels.map((_, channel) => {
    const kinships = details[channel]!.map((detail, level) => {
      const coarser = details[channel]![level + 1];
      if (!coarser) return detail.map((row) => row.map(() => 0));
      const lent = twice(coarser, sizeOf(detail), wraps);
      const [together, here, there] = [mean(detail, lent), mean(detail, detail), mean(lent, lent)];
      return together.map((row, y) =>
        row.map((c, x) => (c > 1e-14 ? Math.min(1, c ** 2 / (here[y]![x]! * there[y]![x]!)) : 0)),
      );
    });
    // What every level gets from all coarser and from all finer ones, by kinship from each to the next.
    const parts = joint.map((level, at) => {
      let coarser: Grid = joint[room - 1]!;
      for (let l = room - 2; l >= at; l--) {
        const lent = product(twice(coarser, sizeOf(joint[l]!), wraps), kinships[l]!);
        coarser = l === at ? lent : sum(joint[l]!, lent);
      }
      let finer: Grid = joint[0]!;
      for (let l = 0; l < at; l++) {
        const lent = halve(product(finer, kinships[l]!), wraps);
        finer = l + 1 === at ? lent : sum(joint[l + 1]!, lent);
      }
      const all = [level, ...(at < room - 1 ? [coarser] : []), ...(at > 0 ? [finer] : [])].reduce(sum);
      return all.map((row) => row.map((v) => v ** 4 / (1 + v ** 4)));
    });
    const finest = (frequencyOf(0, 0) / sight.millimetresPerPixel) * degree(sight);
    const levels = Math.max(1, Math.min(room, Math.ceil(Math.log2(finest / 0.25)) + 1));
    let picture = blurs[channel]![levels]!;
    for (let level = levels - 1; level >= 0; level--) {
      const detail = details[channel]![level]!;
      picture = sum(
        twice(picture, sizeOf(detail), wraps),
        product(detail, linear(parts[level]!, sizeOf(detail), wraps)),
      );
    }
    return picture;
  });
}

const degree = ({ distanceMm }: PlainSight): number => 2 * distanceMm * Math.tan((0.5 * Math.PI) / 180);

/** 2 S² as in B2 and B7, for a patch of two cycles². q = 0.5 on the colour channels. */
function weightAt(channel: number, cyclesPerMm: number, sight: PlainSight): number {
  const { distanceMm, stitch, lux, meanY } = sight;
  const luminance = (lux * (meanY + VEIL)) / Math.PI;
  const patchMm2 = 3 / cyclesPerMm ** 2;
  const weights = weigher({ distanceMm, luminance, patchMm2, stitch })(cyclesPerMm);
  if (!weights) return 0;
  const of: Triple = [weights.masked, 0.25 * weights.redGreen, 0.25 * weights.yellowViolet];
  return (2 * of[channel]!) / sight.threshold ** 2;
}

function groundsIn(blurred: readonly Grid[], sight: PlainSight): Grid[] {
  const reach = Math.max(40, degree(sight));
  const wanted = Math.round(Math.log2(reach / 3 / sight.millimetresPerPixel));
  const level = Math.min(blurred.length - 1, Math.max(0, wanted));
  const grounds: Grid[] = [];
  // A of white is 1.0510.
  grounds[level] = around(blurred[level]!, sight.wraps).map((row) => row.map((a) => Math.max(0, a) + VEIL * 1.051));
  for (let l = level - 1; l >= 0; l--) grounds[l] = twice(grounds[l + 1]!, sizeOf(blurred[l]!), sight.wraps);
  for (let l = level + 1; l < blurred.length; l++) grounds[l] = halve(grounds[l - 1]!, sight.wraps);
  return grounds;
}

type Size = readonly [number, number];
const sizeOf = (grid: Grid): Size => [grid[0]!.length, grid.length];
const both =
  (of: (a: number, b: number) => number) =>
  (one: Grid, other: Grid): Grid =>
    one.map((row, y) => row.map((a, x) => of(a, other[y]![x]!)));
const sum = both((a, b) => a + b);
const less = both((a, b) => a - b);
const product = both((a, b) => a * b);

/** The place that stands for one past an edge: round the corner, or reflected at the outermost pixel. */
function placed(at: number, size: number, wraps: boolean): number {
  if (wraps) return ((at % size) + size) % size;
  if (size === 1) return 0;
  let place = at;
  while (place < 0 || place >= size) place = place < 0 ? -place : 2 * size - 2 - place;
  return place;
}

function convolved(grid: Grid, [width, height]: Size, step: number, kernel: readonly number[], wraps: boolean): Grid {
  const half = (kernel.length - 1) / 2;
  return Array.from({ length: height }, (_, y) =>
    Array.from({ length: width }, (_, x) => {
      let all = 0;
      kernel.forEach((across, i) =>
        kernel.forEach((down, j) => {
          const row = grid[placed(step * y + j - half, grid.length, false)]!;
          all += across * down * row[placed(step * x + i - half, row.length, wraps)]!;
        }),
      );
      return all;
    }),
  );
}

const halve = (grid: Grid, wraps: boolean): Grid =>
  convolved(
    grid,
    sizeOf(grid).map((pixels) => Math.ceil(pixels / 2)) as unknown as Size,
    2,
    [1, 4, 6, 4, 1].map((part) => part / 16),
    wraps,
  );

const around = (grid: Grid, wraps: boolean): Grid =>
  convolved(
    grid,
    sizeOf(grid),
    1,
    [1, 2, 3, 2, 1].map((part) => part / 9),
    wraps,
  );

/** Even places get (1, 6, 1)/8 of the coarse pixels about them, odd ones the half of two. Past the far edge the last goes on. */
function twice(grid: Grid, [width, height]: Size, wraps: boolean): Grid {
  const at = (place: number, size: number, wrapping: boolean): number =>
    place === size && !wrapping ? size - 1 : placed(place, size, wrapping);
  const taps = (place: number, size: number, wrapping: boolean): [number, number][] => {
    const c = place >> 1;
    const before = c === 0 && !wrapping && size === 1 ? 0 : at(c - 1, size, wrapping);
    const after = at(c + 1, size, wrapping);
    return place % 2 === 0
      ? [
          [before, 1 / 8],
          [c, 6 / 8],
          [after, 1 / 8],
        ]
      : [
          [c, 1 / 2],
          [after, 1 / 2],
        ];
  };
  return spread(grid, [width, height], taps, wraps);
}

function linear(grid: Grid, size: Size, wraps: boolean): Grid {
  const taps = (place: number, coarse: number, wrapping: boolean): [number, number][] => {
    const c = place >> 1;
    const after = wrapping ? (c + 1) % coarse : Math.min(c + 1, coarse - 1);
    return place % 2 === 0
      ? [[c, 1]]
      : [
          [c, 1 / 2],
          [after, 1 / 2],
        ];
  };
  return spread(grid, size, taps, wraps);
}

function spread(
  grid: Grid,
  [width, height]: Size,
  taps: (place: number, size: number, wrapping: boolean) => [number, number][],
  wraps: boolean,
): Grid {
  return Array.from({ length: height }, (_, y) =>
    Array.from({ length: width }, (_, x) => {
      let all = 0;
      for (const [j, down] of taps(y, grid.length, false))
        for (const [i, across] of taps(x, grid[0]!.length, wraps)) all += down * across * grid[j]![i]!;
      return all;
    }),
  );
}
