/** A PDF opened in a worker of the page: how many pages it has, how they look, what is drawn on them. */
import type { Outcome } from "../../base/problem.ts";
import type { PagePrimitives } from "../../intake/pagePrimitives.ts";
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
export type OpenPdfFile = (file: Blob) => Promise<Outcome<OpenPdf>>;
