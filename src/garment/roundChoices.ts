/** The ways to let a piece take whole repeats, each with the centimetres that it costs: the trade's answers to a count that does not divide. */
import { leastCommonMultiple } from "../base/divisors.ts";
import { repeatsThatFit, roundsThatFit } from "./fitting.ts";
import type { Gauge } from "./gauge.ts";

/** A band that is knitted in the round: its id and its repeat in stitches. */
export interface Repeating {
  readonly id: string;
  readonly repeat: number;
}

export interface WantedRound {
  /** Around the piece. */
  readonly cm: number;
  readonly gauge: Gauge;
  readonly bands: readonly Repeating[];
  /** Stitches beyond whole repeats that make both edges alike: 1 where the piece is cut open, 0 where it closes. */
  readonly balance: 0 | 1;
  /** Of the piece, for what another gauge does to its height. */
  readonly rounds: number;
  /** Plain rounds that must come out even, or in fours for a rib: 1 where any count will do. */
  readonly every?: number;
}

export type RoundChoice = {
  /** Stitches that the chart is knitted on. */
  readonly stitches: number;
  /** Stitches of each of the two side panels. */
  readonly panel: number;
  /** Around the piece as it will be. */
  readonly cm: number;
  /** More than wanted, or less. */
  readonly costCm: number;
} & (
  | { readonly how: "as it is" | "whole repeats" | "nearest" }
  | { readonly how: "side panels"; readonly panelCm: number }
  | {
      readonly how: "another gauge";
      readonly gauge: Gauge;
      /** By how much the piece becomes higher. */
      readonly heightCm: number;
    }
  | {
      readonly how: "another repeat";
      /** Bands whose repeat does not go in, and the repeats that do; their chart would have to be drawn so. */
      readonly repeats: readonly { readonly id: string; readonly from: number; readonly to: number }[];
    }
);

/** More than a needle's size or two changes the cloth. Birthplace: our choice; half a stitch in 10 cm is common from one size to the next. */
const MOST_GAUGE_CHANGE = 0.06;

/**
 * All ways, the cheapest first: as it is where the nearest count takes every repeat; the next rounds of whole repeats below and above; whole
 * repeats at front and back with plain panels at the sides; whole repeats at another gauge; the count as it is with other repeats.
 * Source of the ways: trade.md 3 (common practice).
 * Example: 324 stitches at 28 to 10 cm with a repeat of 20: 320 (−1.4 cm) or 340 (+5.7 cm); 16 repeats between panels of 2; a repeat of 18.
 */
export function roundChoices(wanted: WantedRound): RoundChoice[] {
  const { cm, gauge, bands, balance, every = 1 } = wanted;
  const perCm = gauge.stitches / 10;
  const repeats = bands.map(({ repeat }) => repeat);
  const nearest = Math.max(every, Math.round((cm * perCm) / every) * every);
  if (repeats.length === 0)
    return [{ how: "nearest", stitches: nearest, panel: 0, cm: nearest / perCm, costCm: nearest / perCm - cm }];
  const { below, above } = roundsThatFit(Math.max(1, Math.round(cm * perCm) - balance), repeats);
  const counts = [...new Set([below, above])].filter((count) => count !== null).map((count) => count + balance);
  const exact = counts.find((count) => count === Math.round(cm * perCm));
  const whole = (stitches: number): RoundChoice => ({
    how: stitches === exact ? "as it is" : "whole repeats",
    stitches,
    panel: 0,
    cm: stitches / perCm,
    costCm: stitches / perCm - cm,
  });
  if (exact !== undefined) return [whole(exact)];
  const found = [
    ...counts.map(whole),
    ...sidePanels(wanted, repeats),
    ...counts.flatMap((count) => otherGauge(wanted, count)),
    ...otherRepeats(wanted, nearest),
  ];
  return found.sort((a, b) => micrometres(a.costCm) - micrometres(b.costCm) || ORDER[a.how] - ORDER[b.how]);
}

/** Sums of divisions miss by less than any ruler shows. */
const micrometres = (cm: number): number => Math.round(Math.abs(cm) * 10_000);

/** Of two that cost the same the one that asks less of her comes first. Our choice. */
const ORDER: Readonly<Record<RoundChoice["how"], number>> = {
  "as it is": 0,
  nearest: 0,
  "whole repeats": 1,
  "side panels": 2,
  "another gauge": 3,
  "another repeat": 4,
};

function sidePanels({ cm, gauge, balance }: WantedRound, repeats: readonly number[]): RoundChoice[] {
  const perCm = gauge.stitches / 10;
  const step = leastCommonMultiple(repeats);
  const all = Math.round(cm * perCm) - balance;
  const half = Math.floor(all / 2 / step) * step;
  if (half === 0) return [];
  const panel = Math.round((all - 2 * half) / 2);
  if (panel === 0) return [];
  const stitches = 2 * half + balance;
  const found = (stitches + 2 * panel) / perCm;
  return [{ how: "side panels", stitches, panel, cm: found, costCm: found - cm, panelCm: panel / perCm }];
}

function otherGauge({ cm, gauge, rounds }: WantedRound, stitches: number): RoundChoice[] {
  const factor = (10 * stitches) / cm / gauge.stitches;
  if (Math.abs(factor - 1) > MOST_GAUGE_CHANGE) return [];
  const changed = { stitches: gauge.stitches * factor, rows: gauge.rows * factor };
  const heightCm = (rounds * 10) / changed.rows - (rounds * 10) / gauge.rows;
  return [{ how: "another gauge", stitches, panel: 0, cm, costCm: 0, gauge: changed, heightCm }];
}

/** Repeats for the count as it is, where every band has one that goes in and is no other motif. */
function otherRepeats({ cm, gauge, bands, balance }: WantedRound, nearest: number): RoundChoice[] {
  const closed = nearest - balance;
  const changes = bands.flatMap(({ id, repeat }) => {
    if (closed % repeat === 0) return [];
    const { below, above } = repeatsThatFit(closed, repeat);
    const goes = [below, above].filter((to): to is number => to !== null && to > 1);
    const to = goes.sort((a, b) => Math.abs(a - repeat) - Math.abs(b - repeat))[0];
    return [{ id, from: repeat, to: to ?? 1 }];
  });
  // A repeat of less than half is another motif. Our choice, as in repeatsThatFit.
  if (changes.length === 0 || changes.some(({ from, to }) => to * 2 < from)) return [];
  const found = nearest / (gauge.stitches / 10);
  return [{ how: "another repeat", stitches: nearest, panel: 0, cm: found, costCm: found - cm, repeats: changes }];
}

/** How far a round may be from what is wanted before plain panels are better: half of the least step of ease, 2.5 cm. Our choice. */
const TOLERATED_CM = 2.5;

/** The choice that is made where she has made none: whole repeats if they come near, else panels where the piece has sides, else the nearest whole repeats. */
export function usualChoice(choices: readonly RoundChoice[], hasSides: boolean): RoundChoice {
  const whole = choices.find(({ how }) => how === "as it is" || how === "nearest" || how === "whole repeats")!;
  if (Math.abs(whole.costCm) <= TOLERATED_CM || !hasSides) return whole;
  return choices.find(({ how }) => how === "side panels") ?? whole;
}
