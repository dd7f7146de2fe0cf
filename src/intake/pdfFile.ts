/** A PDF file asked page by page, with what a hostile one could do held within limits; the PDF library is handed in. */
import type { Outcome, Problem } from "../base/problem.ts";
import { pixelsOf, type Pixels } from "../raster/pixels.ts";
import type { PagePrimitives } from "./pagePrimitives.ts";
import { pictureOfPage, withSmallPictures, type PdfImage } from "./page/pdfPicture.ts";
import { unpacksTooFar, type Unpack } from "./page/pdfStreams.ts";
import type { PdfFont } from "./page/pdfText.ts";
import { pageOfOperators, type PdfOperatorList } from "./pdfPage.ts";

export interface PdfFile {
  readonly pages: number;
  /** What is drawn on the page, from 1. */
  primitives(page: number): Promise<Outcome<PagePrimitives>>;
  /** A scanned page's own picture as it is kept, upright; else the page drawn, its longer side `longer` pixels. */
  picture(page: number, longer: number): Promise<Outcome<Pixels>>;
  /** The page drawn as a viewer shows it, its longer side `longer` pixels. */
  drawn(page: number, longer: number): Promise<Outcome<Pixels>>;
  close(): void;
}

/** What is used of pdfjs. */
export interface PdfLibrary {
  readonly OPS: Readonly<Record<string, number>>;
  readonly getDocument: (options: Record<string, unknown>) => PdfTask;
}

export interface PdfShell {
  readonly pdfjs: PdfLibrary;
  /** Where fonts and decoders lie, and factories of canvases: whatever the place it runs in needs. */
  readonly options: Readonly<Record<string, unknown>>;
  readonly unpack: Unpack;
}

/** Takes the bytes over. No value, and a sentence, where it cannot be opened. */
export async function openPdfFile(bytes: Uint8Array, shell: PdfShell): Promise<Outcome<PdfFile>> {
  const unfit = unfitFile(bytes) ?? (await unpacksTooFar(bytes, shell.unpack));
  if (unfit) return { value: null, problems: [unfit] };
  // Nothing in the file is run, and nothing is asked for outside it.
  const task = shell.pdfjs.getDocument({
    ...shell.options,
    data: bytes,
    verbosity: 0,
    isEvalSupported: false,
    enableXfa: false,
    disableFontFace: true,
    useSystemFonts: false,
    isOffscreenCanvasSupported: false,
    isImageDecoderSupported: false,
    maxImageSize: MOST_PIXELS,
  });
  try {
    const document = await Promise.race([task.promise, askedForPassword(task)]);
    if (document.numPages <= MOST_PAGES && document.numPages > 0)
      return { value: opened(task, document, shell.pdfjs), problems: [] };
    void task.destroy();
    return refused(
      fault(THE_PDF, `a PDF file of 1 to ${MOST_PAGES} pages`, `one that says it has ${document.numPages}`),
    );
  } catch (error) {
    void task.destroy();
    return refused(unopened(error));
  }
}

interface PdfTask {
  readonly promise: Promise<PdfDocument>;
  onPassword?: unknown;
  destroy(): Promise<void>;
}

interface PdfDocument {
  readonly numPages: number;
  readonly canvasFactory: {
    create(width: number, height: number): { readonly canvas: object; readonly context: Context };
    destroy(canvas: object): void;
  };
  getPage(page: number): Promise<PdfPage>;
  getOptionalContentConfig(): Promise<{ isVisible(group: unknown): boolean }>;
}

interface Context {
  getImageData(x: number, y: number, width: number, height: number): { readonly data: Uint8ClampedArray };
}

interface Viewport {
  readonly width: number;
  readonly height: number;
  readonly transform: readonly number[];
}

interface PdfObjects {
  has(name: string): boolean;
  get(name: string): unknown;
  get(name: string, then: (value: unknown) => void): void;
}

interface PdfPage {
  readonly commonObjs: PdfObjects;
  readonly objs: PdfObjects;
  getViewport(how: { readonly scale: number }): Viewport;
  getOperatorList(how: { readonly annotationMode: number }): Promise<PdfOperatorList>;
  render(how: Record<string, unknown>): { readonly promise: Promise<void>; cancel(): void };
  /** Hears every piece of the list of operators as it is made. */
  _renderPageChunk(chunk: { readonly length: number; readonly fnArray: readonly number[] }, state: unknown): void;
  cleanup(): void;
}

function opened(task: PdfTask, document: PdfDocument, pdfjs: PdfLibrary): PdfFile {
  const onPage = async <T>(number: number, look: (page: PdfPage) => Promise<T>): Promise<Outcome<T>> => {
    const where = `page ${number}`;
    if (!Number.isInteger(number) || number < 1 || number > document.numPages)
      return refused(fault("the page", `a number from 1 to ${document.numPages}`, String(number)));
    try {
      const page = await document.getPage(number);
      const { width, height } = page.getViewport({ scale: 1 });
      if (!(width > 0 && height > 0 && width <= LONGEST_SIDE && height <= LONGEST_SIDE))
        return refused(
          fault(
            where,
            `at most ${LONGEST_SIDE} points (${Math.round(LONGEST_SIDE / 72)} inches) to a side`,
            `${Math.round(width)} × ${Math.round(height)}`,
          ),
        );
      // Forms that draw forms that draw forms can ask for more than would ever end: what is made is counted as it comes.
      const counted = count(page, pdfjs.OPS.paintFormXObjectBegin!);
      const value = await Promise.race([look(page), counted.tooMany]);
      page.cleanup();
      return { value, problems: [] };
    } catch (error) {
      if (!(error instanceof TooMuch))
        return refused(fault(where, "a page that can be read", `damage (${reason(error)})`));
      void task.destroy();
      return refused(
        fault(where, `at most ${MOST_OPERATORS / 1e6} million drawing orders`, "more, so it was given up"),
      );
    }
  };
  const operators = (page: PdfPage): Promise<PdfOperatorList> =>
    page.getOperatorList({ annotationMode: NO_ANNOTATIONS });
  const primitivesOf = async (page: PdfPage): Promise<PagePrimitives> => {
    const list = await operators(page);
    const layers = await document.getOptionalContentConfig();
    return pageOfOperators(list, {
      operators: pdfjs.OPS,
      viewport: page.getViewport({ scale: 1 }),
      fontOf: (name) => (page.commonObjs.has(name) ? (page.commonObjs.get(name) as PdfFont) : null),
      shadingOf: (name) => (page.objs.has(name) ? page.objs.get(name) : null),
      isShown: (group) => layers.isVisible(group),
    });
  };
  const draw = async (page: PdfPage, longer: number): Promise<Pixels> => {
    const plain = page.getViewport({ scale: 1 });
    const viewport = page.getViewport({ scale: longer / Math.max(plain.width, plain.height) });
    const [width, height] = [Math.max(1, Math.round(viewport.width)), Math.max(1, Math.round(viewport.height))];
    const canvas = document.canvasFactory.create(width, height);
    try {
      const how = { canvas: canvas.canvas, canvasContext: canvas.context, viewport, annotationMode: NO_ANNOTATIONS };
      await page.render({ ...how, background: "#ffffff" }).promise;
      return pixelsOf(width, height, canvas.context.getImageData(0, 0, width, height).data);
    } finally {
      document.canvasFactory.destroy(canvas);
    }
  };
  return {
    pages: document.numPages,
    primitives: (number) =>
      onPage(number, async (page) => withSmallPictures(await primitivesOf(page), (id) => imageOf(page, id))),
    drawn: (number, longer) => onPage(number, (page) => draw(page, longer)),
    picture: (number, longer) =>
      onPage(number, async (page) => {
        const own = await pictureOfPage(await primitivesOf(page), (id) => imageOf(page, id));
        return own ?? draw(page, longer);
      }),
    close: () => void task.destroy(),
  };
}

/** A picture that came with the operators; null where it could not be decoded. */
function imageOf(page: PdfPage, id: string): Promise<PdfImage | null> {
  const objects = id.startsWith("g_") ? page.commonObjs : page.objs;
  return new Promise((done) => objects.get(id, (value) => done((value as PdfImage | undefined) ?? null)));
}

class TooMuch extends Error {}

function count(page: PdfPage, formBegins: number): { readonly tooMany: Promise<never> } {
  let operators = 0;
  let stop: (reason: Error) => void = () => {};
  const tooMany = new Promise<never>((_, no) => (stop = no));
  tooMany.catch(() => {});
  const keep = Object.getPrototypeOf(page)._renderPageChunk as PdfPage["_renderPageChunk"];
  page._renderPageChunk = (chunk, state) => {
    operators += chunk.length;
    for (const name of chunk.fnArray) if (name === formBegins) operators += ORDERS_PER_FORM;
    if (operators > MOST_OPERATORS) stop(new TooMuch());
    else keep.call(page, chunk, state);
  };
  return { tooMany };
}

class Locked extends Error {}

function askedForPassword(task: PdfTask): Promise<never> {
  return new Promise((_, no) => {
    task.onPassword = () => no(new Locked());
  });
}

const THE_PDF = "the PDF file";

/** Source of the mark: ISO 32000-1, 7.5.2; readers of old let it stand within the first 1024 bytes. */
function unfitFile(bytes: Uint8Array): Problem | null {
  const start = String.fromCharCode(...bytes.subarray(0, 1024));
  if (bytes.length === 0) return fault(THE_PDF, "a PDF file", "an empty file; copy it once more");
  if (!start.includes("%PDF-"))
    return fault(THE_PDF, "a PDF file", "a file of another kind, which does not begin as a PDF does");
  if (bytes.length > MOST_BYTES)
    return fault(
      THE_PDF,
      `at most ${MOST_BYTES / 1e6} MB`,
      `${Math.round(bytes.length / 1e6)} MB: save the pages with the chart as a file of their own`,
    );
  return null;
}

function unopened(error: unknown): Problem {
  if (error instanceof Locked || (error as Error | null)?.name === "PasswordException")
    return fault(
      THE_PDF,
      "one that opens without a password",
      "one that asks for one: open it in a viewer, print it to a new PDF, and take that",
    );
  return fault(
    THE_PDF,
    "a whole PDF file",
    `one that breaks off or is damaged (${reason(error)}); copy or fetch it once more`,
  );
}

const reason = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error))
    .split("\n")[0]!
    .replace(/[.\s]+$/, "")
    .slice(0, 120);

const refused = <T>(problem: Problem): Outcome<T> => ({ value: null, problems: [problem] });
const fault = (where: string, expected: string, got: string): Problem => ({ where, expected, got, severity: "fault" });

/** Ours: a book of patterns has some hundred pages and some ten megabytes; a large chart some hundred thousand orders. */
const MOST_PAGES = 5000;
const MOST_BYTES = 200_000_000;
const MOST_OPERATORS = 3_000_000;
/** A form takes as long to begin as so many orders. */
const ORDERS_PER_FORM = 60;
/** Pixels of one picture; a scan of A3 at 600 dots to the inch has 70 million. */
const MOST_PIXELS = 100_000_000;
/** Points; the longest side that the format itself allows. Source: ISO 32000-1, annex C.2. */
const LONGEST_SIDE = 14_400;
/** pdfjs' AnnotationMode.DISABLE: notes and form fields are no part of a chart. */
const NO_ANNOTATIONS = 0;
