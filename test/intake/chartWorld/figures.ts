/** Sums up the scores of many readings, by family and by way. */
import type { ChartScore, Score } from "./score.ts";

export interface Figures {
  files: number;
  filesRight: number;
  charts: number;
  extra: number;
  found: number;
  countsRight: number;
  cells: number;
  cellsRight: number;
  /** In charts whose grid was found. */
  cellsFound: number;
  cellsFoundRight: number;
  /** Wrong cells of charts whose counts are right, those among them that are doubted, and all that are doubted. */
  wrong: number;
  wrongDoubted: number;
  doubted: number;
  countedCells: number;
  differences: number[];
  times: number[];
}

export function noFigures(): Figures {
  return {
    files: 0, filesRight: 0, charts: 0, extra: 0, found: 0, countsRight: 0, cells: 0, cellsRight: 0, cellsFound: 0,
    cellsFoundRight: 0, wrong: 0, wrongDoubted: 0, doubted: 0, countedCells: 0, differences: [], times: [],
  }; // prettier-ignore
}

export function addScore(figures: Figures, { charts, extra, fileRight }: Score, milliseconds: number): void {
  figures.files++;
  figures.filesRight += fileRight ? 1 : 0;
  figures.extra += extra;
  figures.times.push(milliseconds);
  for (const chart of charts) addChart(figures, chart);
}

function addChart(figures: Figures, chart: ChartScore): void {
  const right = chart.cells - chart.wrong;
  figures.charts++;
  figures.cells += chart.cells;
  figures.cellsRight += right;
  if (chart.found) {
    figures.found++;
    figures.cellsFound += chart.cells;
    figures.cellsFoundRight += right;
  }
  if (!chart.countsRight) return;
  figures.countsRight++;
  figures.countedCells += chart.cells;
  figures.wrong += chart.wrong;
  figures.wrongDoubted += chart.wrongUncertain;
  figures.doubted += chart.uncertain;
  figures.differences.push(...chart.differences);
}

export function joined(list: readonly Figures[]): Figures {
  const sum = noFigures();
  for (const one of list)
    for (const [key, value] of Object.entries(one) as [keyof Figures, number | number[]][])
      if (typeof value === "number") (sum[key] as number) += value;
      else for (const part of value) (sum[key] as number[]).push(part);
  return sum;
}

export const HEADING =
  "family                          files right  found   cells  cells where found  ΔE00  wrong doubted  doubtful  extra    ms";

/** One line of figures under `HEADING`: percents, medians. */
export function lineOf(name: string, figures: Figures): string {
  const { files, filesRight, charts, found, cells, cellsRight, cellsFound, cellsFoundRight, wrong } = figures;
  const percent = (part: number, whole: number, digits = 1): string =>
    whole === 0 ? "–" : ((100 * part) / whole).toFixed(digits);
  return [
    name.padEnd(30),
    String(files).padStart(6),
    percent(filesRight, files, 0).padStart(6),
    percent(found, charts).padStart(6),
    percent(cellsRight, cells, 2).padStart(7),
    percent(cellsFoundRight, cellsFound, 3).padStart(18),
    median(figures.differences).toFixed(2).padStart(5),
    `${percent(figures.wrongDoubted, wrong, 0)} of ${wrong}`.padStart(14),
    percent(figures.doubted, figures.countedCells, 2).padStart(9),
    String(figures.extra).padStart(6),
    median(figures.times).toFixed(0).padStart(5),
  ].join(" ");
}

export function median(numbers: readonly number[]): number {
  if (numbers.length === 0) return Number.NaN;
  const sorted = [...numbers].sort((one, other) => one - other);
  return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
}
