/** Charts off the command line: every kind of file, several files as one chart, and what she says of the colours. */
import sharp from "sharp";
import { PDFDocument, rgb } from "pdf-lib";
import { describe, expect, it } from "vitest";
import { bench } from "./program.ts";

const HEX: Readonly<Record<string, string>> = { A: "#e8e2d2", B: "#3b4a63", C: "#a4512f" };
/** Top row first; no two rows alike. */
const ROWS = ["ABCAABCA", "BBAACCAA", "AACBBCAA", "CABABACB", "BCCAACCB", "ABABBABA", "CCAAAABB", "AABCCBAA"];

/** Cells of 12 pixels with a grey line of one pixel around each, as charts are printed. */
async function pictureOf(rows: readonly string[]): Promise<Uint8Array> {
  const [width, height] = [rows[0]!.length * 12 + 1, rows.length * 12 + 1];
  const pixels = Array.from({ length: width * height }, (_, index) => {
    const [x, y] = [index % width, Math.floor(index / width)];
    if (x % 12 === 0 || y % 12 === 0) return [0x80, 0x80, 0x80];
    const hex = HEX[rows[Math.floor(y / 12)]![Math.floor(x / 12)]!]!;
    return [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));
  });
  return sharp(Buffer.from(pixels.flat()), { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer();
}

function svgOf(rows: readonly string[]): string {
  const cells = rows.flatMap((row, down) =>
    Array.from(
      row,
      (id, across) =>
        `<rect x="${across * 10}" y="${down * 10}" width="10" height="10" fill="${HEX[id]!}" stroke="#808080"/>`,
    ),
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${rows[0]!.length * 10}" height="${rows.length * 10}">${cells.join("")}</svg>`;
}

async function pdfOf(pages: readonly (readonly string[])[]): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  for (const rows of pages) {
    const page = document.addPage([300, 300]);
    for (const [down, row] of rows.entries())
      for (const [across, id] of Array.from(row).entries()) {
        const [red, green, blue] = [1, 3, 5].map((at) => parseInt(HEX[id]!.slice(at, at + 2), 16) / 255) as [
          number,
          number,
          number,
        ];
        page.drawRectangle({
          x: 40 + across * 12,
          y: 250 - down * 12,
          width: 12,
          height: 12,
          color: rgb(red, green, blue),
        });
      }
  }
  return document.save();
}

const key = Object.entries(HEX)
  .map(([id, hex]) => `${id} = ${hex}`)
  .join("\n");
const words = "Rnd 1: *k3 MC, k1 CC; rep from * to end.\nRnd 2: k4 MC\nMC: naturlig råhvit\nCC = #3b4a63\n";
const { run, json } = bench({
  "whole.txt": `${key}\n\n${ROWS.join("\n")}\n`,
  "upper.txt": `${key}\n\n${ROWS.slice(0, 5).join("\n")}\n`,
  "lower.txt": `${key}\n\n${ROWS.slice(4).join("\n")}\n`,
  "words.txt": Buffer.from(words, "latin1"),
  "wide.txt": Buffer.from(`\ufeff${words}`, "utf16le"),
  "table.csv": `,3,2,1\r\n2,A,B,A\r\n1,B,A,C\r\n`,
  "upper.png": await pictureOf(ROWS.slice(0, 5)),
  "lower.png": await pictureOf(ROWS.slice(4)),
  "drawn.svg": svgOf(ROWS),
  "pages.pdf": await pdfOf([
    ROWS.slice(0, 5),
    ROWS.slice(4),
    ["AB", "BA"].flatMap((row) => [row.repeat(3), row.repeat(3)]),
  ]),
});

interface Read {
  charts: {
    rows: string[];
    colours: Record<string, { hex: string; name?: string; assumed?: boolean }>;
    symbols?: Record<string, { text: string | null }>;
    page: number | null;
    box: number[][] | null;
    confidence: number;
    uncertain: number[][];
    grid?: unknown;
  }[];
  joints?: { first: number; second: number; side: string; overlap: number; sureness: number }[];
  problems: { where: string; severity: string }[];
}

const hexes = ({ rows, colours }: Read["charts"][number]): string[] =>
  rows.map((row) => Array.from(row, (id) => colours[id]!.hex).join(" "));
const TRUTH = ROWS.map((row) => Array.from(row, (id) => HEX[id]!).join(" "));

describe("every kind of file", () => {
  it.each(["whole.txt", "drawn.svg"])("%s", async (name) => {
    const { charts } = await json<Read>("read", `@${name}`);
    expect(charts.map(hexes)).toEqual([TRUTH]);
    expect(charts[0]).not.toHaveProperty("grid");
  });

  it("pages of a PDF, all or those that are named, each chart with its page", async () => {
    const all = await json<Read>("read", "@pages.pdf");
    expect(all.charts.map(({ page, rows }) => [page, rows.length])).toEqual([
      [1, 5],
      [2, 4],
      [3, 4],
    ]);
    expect((await json<Read>("read", "@pages.pdf", "--page", "2")).charts.map(hexes)).toEqual([TRUTH.slice(4)]);
    expect((await json<Read>("read", "@pages.pdf", "--page", "1,3")).charts.map(({ page }) => page)).toEqual([1, 3]);
    expect((await run("read", "@pages.pdf", "--page", "4")).err).toContain(
      "--page: expected 1 to 3, the pages of DIR/pages.pdf, found 4.",
    );
  });

  it.each(["words.txt", "wide.txt"])("%s, in the letters that it was saved in", async (name) => {
    const { charts } = await json<Read>("read", `@${name}`);
    expect(charts[0]!.rows).toEqual(["MMMM", "CMMM"]);
    expect(charts[0]!.colours.M).toMatchObject({ name: "naturlig råhvit", assumed: true });
    expect(charts[0]!.symbols).toEqual({ M: { text: "MC" }, C: { text: "CC" } });
  });

  it("a table out of a spreadsheet with its numbers", async () => {
    expect((await json<Read>("read", "@table.csv")).charts.map(({ rows }) => rows)).toEqual([["ABA", "BAC"]]);
  });
});

describe("several files as one chart", () => {
  it.each([
    ["texts", ["@upper.txt", "@lower.txt"]],
    ["pictures, the lower one first", ["@lower.png", "@upper.png"]],
    ["a picture and a text", ["@upper.png", "@lower.txt"]],
    ["pages", ["@pages.pdf", "--page", "1-2"]],
  ])("%s", async (_, files) => {
    const { charts, joints, problems } = await json<Read>("read", ...files, "--join");
    expect(charts.map(hexes)).toEqual([TRUTH]);
    expect(joints).toHaveLength(1);
    expect(joints![0]).toMatchObject({ overlap: 1 });
    expect(problems.filter(({ severity }) => severity === "fault")).toEqual([]);
  });

  it("are told apart without --join, each problem with its file", async () => {
    const { charts, joints } = await json<Read>("read", "@upper.txt", "@lower.txt");
    expect([charts.length, joints]).toEqual([2, undefined]);
    const { err } = await run("read", "@words.txt", "@table.csv");
    expect(err).toMatch(/DIR\/words\.txt, .*\n[^]*DIR\/table\.csv, /i);
  });

  it("are told to people with how they lie", async () => {
    const { out } = await run("read", "@upper.txt", "@lower.txt", "--join");
    expect(out).toContain("8 stitches by 8 rows");
    expect(out.replace(/\s+/g, " ")).toContain("Put together: part 2 lies below part 1 with 1 row in common");
  });

  it("become a project", async () => {
    const { code, out } = await run(
      "new",
      "--chart",
      "@upper.png",
      "--chart",
      "@lower.png",
      "--join",
      "--out",
      "@joined.twostrand.json",
    );
    expect([code, out.includes("8 by 8")]).toEqual([0, true]);
  });
});

describe("what she says of the colours", () => {
  it("by letter, by sign or by name", async () => {
    const { charts } = await json<Read>("read", "@words.txt", "--key", "MC = #e8e2d2", "--key", "C = slate");
    expect(charts[0]!.colours.M).toEqual(expect.objectContaining({ hex: "#e8e2d2", name: "naturlig råhvit" }));
    expect(charts[0]!.colours.M).not.toHaveProperty("assumed");
    expect(charts[0]!.colours.C).toMatchObject({ hex: "#3b4a63", name: "slate" });
  });
});
