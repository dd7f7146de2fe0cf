/** PDF files from the disk; the library is large, so it is loaded when it is wanted. */
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { Outcome } from "../base/problem.ts";
import { openPdfFile, type PdfFile, type PdfLibrary } from "../intake/pdfFile.ts";

/** What cannot be opened is a problem with a sentence. */
export async function openPdf(bytes: Uint8Array): Promise<Outcome<PdfFile>> {
  const pdfjs = (await import("pdfjs-dist/legacy/build/pdf.mjs")) as unknown as PdfLibrary;
  const folder = dirname(createRequire(import.meta.url).resolve("pdfjs-dist/package.json"));
  const within = (name: string): string => `${join(folder, name)}/`;
  return openPdfFile(Uint8Array.from(bytes), {
    pdfjs,
    options: { cMapUrl: within("cmaps"), standardFontDataUrl: within("standard_fonts"), wasmUrl: within("wasm") },
    unpack,
  });
}

async function* unpack(packed: Uint8Array): AsyncIterable<Uint8Array> {
  const stream = new Blob([Uint8Array.from(packed)]).stream().pipeThrough(new DecompressionStream("deflate"));
  for await (const piece of stream) yield piece as Uint8Array;
}
