/** Her files opened off the page: pictures upright, drawings painted by ourselves, pages rendered; each sheet as pixels and for the eye. */
import type { Outcome, Problem } from "../../base/problem.ts";
import { readChartPage } from "../../intake/chartPage.ts";
import type { PagePrimitives } from "../../intake/pagePrimitives.ts";
import type { ReadChart, ReadCharts } from "../../intake/readChart.ts";
import { pageOfSvg } from "../../intake/svgPage.ts";
import { pixelsOf, type Pixels } from "../../raster/pixels.ts";
import { paintPage } from "./paintPage.ts";
import { openPdf, type OpenPdf } from "./pdfDesk.ts";
import { HEAD_BYTES, pictureHead, tooLarge, unopened } from "./pictureHead.ts";

/** A sheet that can be looked at and read. */
export interface OpenSheet {
  readonly pixels: Pixels;
  readonly preview: Blob;
  /** The charts that are drawn on it, in pixels of the sheet; null where it is a picture, or nothing drawn makes a chart. */
  readonly drawn: ReadCharts | null;
}

export type OpenSource =
  | { readonly kind: "picture"; readonly file: Blob }
  | { readonly kind: "drawing"; readonly page: PagePrimitives }
  | { readonly kind: "pages"; readonly pdf: OpenPdf };

/** Pixels, the longer side of a drawn page: squared paper of 2 mm on A3 still has 10 pixels to a square. Our choice. */
const DRAWN_LONGER = 2400;
/** Pixels, the longer side of what is shown on the page: a telephone's whole photograph. Our choice. */
const PREVIEW = 4000;
/** Pixels taken from the browser at once, so that a large picture lies in memory no oftener than it must. Our choice. */
const STRIP_PIXELS = 2_000_000;

export async function openSource(file: Blob): Promise<Outcome<OpenSource>> {
  const head = pictureHead(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (head.kind === "PDF") {
    const { value: pdf, problems } = await openPdf(file);
    return { value: pdf && { kind: "pages", pdf }, problems };
  }
  if (head.kind === "SVG" || file.type === "image/svg+xml") {
    const { value: page, problems } = pageOfSvg(await file.text());
    return { value: page && { kind: "drawing", page }, problems };
  }
  const refused = tooLarge(head);
  if (refused) return { value: null, problems: [named(refused)] };
  return { value: { kind: "picture", file }, problems: [] };
}

export const pagesOf = (source: OpenSource): number => (source.kind === "pages" ? source.pdf.pages : 1);

export function closeSource(source: OpenSource): void {
  if (source.kind === "pages") source.pdf.close();
}

/** @param page from 1 */
export async function openSheet(
  source: OpenSource,
  page: number,
  onStep: (share: number) => void,
): Promise<Outcome<OpenSheet>> {
  switch (source.kind) {
    case "picture":
      return openPictureSheet(source.file, onStep);
    case "drawing":
      return { value: await painted(source.page, chartsOn(source.page)), problems: [] };
    case "pages": {
      const primitives = await source.pdf.primitives(page);
      onStep(0.5);
      const drawn = primitives.value && chartsOn(primitives.value);
      if (primitives.value && drawn) {
        const preview = (await source.pdf.thumbnail(page, DRAWN_LONGER)).value;
        if (preview) return { value: await drawnSheet(primitives.value, drawn, preview), problems: [] };
      }
      const { value: pixels, problems } = await source.pdf.picture(page, DRAWN_LONGER);
      if (!pixels) return { value: null, problems: problems.length > 0 ? problems : primitives.problems };
      return { value: { pixels, preview: await previewOf(canvasOf(pixels), false), drawn: null }, problems: [] };
    }
  }
}

function chartsOn(page: PagePrimitives): ReadCharts | null {
  const read = readChartPage(page);
  return read && read.charts.length > 0 ? read : null;
}

/** @param most pixels of the longer side */
export async function thumbnailOf(source: OpenSource, page: number, most: number): Promise<Blob | null> {
  if (source.kind === "pages") return (await source.pdf.thumbnail(page, most)).value;
  if (source.kind === "drawing") return paintPage(source.page, most).convertToBlob();
  return null;
}

async function painted(page: PagePrimitives, drawn: ReadCharts | null): Promise<OpenSheet> {
  const canvas = paintPage(page, DRAWN_LONGER);
  const scale = canvas.width / page.width;
  return {
    pixels: pixelsOn(canvas),
    preview: await previewOf(canvas, false),
    drawn: drawn && { ...drawn, charts: drawn.charts.map((chart) => inPixels(chart, scale)) },
  };
}

/** As a viewer shows the page: its letters are its own. */
async function drawnSheet(page: PagePrimitives, drawn: ReadCharts, preview: Blob): Promise<OpenSheet> {
  const bitmap = await createImageBitmap(preview);
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  canvas.getContext("2d", { willReadFrequently: true })!.drawImage(bitmap, 0, 0);
  bitmap.close();
  const scale = canvas.width / page.width;
  return {
    pixels: pixelsOn(canvas),
    preview,
    drawn: { ...drawn, charts: drawn.charts.map((chart) => inPixels(chart, scale)) },
  };
}

/** A page's own units made into pixels of the sheet. */
function inPixels(chart: ReadChart, scale: number): ReadChart {
  const { grid, box } = chart;
  return {
    ...chart,
    box: box && box.map(([x, y]): [number, number] => [x * scale, y * scale]),
    ...(grid ? { grid: { ...grid, corners: grid.corners.map((part) => part * scale) } } : {}),
  };
}

async function openPictureSheet(file: Blob, onStep: (share: number) => void): Promise<Outcome<OpenSheet>> {
  const head = pictureHead(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  // Turned upright by its own note, and its colours told in sRGB.
  const bitmap = await createImageBitmap(file).catch(() => null);
  if (!bitmap) return { value: null, problems: [named(unopened(head))] };
  onStep(0.3);
  try {
    const preview = previewOf(bitmap, head.kind === "JPEG");
    const { width, height } = bitmap;
    const rgba = new Uint8ClampedArray(width * height * 4);
    const deep = Math.max(1, Math.min(height, Math.floor(STRIP_PIXELS / width)));
    const strip = new OffscreenCanvas(width, deep);
    const context = strip.getContext("2d", { willReadFrequently: true })!;
    for (let row = 0; row < height; row += deep) {
      const rows = Math.min(deep, height - row);
      context.clearRect(0, 0, width, rows);
      context.drawImage(bitmap, 0, row, width, rows, 0, 0, width, rows);
      rgba.set(context.getImageData(0, 0, width, rows).data, row * width * 4);
      onStep(0.3 + (0.7 * (row + rows)) / height);
    }
    return {
      value: { pixels: pixelsOf(width, height, rgba), preview: await preview, drawn: null },
      problems: [],
    };
  } finally {
    bitmap.close();
  }
}

/** A photograph has no edges to the pixel that a smaller file would spoil. */
async function previewOf(picture: ImageBitmap | OffscreenCanvas, isPhotograph: boolean): Promise<Blob> {
  const scale = Math.min(1, PREVIEW / Math.max(picture.width, picture.height));
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(picture.width * scale)),
    Math.max(1, Math.round(picture.height * scale)),
  );
  const context = canvas.getContext("2d")!;
  context.imageSmoothingQuality = "high";
  context.fillStyle = "#fff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas.convertToBlob(isPhotograph ? { type: "image/jpeg", quality: 0.9 } : { type: "image/png" });
}

function canvasOf({ width, height, rgba }: Pixels): OffscreenCanvas {
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext("2d")!.putImageData(new ImageData(rgba as Uint8ClampedArray<ArrayBuffer>, width, height), 0, 0);
  return canvas;
}

function pixelsOn(canvas: OffscreenCanvas): Pixels {
  const { width, height } = canvas;
  return pixelsOf(width, height, canvas.getContext("2d")!.getImageData(0, 0, width, height).data);
}

/** What opens pictures speaks of photographs; here anything may have been chosen. */
const named = (problem: Problem): Problem => ({ ...problem, where: "the file" });
