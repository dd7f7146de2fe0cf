/** A row or a stitch in words, for the line under the fabric and for screen readers. */
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import { yarnInRow } from "../../fabric/colourway.ts";
import type { Eye } from "../shell/view.ts";
import { luxWords, metresWords, reachWords } from "../shell/words.ts";
import { rangeWords, readsWords } from "../weights/weightWords.ts";
import type { ReadsInLight, RowLine } from "../worker/api.ts";

const colourName = (project: Project, colour: string): string => {
  const name = project.pattern.colours.find(({ id }) => id === colour)?.name;
  return name ? `${colour} (${name})` : colour;
};

const yarnName = (project: Project, yarn: string | null | undefined): string | null =>
  yarn ? (project.yarns.find(({ id }) => id === yarn)?.name ?? yarn) : null;

export function rowSentence(row: number, line: RowLine | undefined, project: Project, distance: number): string {
  if (!line) return `Row ${row}.`;
  const names = line.colours.map((colour, i) => yarnName(project, line.yarns[i]) ?? colourName(project, colour));
  const held = `Row ${row}: ${names.join(" with ")}`;
  if (!line.shows) return `${held}, plain.`;
  const between = rangeWords(line.shows, line.low, line.high);
  const reads = line.readsTo ? `; ${readsWords(line.readsTo)}` : "";
  return `${held}, ${line.shows} at ${metresWords(distance)}${between ? ` (${between})` : ""}${reads}.`;
}

const LIGHT_WORDS: Readonly<Record<number, string>> = { 50: "by a lamp", 500: "in a room", 10_000: "by a window" };

/** "Reads to 2.1 m by a lamp, 2.4 m in a room, 2.9 m by a window."; nothing where there is nothing to see. */
export function lightsSentence(lights: readonly ReadsInLight[]): string {
  const parts: { readonly reach: string; readonly where: string[] }[] = [];
  for (const light of lights) {
    const [reach, where] = [reachWords(light), LIGHT_WORDS[light.lux] ?? `at ${luxWords(light.lux)}`];
    const last = parts.at(-1);
    if (last?.reach === reach) last.where.push(where);
    else parts.push({ reach, where: [where] });
  }
  const [first, ...others] = parts;
  if (!first) return "";
  if (others.length === 0)
    return first.reach === "never" ? "It does not read in any light." : `Reads ${toWords(first.reach)} in any light.`;
  const told = parts.map(({ reach, where }, i) => `${i === 0 ? toWords(reach) : reach} ${where.join(" and ")}`);
  return `Reads ${told.join(", ")}.`;
}

const toWords = (reach: string): string => (/^(never|past)/.test(reach) ? reach : `to ${reach}`);

/** What the words go by, and how far they may be trusted. */
export const trustWords = (verdicts: number, eye: Eye): string =>
  verdicts > 0
    ? `Tuned by ${verdicts === 1 ? "one look" : `${verdicts} looks`} at your swatches.`
    : `A model of ${eye === "ordinary" ? "ordinary eyesight" : "such eyesight"}, not tested on knitting; a swatch settles it.`;

export function stitchSentence(
  at: { readonly row: number; readonly column: number },
  chart: Chart,
  project: Project,
  colourway: string,
): string {
  const text = chart.rows[chart.rows.length - at.row];
  const colour = text?.[text.length - at.column];
  if (!colour || colour === "-") return `Stitch ${at.column}: none.`;
  const found = project.colourways.find(({ id }) => id === colourway);
  const yarn = yarnName(project, found && yarnInRow(found, colour, chart.id, at.row));
  return `Stitch ${at.column}: ${colourName(project, colour)}${yarn ? `, ${yarn}` : ""}.`;
}
