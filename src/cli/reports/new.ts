/** What `new` tells people. */
import type { Project } from "../../document/project.ts";
import { counted, paragraph } from "../words.ts";
import { savedReport } from "./saved.ts";

export function newReport(file: string, { pattern, yarns, colourways }: Project): string {
  const [chart] = pattern.charts;
  const what = [
    chart ? `a chart of ${chart.rows[0]!.length} by ${chart.rows.length}` : "no chart",
    `in ${counted(pattern.colours.length, "colour")}`,
  ].join(" ");
  const main = pattern.colours.find(({ role }) => role === "main");
  const assigned = Object.keys(colourways[0]?.yarns ?? {}).length;
  const sentences = [
    main ? `The main colour is ${main.id}${main.name ? `, ${main.name}` : ""}.` : "",
    assigned > 0 ? `The first colourway assigns ${counted(assigned, "yarn")}.` : "No yarn is assigned yet.",
  ];
  return [
    savedReport(file, `${what}, ${counted(yarns.length, "yarn")}`),
    paragraph(sentences.join(" ")),
    `Next: twostrand check ${file}`,
  ].join("\n");
}
