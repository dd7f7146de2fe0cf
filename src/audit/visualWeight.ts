/** What takes over: a colour that draws the eye far more than the pattern's own colour did in its place. */
import type { InkWeight } from "../fabric/measures.ts";
import { capital, mainColourOf, namedInk, told, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function visualWeight(context: AuditContext): Finding[] {
  const main = mainColourOf(context.pattern);
  return context.charts.flatMap((judged) =>
    judged.now.weights.flatMap((now, index) => {
      const was = judged.was.weights[index]!;
      const ink = judged.now.cloth.inks[now.ink]!;
      return ink.colour === main || !takesOver(now, was) ? [] : [takesOverFinding(context, judged, now, was)];
    }),
  );
}

/**
 * Judged on the change against the pattern's colour in that place, never on a ranking: it has grown heavier and stands out more,
 * or it stands out far more in a place that was heavy already.
 */
export function takesOver(now: InkWeight, was: InkWeight): boolean {
  const standsOut = now.standsOut ?? 0;
  const more = standsOut - (was.standsOut ?? 0);
  const heavier = now.share - was.share >= THRESHOLDS.weightGrown && now.share >= was.share * THRESHOLDS.weightFactor;
  const louder = more >= THRESHOLDS.standsOutFarMore && standsOut >= THRESHOLDS.standsOutAtLeast;
  return (heavier && more >= THRESHOLDS.standsOutMore) || (louder && now.share >= was.share);
}

function takesOverFinding(
  context: AuditContext,
  { chart, section, now, was }: Judged,
  weight: InkWeight,
  before: InkWeight,
): Finding {
  const ink = now.cloth.inks[weight.ink]!;
  const name = namedInk(context, ink.colour, ink.yarn);
  const bands = was.bands.filter(({ weights }) => weights.some((one) => one.ink === weight.ink));
  const rows: [number, number] = [bands[0]!.band.rows[0], bands.at(-1)!.band.rows[1]];
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const { recurs } = weight;
  const often = recurs.bands === 1 ? "in one band" : `in ${recurs.bands} bands`;
  return {
    id: `visualWeight/${section ? `${chart.id}@${section}` : chart.id}/${ink.colour}/${ink.yarn}`,
    severity: weight.share >= THRESHOLDS.weightFault * before.share ? "fault" : "doubt",
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
      bands: recurs.bands,
      height: recurs.height,
    },
    headline: `${capital(name)} takes over ${often}`,
    sentence:
      `The pattern's ${ink.colour} carries about ${percent(before.share)} of what draws the eye; ${name} would carry about ` +
      `${percent(weight.share)} (an estimate), over ${percent(recurs.height)} of the height, and stand out ` +
      `${told((weight.standsOut ?? 0) - (before.standsOut ?? 0))} more. Seen from across a room it leads.`,
  };
}
