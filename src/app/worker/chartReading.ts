/** A sheet's charts: exactly as they are drawn where it is a drawing, else as its picture shows them. */
import type { Outcome } from "../../base/problem.ts";
import type { CellsRead } from "../../intake/cellLooks.ts";
import { readChartPicture } from "../../intake/chartPicture.ts";
import { gridBetween, refineGrid } from "../../intake/findGrids.ts";
import { readCells } from "../../intake/readCells.ts";
import type { LaidGrid, LayOptions, SheetOptions, SheetRead } from "./chartApi.ts";
import type { OpenSheet } from "./chartSheets.ts";
import { drawnLooks } from "./drawnLooks.ts";

export function readSheet(sheet: OpenSheet, options: SheetOptions, onStep: (share: number) => void): SheetRead {
  const { pixels, preview, drawn } = sheet;
  const { width, height } = pixels;
  if (drawn) {
    const charts = drawn.charts.map((chart) => ({ chart, looks: drawnLooks(chart) }));
    return { width, height, preview, isDrawn: true, charts, problems: drawn.problems };
  }
  const { charts, cells, problems } = readChartPicture(pixels, { ...options, onStep });
  return {
    width,
    height,
    preview,
    isDrawn: false,
    charts: charts.map((chart, at) => ({ chart, looks: cells[at] ?? drawnLooks(chart) })),
    problems,
  };
}

export function layCells(
  { pixels }: OpenSheet,
  laid: LaidGrid,
  { snap, colours }: LayOptions,
  onStep: (share: number) => void,
): Outcome<CellsRead> {
  const placed = isCrossings(laid) ? laid : gridBetween(laid.corners, laid.columns, laid.rows);
  const grid = snap ? refineGrid(pixels, placed) : placed;
  const value = readCells(pixels, grid, { onStep, ...(colours === undefined ? {} : { colours }) });
  return { value: { ...value, chart: { ...value.chart, grid } }, problems: [] };
}

const isCrossings = (laid: LaidGrid): laid is Extract<LaidGrid, { readonly corners: Float32Array }> =>
  laid.corners instanceof Float32Array;
