/** What `amounts` tells people: an estimate, said as one, with what it takes for granted. */
import type { ProjectAmounts } from "../../jobs/amounts.ts";
import { amountsSentence } from "../../plan/amounts.ts";
import type { RoundPlace } from "../../plan/yarnEnds.ts";
import type { Project } from "../../document/project.ts";
import { counted, paragraph, table } from "../words.ts";

export function amountsReport(project: Project, amounts: ProjectAmounts): string {
  const size = project.pattern.sizes?.find(({ id }) => id === amounts.size);
  const title = `${project.name || "This project"}${size ? `, size ${size.name ?? size.id}` : ""}`;
  const metres = (value: number | null): string => (value === null ? "?" : `${Math.ceil(value)} m`);
  const columns = [
    { heading: "yarn", elastic: true },
    { heading: "stitches", align: "right" },
    { heading: "metres", align: "right" },
    { heading: "range", align: "right" },
    { heading: "grams", align: "right" },
    { heading: "reserve", align: "right" },
    { heading: "have", align: "right" },
    { heading: "short", align: "right" },
  ] as const;
  const lines = amounts.yarns.map((yarn) => [
    yarn.name,
    String(yarn.stitches),
    metres(yarn.metres),
    `${Math.floor(yarn.low)}-${Math.ceil(yarn.high)}`,
    yarn.grams === null ? "?" : `${Math.ceil(yarn.grams)} g`,
    metres(yarn.reserve),
    yarn.have === null ? "?" : `${Math.floor(yarn.have)} m`,
    yarn.short === null ? "?" : yarn.short > 0 ? metres(yarn.short) : "-",
  ]);
  const missing = amounts.unassigned.map(
    ({ colour, metres: length }) => `Chart colour ${colour} has no yarn yet; it takes about ${Math.ceil(length)} m.`,
  );
  return [
    `${paragraph(title)}\n${paragraph(amountsSentence(amounts))}`,
    ...(lines.length > 0 ? [table(columns, lines)] : []),
    ...missing.map((sentence) => paragraph(sentence)),
    ...listed("To buy", toBuy(amounts)),
    ...listed("Where yarn ends", endsLines(amounts)),
    ...listed("Where it could be saved", savingLines(project, amounts)),
    ...listed("Ends to hide", joinLines(amounts)),
    `Taken for granted\n${amounts.assumptions.map((sentence) => paragraph(sentence, "  ")).join("\n")}`,
  ].join("\n\n");
}

/** A heading with its lines; nothing where there are none. */
const listed = (heading: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [`${heading}\n${lines.map((line) => paragraph(line, "  ")).join("\n")}`];

const toBuy = ({ yarns }: ProjectAmounts): string[] =>
  yarns.flatMap(({ name, balls }) => (balls ? [`${name}: ${counted(balls, "ball")}, reserve included.`] : []));

function endsLines({ ends, yarns, sections }: ProjectAmounts): string[] {
  const nameOf = (id: string): string => yarns.find(({ yarn }) => yarn === id)!.name;
  const placeOf = ({ section, round }: RoundPlace): string =>
    `round ${round} of ${sections.find(({ id }) => id === section)!.name}`;
  return ends.map(({ yarn, lasts, last, soonest }) => {
    if (lasts) {
      const early = soonest ? `after ${placeOf(soonest)}` : "before its first round is finished";
      return `${nameOf(yarn)} should last, and may end ${early}.`;
    }
    return last
      ? `${nameOf(yarn)} finishes ${placeOf(last)} and not the next.`
      : `${nameOf(yarn)} does not finish its first round.`;
  });
}

function savingLines({ yarns }: Project, { savings }: ProjectAmounts): string[] {
  const nameOf = (id: string): string => yarns.find((yarn) => yarn.id === id)?.name ?? id;
  return savings.map(({ yarn, name, instead, leaves, leavesGrams }) => {
    const left = leavesGrams === null ? `${Math.floor(Math.abs(leaves))} m` : `${Math.floor(Math.abs(leavesGrams))} g`;
    const comes = leaves >= 0 ? `${left} of ${nameOf(yarn)} remain` : `${nameOf(yarn)} is still ${left} short`;
    return `Knit the ${name} in ${nameOf(instead)}, and ${comes}.`;
  });
}

function joinLines({ sections }: ProjectAmounts): string[] {
  const ends = sections.reduce((sum, { joins }) => sum + 2 * joins, 0);
  const inSteeks = sections.reduce((sum, { joins, joinsAt }) => sum + (joinsAt === "steek" ? 2 * joins : 0), 0);
  if (ends === 0) return [];
  const cut = inSteeks > 0 ? `, ${inSteeks} of them in a steek, where they fall in the cut` : "";
  return [`About ${ends}${cut}. Join at the round's start${inSteeks > 0 ? " or in the steek" : ""}.`];
}
