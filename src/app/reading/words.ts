/** How charts, cells and colours are told of in the door. */
import { plainName } from "../../colour/names.ts";
import type { ReadColour } from "../../intake/readChart.ts";

/** "winter-vest_2.pdf" → "winter vest 2". */
export const fileWords = (name: string): string =>
  name
    .replace(/\.[a-z0-9]{1,5}$/i, "")
    .replace(/[-_]+/g, " ")
    .trim() || "chart";

export const countWords = (count: number, one: string, many = `${one}s`): string =>
  count === 1 ? `1 ${one}` : `${count} ${many}`;

/** What a chart colour is called: by its key, else by what it looks like. */
export function colourWords(id: string, colour: ReadColour | undefined): string {
  if (id === "-") return "no stitch";
  if (!colour) return id;
  const name = colour.name?.trim();
  // A grey that stands in for an unknown shade is no name.
  if (!name && colour.assumed && colour.uncertainty === undefined) return `colour ${id}`;
  return name || plainName(colour.lab);
}

/** "row 12, stitch 30". */
export const cellWords = (row: number, column: number): string => `row ${row}, stitch ${column}`;

export const sizeWords = (columns: number, rows: number): string =>
  `${countWords(columns, "stitch", "stitches")} × ${countWords(rows, "row")}`;

/** The button by which charts that were read go on. */
export const onwardWords = (charts: number): string => (charts > 1 ? `Use these ${charts} charts` : "Use this chart");
