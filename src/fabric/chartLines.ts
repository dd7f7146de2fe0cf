/** Rows and columns that come in or go out, for the whole of a pattern: whatever of it names rows, columns or rounds goes with its stitches. */
import { chartWithLines, isOfRows, renumberingOf, type LinesEdit } from "../chart/chartLines.ts";
import { sectionWithColumns, sectionWithRows, type RowsChange } from "../garment/sectionLines.ts";
import type { Pattern } from "./pattern.ts";

/** The pattern afterwards. The edit can be done: see the refusals of the document. */
export function patternWithLines(pattern: Pattern, edit: LinesEdit): Pattern {
  const charts = pattern.charts.map((chart) => (chart.id === edit.chart ? chartWithLines(chart, edit) : chart));
  if (!pattern.sections) return { ...pattern, charts };
  const columns = renumberingOf(edit);
  const width = charts.find(({ id }) => id === edit.chart)!.rows[0]!.length;
  const rows = isOfRows(edit) ? rowsChange(pattern, edit) : null;
  return {
    ...pattern,
    charts,
    sections: pattern.sections.map((section) => {
      if (section.chart !== edit.chart) return section;
      return rows ? sectionWithRows(section, rows) : sectionWithColumns(section, columns, width);
    }),
  };
}

/** How the edit numbers a chart's rows, and its heights before and after. */
export function rowsChange(pattern: Pattern, edit: LinesEdit): RowsChange {
  const before = pattern.charts.find(({ id }) => id === edit.chart)!.rows.length;
  const rows = renumberingOf(edit);
  return { rows, heights: [before, rows.from(before + 1) - 1] };
}
