/** How far a photographed shade may be off: a ΔE00 that holds the truth in four cases of five. */
import { deltaE2000 } from "../../colour/difference.ts";
import { xyzFromLab, type Lab } from "../../colour/lab.ts";
import { labFromXyz } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import type { ChartFit } from "./chartFit.ts";
import type { Reading } from "./oneReference.ts";
import type { Surface } from "./yarnSurface.ts";

const CASES = 0.8;

const quantile = (values: readonly number[], share: number): number => {
  const sorted = values.toSorted((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? 0;
};

/** Yarn is dyed otherwise than a chart is printed, and other lamps and cameras tell the two apart: ΔE00, our choice. */
const OTHER_DYES = 1;
/** The same where no colour was known: nothing tells how the camera mixes. Set by painted photographs. */
const OTHER_DYES_UNSEEN = 1.9;
/** Neighbours in colour count by this distance in CIELAB: a chart's patches are about so far apart; our choice. */
const NEIGHBOURHOOD = 40;
/** Light falls off towards a picture's edges: ΔE00 for half a picture's diagonal between chart and yarn; our choice. */
const FALLS_OFF = 1.8;
/** The part of the shift between the middle light and the main mode that the choice of mode may be wrong by; our choice. */
const MODE_DOUBT = 0.35;
/** A channel at its end: the shade is more saturated than the picture holds, ΔE00; our choice. */
const OUT_OF_RANGE = 5;

/** @param apart distance of yarn and chart as part of half the picture's diagonal */
export function chartUncertainty(fit: ChartFit, lab: Lab, surface: Surface, apart: number): number {
  const coloured = fit.leftOut.filter(({ isGrey }) => !isGrey);
  const all = quantile(
    coloured.map(({ error }) => error),
    CASES,
  );
  // The colours about tell more than the far ones: a weighted mean of squares, held half by the whole.
  let near = 0;
  let weights = 0;
  for (const { lab: other, error } of fit.leftOut) {
    const far = Math.hypot(lab[0] - other[0], lab[1] - other[1], lab[2] - other[2]) / NEIGHBOURHOOD;
    const weight = Math.exp(-0.5 * far * far);
    near += weight * error * error;
    weights += weight;
  }
  // 1.27: from a root mean square to what holds four of five, for errors in three directions.
  const local = weights > 1e-3 ? 1.27 * Math.sqrt(near / weights) : all;
  const model = Math.sqrt((all * all + local * local) / 2);
  return joined(model, OTHER_DYES, FALLS_OFF * Math.min(1, apart), surfaceDoubt(lab, surface));
}

export function oneReferenceUncertainty(reading: Reading, rgb: LinearRgb, surface: Surface): number {
  const lab = reading.labOf(rgb);
  const differences = reading.others.map((labOf) => deltaE2000(lab, labOf(rgb)));
  return joined(quantile(differences, CASES), OTHER_DYES_UNSEEN, surfaceDoubt(lab, surface));
}

/** ΔE00 of taking the yarn a little lighter or darker than it is, and of what the picture could not hold. */
function surfaceDoubt(lab: Lab, { spread, bottomed, clipped }: Surface): number {
  const part = Math.exp(MODE_DOUBT * Math.min(1, spread + 0.05));
  const [x, y, z] = xyzFromLab(lab);
  const lighter = labFromXyz([x * part, y * part, z * part]);
  return Math.hypot(deltaE2000(lab, lighter), OUT_OF_RANGE * bottomed, 4 * clipped);
}

const joined = (...parts: number[]): number => Math.hypot(...parts);
