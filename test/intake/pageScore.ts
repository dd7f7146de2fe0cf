/** What a reading of a drawn page has otherwise than it was drawn. */
import type { ReadChart, ReadCharts } from "../../src/intake/readChart.ts";
import type { DrawnChart, DrawnPage } from "./pagePainter.ts";

/** A sentence for each; none where all is as it was drawn. */
export function faultsOf({ style, charts }: DrawnPage, read: ReadCharts | null): string[] {
  if (!read) return ["no chart was found"];
  if (read.charts.length !== charts.length) return [`${read.charts.length} charts for ${charts.length}`];
  return charts.flatMap((chart, index) => {
    const got = read.charts[index]!;
    const faults = cellFaults(chart, got);
    if (faults.length > 0) return faults;
    const own: string[] = [];
    if ((got.name ?? null) !== chart.title) own.push(`title ${got.name} for ${chart.title}`);
    const numbered = style.numbers !== "none";
    if (numbered && (got.firstRow !== 1 || (chart.rows[0]!.length >= 10 && got.firstColumn !== 1)))
      own.push(`first row ${got.firstRow}, column ${got.firstColumn}`);
    const isPaper = style.signs.endsWith("white") || style.signs === "dingbats";
    for (const [id, letter] of idsOf(chart, got)) {
      const { hex, name } = chart.palette[letter]!;
      if (!isPaper && got.colours[id]!.hex !== hex) own.push(`${letter} is ${got.colours[id]!.hex} for ${hex}`);
      if (style.key !== "none" && got.colours[id]!.name !== name)
        own.push(`${letter} is called ${got.colours[id]!.name} for ${name}`);
    }
    return own;
  });
}

/** By id of the reading: the letter drawn. */
function idsOf(chart: DrawnChart, got: ReadChart): Map<string, string> {
  const ids = new Map<string, string>();
  for (const [row, text] of got.rows.entries())
    for (const [column, id] of [...text].entries()) if (id !== "-") ids.set(id, chart.rows[row]![column]!);
  return ids;
}

function cellFaults(chart: DrawnChart, got: ReadChart): string[] {
  const [wide, high] = [got.rows[0]!.length, got.rows.length];
  if (wide !== chart.rows[0]!.length || high !== chart.rows.length)
    return [`${wide} × ${high} cells for ${chart.rows[0]!.length} × ${chart.rows.length}`];
  const [letterOf, idOf] = [new Map<string, string>([["-", "-"]]), new Map<string, string>([["-", "-"]])];
  let wrong = 0;
  for (const [row, text] of got.rows.entries())
    for (const [column, id] of [...text].entries()) {
      const letter = chart.rows[row]![column]!;
      if (!letterOf.has(id) && !idOf.has(letter)) {
        letterOf.set(id, letter);
        idOf.set(letter, id);
      }
      if (letterOf.get(id) !== letter || idOf.get(letter) !== id) wrong++;
    }
  return wrong === 0 ? [] : [`${wrong} cells wrong of ${wide * high}`];
}
