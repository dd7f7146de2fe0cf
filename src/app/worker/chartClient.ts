/** The page's side of the worker for charts: it begins when the first file is chosen and ends, with all its memory, when she stops it. */
import { proxy } from "comlink";
import type {
  ChartApi,
  ChartSheet,
  ChartSource,
  LaidGrid,
  LayOptions,
  OnChartStage,
  SheetOptions,
} from "./chartApi.ts";
import { workerDesk } from "./desk.ts";

export interface ChartDesk {
  pages(source: ChartSource): ReturnType<ChartApi["pages"]>;
  thumbnail(sheet: ChartSheet, most: number): ReturnType<ChartApi["thumbnail"]>;
  read(sheet: ChartSheet, options: SheetOptions, onStage: OnChartStage): ReturnType<ChartApi["read"]>;
  lay(sheet: ChartSheet, grid: LaidGrid, options: LayOptions, onStage: OnChartStage): ReturnType<ChartApi["lay"]>;
  letGo(id: string): void;
  /** Ends whatever runs at once; what was asked and not answered is rejected with `Stopped`. The next question starts anew. */
  stop(): void;
}

export function chartDesk(): ChartDesk {
  const { ask, running, stop } = workerDesk<ChartApi>(
    () => new Worker(new URL("./chart.worker.ts", import.meta.url), { type: "module", name: "charts" }),
    "the reader of charts did not start",
  );
  return {
    pages: (source) => ask((api) => api.pages(source)),
    thumbnail: (sheet, most) => ask((api) => api.thumbnail(sheet, most)),
    read: (sheet, options, onStage) => ask((api) => api.read(sheet, options, proxy(onStage))),
    lay: (sheet, grid, options, onStage) => ask((api) => api.lay(sheet, grid, options, proxy(onStage))),
    letGo: (id) => void running()?.letGo(id),
    stop,
  };
}
