/** What `recolour` tells people: each way with its yarns, why, and how sure it is to be the best. */
import type { RecolourResult } from "../../jobs.ts";
import type { Project } from "../../document/project.ts";
import { paragraph, plain, table } from "../words.ts";

export function recolourReport(project: Project, { ways, clash }: RecolourResult): string {
  const yarnName = (id: string): string => project.yarns.find((yarn) => yarn.id === id)?.name ?? id;
  const texts = ways.map((way, index) => {
    const lines = project.pattern.colours
      .filter(({ id }) => Object.hasOwn(way.yarns, id))
      .map(({ id, name }) => [`${id}  ${name ?? ""}`, yarnName(way.yarns[id]!)]);
    const sure = way.proven
      ? "Proven: no other way is better."
      : `Not proven: a better one by up to ${(way.gap * 100).toFixed(1)} % may exist.`;
    const apart = index === 0 ? "" : ` ${Math.round(way.differs * 100)} % of the fabric differs from way 1.`;
    return [
      paragraph(`Way ${index + 1}: ${way.name}`),
      table(
        [
          { heading: "colour", elastic: true },
          { heading: "yarn", elastic: true },
        ],
        lines,
      ),
      paragraph(`${sure}${apart}`, "  "),
      ...way.because.map((sentence) => paragraph(sentence, "  ")),
      ...way.findings.map((finding) => paragraph(finding, "  Still: ")),
    ].join("\n");
  });
  const clashing = clash
    ? [[paragraph(clash.sentence), ...clash.parts.map(({ sentence }) => paragraph(plain(sentence), "  "))].join("\n")]
    : [];
  return [paragraph(project.name || "This project"), ...texts, ...clashing].join("\n\n");
}
