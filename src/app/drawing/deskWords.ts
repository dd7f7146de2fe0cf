/** What is said of drawing: the names of acts, where the hand is, what is chosen. */
import { NO_STITCH, type Grid } from "../../chart/chart.ts";
import { cellIndex, columnsOf, isOn, rowsOf, type Region, type Selection, type Stitch } from "../../chart/draw.ts";
import type { PatternColour } from "../../fabric/pattern.ts";
import { rowsWords } from "../shell/words.ts";
import { colourName } from "../pattern/swatch.ts";
import type { Tool } from "./gesture.ts";

/** "rust", "no stitch". */
export function valueName(value: number, ids: readonly string[], colours: readonly PatternColour[]): string {
  if (value === NO_STITCH) return "no stitch";
  const colour = colours.find(({ id }) => id === ids[value]);
  return colour ? colourName(colour) : `colour ${ids[value]}`;
}

/** "Row 12, stitch 7, rust". */
export function stitchWords(grid: Grid, stitch: Stitch, colours: readonly PatternColour[]): string {
  if (!isOn(grid, stitch)) return "beside the chart";
  const value = grid.cells[cellIndex(grid, stitch)]!;
  return `Row ${stitch[0]}, stitch ${stitch[1]}, ${valueName(value, grid.ids, colours)}`;
}

export const stitchesWords = (count: number): string => `${count} ${count === 1 ? "stitch" : "stitches"}`;

/** "6 stitches × 4 rows". */
export const regionSize = (region: Region): string =>
  `${stitchesWords(columnsOf(region))} × ${rowsOf(region)} ${rowsOf(region) === 1 ? "row" : "rows"}`;

/** "6 stitches × 4 rows, rows 3–6, stitches 1–6". */
export function regionWords(region: Region): string {
  const [from, to] = region.columns;
  return `${regionSize(region)}, ${rowsWords(region.rows)}, ${from === to ? `stitch ${from}` : `stitches ${from}–${to}`}`;
}

/** What is chosen: a rectangle by its size, stitches one by one by their number. */
export const chosenWords = (selection: Selection): string =>
  selection.mask ? singleWords(selection.mask.reduce((sum, one) => sum + one, 0)) : regionSize(selection);

const singleWords = (count: number): string => `${count} single ${count === 1 ? "stitch" : "stitches"}`;

/** What an act is called by the button that takes it back. */
export function actName(tool: Tool, changed: number, colour: string): string {
  const what = `${stitchesWords(changed)} ${colour === "no stitch" ? "taken out" : `in ${colour}`}`;
  if (tool === "line") return `a line, ${what}`;
  if (tool === "rectangle") return `a rectangle, ${what}`;
  if (tool === "fill") return `filled, ${what}`;
  return colour === "no stitch" ? what : `${stitchesWords(changed)} drawn in ${colour}`;
}

/** How many cells differ. */
export function changedCells(before: Grid, after: Grid): number {
  let count = 0;
  for (let at = 0; at < before.cells.length; at++) if (before.cells[at] !== after.cells[at]) count += 1;
  return count;
}
