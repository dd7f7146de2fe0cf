/** What `recolour` tells people: each way with its yarns, why, and how sure it is to be the best. */
import type { RecolourResult } from "../../jobs.ts";
import type { Project } from "../../document/project.ts";
import { paragraph, plain, table } from "../words.ts";

export function recolourReport(project: Project, { ways, binds, clash, note }: RecolourResult): string {
  const texts = ways.map((way, index) => {
    const yarnName = namesOf(project, way);
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
      paragraph(`Score ${number(way.score)}: ${termsText(way)}.`, "  "),
      ...way.toFind.flatMap((shade) => [
        paragraph(shade.sentence, "  "),
        ...shade.nearest.map(({ yarn, deltaE00, why }) =>
          paragraph(`${yarnName(yarn)}, ${number(deltaE00)} ΔE00 away: ${why}.`, "    "),
        ),
      ]),
      ...way.because.map((sentence) => paragraph(sentence, "  ")),
      paragraph(way.sure.sentence, "  "),
      ...way.findings.map((finding) => paragraph(finding, "  Still: ")),
      // Why each yarn is told for the best way; the others have it in --json.
      ...(index === 0 ? [paragraph("Why each yarn:", "  "), ...way.places.map(({ sentence }) => paragraph(sentence, "    "))] : []), // prettier-ignore
    ].join("\n");
  });
  const bound = binds.length > 0 ? [binds.map(({ sentence }) => paragraph(plain(sentence))).join("\n")] : [];
  return [
    paragraph(project.name || "This project"),
    ...texts,
    ...(note === null ? [] : [paragraph(note)]),
    ...bound,
    ...(clash ? [clashText(project, clash)] : []),
  ].join("\n\n");
}

type Way = RecolourResult["ways"][number];

/** Names of her yarns, and of what stands for a shade to look for. */
function namesOf(project: Project, way: Pick<Way, "toFind">): (id: string) => string {
  const names = new Map([...project.yarns, ...way.toFind.map(({ yarn }) => yarn)].map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}

const number = (value: number): string => (value < 10 ? value.toFixed(1) : value.toFixed(0));

const TERM_TEXT: readonly (readonly [keyof Way["weighted"], string])[] = [
  ["value", "light and dark"],
  ["contrast", "contrasts"],
  ["hue", "hues"],
  ["loudness", "loudness"],
  ["showing", "what shows less"],
];

const termsText = ({ weighted }: Way): string =>
  TERM_TEXT.map(([term, text]) => `${text} ${number(weighted[term])}`).join(", ");

function clashText(project: Project, clash: NonNullable<RecolourResult["clash"]>): string {
  const yarnName = namesOf(project, clash);
  return [
    paragraph(clash.sentence),
    ...clash.summary.map((sentence) => paragraph(sentence, "  ")),
    ...clash.relaxations.flatMap(({ sentence, way }) => [
      paragraph(sentence, "  - "),
      paragraph(
        Object.entries(way.yarns)
          .map(([colour, yarn]) => `${colour} ${yarnName(yarn)}`)
          .join(", "),
        "      ",
      ),
    ]),
    ...clash.toFind.flatMap((shade) => [
      paragraph(shade.sentence, "  - "),
      ...shade.nearest.map(({ yarn, deltaE00, why }) =>
        paragraph(`${yarnName(yarn)}, ${number(deltaE00)} ΔE00 away: ${why}.`, "      "),
      ),
    ]),
  ].join("\n");
}
