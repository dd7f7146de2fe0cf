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
    { heading: "short", align: "right" },
  ] as const;
  const lines = rows.map((row) => [
    `${row.colourway} ${row.name}`,
    ...[row.lost, row.faint, row.clear, row.strong, row.faults, row.doubts].map(String),
    [row.turnedOver ? "turned over" : "", row.orderChanged > 0 ? `${row.orderChanged} changed` : ""]
      .filter(Boolean)
      .join(", ") || "kept",
    row.short > 0 ? String(row.short) : "-",
  ]);
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const leading = rows.flatMap(({ colourway, leads }) =>
    leads?.yarn
      ? [
          paragraph(
            `${nameOf(leads.yarn)}, about ${percent(leads.share)} (the pattern's: ${percent(leads.was)})`,
            `  ${colourway}: `,
          ),
        ]
      : [],
  );
  return [
    paragraph(project.name || "This project"),
    `Rows by how they show from ${distance} m in ${light} lx\n${table(columns, lines)}`,
    paragraph(
      "Order counts the pairs whose order from light to dark has changed; short, the yarns of which there is not enough.",
    ),
    ...(leading.length > 0 ? [`Draws the eye most, an estimate\n${leading.join("\n")}`] : []),
    paragraph("A model of ordinary eyesight, not tested on knitting; a swatch settles it."),
  ].join("\n\n");
}
