/** The project record: what she has decided, and nothing that can be worked out again. */
import type { Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Place } from "../garment/place.ts";
import type { Yarn } from "../yarn/yarn.ts";

export const PROJECT_FORMAT = "twostrand-project";
export const PROJECT_VERSION = 1;

export type Verdict = "lost" | "faint" | "clear" | "strong";

export interface Look {
  at: Place;
  distanceM: number;
  lux?: number;
  verdict: Verdict;
  note?: string;
}

export interface Swatch {
  id: string;
  date?: string;
  chart: string;
  rows?: [number, number];
  colourway: string;
  washed?: boolean;
  gauge?: Gauge | null;
  /** As it was off the needles, before it was washed. */
  gaugeBefore?: Gauge | null;
  looks?: Look[];
}

/** What her own knitting is like, as measured on a plain swatch; hand-knit wool by what is usual where missing. */
export interface ClothMeasure {
  /** k: the cloth's light over the yarn's, in linear light. */
  factor?: number;
  /** Contrast of the cloth's own texture: of the stitch, and of what is uneven at all sizes. */
  texture?: { stitch: number; floor: number };
  note?: string;
}

export interface Knitting {
  section?: string;
  round?: number;
  /** The longest strand that she leaves uncaught at the back, cm. */
  floatCm?: number;
  /** Which of the two strands comes from below, chosen once for the whole garment: it stands out a little. */
  heldLow?: "ground" | "pattern";
  /** Yarn in one plain stitch as she measured it, at which gauge; its error as a share. */
  loop?: { mm: number; gauge: Gauge; within: number };
  /** Of floats, as a share of the width passed, as she measured it. */
  slack?: number;
  /** Yarn that is kept beside what is needed, as a share. */
  reserve?: number;
  joins?: "tails" | "spliced";
  weighed?: { yarn: string; grams: number; after: { section: string; round: number } }[];
}

/** Fields that this version does not know are kept as they came, at every level. */
export interface Project {
  format: typeof PROJECT_FORMAT;
  version: typeof PROJECT_VERSION;
  name: string;
  pattern: Pattern;
  yarns: Yarn[];
  colourways: Colourway[];
  swatches?: Swatch[];
  cloth?: ClothMeasure;
  knitting?: Knitting;
}
