/** Which chart colours a section knits with a yarn: what has to change where another takes its place. */
import { rowColours } from "../chart/counts.ts";
import { yarnInRound, type Colourway } from "../fabric/colourway.ts";
import type { Knitting } from "./knitting.ts";

export function coloursKnitted(knitting: Knitting, colourway: Colourway, section: string, yarn: string): string[] {
  const own = knitting.sections.find(({ id }) => id === section);
  if (!own) return [];
  const found = new Set<string>();
  for (const { round, chartRow: row } of own.rounds)
    for (const index of rowColours(own.grid, row)) {
      const colour = own.grid.ids[index]!;
      if (yarnInRound(colourway, colour, { section, round, chart: own.chart, row }) === yarn) found.add(colour);
    }
  return [...found];
}
