/** Why an edit of a chart or of the pattern's colours cannot be done, in the words in which she knows them. */
import type { Problem } from "../base/problem.ts";
import type { Chart } from "../chart/chart.ts";
import { renumberedRange } from "../chart/renumbering.ts";
import { renumberingOf, type LinesEdit } from "../chart/chartLines.ts";
import type { ChartEdit } from "./chartEdit.ts";
import type { Project } from "./project.ts";

/** null where it may be tried. */
export function chartRefusal(project: Project, edit: ChartEdit): Problem | null {
  const { charts, colours } = project.pattern;
  switch (edit.kind) {
    case "addChart":
      // Whatever names the chart that is there would be judged by the new one too.
      return charts.some(({ id }) => id === edit.chart.id)
        ? fault("the chart", "an id that no other chart has", quoted(edit.chart.id))
        : null;
    case "addPatternColour":
    case "setSections":
      return null;
    case "removePatternColour":
      return missing("the colour", colours, edit.id, "chart's colours") ?? stitchedRefusal(charts, edit.id);
    case "mergePatternColours":
      return (
        missing("the colour", colours, edit.from, "chart's colours") ??
        missing("the colour", colours, edit.into, "chart's colours") ??
        (edit.from === edit.into ? fault("the colours", "two that differ", `${quoted(edit.from)} twice`) : null)
      );
    default: {
      const chart = charts.find(({ id }) => id === edit.chart);
      return chart
        ? ofChart(project, chart, edit)
        : fault("the chart", "the id of one of the charts", quoted(edit.chart));
    }
  }
}

function ofChart(project: Project, chart: Chart, edit: Extract<ChartEdit, { chart: string | Chart }>): Problem | null {
  const [height, width] = [chart.rows.length, chart.rows[0]!.length];
  switch (edit.kind) {
    case "setStitches":
      return (
        countRefusal("the stitches", edit.rows.length, height, ["row", "rows"]) ??
        widthRefusal("the stitches", edit.rows, width)
      );
    case "insertRows":
      return (
        placeRefusal("the new rows", edit.at, height + 1, ["row", "above the chart"]) ??
        (edit.rows.length === 0 ? fault("the new rows", "at least one row", "none") : null) ??
        widthRefusal("the new rows", edit.rows, width)
      );
    case "insertColumns":
      return (
        placeRefusal("the new columns", edit.at, width + 1, ["column", "left of the chart"]) ??
        countRefusal("the new columns", edit.stitches.length, height, ["row", "rows"]) ??
        (edit.stitches[0] === "" ? fault("the new columns", "at least one column", "none") : null) ??
        widthRefusal("the new columns", edit.stitches, edit.stitches[0]!.length)
      );
    case "removeRows":
      return rangeRefusal("the rows", edit.rows, height, "row") ?? swatchRefusal(project, edit);
    case "removeColumns":
      return rangeRefusal("the columns", edit.columns, width, "column");
    case "removeChart":
      return usedRefusal(project, chart);
    default:
      return null;
  }
}

const fault = (where: string, expected: string, got: string): Problem => ({ where, expected, got, severity: "fault" });
const quoted = (text: string): string => JSON.stringify(text);

const missing = (where: string, ids: readonly { id: string }[], id: string, word: string): Problem | null =>
  ids.some((item) => item.id === id) ? null : fault(where, `the id of one of the ${word}`, quoted(id));

const counted = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

function countRefusal(where: string, found: number, wanted: number, words: readonly [string, string]): Problem | null {
  return found === wanted ? null : fault(where, counted(wanted, ...words), counted(found, ...words));
}

function widthRefusal(where: string, rows: readonly string[], width: number): Problem | null {
  const odd = rows.find(({ length }) => length !== width);
  return odd === undefined
    ? null
    : fault(where, `${counted(width, "stitch", "stitches")} in every row`, `one of ${odd.length}`);
}

function placeRefusal(
  where: string,
  at: number,
  most: number,
  [line, edge]: readonly [string, string],
): Problem | null {
  return Number.isInteger(at) && at >= 1 && at <= most
    ? null
    : fault(where, `a ${line} from 1 to ${most}, which is ${edge}`, String(at));
}

function rangeRefusal(
  where: string,
  [from, to]: readonly [number, number],
  most: number,
  line: "row" | "column",
): Problem | null {
  if (!(Number.isInteger(from) && Number.isInteger(to) && from >= 1 && from <= to && to <= most))
    return fault(where, `${line}s between 1 and ${most}`, `[${from}, ${to}]`);
  return from === 1 && to === most ? fault(where, `at least one ${line} that stays`, "all of them") : null;
}

/** A swatch is knitted already: its place may shrink, but not vanish. */
function swatchRefusal(project: Project, edit: Extract<LinesEdit, { kind: "removeRows" }>): Problem | null {
  const numbers = renumberingOf(edit);
  const swatch = project.swatches?.find(
    ({ chart, rows }) => chart === edit.chart && rows && !renumberedRange(numbers, rows),
  );
  return swatch ? fault("the rows", "some that a swatch was not knitted of", `swatch ${quoted(swatch.id)}`) : null;
}

function usedRefusal({ pattern, swatches }: Project, { id }: Chart): Problem | null {
  if (pattern.charts.length === 1) return fault("the chart", "one that is not the only one", "the only one");
  const section = pattern.sections?.find(({ chart }) => chart === id);
  if (section)
    return fault("the chart", "one that no section is knitted from", `section ${quoted(section.name ?? section.id)}`);
  const swatch = swatches?.find(({ chart }) => chart === id);
  return swatch ? fault("the chart", "one without a swatch", `swatch ${quoted(swatch.id)}`) : null;
}

function stitchedRefusal(charts: readonly Chart[], colour: string): Problem | null {
  const chart = charts.find(({ rows }) => rows.some((text) => text.includes(colour)));
  return chart
    ? fault("the colour", "one in which nothing is knitted", `stitches in chart ${quoted(chart.name ?? chart.id)}`)
    : null;
}
