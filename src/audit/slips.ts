/** What of how bands lie looks like a slip; all else is her taste. */
import type { Alignment } from "../chart/alignment.ts";
import type { Chart } from "../chart/chart.ts";
import type { BandStructure } from "../chart/structure.ts";
import type { Cloth } from "../fabric/cloth.ts";
import { rowsText } from "./context.ts";
import { THRESHOLDS } from "./thresholds.ts";

export type Slip = "one stitch" | "half a stitch";

/** What lies as nobody would want it. */
export function slipOf({ meets, offBy, repeats }: Pick<Alignment, "meets" | "offBy" | "repeats">): Slip | null {
  if (meets === "half a stitch") return "half a stitch";
  const repeat = Math.min(...repeats);
  if (meets !== "shifted" || offBy === null || repeat < THRESHOLDS.oneOffFromRepeat) return null;
  const away = Math.abs(offBy);
  return away === 1 || away === repeat / 2 - 1 ? "one stitch" : null;
}

/** The one pair of bands that lies otherwise than all the others. */
export function oddOneOut(all: readonly Alignment[]): Alignment | undefined {
  const plain = all.filter(({ meets }) => meets === "lined up" || meets === "half a repeat");
  for (const way of ["lined up", "half a repeat"] as const) {
    const [one, ...more] = plain.filter(({ meets }) => meets === way);
    if (one && more.length === 0 && plain.length > THRESHOLDS.othersAlike) return one;
  }
  return undefined;
}

/** A chart of an audit as it lies: of what was judged only so much. */
export interface Laid {
  readonly chart: Chart;
  readonly now: { readonly cloth: Cloth };
}

/** The colour of a band's figure. */
export const colourOf = ({ now: { cloth } }: Laid, { band }: Pick<BandStructure, "band">): string[] =>
  (band.pattern.length > 0 ? band.pattern : band.colours).slice(0, 1).map((colour) => cloth.grid.ids[colour]!);

export const nameOf = ({ band }: Pick<BandStructure, "band">): string =>
  band.name ?? rowsText(band.rows as [number, number]);
