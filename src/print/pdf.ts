/** Pages as the bytes of a PDF file that prints at its true size. */
import fontkit from "@pdf-lib/fontkit";
import {
  closePath,
  fill,
  fillAndStroke,
  lineTo,
  moveTo,
  PDFDocument,
  popGraphicsState,
  pushGraphicsState,
  rectangle,
  rgb,
  setDashPattern,
  setFillingColor,
  setLineWidth,
  setStrokingColor,
  stroke,
  type PDFFont,
  type PDFOperator,
  type PDFPage,
} from "pdf-lib";
import { unreachable } from "../base/assert.ts";
import type { FontWeight, Operation, Point, TextOperation } from "./drawing.ts";
import type { Page } from "./page.ts";

/** The bytes of two TrueType or OpenType fonts; the shells have them in src/print/fonts. */
export type SheetFonts = Readonly<Record<FontWeight, Uint8Array>>;

export interface PdfOptions {
  readonly fonts: SheetFonts;
  readonly title: string;
  readonly author?: string | undefined;
}

/**
 * A PDF of the pages with only the letters it uses embedded. Characters that the font has not are shown as "?".
 * The same pages give the same bytes: no date is written.
 */
export async function pdfOfPages(pages: readonly Page[], { fonts, title, author }: PdfOptions): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.registerFontkit(fontkit);
  document.setTitle(title, { showInWindowTitleBar: true });
  if (author !== undefined) document.setAuthor(author);
  document.setCreator("Twostrand");
  document.setLanguage("en-GB");
  const embedded = {
    regular: await embed(document, fonts.regular),
    bold: await embed(document, fonts.bold),
  };
  for (const page of pages) {
    const sheet = document.addPage([points(page.widthMm), points(page.heightMm)]);
    for (const operation of page.operations) paint(sheet, page.heightMm, operation, embedded);
  }
  return document.save();
}

interface Typeface {
  readonly font: PDFFont;
  readonly characters: ReadonlySet<number>;
}

async function embed(document: PDFDocument, bytes: Uint8Array): Promise<Typeface> {
  const font = await document.embedFont(bytes, { subset: true });
  return { font, characters: new Set(font.getCharacterSet()) };
}

/** PDF's unit is 1/72 inch. Source: ISO 32000-1, 8.3.2.3. */
const points = (mm: number): number => (mm * 72) / 25.4;

function paint(
  sheet: PDFPage,
  heightMm: number,
  operation: Operation,
  typefaces: Readonly<Record<FontWeight, Typeface>>,
): void {
  const x = points;
  const y = (mm: number): number => points(heightMm - mm);
  switch (operation.kind) {
    case "rect": {
      const { width, height } = operation;
      const path = [rectangle(x(operation.x), y(operation.y + height), points(width), points(height))];
      sheet.pushOperators(...painted(path, operation));
      return;
    }
    case "polygon": {
      const path = operation.points.map(([px, py], index) =>
        index === 0 ? moveTo(x(px), y(py)) : lineTo(x(px), y(py)),
      );
      sheet.pushOperators(...painted([...path, closePath()], operation));
      return;
    }
    case "line": {
      const [from, to] = [operation.from, operation.to].map(([px, py]): Point => [x(px), y(py)]) as [Point, Point];
      sheet.pushOperators(
        pushGraphicsState(),
        setStrokingColor(colour(operation.stroke)),
        setLineWidth(points(operation.lineWidth)),
        setDashPattern((operation.dash ?? []).map(points), 0),
        moveTo(from[0], from[1]),
        lineTo(to[0], to[1]),
        stroke(),
        popGraphicsState(),
      );
      return;
    }
    case "text":
      write(sheet, operation, typefaces[operation.weight ?? "regular"], y(operation.at[1]));
      return;
    default:
      unreachable(operation);
  }
}

interface Paint {
  readonly fill?: string;
  readonly stroke?: string;
  readonly lineWidth?: number;
}

function painted(path: PDFOperator[], paint: Paint): PDFOperator[] {
  const operators = [pushGraphicsState()];
  if (paint.fill) operators.push(setFillingColor(colour(paint.fill)));
  if (paint.stroke)
    operators.push(setStrokingColor(colour(paint.stroke)), setLineWidth(points(paint.lineWidth ?? 0.1)));
  if (!paint.fill && !paint.stroke) return [];
  operators.push(
    ...path,
    paint.fill && paint.stroke ? fillAndStroke() : paint.fill ? fill() : stroke(),
    popGraphicsState(),
  );
  return operators;
}

function write(sheet: PDFPage, operation: TextOperation, { font, characters }: Typeface, baseline: number): void {
  const text = [...operation.text]
    .map((character) => (characters.has(character.codePointAt(0)!) ? character : MISSING))
    .join("");
  if (text === "") return;
  const size = points(operation.size);
  const width = font.widthOfTextAtSize(text, size);
  const back = operation.anchor === "middle" ? width / 2 : operation.anchor === "end" ? width : 0;
  sheet.drawText(text, {
    x: points(operation.at[0]) - back,
    y: baseline,
    size,
    font,
    color: colour(operation.fill ?? "#000000"),
  });
}

/** Stands for a character that the font has not: every text font has a question mark. */
const MISSING = "?";

function colour(hex: string): ReturnType<typeof rgb> {
  const value = Number.parseInt(hex.slice(1), 16);
  return rgb((value >> 16) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255);
}
