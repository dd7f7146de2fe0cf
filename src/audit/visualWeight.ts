/** What takes over: a colour that draws the eye far more than the pattern's own colour did in its place. */
import type { InkWeight } from "../fabric/measures.ts";
import { capital, mainColourOf, namedInk, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function visualWeight(context: AuditContext): Finding[] {
  const main = mainColourOf(context.pattern);
  return context.charts.flatMap((judged) => {
    // Where one colour lies on one ground it has all the weight, whatever its yarn.
    if (new Set(judged.was.weights.map(({ ink }) => judged.was.cloth.inks[ink]!.colour)).size < 3) return [];
    const excessNow = excessChroma(judged.now.weights);
    const excessWas = excessChroma(judged.was.weights);
    return judged.now.weights.flatMap((now, index) => {
      const was = judged.was.weights[index]!;
      const excess = { now: excessNow[index]!, was: excessWas[index]! };
      if (judged.now.cloth.inks[now.ink]!.colour === main || !recursEnough(now)) return [];
      if (isLoud(now, excess)) return [takesOverFinding(context, judged, now, was, "saturated")];
      return isHeavy(now, was) ? [takesOverFinding(context, judged, now, was, "heavy")] : [];
    });
  });
}

/** A colour that is met once, in little of the fabric, is an accent and takes nothing over. */
const recursEnough = ({ recurs, area }: InkWeight): boolean =>
  recurs.bands >= THRESHOLDS.recursInBands || area >= THRESHOLDS.recursInArea;

/** By how much each colour's chroma is above the mean of all the others, by area. */
function excessChroma(weights: readonly InkWeight[]): number[] {
  const all = weights.reduce((sum, { area, chroma }) => sum + area * chroma, 0);
  return weights.map(({ area, chroma }) => (area < 1 ? chroma - (all - area * chroma) / (1 - area) : 0));
}

/** A saturated yarn among quiet ones, where the pattern has none. Both are judged beside the rest: a palette may be loud as a whole. */
const isLoud = (now: InkWeight, excess: { now: number; was: number }): boolean =>
  now.chroma >= THRESHOLDS.loudChroma &&
  excess.now >= THRESHOLDS.louderThanRest &&
  excess.now - excess.was >= THRESHOLDS.louderThanPattern;

/** It has grown far heavier and stands out more: a light yarn in a dark set, say. Judged on the change, never on a ranking. */
const isHeavy = (now: InkWeight, was: InkWeight): boolean =>
  now.recurs.bands >= THRESHOLDS.recursInBands &&
  now.share - was.share >= THRESHOLDS.weightGrown &&
  now.share >= was.share * THRESHOLDS.weightFactor &&
  (now.standsOut ?? 0) - (was.standsOut ?? 0) >= THRESHOLDS.standsOutMore;

function takesOverFinding(
  context: AuditContext,
  { chart, section, now, was }: Judged,
  weight: InkWeight,
  before: InkWeight,
  reason: "saturated" | "heavy",
): Finding {
  const ink = now.cloth.inks[weight.ink]!;
  const name = namedInk(context, ink.colour, ink.yarn);
  const bands = was.bands.filter(({ weights }) => weights.some((one) => one.ink === weight.ink));
  const rows: [number, number] = [bands[0]!.band.rows[0], bands.at(-1)!.band.rows[1]];
  const { recurs } = weight;
  const often = recurs.bands === 1 ? "in one band" : `in ${recurs.bands} bands`;
  const why =
    reason === "saturated"
      ? `${capital(name)} is far more saturated than the rest, where the pattern's ${ink.colour} is not`
      : `${capital(name)} parts from its ground far more than the pattern's ${ink.colour} does`;
  return {
    id: `visualWeight/${section ? `${chart.id}@${section}` : chart.id}/${ink.colour}/${ink.yarn}${ink.over ? "/laid-on" : ""}`,
    // Never a fault: visual weight is a reasoned convention, not measured on people.
    severity: "doubt",
    where: {
      chart: chart.id,
      rows,
      colours: [ink.colour],
      yarns: ink.yarn === null ? [] : [ink.yarn],
      ...(section ? { section } : {}),
    },
    numbers: {
      share: weight.share,
      was: before.share,
      standsOut: weight.standsOut,
      stoodOut: before.standsOut,
      chroma: weight.chroma,
      wasChroma: before.chroma,
      bands: recurs.bands,
      height: recurs.height,
    },
    headline: `${capital(name)} takes over ${often}`,
    sentence: `${why}. ${
      weight.share >= before.share * THRESHOLDS.tellsShares
        ? `It would carry about ${percent(weight.share)} of what draws the eye instead of ${percent(before.share)} (estimates)`
        : "It would draw the eye"
    }, over ${percent(recurs.height)} of the height.`,
  };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
