/** What the planner of a swatch is asked: doubts as plain data from the check, her yarns, her budget. */
import type { Cloth } from "../fabric/cloth.ts";
import type { PatternColour } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { AmountSettings } from "./settings.ts";
import type { Pace, SwatchManner } from "./swatchManner.ts";
import type { SwatchRows } from "./swatchRows.ts";

export interface SwatchDoubt {
  readonly id: string;
  readonly kind: string;
  /** Chart rows that it is about. */
  readonly rows: readonly number[];
  readonly headline: string;
  /** How likely it is that what is told is wrong. */
  readonly chance: number;
  /** Each settles it where all its rows are knitted. */
  readonly options: readonly (readonly SwatchRows[])[];
  readonly times: number;
  /** 1/sd² of her threshold from which it is settled without being knitted. */
  readonly precision: number | null;
}

export interface SwatchQuestion {
  /** What the rows of the doubts are rows of: a chart as it is used, in its yarns. */
  readonly cloths: readonly { readonly cloth: Cloth; readonly section: string | null }[];
  readonly doubts: readonly SwatchDoubt[];
  /** What looks tell of her threshold, 1/sd², each wherever one of its options is knitted. */
  readonly looks: readonly { readonly information: number; readonly options: SwatchDoubt["options"] }[];
  /** 1/sd² of her threshold now. */
  readonly precision: number;
  readonly colours: readonly PatternColour[];
  readonly yarns: readonly Yarn[];
  readonly gauge: Gauge;
  /** In the round where missing. */
  readonly manner?: SwatchManner | undefined;
  readonly budget?: SwatchBudget | undefined;
  /** Hers; the usual one where missing. */
  readonly pace?: Pace | undefined;
  readonly settings?: Partial<AmountSettings> | undefined;
  /** Comparisons after which the search for the smallest is ended; some seconds' work where missing. */
  readonly most?: number | undefined;
}

/** The most stitches, or minutes at her pace; as many as it takes where missing. */
export type SwatchBudget = { readonly stitches: number } | { readonly minutes: number };
