/** Why a way is offered, and a name from what is plain about it. */
import type { Finding } from "../audit/finding.ts";
import { contextOf } from "../audit/judge.ts";
import { told } from "../audit/context.ts";
import { lchFromLab } from "../colour/lab.ts";
import { plainName } from "../colour/names.ts";
import { valueClass } from "../colour/value.ts";
import { wordOf } from "../fabric/visibility.ts";
import { colourwayIn, type Search } from "./prepare.ts";

/** "light ground, quiet, deep blue leads". */
export function nameOf(search: Search, assignment: readonly number[]): string {
  const { targets, labs } = search;
  const ground = targets.reduce((best, { area }, index) => (area > targets[best]!.area ? index : best), 0);
  const chroma = (lab: readonly [number, number, number]): number => lchFromLab(lab)[1];
  const now = targets.reduce((sum, { area }, i) => sum + area * chroma(labs[assignment[i]!]!), 0);
  const was = targets.reduce((sum, { area, was: lab }) => sum + area * chroma(lab), 0);
  // A fifth of the chroma is plain to see; our choice.
  const loud = now > was * 1.2 + 2 ? "livelier" : now < was * 0.8 - 2 ? "quieter" : "as lively";
  return `${valueClass(labs[assignment[ground]!]![0])} ground, ${loud}, ${leader(search, assignment)} leads`;
}

/** The plain name of the colour with most visual weight. */
function leader(search: Search, assignment: readonly number[]): string {
  const context = judged(search, assignment);
  const weights = context.charts[0]?.now.weights ?? [];
  const heaviest = weights.toSorted((a, b) => b.share - a.share)[0];
  return heaviest ? plainName(context.charts[0]!.now.cloth.inks[heaviest.ink]!.lab) : "nothing";
}

function judged(search: Search, assignment: readonly number[]) {
  const { pattern, input } = search;
  const { yarns, viewing, memory } = input;
  return contextOf({ pattern, yarns, colourway: colourwayIn(search, assignment), viewing }, memory);
}

export function becauseOf(search: Search, assignment: readonly number[], findings: readonly Finding[]): string[] {
  const { targets, labs, yarns, ladder, input } = search;
  const context = judged(search, assignment);
  const rows = context.charts.flatMap(({ now }) =>
    now.rows.map((row) => ({ ...row, want: now.bands[row.band]!.band.want })),
  );
  const weakest = rows
    .filter(({ contrast, want }) => contrast.V !== null && want !== "soft")
    .sort((a, b) => a.contrast.V! - b.contrast.V!)[0];
  const farthest = targets
    .map((target, i) => ({ target, yarn: yarns[assignment[i]!]!, step: labs[assignment[i]!]![0] - target.lightness }))
    .sort((a, b) => Math.abs(b.step) - Math.abs(a.step))[0]!;
  const sentences = [
    findings.length === 0
      ? `The checks find nothing against it at ${input.viewing.distanceM} m.`
      : `Left to say against it: ${findings.map(({ headline }) => headline).join("; ")}.`,
  ];
  if (weakest) {
    const V = weakest.contrast.V!;
    sentences.push(
      `Its weakest row outside soft bands is ${weakest.row}: ${wordOf(V)} (V ${told(V)}, a model's estimate).`,
    );
  }
  sentences.push(
    ladder === "free"
      ? "Light and dark were free."
      : `${ladder === "reversed" ? "Light and dark are turned over" : "Light to dark as in the pattern"}; the farthest from its place is ${farthest.yarn.name} for ${farthest.target.colour}, ${told(Math.abs(farthest.step))} L* ${farthest.step > 0 ? "lighter" : "darker"}.`,
  );
  for (const { sentence } of search.laid) sentences.push(`${sentence}: stranded, it would float too far.`);
  return sentences;
}
