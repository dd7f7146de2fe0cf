/** Charts have a worker of their own: opening and reading a large picture takes seconds, and the bench must not wait for it. */
import { expose } from "comlink";
import type { Outcome } from "../../base/problem.ts";
import type { ChartApi, ChartSheet } from "./chartApi.ts";
import { layCells, readSheet } from "./chartReading.ts";
import {
  closeSource,
  openSheet,
  openSource,
  pagesOf,
  thumbnailOf,
  type OpenSheet,
  type OpenSource,
} from "./chartSheets.ts";

/** Her files, opened; a picture is opened again for each sheet, so only its file is kept. */
const sources = new Map<string, OpenSource>();
/** The sheet read last: a grid laid anew is most often on it. A larger one is let go, and opened again when it is asked for. */
let last: { readonly id: string; readonly page: number; readonly sheet: OpenSheet } | null = null;
/** Pixels, four bytes each, that may stay in memory between two questions. Our choice. */
const MOST_KEPT = 25_000_000;

async function sourceOf({ id, file }: { readonly id: string; readonly file: Blob }): Promise<Outcome<OpenSource>> {
  const kept = sources.get(id);
  if (kept) return { value: kept, problems: [] };
  const opened = await openSource(file);
  if (opened.value) sources.set(id, opened.value);
  return opened;
}

async function withSheet<T>(
  asked: ChartSheet,
  onStep: (share: number) => void,
  job: (sheet: OpenSheet) => Outcome<T>,
): Promise<Outcome<T>> {
  const { id, page } = asked;
  let sheet = last?.id === id && last.page === page ? last.sheet : null;
  // Two large pictures never lie in memory at once.
  last = null;
  if (!sheet) {
    const source = await sourceOf(asked);
    if (!source.value) return { value: null, problems: source.problems };
    const opened = await openSheet(source.value, page, onStep);
    if (!opened.value) return { value: null, problems: opened.problems };
    sheet = opened.value;
  }
  const answer = job(sheet);
  if (sheet.pixels.width * sheet.pixels.height <= MOST_KEPT) last = { id, page, sheet };
  return answer;
}

const api: ChartApi = {
  pages: async (asked) => {
    const { value, problems } = await sourceOf(asked);
    return { value: value && { pages: pagesOf(value) }, problems };
  },
  thumbnail: async (asked, most) => {
    const { value } = await sourceOf(asked);
    return value && thumbnailOf(value, asked.page, most);
  },
  read: async (asked, options, onStage) => {
    onStage("opening", 0);
    return withSheet(
      asked,
      (share) => onStage("opening", share),
      (sheet) => {
        onStage("reading", 0);
        const read = readSheet(sheet, options, (share) => onStage("reading", share));
        return { value: read, problems: [] };
      },
    );
  },
  lay: async (asked, grid, options, onStage) => {
    onStage("opening", 0);
    return withSheet(
      asked,
      (share) => onStage("opening", share),
      (sheet) => layCells(sheet, grid, options, (share) => onStage("reading", share)),
    );
  },
  letGo: (id) => {
    const source = sources.get(id);
    if (source) closeSource(source);
    sources.delete(id);
    if (last?.id === id) last = null;
  },
};

expose(api);
