/** What `amounts` tells people: an estimate, said as one, with what it takes for granted. */
import { amountsSentence, type Amounts } from "../../plan/amounts.ts";
import type { Project } from "../../document/project.ts";
import { paragraph, table } from "../words.ts";

export function amountsReport(project: Project, amounts: Amounts): string {
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
    `Taken for granted\n${amounts.assumptions.map((sentence) => paragraph(sentence, "  ")).join("\n")}`,
  ].join("\n\n");
}
