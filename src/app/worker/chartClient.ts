/** The page's side of the worker for charts: it begins when the first file is chosen and ends, with all its memory, when she stops it. */
import { proxy } from "comlink";
import type { Outcome } from "../../base/problem.ts";
import type {
  ChartApi,
  ChartSheet,
  ChartSource,
  LaidGrid,
  LayOptions,
  OnChartStage,
  SheetOptions,
} from "./chartApi.ts";
import { Stopped } from "./client.ts";
import { workerDesk } from "./desk.ts";
import { unlessSilent } from "./unlessSilent.ts";

/** Milliseconds: ten times as long as the largest step of the largest picture that is taken, on a slow machine. Our choice. */
const SILENCE = 120_000;
/** A small picture of a page. Our choice. */
const THUMBNAIL_SILENCE = 20_000;

export interface ChartDesk {
  pages(source: ChartSource): ReturnType<ChartApi["pages"]>;
  /** Rejected with `Stopped` where the page keeps the worker silent. */
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
  /** Whatever keeps the worker silent, it is ended with it. */
  const limited = <T>(what: string, work: (heard: () => void) => Promise<Outcome<T>>): Promise<Outcome<T>> =>
    unlessSilent(work, SILENCE, () => {
      stop();
      const got = `one that did not get on for ${SILENCE / 1000} seconds and was given up`;
      return { value: null, problems: [{ where: what, expected: "one that can be opened", got, severity: "fault" }] };
    });
  const heardBy = (onStage: OnChartStage, heard: () => void): OnChartStage =>
    proxy((stage, share) => {
      heard();
      onStage(stage, share);
    });
  return {
    pages: (source) => limited("The file", () => ask((api) => api.pages(source))),
    thumbnail: (sheet, most) =>
      unlessSilent(
        () => ask((api) => api.thumbnail(sheet, most)),
        THUMBNAIL_SILENCE,
        () => {
          stop();
          throw new Stopped();
        },
      ),
    read: (sheet, options, onStage) =>
      limited("The page or picture", (heard) => ask((api) => api.read(sheet, options, heardBy(onStage, heard)))),
    lay: (sheet, grid, options, onStage) =>
      limited("The page or picture", (heard) => ask((api) => api.lay(sheet, grid, options, heardBy(onStage, heard)))),
    letGo: (id) => void running()?.letGo(id),
    stop,
  };
}
