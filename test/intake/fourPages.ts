/** A chart of signs on four pages with its key in words, as leaflets print one: invented, and the truth is known. */
import { PDFDocument, StandardFonts, rgb, type PDFFont, type PDFPage } from "pdf-lib";
import { seededRandom } from "../../src/base/random.ts";

export interface FourPages {
  readonly pdf: Uint8Array;
  /** Top row first, the printed sign of each stitch, " " for the ground that is left blank. */
  readonly rows: readonly string[];
  /** Printed sign → the name that the key gives it. */
  readonly key: Readonly<Record<string, string>>;
  /** The chart's name as it stands above it on every page. */
  readonly title: string;
  /** Of each page in order: the chart's rows that it shows, counted from 1 at the bottom. */
  readonly parts: readonly (readonly [from: number, to: number])[];
}

/** `overlap` rows at the foot of a page are the uppermost ones of the page before. */
export async function fourPages({ overlap = 1 }: { readonly overlap?: number } = {}): Promise<FourPages> {
  const rows = vest();
  const parts = partsOf(HEIGHT, overlap);
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(TITLE);
  const plain = await document.embedFont(StandardFonts.Helvetica);
  const bold = await document.embedFont(StandardFonts.HelveticaBold);
  for (const [index, part] of parts.entries()) {
    const page = document.addPage([595, 842]);
    page.drawText(TITLE, { x: 60, y: 800, size: 16, font: bold });
    page.drawText(`rows ${part[0]}–${part[1]}, page ${index + 1} of ${parts.length}`, { x: 400, y: 800, size: 9, font: plain }); // prettier-ignore
    drawPart(page, rows, part, plain);
    if (index === 0) drawKey(page, plain, bold);
  }
  return { pdf: await document.save(), rows, key: KEY, title: TITLE, parts };
}

const TITLE = "Ridge watch";
const WIDTH = 24;
const HEIGHT = 190;
/** Points. */
const CELL = { width: 14, height: 13 };
const LEFT = 60;
const TOP = 785;

const KEY: Readonly<Record<string, string>> = {
  " ": "hoar",
  x: "rust",
  o: "moss",
  "/": "slate",
  "+": "gorse",
  v: "peat",
};

/** Bands of motifs, no two alike, between plain rows and rows of seeds; six colours, at most two in a row. */
function vest(): string[] {
  const random = seededRandom(190);
  const signs = Object.keys(KEY).slice(1);
  const fromBottom: string[] = [];
  for (let band = 0; fromBottom.length < HEIGHT; band++) {
    const sign = signs[band % signs.length]!;
    const period = [4, 6, 8, 12][Math.floor(random() * 4)]!;
    const height = 5 + 2 * Math.floor(random() * 5);
    const half = Array.from({ length: (height + 1) / 2 }, () =>
      Array.from({ length: period / 2 }, () => random() < 0.45),
    );
    for (let row = 0; row < height; row++) {
      const cells = half[Math.min(row, height - 1 - row)]!;
      const repeat = [...cells, ...cells.toReversed()].map((drawn) => (drawn ? sign : " ")).join("");
      fromBottom.push(repeat.repeat(WIDTH / period));
    }
    const seeds = signs[(band + 2) % signs.length]!;
    fromBottom.push(" ".repeat(WIDTH), `${seeds}   `.repeat(WIDTH / 4), seeds.repeat(WIDTH));
  }
  return fromBottom.slice(0, HEIGHT).toReversed();
}

/** From the bottom up, as evenly as they go. */
function partsOf(height: number, overlap: number): [number, number][] {
  const ends = [1, 2, 3, 4].map((part) => Math.round((height * part) / 4));
  return ends.map((end, index) => [index === 0 ? 1 : ends[index - 1]! + 1 - overlap, end]);
}

function drawPart(page: PDFPage, rows: readonly string[], [from, to]: readonly [number, number], font: PDFFont): void {
  const shown = rows.slice(rows.length - to, rows.length - from + 1);
  const [right, bottom] = [LEFT + WIDTH * CELL.width, TOP - shown.length * CELL.height];
  for (let column = 0; column <= WIDTH; column++) {
    const x = LEFT + column * CELL.width;
    page.drawLine({ start: { x, y: TOP }, end: { x, y: bottom }, thickness: (WIDTH - column) % 10 === 0 ? 1.2 : 0.4 });
  }
  for (let row = 0; row <= shown.length; row++) {
    const y = TOP - row * CELL.height;
    page.drawLine({ start: { x: LEFT, y }, end: { x: right, y }, thickness: (to - row) % 10 === 0 ? 1.2 : 0.4 });
  }
  for (const [index, cells] of shown.entries()) {
    const base = TOP - (index + 1) * CELL.height + 3.5;
    page.drawText(String(to - index), { x: right + 5, y: base, size: 7, font, color: rgb(0.3, 0.3, 0.3) });
    for (const [column, sign] of [...cells].entries()) {
      if (sign === " ") continue;
      const x = LEFT + (column + 0.5) * CELL.width - font.widthOfTextAtSize(sign, 10) / 2;
      page.drawText(sign, { x, y: base, size: 10, font });
    }
  }
  for (let column = 1; column <= WIDTH; column++) {
    if (column !== 1 && column % 5 !== 0) continue;
    const x = right - (column - 0.5) * CELL.width - font.widthOfTextAtSize(String(column), 7) / 2;
    page.drawText(String(column), { x, y: bottom - 9, size: 7, font });
  }
}

function drawKey(page: PDFPage, font: PDFFont, bold: PDFFont): void {
  const x = 440;
  page.drawText("Key", { x, y: 740, size: 11, font: bold });
  for (const [index, [sign, name]] of Object.entries(KEY).entries()) {
    const words = sign === " " ? `blank = ${name}` : `${sign} = ${name}`;
    page.drawText(words, { x, y: 722 - index * 15, size: 10, font });
  }
}
