/** What `swatch` tells people: what to knit, what it settles, what it leaves open, and what it is worth. */
import type { Project } from "../../document/project.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import type { Swatch } from "../../jobs/swatch.ts";
import { counted, paragraph, plain, rowList, rowsWords, table, WIDTH } from "../words.ts";

export function swatchReport(project: Project, { id, name }: Colourway, swatch: Swatch): string {
  const title = `${project.name || "This project"}: a swatch for colourway ${name ? `${name} (${id})` : id}`;
  const { covers, leaves, said } = swatch;
  const seen = covers.filter(({ by }) => by === "seen");
  const follows = covers.filter(({ by }) => by === "threshold");
  return [
    `${paragraph(title)}\n${summary(swatch)}`,
    ...(swatch.chart ? [chartText(swatch), keyTable(project, swatch), places(project, swatch)] : []),
    ...list(
      `To look at from ${swatch.distance} m, and how likely what the check tells is wrong there (an estimate)`,
      seen.map(({ headline, swatchRows, chance }) => `${headline} (${percent(chance)}): swatch ${rowsOf(swatchRows)}.`),
    ),
    ...list(
      `Likely to follow, in four cases of five, once your threshold is known to a factor of ${swatch.threshold.after.toFixed(1)} instead of ${swatch.threshold.now.toFixed(1)}`,
      follows.map(({ headline, chance }) => `${headline} (${percent(chance)}).`),
    ),
    ...list(
      "It leaves open",
      leaves.map(({ headline, sentence }) => `${headline}. ${sentence}`),
    ),
    ...list("How to knit it, and what it is worth", said),
  ].join("\n\n");
}

function summary(swatch: Swatch): string {
  const { chart, covers, leaves, across, stitches, minutes, minutesLow, minutesHigh, wholeRepeat, size } = swatch;
  if (covers.length + leaves.length === 0)
    return paragraph("The check leaves nothing open that a swatch could settle.");
  if (!chart) return paragraph("No swatch of this budget settles anything.");
  const edges = across.edges[0] + across.edges[1];
  return paragraph(
    `${counted(chart.rows.length, "row")} of ${across.stitches} stitches, ${edges} of them at the edges: ${stitches} stitches, ${cm(size.widthMm)} by ${cm(size.heightMm)} cm, ` +
      `about ${Math.round(minutes)} minutes (${Math.round(minutesLow)} to ${Math.round(minutesHigh)}) with cast-on and cast-off. It settles ${covers.length} of ${counted(covers.length + leaves.length, "doubt")}. ` +
      `The whole repeat would take ${wholeRepeat.stitches} stitches. ` +
      (swatch.proven
        ? "No smaller swatch does as much."
        : "A smaller one may do as much: there was too much to look through; --thorough goes on."),
  );
}

const cm = (mm: number): string => (mm / 10).toFixed(1);

function chartText({ chart }: Swatch): string {
  const rows = chart!.rows;
  if (rows[0]!.length + 8 > WIDTH) return paragraph("Its chart is too wide for a terminal: write it with --out.");
  const numbers = rows.map((row, index) => `  ${row}  ${rows.length - index}`);
  return `Chart, ${chart!.worked === "flat" ? "worked to and fro" : "every row read from right to left"}\n${numbers.join("\n")}`;
}

function keyTable(project: Project, { key, yarns, duplicateStitches }: Swatch): string {
  const columns = [
    { heading: "chart", elastic: true },
    { heading: "yarn", elastic: true },
    { heading: "metres", align: "right" },
    { heading: "range", align: "right" },
    { heading: "grams", align: "right" },
  ] as const;
  const lines = yarns.map(({ yarn, name, metres, low, high, grams }) => [
    key
      .filter((entry) => entry.yarn === yarn)
      .map(({ colour, of }) => (colour === of ? colour : `${colour} (pattern's ${of})`))
      .join(", ") || "laid on",
    name,
    `${metres.toFixed(1)} m`,
    `${low.toFixed(1)}-${high.toFixed(1)}`,
    grams === null ? "?" : `${grams.toFixed(1)} g`,
  ]);
  const missing = key
    .filter(({ yarn }) => yarn === null)
    .map(({ colour, of }) => {
      const known = project.pattern.colours.find(({ id }) => id === of)?.name ?? of;
      return paragraph(`${colour} (${known}) has no yarn yet; choose one before you knit.`);
    });
  const laid =
    duplicateStitches > 0
      ? [
          paragraph(
            `Duplicate stitches, ${duplicateStitches} of them, are laid on afterwards; they are in the metres and not in the minutes.`,
          ),
        ]
      : [];
  return [table(columns, lines), ...missing, ...laid].join("\n");
}

function places(project: Project, { rows }: Swatch): string {
  const several = project.pattern.charts.length > 1;
  const lines = rows.map(({ chart, section, rows: own, swatchRows }) => {
    const from = [
      `${rowsWords(own)} of ${several ? plain(project.pattern.charts.find(({ id }) => id === chart)?.name ?? chart) : "the chart"}`,
      ...(section === null ? [] : [`as in section ${section}`]),
    ].join(", ");
    return paragraph(`${rowsWords(swatchRows)}: ${from}`, "  ");
  });
  return `Its rows, from the bottom\n${lines.join("\n")}`;
}

const rowsOf = (rows: readonly number[]): string => `${rows.length === 1 ? "row" : "rows"} ${rowList(rows)}`;

const percent = (chance: number): string => `${Math.round(chance * 100)} %`;

const list = (heading: string, sentences: readonly string[]): string[] =>
  sentences.length === 0
    ? []
    : [`${paragraph(heading)}\n${sentences.map((sentence) => paragraph(sentence, "  - ")).join("\n")}`];
