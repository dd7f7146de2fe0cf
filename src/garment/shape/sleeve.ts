/** A pair of sleeves from the cuff up: a rib, then stitches that come at the underarm, about a motif on the line of the upper arm. */
import { stackedPiece, type Piece } from "../schematic.ts";
import {
  around,
  balanceOf,
  cmOfStitches,
  evenly,
  gaugeOf,
  heightOf,
  partOf,
  roundsIn,
  type Height,
  type Lengths,
  type Measured,
  type ShapedPart,
  type ShapeOf,
} from "./parts.ts";

export interface Sleeves {
  readonly parts: readonly ShapedPart[];
  readonly piece: Piece;
  readonly measured: Measured;
  readonly height: Height;
  /** Stitches at the upper arm. */
  readonly stitches: number;
}

/** How much wider than the wrist a cuff is, so that the hand goes through: a wrist of 16 cm has one of 20. Our choice, within 20 to 22 cm (trade.md 3). */
const CUFF_WIDER = 1.25;

/**
 * @param wanted around the upper arm, and the whole length with its cuff, in cm; the cuff in stitches where the garment says
 */
export function sleeves(
  of: ShapeOf,
  lengths: Lengths,
  wanted: { readonly cm: number; readonly lengthCm: number; readonly wrist?: number },
): Sleeves {
  const gauge = gaugeOf(of, "sleeve");
  const chart = of.charts?.sleeve;
  const rounds = of.choices?.sleeve?.rounds ?? roundsIn(Math.max(1, wanted.lengthCm - lengths.cuffRib), gauge);
  // The column at the underarm takes up what repeats leave over (trade.md 3), so that any count will do.
  const top = around({ ...of, charts: {} }, "sleeve", { name: "upper arm", cm: wanted.cm, rounds });
  // A motif about a stitch asks for an odd count, one between two for an even one; two stitches come at a time, so that it stays so.
  const odd = balanceOf(chart);
  const alike = (count: number): number => (chart && count % 2 !== odd ? count + 1 : count);
  const stitches = of.choices?.sleeve?.stitches ?? alike(top.chosen.stitches);
  const wristStitches = wanted.wrist ?? Math.round((of.body.wrist * CUFF_WIDER * gauge.stitches) / 10);
  const wrist = Math.min(stitches, wristStitches + ((stitches - wristStitches) % 2 === 0 ? 0 : 1));
  const decreases = evenly({ from: wrist, to: stitches, rounds }, 2, 1);
  const cuff = around(of, "rib", { name: "cuff", cm: (wrist * 10) / gauge.stitches, rounds: 1, every: 2 }).chosen
    .stitches;
  const cuffRounds = roundsIn(lengths.cuffRib, gaugeOf(of, "rib"));
  const line = { name: "the top of the sleeve", stitchOf: () => (wrist - 1) / 2 };
  const parts = (["left", "right"] as const).flatMap((side): ShapedPart[] => [
    partOf(of, "rib", {
      id: `${side}-cuff`,
      name: `${side} cuff`,
      stitches: cuff,
      rounds: cuffRounds,
      from: [],
    }),
    partOf(of, "sleeve", {
      id: `${side}-sleeve`,
      name: `${side} sleeve`,
      stitches: wrist,
      rounds,
      decreases,
      from: [`${side}-cuff`],
      lines: [line],
    }),
  ]);
  const piece = stackedPiece({
    id: "sleeve",
    name: "sleeve",
    sections: ["left-cuff", "left-sleeve"],
    times: 2,
    tube: true,
    levels: [
      { name: "cuff", rows: 0, stitches: cuff, gauge: gaugeOf(of, "rib") },
      { name: "end of the rib", rows: cuffRounds, stitches: cuff, gauge: gaugeOf(of, "rib"), side: "rib" },
      { name: "after the rib", rows: 0, stitches: wrist, gauge },
      { name: "upper arm", rows: rounds, stitches, gauge, side: "sleeve" },
    ],
  });
  const height = heightOf("sleeve above the cuff", wanted.lengthCm - lengths.cuffRib, rounds, { gauge, chart });
  const cm = cmOfStitches(stitches, gauge);
  const chosen = { ...top.chosen, stitches, cm, costCm: cm - wanted.cm };
  return { parts, piece, measured: { ...top, chosen }, height, stitches };
}
