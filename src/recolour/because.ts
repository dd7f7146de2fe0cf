/** Why a way is offered, and a name from what is plain about it. */
import type { Finding } from "../audit/finding.ts";
import { contextOf } from "../audit/judge.ts";
import { told } from "../audit/context.ts";
import { lchFromLab } from "../colour/lab.ts";
import { valueClass } from "../colour/value.ts";
import { colourwayIn, yarnsOf, type Search } from "./prepare.ts";

/** "light ground, quieter, Tarn leads"; where an earlier way is called so, what it has not: "…, with Rose dust". */
export function nameOf(search: Search, assignment: readonly number[], earlier: readonly (readonly number[])[]): string {
  const plain = plainly(search, assignment);
  const alike = earlier.filter((other) => plainly(search, other) === plain);
  if (alike.length === 0) return plain;
  const { targets, yarns } = search;
  const fresh = assignment
    .map((yarn, i) => ({ yarn, area: targets[i]!.area }))
    .filter(({ yarn }) => alike.every((other) => !other.includes(yarn)))
    .sort((a, b) => b.area - a.area)[0];
  return fresh ? `${plain}, with ${yarns[fresh.yarn]!.name}` : `${plain}, otherwise placed`;
}

/** The ground's value class, how lively it is against the pattern, and the yarn with most visual weight. */
function plainly(search: Search, assignment: readonly number[]): string {
  const { targets, labs, yarns } = search;
  const ground = targets.reduce((best, { area }, index) => (area > targets[best]!.area ? index : best), 0);
  const chroma = (lab: readonly [number, number, number]): number => lchFromLab(lab)[1];
  const now = targets.reduce((sum, { area }, i) => sum + area * chroma(labs[assignment[i]!]!), 0);
  const was = targets.reduce((sum, { area, was: lab }) => sum + area * chroma(lab), 0);
  // A fifth of the chroma is plain to see; our choice.
  const lively = now > was * 1.2 + 2 ? ", livelier" : now < was * 0.8 - 2 ? ", quieter" : "";
  const measures = judged(search, assignment).charts[0]?.now;
  const heaviest = measures?.weights.toSorted((a, b) => b.share - a.share)[0];
  const ink = measures?.cloth.inks[heaviest?.ink ?? -1];
  const leader = yarns.find(({ id }) => id === ink?.yarn)?.name;
  return `${valueClass(labs[assignment[ground]!]![0])} ground${lively}${leader === undefined ? "" : `, ${leader} leads`}`;
}

function judged(search: Search, assignment: readonly number[]) {
  const { pattern, input } = search;
  const { viewing, doubt, memory } = input;
  const colourway = colourwayIn(search, assignment);
  return contextOf({ pattern, yarns: yarnsOf(search), colourway, viewing, doubt }, memory);
}

export function becauseOf(search: Search, assignment: readonly number[], findings: readonly Finding[]): string[] {
  const { targets, labs, yarns, taste, input } = search;
  const { ladder } = taste;
  const context = judged(search, assignment);
  const rows = context.charts.flatMap(({ now }) =>
    now.rows.map((row) => ({ ...row, want: now.bands[row.band]!.band.want })),
  );
  const weakest = rows
    .filter(({ contrast, want }) => contrast.V !== null && want !== "soft")
    .sort((a, b) => a.contrast.V! - b.contrast.V!)[0];
  const farthest = targets
    .filter(({ pinned }) => !pinned)
    .map((target, i) => ({ target, yarn: yarns[assignment[i]!]!, step: labs[assignment[i]!]![0] - target.lightness }))
    .sort((a, b) => Math.abs(b.step) - Math.abs(a.step))[0]!;
  const sentences = [
    findings.length === 0
      ? `The checks find nothing against it at ${input.viewing.distanceM} m.`
      : `Left to say against it: ${findings.map(({ headline }) => headline).join("; ")}.`,
  ];
  if (weakest) {
    const { V, shows } = weakest.contrast;
    sentences.push(
      `Its weakest row outside soft bands is ${weakest.row}: ${shows} (V ${told(V!)}, a model's estimate).`,
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
