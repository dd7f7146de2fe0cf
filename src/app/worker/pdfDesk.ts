/** A PDF opened in a worker of the page: how many pages it has, how they look, what is drawn on them. */
import dingbats from "pdfjs-dist/standard_fonts/FoxitDingbats.pfb?url";
import fixed from "pdfjs-dist/standard_fonts/FoxitFixed.pfb?url";
import fixedBold from "pdfjs-dist/standard_fonts/FoxitFixedBold.pfb?url";
import serif from "pdfjs-dist/standard_fonts/FoxitSerif.pfb?url";
import serifBold from "pdfjs-dist/standard_fonts/FoxitSerifBold.pfb?url";
import symbol from "pdfjs-dist/standard_fonts/FoxitSymbol.pfb?url";
import sansBold from "pdfjs-dist/standard_fonts/LiberationSans-Bold.ttf?url";
import sans from "pdfjs-dist/standard_fonts/LiberationSans-Regular.ttf?url";
import jbig2 from "pdfjs-dist/wasm/jbig2.wasm?url";
import openjpeg from "pdfjs-dist/wasm/openjpeg.wasm?url";
import type { Outcome } from "../../base/problem.ts";
import type { PagePrimitives } from "../../intake/pagePrimitives.ts";
import { openPdfFile, type PdfFile, type PdfShell } from "../../intake/pdfFile.ts";
import type { Pixels } from "../../raster/pixels.ts";

export interface OpenPdf {
  readonly pages: number;
  /** A small PNG of the page (from 1), its longer side no more than `most` pixels. */
  thumbnail(page: number, most: number): Promise<Outcome<Blob>>;
  /** What is drawn on the page (from 1). A page that asks for too much is a problem with a sentence. */
  primitives(page: number): Promise<Outcome<PagePrimitives>>;
  /** The page (from 1) as it is looked at: a scanned page's own picture as it is kept, else drawn with its longer side `longer` pixels. */
  picture(page: number, longer: number): Promise<Outcome<Pixels>>;
  close(): void;
}

/** Runs in a worker, and in it alone: a page may take seconds. What cannot be opened is a problem with a sentence. */
export async function openPdf(file: Blob): Promise<Outcome<OpenPdf>> {
  const shell = await (library ??= load());
  const { value, problems } = await openPdfFile(new Uint8Array(await file.arrayBuffer()), shell);
  return { value: value && opened(value), problems };
}

let library: Promise<PdfShell> | null = null;

/** The library's own worker runs in this one: ending it ends everything. */
async function load(): Promise<PdfShell> {
  const pdfjs = await import("pdfjs-dist/legacy/build/pdf.min.mjs");
  // Where it finds itself alone in a worker it would take the worker's messages for its own.
  const scope = globalThis as { window?: unknown };
  scope.window = globalThis;
  const worker = await import("pdfjs-dist/legacy/build/pdf.worker.min.mjs").finally(() => delete scope.window);
  (globalThis as { pdfjsWorker?: unknown }).pdfjsWorker = worker;
  return { pdfjs, options: { BinaryDataFactory: OwnFiles, CanvasFactory: Canvases, FilterFactory: NoFilters }, unpack };
}

function opened(file: PdfFile): OpenPdf {
  return {
    pages: file.pages,
    primitives: (page) => file.primitives(page),
    picture: (page, longer) => file.picture(page, longer),
    thumbnail: async (page, most) => {
      const { value, problems } = await file.drawn(page, most);
      if (!value) return { value: null, problems };
      const canvas = new OffscreenCanvas(value.width, value.height);
      const data = new Uint8ClampedArray(value.rgba);
      canvas.getContext("2d")!.putImageData(new ImageData(data, value.width, value.height), 0, 0);
      return { value: await canvas.convertToBlob({ type: "image/png" }), problems };
    },
    close: () => file.close(),
  };
}

/** Slanted letters are set upright: what a page says is the same. */
const FILES: Readonly<Record<string, string>> = {
  "FoxitDingbats.pfb": dingbats,
  "FoxitSymbol.pfb": symbol,
  "FoxitFixed.pfb": fixed,
  "FoxitFixedItalic.pfb": fixed,
  "FoxitFixedBold.pfb": fixedBold,
  "FoxitFixedBoldItalic.pfb": fixedBold,
  "FoxitSerif.pfb": serif,
  "FoxitSerifItalic.pfb": serif,
  "FoxitSerifBold.pfb": serifBold,
  "FoxitSerifBoldItalic.pfb": serifBold,
  "LiberationSans-Regular.ttf": sans,
  "LiberationSans-Italic.ttf": sans,
  "LiberationSans-Bold.ttf": sansBold,
  "LiberationSans-BoldItalic.ttf": sansBold,
  "jbig2.wasm": jbig2,
  "openjpeg.wasm": openjpeg,
};

/** Fonts and decoders come from where the page was installed from, and nothing else comes at all. */
class OwnFiles {
  async fetch({ filename }: { readonly filename: string }): Promise<Uint8Array> {
    const address = FILES[filename];
    if (address === undefined) throw new Error(`${filename} is not brought along`);
    const answer = await fetch(new URL(address, import.meta.url));
    if (!answer.ok) throw new Error(`${filename} did not come`);
    return new Uint8Array(await answer.arrayBuffer());
  }
}

interface Held {
  canvas: OffscreenCanvas | null;
  context: OffscreenCanvasRenderingContext2D | null;
}

class Canvases {
  create(width: number, height: number): Held {
    const canvas = new OffscreenCanvas(width, height);
    return { canvas, context: canvas.getContext("2d", { willReadFrequently: true }) };
  }
  reset({ canvas }: Held, width: number, height: number): void {
    if (canvas) [canvas.width, canvas.height] = [width, height];
  }
  destroy(held: Held): void {
    if (held.canvas) [held.canvas.width, held.canvas.height] = [0, 0];
    [held.canvas, held.context] = [null, null];
  }
}

/** A worker has no document to hang filters on; what they would tint is shown as it is. */
class NoFilters {
  addFilter(): string {
    return "none";
  }
  addHCMFilter(): string {
    return "none";
  }
  addAlphaFilter(): string {
    return "none";
  }
  addLuminosityFilter(): string {
    return "none";
  }
  addHighlightHCMFilter(): string {
    return "none";
  }
  destroy(): void {}
}

async function* unpack(packed: Uint8Array): AsyncIterable<Uint8Array> {
  const stream = new Blob([packed as Uint8Array<ArrayBuffer>]).stream().pipeThrough(new DecompressionStream("deflate"));
  const reader = stream.getReader();
  try {
    for (;;) {
      const { value, done } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}
