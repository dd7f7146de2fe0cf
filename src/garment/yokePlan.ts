/** Where a chart stands in a yoke and in which rounds stitches go, so that every band's repeat divides the count of its own rounds. */
import { leastCommonMultiple } from "../base/divisors.ts";
import { assert } from "../base/assert.ts";
import type { Gauge } from "./gauge.ts";
import type { RoundBand } from "./rounds.ts";
import { YOKE_SHARES, yokeDecreases } from "./yoke.ts";

export interface YokePlanOf {
  /** Of the yoke, as deep as it should be. */
  readonly rounds: number;
  /** Where body and sleeves are joined. */
  readonly union: number;
  readonly gauge: Gauge;
  /** Of each chart row, lowest first, the band in which it lies; null in plain rows. Empty for a plain yoke. */
  readonly bandOfRow: readonly (RoundBand | null)[];
  /** Stitches beyond whole repeats: 1 where the yoke is cut open, so that both edges are alike. */
  readonly balance?: 0 | 1;
  /** Stitches of each row of a chart that narrows itself, by places without a stitch, lowest first. */
  readonly stitchesOfRow?: readonly number[];
}

export interface YokePart {
  readonly rounds: readonly [number, number];
  readonly stitches: number;
  /** What the percentage system would have there. */
  readonly wanted: number;
  /** Around the yoke, more than that or less. */
  readonly costCm: number;
  readonly bands: readonly { readonly id: string; readonly repeat: number; readonly times: number }[];
}

export interface YokePlan {
  readonly rounds: number;
  /** Plain rounds below the chart, at least one. */
  readonly before: number;
  /** Stitches of the first round: the union, with some more or fewer in its first round. */
  readonly stitches: number;
  readonly decreases: readonly { readonly round: number; readonly to: number }[];
  readonly parts: readonly YokePart[];
  /** Rounds of decreases that fall on the first row of a band, because no plain row is near. */
  readonly inPattern: readonly number[];
}

/**
 * Three rounds of decreases near half and three quarters of the depth and in the last round, each on a plain round between bands where there is
 * one, and counts that the repeats between them divide, near those of the percentage system. Of all rounds within a sixth of the depth, and all
 * heights at which the chart may stand, those with the least sum of centimetres (around the yoke, and up and down). A chart that is higher than
 * the yoke makes it deeper. Source of the system: trade.md 3.
 * Example: bands of 20, 15 and 10 stitches, each after a plain row, on a union of 380: 380, 285, 190 and a neck of 114.
 */
export function yokePlan(of: YokePlanOf): YokePlan {
  const { rounds: wanted, union, gauge, bandOfRow, balance = 0, stitchesOfRow = [] } = of;
  assert(wanted >= 4 && union >= 20, "a yoke has rounds and stitches");
  if (stitchesOfRow.some((stitches) => stitches !== stitchesOfRow[0])) return narrowingPlan(of, stitchesOfRow);
  // A plain round below the chart takes the difference to the union, one above it goes to the neck.
  const least = bandOfRow.length === 0 ? 0 : 1;
  const rounds = Math.max(wanted, bandOfRow.length + least + 1);
  const room = bandOfRow.length === 0 ? 0 : rounds - 1 - bandOfRow.length;
  let best: (Candidate & { before: number }) | null = null;
  for (let before = least; before <= room; before++) {
    const bandOf = (round: number): RoundBand | null => bandOfRow[round - 1 - before] ?? null;
    const found = bestRounds(bandOf, { rounds, union, gauge, balance });
    const cost = found.cost + BEFORE_COST * Math.abs(before - Math.min(room, gauge.rows / 5));
    if (!best || cost < best.cost - ROUNDING) best = { ...found, cost, before };
  }
  const { before, at, counts } = best!;
  const bandOf = (round: number): RoundBand | null => bandOfRow[round - 1 - before] ?? null;
  const starts = [1, ...at];
  const ideal = [union, ...yokeDecreases(union)];
  return {
    rounds,
    before,
    stitches: counts[0]!,
    decreases: at.map((round, index) => ({ round, to: counts[index + 1]! })),
    parts: counts.map((stitches, index): YokePart => {
      const span = [starts[index]!, (starts[index + 1] ?? rounds + 1) - 1] as const;
      return {
        rounds: span,
        stitches,
        wanted: ideal[index]!,
        costCm: ((stitches - ideal[index]!) * 10) / gauge.stitches,
        bands: bandsIn(bandOf, span).map(({ id, repeat }) => ({ id, repeat, times: (stitches - balance) / repeat })),
      };
    }),
    inPattern: at.filter((round) => bandOf(round) !== null),
  };
}

/**
 * A chart that narrows itself says where stitches go: as many of it as come nearest to the union, its top at the neck; what is still too wide there
 * goes in the last round.
 */
function narrowingPlan(
  { rounds: wanted, union, gauge, bandOfRow, balance = 0 }: YokePlanOf,
  stitchesOfRow: readonly number[],
): YokePlan {
  const rounds = Math.max(wanted, bandOfRow.length + 2);
  const before = rounds - 1 - bandOfRow.length;
  const times = Math.max(1, Math.round((union - balance) / stitchesOfRow[0]!));
  const countIn = (row: number): number => times * stitchesOfRow[row]! + balance;
  const ideals = yokeDecreases(union);
  const top = countIn(stitchesOfRow.length - 1);
  const neck = Math.max(2 * Math.round(ideals[2] / 2), Math.ceil(top / 2));
  const decreases = [
    ...stitchesOfRow.flatMap((stitches, row) =>
      row > 0 && stitches !== stitchesOfRow[row - 1] ? [{ round: before + row + 1, to: countIn(row) }] : [],
    ),
    ...(neck < top ? [{ round: rounds, to: neck }] : []),
  ];
  const counts = [countIn(0), ...decreases.map(({ to }) => to)];
  const starts = [1, ...decreases.map(({ round }) => round)];
  const bandOf = (round: number): RoundBand | null => bandOfRow[round - 1 - before] ?? null;
  return {
    rounds,
    before,
    stitches: counts[0]!,
    decreases,
    parts: counts.map((stitches, index): YokePart => {
      const span = [starts[index]!, (starts[index + 1] ?? rounds + 1) - 1] as const;
      const step = YOKE_SHARES.at.filter((share) => span[0] >= share * rounds).length;
      const ideal = [union, ...ideals][step]!;
      return {
        rounds: span,
        stitches,
        wanted: ideal,
        costCm: ((stitches - ideal) * 10) / gauge.stitches,
        bands: bandsIn(bandOf, span).map(({ id }) => ({ id, repeat: (stitches - balance) / times, times })),
      };
    }),
    inPattern: [],
  };
}

interface Candidate {
  readonly cost: number;
  /** The rounds of decreases. */
  readonly at: readonly number[];
  /** Stitches before and after each. */
  readonly counts: readonly number[];
}

/** Centimetres that a round of decreases inside pattern is held to cost. Our choice: it is harder to keep the motif than to live with a looser round. */
const IN_PATTERN_COST = 4;
/** Centimetres for a round that the chart stands away from two centimetres above the union. Our choice; it settles what costs nothing else. */
const BEFORE_COST = 0.02;
const ROUNDING = 1e-9;

function bestRounds(
  bandOf: (round: number) => RoundBand | null,
  { rounds, union, gauge, balance }: Required<Omit<YokePlanOf, "bandOfRow" | "stitchesOfRow">>,
): Candidate {
  const cmOfRound = 10 / gauge.rows;
  const window = Math.max(1, Math.floor(rounds / 6));
  const ideals = yokeDecreases(union);
  const mayDecrease = (round: number): boolean =>
    round > 1 && round < rounds && (bandOf(round) === null || bandOf(round) !== bandOf(round - 1));
  const near = (share: number): number[] => {
    const middle = Math.round(share * rounds);
    const found = Array.from({ length: 2 * window + 1 }, (_, index) => middle - window + index).filter(mayDecrease);
    // Where no band ends near there: the nearest round at which one does, or in the pattern.
    return found.length > 0 ? found : [...nearestOf(middle, rounds, mayDecrease), middle];
  };
  const step = (from: number, to: number): number =>
    leastCommonMultiple(bandsIn(bandOf, [from, to]).map(({ repeat }) => repeat));
  const placed = (round: number, share: number): number =>
    Math.abs(round - share * rounds) * cmOfRound + (bandOf(round) === null ? 0 : IN_PATTERN_COST);
  const counted = (repeat: number, wanted: number, most: number): number =>
    multipleNear(repeat, wanted - balance, most - balance) + balance;
  const neck = counted(2, ideals[2], Infinity);
  let best: Candidate | null = null;
  for (const first of near(YOKE_SHARES.at[0])) {
    const start = counted(step(1, first - 1), union, Infinity);
    for (const second of near(YOKE_SHARES.at[1])) {
      if (second <= first) continue;
      const middle = counted(step(first, second - 1), ideals[0], start - 1);
      const upper = counted(step(second, rounds - 1), ideals[1], middle - 1);
      const last = Math.min(neck, upper - 1);
      const around = [start - union, middle - ideals[0], upper - ideals[1], last - ideals[2]];
      const tight = [start, middle, upper].some((count, index) => 2 * [middle, upper, last][index]! < count);
      const cost =
        around.reduce((sum, stitches) => sum + (Math.abs(stitches) * 10) / gauge.stitches, 0) +
        placed(first, YOKE_SHARES.at[0]) +
        placed(second, YOKE_SHARES.at[1]) +
        (tight ? 1000 : 0);
      if (!best || cost < best.cost - ROUNDING)
        best = { cost, at: [first, second, rounds], counts: [start, middle, upper, last] };
    }
  }
  assert(best, "a yoke has rounds in which stitches may go");
  return best;
}

/** The multiple nearest to a number that is no more than another; at least one. */
function multipleNear(step: number, wanted: number, most: number): number {
  const nearest = Math.max(1, Math.round(wanted / step));
  const highest = Math.max(1, Math.floor(most / step));
  return Math.min(nearest, highest) * step;
}

function nearestOf(middle: number, rounds: number, may: (round: number) => boolean): number[] {
  const all = Array.from({ length: Math.max(0, rounds - 2) }, (_, index) => index + 2);
  return all
    .filter(may)
    .sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))
    .slice(0, 1);
}

function bandsIn(bandOf: (round: number) => RoundBand | null, [from, to]: readonly [number, number]): RoundBand[] {
  const found = new Set<RoundBand>();
  for (let round = from; round <= to; round++) {
    const band = bandOf(round);
    if (band) found.add(band);
  }
  return [...found];
}
