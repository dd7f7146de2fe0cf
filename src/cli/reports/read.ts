/** What `read` tells people: each chart as it was read, its colours in words, and how far to trust it. */
import type { ReadChart, ReadCharts } from "../../intake/readChart.ts";
import { plainName } from "../../colour/names.ts";
import { counted, paragraph, plain, table, WIDTH } from "../words.ts";

export function readReport({ charts }: ReadCharts): string {
  if (charts.length === 0) return "No chart was found.";
  return charts.map((chart, index) => chartReport(chart, charts.length > 1 ? ` ${index + 1}` : "")).join("\n\n");
}

/** Cells named one by one before the rest is counted. */
const CELLS_TOLD = 12;

function chartReport(chart: ReadChart, number: string): string {
  const { name, rows, colours, confidence, uncertain } = chart;
  const title = `Chart${number}${name ? ` "${name}"` : ""}: ${counted(rows[0]!.length, "stitch").replace("stitchs", "stitches")} by ${counted(rows.length, "row")}`;
  const lines = Object.entries(colours).map(([id, colour]) => [
    id,
    colour.assumed
      ? `${colour.name ?? ""} (not stated, a grey stands in)`.trim()
      : (colour.name ?? plainName(colour.lab)),
    colour.hex,
    String(rows.reduce((sum, row) => sum + [...row].filter((cell) => cell === id).length, 0)),
  ]);
  const columns = [
    { heading: "colour" },
    { heading: "name", elastic: true },
    { heading: "hex" },
    { heading: "stitches", align: "right" },
  ] as const;
  const cells = uncertain.slice(0, CELLS_TOLD).map(([row, column]) => `${row}/${column}`);
  const more = uncertain.length > CELLS_TOLD ? ` and ${uncertain.length - CELLS_TOLD} more` : "";
  const doubts = cells.length > 0 ? [paragraph(`To look at again, as row/column: ${cells.join(", ")}${more}.`)] : [];
  // A chart wider than the terminal would wrap into nonsense; its rows are in --json.
  const picture = rows[0]!.length <= WIDTH - 2 ? [rows.map((row) => `  ${plain(row)}`).join("\n")] : [];
  const trust = `Read with a confidence of ${Math.round(confidence * 100)} %, an estimate.`;
  return [`${paragraph(title)}\n${trust}`, ...picture, table(columns, lines), ...doubts].join("\n\n");
}
