/** What `compare` tells people. */
import type { compareProject } from "../../jobs.ts";
import type { Project } from "../../document/project.ts";
import { paragraph, table } from "../words.ts";

export function compareReport(project: Project, { rows, distance, light }: ReturnType<typeof compareProject>): string {
  const nameOf = (id: string): string => project.yarns.find((yarn) => yarn.id === id)?.name ?? id;
  const columns = [
    { heading: "colourway", elastic: true },
    { heading: "lost", align: "right" },
    { heading: "faint", align: "right" },
    { heading: "clear", align: "right" },
    { heading: "strong", align: "right" },
    { heading: "faults", align: "right" },
    { heading: "doubts", align: "right" },
    { heading: "order" },
    { heading: "leads", elastic: true },
    { heading: "short" },
  ] as const;
  const lines = rows.map((row) => [
    `${row.colourway} ${row.name}`,
    ...[row.lost, row.faint, row.clear, row.strong, row.faults, row.doubts].map(String),
    row.orderChanged > 0 ? `${row.orderChanged} changed` : "kept",
    row.leads?.yarn ? nameOf(row.leads.yarn) : "",
    row.short > 0 ? `${row.short} yarn${row.short === 1 ? "" : "s"}` : "",
  ]);
  return [
    `${paragraph(project.name || "This project")}\n${paragraph(`Rows by how they show from ${distance} m in ${light} lx; pairs whose order from light to dark has changed; the yarn that draws the eye most, an estimate.`)}`,
    table(columns, lines),
    paragraph("A model of ordinary eyesight, not tested on knitting; a swatch settles it."),
  ].join("\n\n");
}
