/** What `shade` tells people: a line for each yarn, and what the numbers rest on. */
import type { Lab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";
import type { PhotographedYarn, ReferenceTold, YarnPhoto } from "../../jobs.ts";
import { paragraph, table } from "../words.ts";

export function shadeReport({ yarns, reference }: YarnPhoto): string {
  const wereFound = yarns.some(({ box }) => box);
  const lines = yarns.map(({ lab, hex, uncertainty, flecks, box }, index) => [
    `${index + 1}`,
    ...(wereFound ? [box ? [box.x, box.y, box.width, box.height].join(",") : ""] : []),
    ...(lab && hex && uncertainty !== null
      ? [plainName(lab), hex, labWords(lab), `±${uncertainty.toFixed(1)}`, flecks.map(fleckWords).join(", ")]
      : ["not told", "", "", "", ""]),
  ]);
  const columns = [
    { heading: "yarn", align: "right" },
    ...(wereFound ? [{ heading: "found at" }] : []),
    { heading: "shade" },
    { heading: "hex" },
    { heading: "L* a* b*" },
    { heading: "ΔE00", align: "right" },
    { heading: "flecks", elastic: true },
  ] as const;
  return [
    table(columns, lines),
    paragraph(restsOn(reference)),
    paragraph(
      "The range should hold the truth in four cases of five. An estimate from a photograph; daylight and the ball itself settle it.",
    ),
  ].join("\n\n");
}

const labWords = (lab: Lab): string => lab.map((value) => value.toFixed(1)).join(" ");

function restsOn({ kind, found, leaveOneOut }: ReferenceTold): string {
  if (kind === "patches" && leaveOneOut)
    return `By the colour chart${found ? " that was found in the picture" : ""}: its own colours, each told by the others, come out ${leaveOneOut.median.toFixed(1)} ΔE00 off (the worst ${leaveOneOut.most.toFixed(1)}).`;
  if (kind === "grey") return "By a grey card: exposure and cast are undone, the camera's curve is assumed.";
  if (kind === "white")
    return "By white paper, whose own tint is assumed: exposure and cast are undone, the camera's curve is assumed.";
  return "By no reference: the camera's own exposure and white are believed. A grey card or a colour chart beside the yarn makes this far surer.";
}

/** A photograph knows no millimetres: lengths are in widths of the strand. */
function fleckWords({ hex, share, strands }: PhotographedYarn["flecks"][number]): string {
  const long = strands && strands >= 1 ? ` for ${Number(strands.toPrecision(2))} strands` : "";
  return `${Math.round(100 * share)} % ${hex}${long}`;
}
