/** A row or a stitch in words, for the line under the fabric and for screen readers. */
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import { yarnInRow } from "../../fabric/colourway.ts";
import { metresWords } from "../shell/words.ts";
import type { RowLine } from "../worker/api.ts";

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
  const reads = line.readsTo
    ? line.readsTo.metres <= 0
      ? "; it does not read from anywhere"
      : line.readsTo.beyond || line.readsTo.metres > 6
        ? `; reads past 6${"\u202f"}m`
        : `; reads to ${metresWords(line.readsTo.metres)}`
    : "";
  return `${held}, ${line.shows} at ${metresWords(distance)}${reads}.`;
}

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
