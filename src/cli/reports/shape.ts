/** What `shape` tells people: size by size what is knitted, how the repeats were taken and at what cost, and what to mind. */
import type { Project } from "../../document/project.ts";
import type { ShapeAnswer, ShapedSize } from "../../jobs/shape.ts";
import type { Measured, ShapedPart } from "../../garment/shape/parts.ts";
import { choiceWords, heightWords, noteWords, shapingWords, yokeWords } from "../../plan/shapeWords.ts";
import { counted, paragraph, table } from "../words.ts";

export function shapeReport(answer: ShapeAnswer, project: Project): string {
  const { garment, sizes, loses } = answer;
  const title = `${project.name || "This project"}: ${garment}`;
  const lost =
    loses === 0
      ? []
      : [paragraph(`${counted(loses, "exception")} in sections that are not knitted any more would go with them.`)];
  return [paragraph(title), ...sizes.map((size) => sizeReport(size)), ...lost].join("\n\n");
}

function sizeReport(shaped: ShapedSize): string {
  const { size, fit, finishedCm, parts, measured, heights, notes, yoke, stitches, easeCm } = shaped;
  const head = paragraph(
    `Size ${size}: ${finishedCm.toFixed(1)} cm around${fit === null ? "" : `, ${fit}`} (${signed(easeCm)} cm of ease wanted); about ${Math.round(stitches / 100) * 100} stitches`,
  );
  const columns = [
    { heading: "part", elastic: true },
    { heading: "stitches", align: "right" },
    { heading: "ends with", align: "right" },
    { heading: "rounds", align: "right" },
    { heading: "begins in column", align: "right" },
    { heading: "chart" },
  ] as const;
  const rows = parts.map((part) => [
    part.name,
    `${part.stitches}${besideWords(part)}`,
    String(part.decreases.at(-1)?.to ?? part.stitches),
    String(part.rounds),
    part.chart === null ? "" : String(part.startColumn),
    part.chart ?? "plain",
  ]);
  const lines = [
    ...measured.flatMap(measuredLines),
    ...heights.flatMap((height) => {
      const words = heightWords(height);
      return words === null ? [] : [paragraph(words, "  ")];
    }),
    ...parts.flatMap(centringLines),
    ...parts
      .filter(({ id, part }) => !id.startsWith("right-") && part !== "yoke")
      .flatMap((part) => {
        const words = shapingWords(part);
        return words === null ? [] : [paragraph(words, "  ")];
      }),
    ...(yoke ? yokeWords(yoke).map((words) => paragraph(`Yoke. ${words}`, "  ")) : []),
    ...notes.map((note) => paragraph(noteWords(note), "  ")),
  ];
  return [head, table(columns, rows), ...lines].join("\n");
}

const signed = (value: number): string => (value < 0 ? String(value) : `+${value}`);

const besideWords = ({ beside }: ShapedPart): string =>
  beside.length === 0 ? "" : ` + ${beside.map(({ stitches }) => stitches).join(" + ")}`;

/** What was taken, and what else could be: only where there was a choice. */
function measuredLines({ name, chosen, choices, wantedCm }: Measured): string[] {
  if (choices.length < 2) return [];
  const others = choices.filter((choice) => choice !== chosen && JSON.stringify(choice) !== JSON.stringify(chosen));
  return [
    paragraph(`Around the ${name}, ${wantedCm.toFixed(1)} cm wanted: ${choiceWords(chosen)}.`, "  "),
    ...others.map((choice) => paragraph(`or ${choiceWords(choice)}.`, "    ")),
  ];
}

/** Bands that do not lie on the first line they are centred on. */
function centringLines({ name, centring }: ShapedPart): string[] {
  const first = centring[0]?.line;
  const off = centring.filter(({ line, offBy }) => line === first && offBy !== null && Math.abs(offBy) > 0);
  if (off.length === 0) return [];
  const words = off.map(({ band, offBy }) => `${band} by ${Math.abs(offBy!)}`);
  const shown =
    words.length > MOST_BANDS ? [...words.slice(0, MOST_BANDS), `and ${words.length - MOST_BANDS} more`] : words;
  return [paragraph(`${name}: bands beside ${first}, in stitches: ${shown.join(", ")}.`, "  ")];
}

/** More are counted. Our choice. */
const MOST_BANDS = 6;
