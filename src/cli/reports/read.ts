/** What `read` tells people: each chart as it was read, its key in words, how parts were put together, and how far to trust it. */
import type { Joint } from "../../intake/joinCharts.ts";
import type { ReadChart, ReadColour } from "../../intake/readChart.ts";
import { plainName } from "../../colour/names.ts";
import { counted, paragraph, plain, table, WIDTH } from "../words.ts";

export function readReport(charts: readonly ReadChart[], joints: readonly Joint[]): string {
  if (charts.length === 0) return "No chart was found.";
  const reports = charts.map((chart, index) => chartReport(chart, charts.length > 1 ? ` ${index + 1}` : ""));
  return [...reports, ...(joints.length > 0 ? [jointReport(joints)] : [])].join("\n\n");
}

/** Cells named one by one before the rest is counted. */
const CELLS_TOLD = 12;

function chartReport(chart: ReadChart, number: string): string {
  const { name, rows, colours, symbols, confidence, uncertain, page, firstRow } = chart;
  const stitches = rows[0]!.length === 1 ? "1 stitch" : `${rows[0]!.length} stitches`;
  const numbered =
    firstRow === undefined || firstRow === 1 ? "" : `, rows ${firstRow} to ${firstRow + rows.length - 1}`;
  const on = page === null ? "" : ` (page ${page})`;
  const title = `Chart${number}${name ? ` "${name}"` : ""}: ${stitches} by ${counted(rows.length, "row")}${numbered}${on}`;
  const signed = symbols !== undefined && Object.keys(symbols).length > 0;
  const lines = Object.entries(colours).map(([id, colour]) => [
    id,
    ...(signed ? [signOf(chart, id)] : []),
    nameOf(colour),
    colour.hex,
    String(rows.reduce((sum, row) => sum + [...row].filter((cell) => cell === id).length, 0)),
  ]);
  const columns = [
    { heading: "colour" },
    ...(signed ? [{ heading: "sign" }] : []),
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

function signOf({ symbols }: ReadChart, id: string): string {
  const symbol = symbols?.[id];
  return symbol ? (symbol.text ?? "a sign") : "none";
}

function nameOf({ name, lab, assumed, uncertainty }: ReadColour): string {
  if (!assumed) return name ?? plainName(lab);
  const standsIn = uncertainty === undefined ? "not stated, a grey stands in" : "not stated, a shade by its name";
  return name === undefined ? standsIn : `${name} (${standsIn})`;
}

function jointReport(joints: readonly Joint[]): string {
  const parts = joints.map(({ first, second, side, overlap, sureness }) => {
    const upright = side === "above" || side === "below";
    const line = upright ? "row" : "column";
    const shared = overlap === 0 ? `no ${line} in common` : `${counted(overlap, line)} in common`;
    return `part ${second + 1} lies ${upright ? side : `${side} of`} part ${first + 1} with ${shared} (sure to ${Math.round(100 * sureness)} %)`;
  });
  return paragraph(`Put together: ${parts.join("; ")}.`);
}
