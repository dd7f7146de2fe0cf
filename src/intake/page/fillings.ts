/** What a filling that is no plain colour is like from afar: runs of colours and hatchings, each told from the others. */
import type { Point } from "../chartGrid.ts";
import type { PageShape } from "../pagePrimitives.ts";

/** "#rrggbb": the mean of a run of colours, stops at places from 0 to 1; null where there is none. */
export function meanOfStops(stops: readonly (readonly [place: number, hex: string])[]): string | null {
  const known = stops
    .filter(([place, hex]) => Number.isFinite(place) && /^#[0-9a-f]{6}$/i.test(hex))
    .toSorted((one, other) => one[0] - other[0]);
  if (known.length === 0) return null;
  const [first, last] = [known[0]!, known.at(-1)!];
  const all = [[0, first[1]] as const, ...known, [1, last[1]] as const];
  const sum = [0, 0, 0];
  for (let at = 1; at < all.length; at++) {
    const [from, to] = [all[at - 1]!, all[at]!];
    const wide = Math.max(0, Math.min(1, to[0]) - Math.max(0, from[0]));
    const [one, other] = [channels(from[1]), channels(to[1])];
    for (let channel = 0; channel < 3; channel++)
      sum[channel] = sum[channel]! + (wide * (one[channel]! + other[channel]!)) / 2;
  }
  return hexOf(sum);
}

/** "#rrggbb": a tile of a hatching, its shapes mixed by how much of it each covers; on white. */
export function meanOfTile(shapes: readonly PageShape[], area: number): string {
  let mean: readonly number[] = [255, 255, 255];
  for (const { outline, fill, stroke, lineWidth, opacity = 1 } of shapes) {
    const mix = (hex: string, covered: number): void => {
      const share = Math.min(1, covered / Math.max(area, 1e-9)) * opacity;
      const own = channels(hex);
      mean = mean.map((value, channel) => value * (1 - share) + own[channel]! * share);
    };
    if (fill !== null)
      mix(
        fill,
        outline.reduce((sum, run) => sum + areaOf(run), 0),
      );
    if (stroke !== null) mix(stroke, outline.reduce((sum, run) => sum + lengthOf(run), 0) * lineWidth);
  }
  return hexOf(mean);
}

/** Two hatchings may be as dark as one another: each has the nearest colour that is not taken, by which it is told. */
export class Fillings {
  private readonly hexes = new Map<string, string>();
  private readonly taken = new Set<string>();

  /** By `key`, which is equal for equal fillings alone. */
  hexFor(key: string, mean: () => string | null): string | null {
    const known = this.hexes.get(key);
    if (known !== undefined) return known;
    const wanted = mean();
    if (wanted === null || this.hexes.size >= MOST_FILLINGS) return wanted;
    let hex = wanted;
    for (let step = 1; this.taken.has(hex); step++) {
      const [red, green, blue] = channels(wanted) as [number, number, number];
      hex = hexOf([red, green, blue + (blue > 127 ? -step : step)]);
    }
    this.taken.add(hex);
    this.hexes.set(key, hex);
    return hex;
  }
}

const areaOf = (run: readonly Point[]): number =>
  Math.abs(
    run.reduce((sum, [x, y], at) => {
      const next = run[(at + 1) % run.length]!;
      return sum + x * next[1] - y * next[0];
    }, 0) / 2,
  );

const lengthOf = (run: readonly Point[]): number =>
  run.reduce((sum, [x, y], at) => (at === 0 ? 0 : sum + Math.hypot(x - run[at - 1]![0], y - run[at - 1]![1])), 0);

const channels = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
const hexOf = (values: readonly number[]): string =>
  `#${values
    .map((value) =>
      Math.max(0, Math.min(255, Math.round(value)))
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;

/** Fillings told apart on one page: a chart has some ten. Also keeps the search for a free colour short. */
const MOST_FILLINGS = 100;
