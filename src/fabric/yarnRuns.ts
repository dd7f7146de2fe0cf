/** A variegated yarn as it comes off the ball: its colours in runs along the rounds, on from round to round. */
import { seededRandom } from "../base/random.ts";
import { NO_STITCH } from "../chart/chart.ts";
import type { Lab } from "../colour/lab.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";
import { fleckKindOf, partsOfYarn, type FleckKind } from "../yarn/flecks.ts";
import type { Fleck } from "../yarn/yarn.ts";
import type { Cloth, Ink } from "./cloth.ts";

/** Munden 1959: loops per cm² times the square of their length in cm, wet-relaxed (trade.md 1.1). */
const LOOPS_TIMES_LENGTH_SQUARED = 21.6;

/** Length of yarn in a knitted stitch, mm: an estimate from gauge alone, within about a tenth (trade.md 1). */
export function stitchLengthMm({ stitches, rows }: Gauge): number {
  return 10 * Math.sqrt(LOOPS_TIMES_LENGTH_SQUARED / ((stitches * rows) / 100));
}

export const fleckKindIn = (flecks: readonly Fleck[], gauge: Gauge): FleckKind =>
  fleckKindOf(flecks, stitchLengthMm(gauge));

/** One colour of a yarn. */
export interface YarnPart {
  readonly lab: Lab;
  readonly share: number;
  /** Of one run, mm; of the ground between flecks what their shares leave between two of them. */
  readonly lengthMm: number;
}

/** @param leastMm what a colour lasts at least */
export function partsAlong({ lab, flecks }: Pick<Ink, "lab" | "flecks">, leastMm: number): YarnPart[] {
  const shown = flecks.filter(({ share }) => share > 0);
  const parts = partsOfYarn({ id: "", name: "", shade: { lab }, flecks: [...shown] });
  const total = shown.reduce((sum, { share }) => sum + share, 0);
  const lengths = shown.map(({ lengthMm = 0 }) => Math.max(leastMm, lengthMm));
  const hasGround = parts.length > shown.length;
  // Between two flecks lies as much ground as there is to the flecks' own length.
  const mean = shown.reduce((sum, { share }, at) => sum + share / lengths[at]!, 0);
  const groundMm = Math.max(leastMm, (1 - total) / mean);
  return parts.map((part, at) => ({
    ...part,
    lengthMm: hasGround ? (at === 0 ? groundMm : lengths[at - 1]!) : lengths[at]!,
  }));
}

/** Stitches of a round where only a repeat of it is drawn: a grown-up's body at a usual gauge. Our choice. */
const ROUND = 240;

/**
 * The cloth as wide as it is drawn, with every stitch of a variegated yarn in the colour that the yarn has reached there; the
 * cloth itself where there is no such yarn. Yarn that is carried behind goes on as far as the stitches are wide.
 *
 * @param seed which of many equal balls
 */
export function laidInRuns(cloth: Cloth, repeatsAcross: number, seed: number): Cloth {
  const runs = runsOfInks(cloth);
  if (runs.size === 0) return cloth;
  const { grid, chart } = cloth;
  const width = grid.width * repeatsAcross;
  const wide = {
    cells: new Uint8Array(width * grid.height),
    knitted: new Uint8Array(width * grid.height),
    colours: new Uint8Array(width * grid.height),
  };
  for (let row = 0; row < grid.height; row++)
    for (let repeat = 0; repeat < repeatsAcross; repeat++) {
      const from = row * grid.width;
      const to = row * width + repeat * grid.width;
      wide.cells.set(cloth.cells.subarray(from, from + grid.width), to);
      wide.knitted.set(cloth.knitted.subarray(from, from + grid.width), to);
      wide.colours.set(grid.cells.subarray(from, from + grid.width), to);
    }
  const inks = [...cloth.inks];
  const rounds = Math.max(repeatsAcross, Math.ceil(ROUND / grid.width));
  const isFlat = chart.worked === "flat";
  for (const [ink, parts] of runs) {
    const first = inks.length;
    parts.forEach(({ lab }, at) =>
      inks.push({ ...cloth.inks[ink]!, lab, flecks: [], yarn: null, colour: `${cloth.inks[ink]!.colour} ${at + 1}` }),
    );
    const partAt = partsInTurn(parts, seed * 7919 + ink);
    eachStitch(cloth, ink, { repeatsAcross, rounds, isFlat }, (row, column, along) => {
      wide.cells[(row - 1) * width + column - 1] = first + partAt(along);
    });
  }
  const lines = Array.from({ length: repeatsAcross }, (_, repeat) =>
    cloth.lines.map(({ from, to, lab }) => ({
      from: [from[0], from[1] + repeat * grid.width] as const,
      to: [to[0], to[1] + repeat * grid.width] as const,
      lab,
    })),
  ).flat();
  return {
    ...cloth,
    grid: { ...grid, width, cells: wide.colours },
    cells: wide.cells,
    knitted: wide.knitted,
    inks,
    lines,
  };
}

/** By index of the ink; those that a cloth of at most 255 inks has no room for are left as they are. */
function runsOfInks({ inks, gauge }: Cloth): Map<number, readonly YarnPart[]> {
  const runs = new Map<number, readonly YarnPart[]>();
  let count = inks.length;
  inks.forEach((ink, index) => {
    if (ink.flecks.length === 0 || fleckKindIn(ink.flecks, gauge) !== "variegated") return;
    const parts = partsAlong(ink, stitchLengthMm(gauge));
    if (parts.length < 2 || count + parts.length > NO_STITCH) return;
    runs.set(index, parts);
    count += parts.length;
  });
  return runs;
}

interface Drawn {
  readonly repeatsAcross: number;
  /** How often the chart goes into the round. */
  readonly rounds: number;
  readonly isFlat: boolean;
}

/** Calls back with every drawn stitch of an ink, row and column from 1 at the bottom right, and how much yarn went before it, mm. */
function eachStitch(
  { grid, cells, gauge }: Cloth,
  ink: number,
  { repeatsAcross, rounds, isFlat }: Drawn,
  take: (row: number, column: number, along: number) => void,
): void {
  const knitted = stitchLengthMm(gauge);
  const carried = stitchSizeMm(gauge).widthMm;
  let before = 0;
  for (let row = 1; row <= grid.height; row++) {
    const line = cells.subarray((row - 1) * grid.width, row * grid.width);
    let own = 0;
    for (let at = 0; at < line.length; at++) if (line[at] === ink) own++;
    if (own === 0) continue;
    const repeat = own * knitted + (line.length - own) * carried;
    // Flat, every second row is worked from the left.
    const isBack = isFlat && row % 2 === 0;
    for (let which = 0; which < repeatsAcross; which++) {
      let along = which * repeat;
      for (let column = 1; column <= grid.width; column++) {
        const isOwn = line[column - 1] === ink;
        const middle = along + (isOwn ? knitted : carried) / 2;
        if (isOwn) take(row, which * grid.width + column, before + (isBack ? rounds * repeat - middle : middle));
        along += isOwn ? knitted : carried;
      }
    }
    before += rounds * repeat;
  }
}

/** A run is this much shorter or longer than the usual one, at most. Our choice: dyers and spinners are not exact. */
const UNEVEN = 0.35;

/** Which part of a yarn lies at a length of it, mm: runs by turns, so that in the long run each part has its share. */
function partsInTurn(parts: readonly YarnPart[], seed: number): (along: number) => number {
  const random = seededRandom(seed);
  const ends: number[] = [];
  const order: number[] = [];
  const laid = parts.map(() => 0);
  let total = 0;
  const grow = (): void => {
    let next = -1;
    let most = -Infinity;
    parts.forEach(({ share, lengthMm }, at) => {
      if (at === order.at(-1) && parts.length > 1) return;
      const owed = (share * (total + lengthMm) - laid[at]!) / lengthMm + 0.5 * random();
      if (owed > most) [next, most] = [at, owed];
    });
    const length = parts[next]!.lengthMm * (1 - UNEVEN + 2 * UNEVEN * random());
    laid[next]! += length;
    total += length;
    order.push(next);
    ends.push(total);
  };
  let low = 0;
  return (along) => {
    while (total <= along) grow();
    // Mostly it is the run that was asked for last, or the next.
    if (low > 0 && ends[low - 1]! > along) low = 0;
    if (ends[low]! <= along && ends[low + 1]! > along) low++;
    else if (ends[low]! <= along) {
      let high = ends.length - 1;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (ends[middle]! > along) high = middle;
        else low = middle + 1;
      }
    }
    return order[low]!;
  };
}
