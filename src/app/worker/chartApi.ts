/** What the page may ask about pictures and pages with charts on them. Places are in pixels of the sheet, upright; answers are plain data. */
import type { Outcome, Problem } from "../../base/problem.ts";
import type { ChartGrid, Point } from "../../intake/chartGrid.ts";
import type { CellLooks, CellsRead } from "../../intake/cellLooks.ts";
import type { ReadChart } from "../../intake/readChart.ts";

/** A file of hers: a picture, a drawing or pages. */
export interface ChartSource {
  readonly id: string;
  readonly file: Blob;
}

/** One page of a source; pictures and drawings have one, from 1. */
export interface ChartSheet extends ChartSource {
  readonly page: number;
}

export type ChartStage = "opening" | "reading";

/** Hears what is being done and how much of it, 0 to 1. */
export type OnChartStage = (stage: ChartStage, share: number) => void;

export interface FoundChart {
  readonly chart: ReadChart;
  /** What its cells look like, so that corrections need no picture. */
  readonly looks: CellLooks;
}

export interface SheetRead {
  /** Pixels; what all places on it are told in. */
  readonly width: number;
  readonly height: number;
  /** For the eye; no larger than a screen can use. */
  readonly preview: Blob;
  /** Whether what is on it was drawn, so that every cell is known to the number. */
  readonly isDrawn: boolean;
  readonly charts: readonly FoundChart[];
  readonly problems: readonly Problem[];
}

export interface SheetOptions {
  /** How many colours the chart has, where she knows. */
  readonly colours?: number;
}

/** A grid as she laid it: its corners, clockwise from the top left, and its counts; or every crossing of it. */
export type LaidGrid =
  { readonly corners: readonly Point[]; readonly columns: number; readonly rows: number } | ChartGrid;

export interface LayOptions extends SheetOptions {
  /** Whether the lines are moved onto what is drawn, or lie as she laid them. */
  readonly snap: boolean;
}

export interface ChartApi {
  /** How many pages it has. No value where it cannot be opened. */
  pages(source: ChartSource): Promise<Outcome<{ readonly pages: number }>>;
  /** A small picture of a page, its longer side no more than `most` pixels. */
  thumbnail(sheet: ChartSheet, most: number): Promise<Blob | null>;
  /** Opens a sheet and reads every chart on it. A value without charts where it can be looked at and has none. */
  read(sheet: ChartSheet, options: SheetOptions, onStage: OnChartStage): Promise<Outcome<SheetRead>>;
  /** The cells of a grid that she laid. */
  lay(sheet: ChartSheet, grid: LaidGrid, options: LayOptions, onStage: OnChartStage): Promise<Outcome<CellsRead>>;
  /** The source is not needed any more. */
  letGo(id: string): void;
}
