/** What an estimate of yarn rests on: constants she may replace by what she measured. */
import type { Gauge } from "../garment/gauge.ts";
import { MUNDEN_KS, SLACK } from "./loopLength.ts";

export interface AmountSettings {
  /** Munden's ks, without a unit. */
  readonly ks: number;
  /** One plain stitch as she measured it in her swatch; replaces the model in every section, through its gauge. Null: use ks. */
  readonly measured: MeasuredLoop | null;
  /** Float slack as a part of the width passed. */
  readonly slack: number;
  /** Metres lost to the two tails of one start and stop of a yarn. */
  readonly tailsM: number;
  /** A yarn that rests for more rounds than this is cut and joined again. */
  readonly restRounds: number;
  /** How many plain rows of yarn a section's cast-on takes, and its cast-off. */
  readonly castOnRows: number;
  readonly castOffRows: number;
  /** A duplicate stitch in plain loops, its travel included. */
  readonly duplicateLoops: number;
  /** Longest length one sews duplicate stitch with, in m. */
  readonly sewingLengthM: number;
  /** Yarn per length of an embroidered line. */
  readonly lineFactor: number;
  /** Reserve as a part of the metres needed. */
  readonly reserve: number;
  /** Grams of one ball to buy; null where unknown. */
  readonly ballGrams: number | null;
  /** A swatch that is still to be knitted, of every yarn as much as its part of the garment; null for none. */
  readonly swatch: { readonly stitches: number; readonly rows: number } | null;
}

export interface MeasuredLoop {
  readonly mm: number;
  /** Of the swatch in which it was measured. */
  readonly gauge: Gauge;
  /** Its error, as a share. */
  readonly within: number;
}

/** Metres lost at one start and stop: two tails of 15 cm; or a felted splice, 2.5 cm of overlap and 5 cm of waste. Source: trade.md 1.4. */
export const JOIN_M = { tails: 0.3, spliced: 0.075 } as const;

/**
 * Birthplaces: trade.md section 1. ks: a soaked and dried swatch. Tails: 15 cm (6 in) at each end, trade's usage.
 * Rest of 3 rounds, slack, duplicate stitch at 1.25 loops, reserve of 10 %: common practice, no source. Sewing length
 * 60 cm (24 in): trade's usage. Line factor: backstitch goes one step on the face and two on the back, by geometry.
 * Cast-on and cast-off are 0 because the charted part of a garment usually stands on ribbing; where it does not, and where
 * the sections say what they go on from, the trade counts the cast-on row twice and the cast-off row once: `CAST_ON_AND_OFF`.
 */
export const DEFAULT_SETTINGS: AmountSettings = {
  ks: MUNDEN_KS["wet-relaxed"],
  measured: null,
  slack: SLACK.usual,
  tailsM: JOIN_M.tails,
  restRounds: 3,
  castOnRows: 0,
  castOffRows: 0,
  duplicateLoops: 1.25,
  sewingLengthM: 0.6,
  lineFactor: 3,
  reserve: 0.1,
  ballGrams: null,
  swatch: null,
};

/** A swatch as wide as the trade asks for, 15 cm at 28 stitches, and some 13 cm high: 1800 loops. Source: trade.md 1.4. */
export const USUAL_SWATCH = { stitches: 45, rows: 40 } as const;

/** Sections that begin with a long-tail cast-on and end with a cast-off. Source: trade's usage (trade.md 1.4). */
export const CAST_ON_AND_OFF = { castOnRows: 2, castOffRows: 1 } as const;
