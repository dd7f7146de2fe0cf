/** What is in hand in the door to charts: her files, the pages of them that were read, and the charts with her corrections. */
import type { ChartGrid } from "../../intake/chartGrid.ts";
import { correctedChart, doubtfulCells, startCorrecting, type Corrected } from "../../intake/correctChart.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import { shadedByName, withoutGroundShades } from "./colourSaid.ts";
import { fileWords } from "./words.ts";
import type { FoundChart, SheetRead } from "../worker/chartApi.ts";

/** A file she chose. */
export interface SourceInHand {
  readonly id: string;
  readonly file: File;
  readonly state: "waiting" | "choosing" | "opened" | "refused";
  /** 0 until it was opened. */
  readonly pages: number;
  /** Why it was not opened, or what is to be known of it. */
  readonly told: readonly string[];
}

/** A page of it, or the picture itself. */
export interface SheetInHand {
  readonly key: string;
  readonly source: string;
  readonly file: File;
  /** From 1. */
  readonly page: number;
  readonly hasPages: boolean;
  readonly state: "waiting" | "read" | "refused";
  readonly preview: Blob | null;
  /** Pixels; 0 until it was read. */
  readonly width: number;
  readonly height: number;
  readonly told: readonly string[];
  /** That signs on it have no key beside them; nothing to mind any more once their shades are known from elsewhere. */
  readonly keyless: readonly string[];
}

/** A chart in hand: as it was read, and as she has corrected it. */
export interface ChartInHand {
  readonly key: string;
  readonly name: string;
  readonly isTaken: boolean;
  readonly read: ReadChart;
  readonly state: Corrected;
  /** Where its cells lie in pictures. A chart put together has several, any other one. */
  readonly parts: readonly ChartPart[];
  /** Whether every cell is known to the number. */
  readonly isDrawn: boolean;
  /** From what it was put together, and how these lie. */
  readonly joined?: { readonly charts: readonly ChartInHand[]; readonly joints: readonly Joint[] };
}

/** That two charts continue each other: which lies on which side of which, and how many of their rows or columns are the same. */
export interface Joint {
  readonly first: number;
  readonly second: number;
  /** Where the second lies, seen from the first. */
  readonly side: "above" | "below" | "left" | "right";
  readonly overlap: number;
}

export interface ChartPart {
  /** The key of its sheet. */
  readonly sheet: string;
  readonly grid: ChartGrid;
  /** Rows of the chart that lie above the part, and columns to the left of it. */
  readonly top: number;
  readonly left: number;
}

export const sheetOf = (source: SourceInHand, page: number): SheetInHand => ({
  key: `${source.id} page ${page}`,
  source: source.id,
  file: source.file,
  page,
  hasPages: source.pages > 1,
  state: "waiting",
  preview: null,
  width: 0,
  height: 0,
  told: [],
  keyless: [],
});

/** What a sheet is called. */
export const sheetName = ({ file, page, hasPages }: SheetInHand): string =>
  hasPages ? `${file.name}, page ${page}` : file.name;

/** How surely a chart has to be one to be taken unasked, and how large beside the largest of its sheet: less is most often a key or letters. Our choice. */
const TAKEN_FROM = { confidence: 0.6, share: 0.1 };

const stitchesOf = ({ chart: { rows } }: FoundChart): number => rows.length * (rows[0]?.length ?? 0);

/**
 * The charts of a sheet, named by what is written above them, else by the file: those that are surely charts in the order in
 * which they stand there, then the doubtful ones, which are left unless she takes them.
 */
export function chartsOf(sheet: SheetInHand, read: SheetRead): ChartInHand[] {
  const plain = fileWords(sheet.file.name);
  const page = sheet.hasPages ? `, page ${sheet.page}` : "";
  const largest = Math.max(...read.charts.map(stitchesOf));
  const best = Math.max(...read.charts.map(({ chart }) => chart.confidence));
  const isSure = (found: FoundChart): boolean =>
    found.chart.confidence >= Math.min(best, TAKEN_FROM.confidence) && stitchesOf(found) >= TAKEN_FROM.share * largest;
  const weight = (found: FoundChart): number => found.chart.confidence * stitchesOf(found);
  const sure = read.charts.filter(isSure);
  // A drawing tells its charts from the top on; a picture's are found in no order that means something.
  const first = read.isDrawn ? sure : sure.toSorted((one, other) => weight(other) - weight(one));
  const doubtful = read.charts.filter((found) => !isSure(found)).sort((one, other) => weight(other) - weight(one));
  return [...first, ...doubtful].map((found, at) => {
    const number = read.charts.length > 1 ? ` ${at + 1}` : "";
    const key = `${sheet.key} chart ${at + 1}`;
    return {
      ...chartInHand(key, `${plain}${page}${number}`, found, sheet.key, read.isDrawn),
      isTaken: at < first.length,
    };
  });
}

export function chartInHand(
  key: string,
  name: string,
  { chart, looks }: FoundChart,
  sheet: string,
  isDrawn: boolean,
): ChartInHand {
  const read = { ...chart, colours: shadedByName({ colours: withoutGroundShades(chart) }) };
  return {
    key,
    name: chart.name?.trim() || name,
    isTaken: true,
    read,
    state: startCorrecting({ chart: read, looks }),
    parts: chart.grid ? [{ sheet, grid: chart.grid, top: 0, left: 0 }] : [],
    isDrawn,
  };
}

/** The chart as it goes on from the door. */
export const readyChart = ({ name, read, state }: ChartInHand): ReadChart => ({ ...correctedChart(state, read), name });

/** Whether a colour of it has no shade yet, but for a grey that stands in. */
export const hasUnknownShade = ({ state }: ChartInHand): boolean =>
  Object.values(state.colours).some(({ assumed, uncertainty }) => assumed && uncertainty === undefined);

export const doubtsOf = ({ state }: ChartInHand): number => doubtfulCells(state).length;

/** The part of a chart that has the cell in the `row`th row from the top and `column`th from the left (both from 0). */
export function partAt({ parts }: ChartInHand, row: number, column: number): ChartPart | null {
  return (
    parts.find(
      ({ top, left, grid }) => row >= top && row < top + grid.rows && column >= left && column < left + grid.columns,
    ) ?? null
  );
}

export const changed = (
  charts: readonly ChartInHand[],
  key: string,
  how: (chart: ChartInHand) => ChartInHand,
): readonly ChartInHand[] => charts.map((chart) => (chart.key === key ? how(chart) : chart));

/** Acts on the cells of a chart; an act that changes nothing gives the same charts back. */
export function corrected(
  charts: readonly ChartInHand[],
  key: string,
  how: (state: Corrected) => Corrected,
): readonly ChartInHand[] {
  const chart = charts.find((one) => one.key === key);
  if (!chart) return charts;
  const state = how(chart.state);
  return state === chart.state ? charts : changed(charts, key, (one) => ({ ...one, state }));
}

/** Colours that no stitch has any more go, but for those that have a name: somebody has said that the chart has them. */
export function withoutUnused(state: Corrected): Corrected {
  const used = new Set(state.rows.join(""));
  const stays = ([id]: readonly [string, unknown]): boolean => used.has(id) || state.colours[id]?.name !== undefined;
  return {
    ...state,
    colours: Object.fromEntries(Object.entries(state.colours).filter(stays)),
    symbols: Object.fromEntries(Object.entries(state.symbols).filter(stays)),
  };
}
