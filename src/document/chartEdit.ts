/** Edits of charts and of the pattern's colours: stitches, rows and columns that come in or go out, whole charts, colours that are added, taken away or made one. */
import { oncePer } from "../base/oncePer.ts";
import { findBands } from "../chart/bands.ts";
import { gridOf, type Chart } from "../chart/chart.ts";
import { chartWithLines, isOfRows, renumberingOf, type LinesEdit } from "../chart/chartLines.ts";
import { renumberedRange } from "../chart/renumbering.ts";
import { patternWithLines } from "../fabric/chartLines.ts";
import { colourwayWithLines, placesWith, roundsWith } from "../fabric/colourwayLines.ts";
import type { PatternColour } from "../fabric/pattern.ts";
import { coloursEdited, type ColoursEdit } from "./coloursEdit.ts";
import { patched } from "./patched.ts";
import type { Project } from "./project.ts";
import { withSections, type SectionsEdit } from "./sectionsEdit.ts";
import { withChart } from "./withChart.ts";
import { placed, withPlaces } from "./withPlaces.ts";
import { wishNamed } from "./wishNames.ts";

export type ChartEdit =
  /** As many rows as the chart has, top row first, as wide as they are; its colours are the pattern's. */
  | { readonly kind: "setStitches"; readonly chart: string; readonly rows: readonly string[] }
  /**
   * Whatever names rows, columns or rounds names the same stitches afterwards; what names only such as have gone goes with them. A section
   * becomes as many rounds longer or shorter as it knits of those rows: see `sectionWithRows`. Its stitches stay as many as they are.
   */
  | LinesEdit
  /** `colours`: those that the pattern does not have yet. */
  | { readonly kind: "addChart"; readonly chart: Chart; readonly colours: readonly PatternColour[] }
  /** Refused for the only one, and while a section or a swatch uses it. */
  | { readonly kind: "removeChart"; readonly chart: string }
  /** "" takes the name away. */
  | { readonly kind: "renameChart"; readonly chart: string; readonly name: string }
  | { readonly kind: "setWorked"; readonly chart: string; readonly worked: "round" | "flat" }
  | SectionsEdit
  | ColoursEdit;

/** The project after an edit that is not refused. */
export function chartEdited(project: Project, edit: ChartEdit): Project {
  const { pattern } = project;
  switch (edit.kind) {
    case "setStitches":
      return withChart(project, edit.chart, (chart) => ({ ...chart, rows: [...edit.rows] }));
    case "insertRows":
    case "removeRows":
    case "insertColumns":
    case "removeColumns":
      return withLines(project, edit);
    case "addChart": {
      const colours = edit.colours.length > 0 ? [...pattern.colours, ...edit.colours] : pattern.colours;
      return { ...project, pattern: { ...pattern, colours, charts: [...pattern.charts, edit.chart] } };
    }
    case "removeChart":
      return withoutChart(project, edit.chart);
    case "renameChart":
      return withChart(project, edit.chart, (chart) => patched<Chart>(chart, { name: edit.name || null }));
    case "setSections":
      return withSections(project, edit);
    case "setWorked":
      return withChart(project, edit.chart, (chart) => ({ ...chart, worked: edit.worked }));
    default:
      return coloursEdited(project, edit);
  }
}

function withLines(project: Project, edit: LinesEdit): Project {
  const { pattern, colourways, swatches, knitting } = project;
  const place = placesWith(edit, pattern);
  const band = bandNames(pattern.charts, edit);
  const numbers = isOfRows(edit) ? renumberingOf(edit) : null;
  const rounds = new Map(roundsWith(edit, pattern));
  /** Where she is: the last of the rounds left that she had knitted. */
  const knittedTo = <At extends { section?: string; round?: number }>(at: At): At =>
    at.section !== undefined && at.round !== undefined && rounds.has(at.section)
      ? { ...at, round: rounds.get(at.section)!.upTo(at.round) }
      : at;
  return {
    ...project,
    pattern: patternWithLines(pattern, edit),
    colourways: colourways.map((colourway) => {
      const after = colourwayWithLines(colourway, edit, pattern);
      return after.wish ? { ...after, wish: wishNamed(after.wish, { place, band }) } : after;
    }),
    ...(swatches && {
      swatches: swatches.map((swatch) => {
        const { looks } = swatch;
        const rows =
          numbers && swatch.chart === edit.chart && swatch.rows ? renumberedRange(numbers, swatch.rows) : null;
        return { ...swatch, ...(rows && { rows }), ...(looks && { looks: placed(looks, place) }) };
      }),
    }),
    ...(knitting && {
      knitting: {
        ...knittedTo(knitting),
        ...(knitting.weighed && {
          weighed: knitting.weighed.map((weighing) => ({ ...weighing, after: knittedTo(weighing.after) })),
        }),
      },
    }),
  };
}

/**
 * A band is called after its place among the others: by which name afterwards, null for none. With several charts a name is that of a band in
 * each of them, and stays.
 */
function bandNames([chart, ...others]: readonly Chart[], edit: LinesEdit): (band: string) => string | null {
  if (!chart || others.length > 0 || !isOfRows(edit)) return (name) => name;
  const numbers = renumberingOf(edit);
  // Few wishes name a band, and bands take long to find.
  const bandsOf = oncePer((of: Chart) => findBands(of, gridOf(of)));
  const chartAfter = chartWithLines(chart, edit);
  return (name) => {
    const band = bandsOf(chart).find(({ id }) => id === name);
    if (!band) return name;
    const left = renumberedRange(numbers, band.rows);
    if (!left) return null;
    // Of a band that new rows part, the half with its middle row keeps what is wished of it.
    const middle = Math.min(left[1], numbers.from(Math.floor((band.rows[0] + band.rows[1]) / 2)));
    return bandsOf(chartAfter).find(({ rows }) => rows[1] >= middle)!.id;
  };
}

function withoutChart(project: Project, chart: string): Project {
  const without = withPlaces(project, (at) => ("chart" in at && at.chart === chart ? null : at));
  const { pattern } = without;
  return { ...without, pattern: { ...pattern, charts: pattern.charts.filter(({ id }) => id !== chart) } };
}
