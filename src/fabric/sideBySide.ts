/** How different shades look side by side in plain knitting: two fields of cloth that share an edge, from some way off. */
import type { Lab } from "../colour/lab.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";
import { spectrumOf } from "./spectra.ts";
import { channelsAt, HUE_WEIGHT, pieceOfMotif, sceneFor, USUAL_EYE, wordOf, type Word } from "./visibility.ts";
import { join } from "../vision/visibility.ts";

export interface SeenApart {
  /** 1: just to be told apart. */
  readonly V: number;
  readonly lightDark: number;
  readonly shows: Word;
}

/**
 * How far each shade is to be told from `lab` when both are knitted plain and lie edge to edge.
 * @param view gauge per 10 cm, `distance` in metres, `light` in lux
 * @returns one answer a shade, in their order. Source: vision.md B1, B2, B7 on fields of 12 stitches by 16 rows, about as large as
 * what lies under a hand at 28 × 30 (our choice). A model of ordinary eyesight, not tested on knitting.
 */
export function seenApart(
  lab: Lab,
  shades: readonly Lab[],
  { gauge, distance, light }: { readonly gauge: Gauge; readonly distance: number; readonly light: number },
): SeenApart[] {
  const stitch = stitchSizeMm(gauge);
  const spectrum = spectrumOf(pieceOfMotif([FIELDS], 2), {
    stitch,
    rows: "tiled",
    patch: { widthMm: FIELDS.length * stitch.widthMm, heightMm: ROWS * stitch.heightMm },
  });
  return shades.map((shade) => {
    const channels = channelsAt(sceneFor(spectrum, [lab, shade], light, USUAL_EYE), distance * 1000);
    const V = join(channels, HUE_WEIGHT.usual);
    return { V, lightDark: channels.lightDark, shows: wordOf(V) };
  });
}

const FIELDS = "0".repeat(12) + "1".repeat(12);
const ROWS = 16;
