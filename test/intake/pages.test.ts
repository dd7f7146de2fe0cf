/** Charts drawn on pages are read exactly: a seeded family of styles, our own sheet, and pages that are none. */
import { readFileSync } from "node:fs";
import { PDFDocument, PDFName, StandardFonts } from "pdf-lib";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/base/random.ts";
import { openPdf } from "../../src/cli/pdf.ts";
import type { Colourway } from "../../src/fabric/colourway.ts";
import type { Pattern } from "../../src/fabric/pattern.ts";
import { readChartPage } from "../../src/intake/chartPage.ts";
import type { ReadChart, ReadCharts } from "../../src/intake/readChart.ts";
import { pageOfSvg } from "../../src/intake/svgPage.ts";
import { amountsOf } from "../../src/plan/amounts.ts";
import { pdfOfPages } from "../../src/print/pdf.ts";
import { svgOfPage } from "../../src/print/svg.ts";
import { workingSheet } from "../../src/print/workingSheet.ts";
import type { Yarn } from "../../src/yarn/yarn.ts";
import { fourPages } from "./fourPages.ts";
import { pdfOf, randomPage, svgOf } from "./pagePainter.ts";
import { faultsOf } from "./pageScore.ts";

async function chartsOf(pdf: Uint8Array): Promise<(ReadCharts | null)[]> {
  const { value: file, problems } = await openPdf(pdf);
  expect(problems).toEqual([]);
  const read: (ReadCharts | null)[] = [];
  for (let number = 1; number <= file!.pages; number++) {
    const { value: page } = await file!.primitives(number);
    read.push(readChartPage(page!));
  }
  file!.close();
  return read;
}

describe("every cell of every drawn chart", () => {
  // Of 460 seeds tried while it was made, and these again; what is drawn decides, our reading is never asked.
  const seeds = Array.from({ length: 30 }, (_, seed) => 1000 + seed);
  it.each(seeds)("as PDF, seed %i", async (seed) => {
    const random = seededRandom(seed);
    const page = randomPage(random);
    const [read] = await chartsOf(await pdfOf(page, random));
    expect(faultsOf(page, read!), JSON.stringify(page.style)).toEqual([]);
  });

  it.each(seeds.map((seed) => seed + 500))("as SVG, seed %i", (seed) => {
    const random = seededRandom(seed);
    const page = randomPage(random);
    const { value } = pageOfSvg(svgOf(page, random));
    expect(faultsOf(page, readChartPage(value!)), JSON.stringify(page.style)).toEqual([]);
  });
});

describe("a chart of signs on four pages", async () => {
  const { pdf, rows, key, title, parts } = await fourPages();
  const read = await chartsOf(pdf);

  it("has all its cells, its name and the numbers of its rows on every page", () => {
    for (const [index, [from, to]] of parts.entries()) {
      const [chart, ...others] = read[index]!.charts as [ReadChart, ...ReadChart[]];
      expect(others).toEqual([]);
      expect(chart.name).toBe(title);
      expect([chart.firstRow, chart.firstColumn]).toEqual([from, 1]);
      const signs = chart.rows.map((row) => [...row].map((id) => chart.symbols?.[id]?.text ?? " ").join(""));
      expect(signs).toEqual(rows.slice(rows.length - to, rows.length - from + 1));
    }
  });

  it("has the names that the first page's key gives in words", () => {
    const [chart] = read[0]!.charts;
    const named = Object.entries(chart!.colours).map(([id, { name }]) => [chart!.symbols?.[id]?.text ?? " ", name]);
    const shown = new Set(chart!.rows.join(""));
    expect(Object.fromEntries(named)).toEqual(key);
    expect(shown.size).toBe(named.length);
  });
});

describe("our own working sheet", () => {
  const fonts = {
    regular: new Uint8Array(readFileSync("src/print/fonts/NotoSans-Regular.ttf")),
    bold: new Uint8Array(readFileSync("src/print/fonts/NotoSans-Bold.ttf")),
  };
  const HEXES: Readonly<Record<string, string>> = {
    ".": "#f0ece0",
    "#": "#3d4a2c",
    o: "#c9a227",
    x: "#e6e6e6",
    t: "#3f5a80",
  };
  const yarns = Object.values(HEXES).map((hex, index): Yarn => ({
    id: `y${index}`,
    name: ["Chalk", "Moss", "Gorse", "Hoar", "Tarn"][index]!,
    shade: { hex },
    metresPer100g: 420,
  }));
  const colourway: Colourway = {
    id: "w1",
    yarns: Object.fromEntries(Object.keys(HEXES).map((id, index) => [id, `y${index}`])),
  };

  function sheetOf(rows: string[], worked: "round" | "flat", how: { mono?: boolean; paper?: "A4" | "Letter" } = {}) {
    const pattern: Pattern = {
      gauge: { stitches: 28, rows: 34 },
      colours: Object.entries(HEXES).map(([id, hex]) => ({ id, shade: { hex } })),
      charts: [{ id: "c1", name: "snow field", rows, worked }],
    };
    return workingSheet({ name: "Hut vest", pattern, yarns, colourway, amounts: amountsOf({ pattern, yarns, colourway }), ...how }); // prettier-ignore
  }

  function chart(random: () => number, width: number, height: number): string[] {
    const ids = Object.keys(HEXES);
    return Array.from({ length: height }, (_, row) => {
      const cut = row < height / 2 ? Math.min(width / 3, Math.floor((height / 2 - row) / 3)) : 0;
      const pair = [ids[row % 5]!, ids[(row * 2 + 1) % 5]!];
      const cells = Array.from({ length: width }, () => pair[random() < 0.7 ? 0 : 1]!).join("");
      return "-".repeat(cut) + cells.slice(cut);
    });
  }

  /** The parts of a sheet laid together by the numbers of their rows and columns; by fill, or by the yarn's name in the key. */
  function together(parts: readonly ReadChart[], width: number, height: number, by: "hex" | "name"): string[] {
    const all = Array.from({ length: height }, () => Array<string>(width).fill("?"));
    for (const { rows, colours, firstRow, firstColumn } of parts)
      for (const [index, row] of rows.entries())
        for (const [place, id] of [...row].entries()) {
          const [r, c] = [firstRow! + rows.length - 1 - index, firstColumn! + row.length - 1 - place];
          const found = Object.entries(HEXES).findIndex(([, hex], at) => (by === "hex" ? colours[id]?.hex === hex : colours[id]?.name === yarns[at]!.name)); // prettier-ignore
          all[height - r]![width - c] = id === "-" ? "-" : (Object.keys(HEXES)[found] ?? "!");
        }
    return all.map((row) => row.join(""));
  }

  it.each([
    [24, 30, "round", {}],
    [24, 190, "flat", {}],
    [97, 131, "round", { paper: "Letter" }],
    [60, 40, "round", { mono: true }],
  ] as const)("%d × %d, %s, %o, comes back from PDF as it was", async (width, height, worked, how) => {
    const rows = chart(seededRandom(width), width, height);
    const read = await chartsOf(await pdfOfPages(sheetOf(rows, worked, how), { fonts, title: "Hut vest" }));
    const parts = read.flatMap((page) => page?.charts ?? []);
    expect(parts.every(({ name }) => name?.startsWith("snow field"))).toBe(true);
    expect(together(parts, width, height, "name")).toEqual(rows);
    if (!("mono" in how)) expect(together(parts, width, height, "hex")).toEqual(rows);
  });

  it("comes back from SVG as it was", () => {
    const rows = chart(seededRandom(5), 40, 60);
    const parts = sheetOf(rows, "round").flatMap((page) => {
      const { value } = pageOfSvg(svgOfPage(page));
      return readChartPage(value!)?.charts ?? [];
    });
    expect(together(parts, 40, 60, "hex")).toEqual(rows);
  });
});

describe("what is no drawn chart", () => {
  async function pdfWith(draw: (page: ReturnType<PDFDocument["addPage"]>, document: PDFDocument) => Promise<void>) {
    const document = await PDFDocument.create();
    await draw(document.addPage([595, 842]), document);
    return document.save();
  }

  it("words alone, a table of words, a calendar, squared paper, a ruled form: none", async () => {
    const pages: Uint8Array[] = [];
    const grid = (columns: number, rows: number, w: number, h: number, text: (row: number, column: number) => string) =>
      pdfWith(async (page, document) => {
        const font = await document.embedFont(StandardFonts.Courier);
        for (let column = 0; column <= columns; column++)
          page.drawLine({ start: { x: 50 + column * w, y: 750 }, end: { x: 50 + column * w, y: 750 - rows * h } });
        for (let row = 0; row <= rows; row++)
          page.drawLine({ start: { x: 50, y: 750 - row * h }, end: { x: 50 + columns * w, y: 750 - row * h } });
        for (let row = 0; row < rows; row++)
          for (let column = 0; column < columns; column++)
            page.drawText(text(row, column), { x: 53 + column * w, y: 740 - row * h, size: 7, font });
      });
    pages.push(
      await pdfWith(async (page, document) => {
        const font = await document.embedFont(StandardFonts.Courier);
        const line = "Knit every row from the right and carry the strand of the ground above that of the figure.";
        for (let row = 0; row < 50; row++)
          page.drawText(line.slice(row % 7), { x: 50, y: 780 - row * 14, size: 9, font });
      }),
      await grid(5, 12, 90, 20, (row, column) => ["Size", "Chest", "Length", "Sleeve", "Metres"][column]! + row),
      await grid(7, 5, 40, 30, (row, column) => String(row * 7 + column + 1)),
      await grid(30, 40, 12, 12, () => ""),
      await grid(4, 20, 110, 20, (row, column) => (column === 0 ? `Yarn ${row}` : "")),
    );
    for (const pdf of pages) expect(await chartsOf(pdf)).toEqual([null]);
  });

  it("a scanned page hands over the scan itself, upright", async () => {
    const [width, height] = [400, 560];
    const bytes = Buffer.alloc(width * height * 3);
    for (let at = 0; at < width * height; at++) bytes.set([at % 251, Math.floor(at / width) % 253, 77], at * 3);
    const png = await sharp(bytes, { raw: { width, height, channels: 3 } })
      .png()
      .toBuffer();
    for (const turned of [0, 90]) {
      const pdf = await pdfWith(async (page, document) => {
        const image = await document.embedPng(png);
        page.drawImage(image, { x: 20, y: 20, width: 555, height: 777 });
        if (turned) page.node.set(PDFName.of("Rotate"), document.context.obj(turned));
      });
      const { value: file } = await openPdf(pdf);
      const { value: page } = await file!.primitives(1);
      expect(readChartPage(page!)).toBeNull();
      const { value: picture } = await file!.picture(1, 1000);
      const at = (x: number, y: number): number[] => [...picture!.rgba.slice((y * picture!.width + x) * 4, (y * picture!.width + x) * 4 + 3)]; // prettier-ignore
      if (turned === 0) expect([picture!.width, picture!.height, at(10, 20)]).toEqual([400, 560, [20 * 400 + 10, 0, 0].map((_, index) => bytes[(20 * 400 + 10) * 3 + index]!)]); // prettier-ignore
      // A quarter clockwise: what was the left side is on top, its foot at the left.
      else expect([picture!.width, picture!.height, at(20, 10)]).toEqual([560, 400, [0, 1, 2].map((index) => bytes[((559 - 20) * 400 + 10) * 3 + index]!)]); // prettier-ignore
      file!.close();
    }
  });
});
