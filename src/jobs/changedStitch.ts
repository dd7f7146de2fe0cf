/** What a stitch in another colour would do to the strands behind its row, in the yarns of a colourway. */
import { comfortableFloat } from "../audit/floats.ts";
import { changedFloats } from "../chart/changedStitch.ts";
import { gridOf, type Grid } from "../chart/chart.ts";
import type { Project } from "../document/project.ts";
import { yarnInRow } from "../fabric/colourway.ts";
import { colourwayOf } from "./parts.ts";

export interface ChangedStitchQuestion {
  readonly colourway?: string | undefined;
  readonly chart: string;
  /** From 1 at the bottom. */
  readonly row: number;
  /** From 1 at the right edge. */
  readonly column: number;
  /** The chart colour that the stitch would have. */
  readonly colour: string;
}

export interface ChangedStitch {
  /** Stitches that the longest strand of the row passes, before and after; 0 for none. */
  readonly longest: readonly [number, number];
  /** Strands in the row, before and after. */
  readonly strands: readonly [number, number];
  /** Strands that pass more stitches than lie well, before and after. */
  readonly tooLong: readonly [number, number];
  /** Stitches that lie well at the pattern's gauge. */
  readonly limit: number;
}

/** null where there is no such stitch. Chart colours in one yarn are one strand. */
export function changedStitch(project: Project, question: ChangedStitchQuestion): ChangedStitch | null {
  const { pattern, knitting } = project;
  const chart = pattern.charts.find(({ id }) => id === question.chart);
  const text = chart?.rows[chart.rows.length - question.row];
  const own = text?.[text.length - question.column];
  if (!chart || text === undefined || own === undefined || own === "-") return null;
  const colourway = colourwayOf(project, question.colourway);
  const { ids, cells, width } = gridOf({ rows: [text + question.colour] });
  const strandOf = ids.map((colour) => yarnInRow(colourway, colour, chart.id, question.row) ?? `colour ${colour}`);
  const strands: Grid = {
    width: width - 1,
    height: 1,
    ids: strandOf,
    // The colour that was put at the row's end, its right edge, so that it has an index.
    cells: cells.slice(1).map((cell) => (cell < ids.length ? strandOf.indexOf(strandOf[cell]!) : cell)),
  };
  const colour = strandOf.indexOf(strandOf[ids.indexOf(question.colour)]!);
  const { all, gone, come, longest, colours } = changedFloats(
    strands,
    { row: 1, column: question.column, colour },
    chart.worked,
  );
  const limit = comfortableFloat(pattern.gauge.stitches, knitting?.floatCm);
  const over = (floats: typeof all): number => floats.filter(({ length }) => length > limit).length;
  return { longest, strands: colours, tooLong: [over(all), over(all) - over(gone) + over(come)], limit };
}
