/** The manners of knitting a swatch: what each adds to its width, its yarn and its time. */
import type { Worked } from "../chart/floats.ts";

/**
 * "round": a tube, cut open at a few stitches that are not the pattern's, so that it lies flat. "flat": to and fro. "speed": every row from
 * the right side, the strands carried loosely across the back and cut when it is done.
 */
export type SwatchManner = "round" | "flat" | "speed";

export interface MannerOf {
  /** How its strands run. */
  readonly worked: Worked;
  /** How its chart is read: every row from the right side, or to and fro. */
  readonly reads: Worked;
  /** Edge stitches at the right and at the left. */
  readonly edges: readonly [number, number];
  /** Strand that every yarn of a row takes back across it, as a part of its width: as told, and at least and most. */
  readonly acrossBack: { readonly usual: number; readonly least: number; readonly most: number };
  /** Minutes that each row takes beside its stitches. */
  readonly rowMinutes: number;
  readonly said: string;
}

const NOTHING = { usual: 0, least: 0, most: 0 } as const;

/**
 * Edges: in the round five stitches to cut in the middle (a steek's usual number, trade.md 3); flat one at each side. Across the back half as
 * much again as the width, so that it lies flat before it is cut, and ten seconds a row to go back and lay it. Common practice, no source.
 */
export const MANNERS: Readonly<Record<SwatchManner, MannerOf>> = {
  round: {
    worked: "round",
    reads: "round",
    edges: [0, 5],
    acrossBack: NOTHING,
    rowMinutes: 0,
    said: "Knit it in the round; the last 5 stitches of each round are not the pattern's, take both strands by turns in them, and cut in the middle of them once it is washed and dry. Sew beside the cut first where the wool does not felt.",
  },
  flat: {
    worked: "flat",
    reads: "flat",
    edges: [1, 1],
    acrossBack: NOTHING,
    rowMinutes: 0,
    said: "Knit it to and fro, with both strands in the edge stitches. Knitted flat it comes out otherwise in gauge than in the round: believe it for colours, not for size.",
  },
  speed: {
    worked: "flat",
    reads: "round",
    edges: [1, 1],
    acrossBack: { usual: 1.5, least: 1.2, most: 2 },
    rowMinutes: 1 / 6,
    said: "Knit every row from the right side: carry the strands loosely across the back to where the row began, and cut them when it is done. Work the edge stitches with both strands.",
  },
};

/** Stitches a minute in two colours. */
export interface Pace {
  readonly stitches: number;
  readonly least: number;
  readonly most: number;
}

/** Twenty, between twelve and thirty. Common practice, no source; her own is better. */
export const USUAL_PACE: Pace = { stitches: 20, least: 12, most: 30 };

/** A pace that she has counted: evenings differ by an eighth or so. Our choice. */
export const paceCounted = (stitches: number): Pace => ({ stitches, least: stitches * 0.875, most: stitches * 1.125 });

/** @param rows knitted; cast-on and cast-off come to it, each as long as a row */
export const minutesFor = (rows: number, stitchesAcross: number, pace: number, { rowMinutes }: MannerOf): number =>
  ((rows + 2) * stitchesAcross) / pace + rows * rowMinutes;

/** The most rows for so many minutes; below 0 where cast-on and cast-off alone take longer. */
export const rowsInMinutes = (
  minutes: number,
  stitchesAcross: number,
  pace: number,
  { rowMinutes }: MannerOf,
): number => Math.floor((minutes - (2 * stitchesAcross) / pace) / (stitchesAcross / pace + rowMinutes) + 1e-9);
