/** A tally of yarn: kept apart by what a change of loop length or of slack would stretch. */
import { loopLengthMm, MUNDEN_KS, SLACK } from "./loopLength.ts";
import type { AmountSettings } from "./settings.ts";
import type { Gauge } from "../garment/gauge.ts";

export interface Tally {
  stitches: number;
  duplicateStitches: number;
  /** Yarn in the loops of the stitches. */
  loopsM: number;
  /** Width that the strand is carried behind, without slack. */
  passedM: number;
  /** How often it is joined and left again: two ends to hide each time. */
  joins: number;
  tailsM: number;
  /** Cast-on and cast-off. */
  edgesM: number;
  /** Its part of a swatch that is still to be knitted. */
  swatchM: number;
  /** Duplicate stitch, which follows the loops below it. */
  sewnLoopsM: number;
  /** Embroidered lines, which follow the gauge. */
  linesM: number;
}

export const emptyTally = (): Tally => ({
  stitches: 0,
  duplicateStitches: 0,
  loopsM: 0,
  passedM: 0,
  joins: 0,
  tailsM: 0,
  edgesM: 0,
  swatchM: 0,
  sewnLoopsM: 0,
  linesM: 0,
});

export const addTallies = (a: Tally, b: Tally): Tally => ({
  stitches: a.stitches + b.stitches,
  duplicateStitches: a.duplicateStitches + b.duplicateStitches,
  loopsM: a.loopsM + b.loopsM,
  passedM: a.passedM + b.passedM,
  joins: a.joins + b.joins,
  tailsM: a.tailsM + b.tailsM,
  edgesM: a.edgesM + b.edgesM,
  swatchM: a.swatchM + b.swatchM,
  sewnLoopsM: a.sewnLoopsM + b.sewnLoopsM,
  linesM: a.linesM + b.linesM,
});

/** All of a tally in metres; `loopFactor` stretches every loop. */
export function metresOf(tally: Tally, slack: number, loopFactor = 1): number {
  const loops = (tally.loopsM + tally.edgesM + tally.sewnLoopsM + tally.swatchM) * loopFactor;
  return loops + tally.passedM * (1 + slack) + tally.tailsM + tally.linesM;
}

/** Least and most metres: between dry and fully relaxed cloth, and from tight to loose floats. */
export function rangeOf(tally: Tally, settings: AmountSettings): { low: number; high: number } {
  const { ks, slack } = settings;
  const { measured } = settings;
  const lowFactor = measured ? 1 - measured.within : Math.sqrt(Math.min(ks, MUNDEN_KS["dry-relaxed"]) / ks);
  const highFactor = measured ? 1 + measured.within : Math.sqrt(Math.max(ks, MUNDEN_KS["fully-relaxed"]) / ks);
  return {
    low: metresOf(tally, Math.min(slack, SLACK.least), lowFactor),
    high: metresOf(tally, Math.max(slack, SLACK.most), highFactor),
  };
}

/** One stitch in mm: as measured in her swatch, and at another gauge as the law has it (l² goes with the stitches' area); else by the model. */
export function loopMm(gauge: Gauge, { measured, ks }: AmountSettings): number {
  if (!measured) return loopLengthMm(gauge, ks);
  const { mm, gauge: own } = measured;
  return mm * Math.sqrt((own.stitches * own.rows) / (gauge.stitches * gauge.rows));
}
