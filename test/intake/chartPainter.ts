/** Paints charts the way programs and books do, in many styles, so that a reader can be asked for what was painted. */
import sharp from "sharp";
import type { Random } from "../../src/base/random.ts";
import { pixelsOf, type Pixels } from "../../src/raster/pixels.ts";

export interface Style {
  /** Pixels; need not be whole. */
  cellWidth: number;
  cellHeight: number;
  lines: "none" | "thin" | "every 5" | "every 10";
  lineWidth: number;
  heavyWidth: number;
  lineColour: string;
  page: string;
  /** Pixels: left, right, top, bottom. */
  margins: [number, number, number, number];
  rowNumbers: "none" | "right" | "left" | "both";
  numbersEvery: number;
  columnNumbers: boolean;
  title: boolean;
  key: boolean;
  sharpEdges: boolean;
  /** JPEG quality, or null for PNG. */
  jpeg: number | null;
}

/** The chart as an SVG drawing, rendered by a library that knows nothing of charts. */
export async function paint(rows: readonly string[], palette: Record<string, string>, style: Style): Promise<Pixels> {
  const width = rows[0]!.length;
  const height = rows.length;
  const [left, right, top, bottom] = style.margins;
  const { cellWidth: w, cellHeight: h } = style;
  const keyHeight = style.key ? 40 : 0;
  const titleHeight = style.title ? 36 : 0;
  const total = [left + width * w + right, top + titleHeight + height * h + bottom + keyHeight].map(Math.ceil) as [
    number,
    number,
  ];
  const y0 = top + titleHeight;
  const parts: string[] = [];
  parts.push(`<rect width="100%" height="100%" fill="${style.page}"/>`);
  const crisp = style.sharpEdges ? ' shape-rendering="crispEdges"' : "";
  parts.push(`<g${crisp}>`);
  for (const [row, text] of rows.entries()) {
    for (let from = 0; from < width;) {
      let to = from + 1;
      while (to < width && text[to] === text[from]) to++;
      parts.push(
        `<rect x="${left + from * w}" y="${y0 + row * h}" width="${(to - from) * w}" height="${h}" fill="${palette[text[from]!]}"/>`,
      );
      from = to;
    }
  }
  if (style.lines !== "none") {
    const every = style.lines === "every 5" ? 5 : style.lines === "every 10" ? 10 : Infinity;
    const line = (x1: number, y1: number, x2: number, y2: number, heavy: boolean): void => {
      const thick = heavy ? style.heavyWidth : style.lineWidth;
      parts.push(
        `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="${style.lineColour}" stroke-width="${thick}"/>`,
      );
    };
    for (let x = 0; x <= width; x++) line(left + x * w, y0, left + x * w, y0 + height * h, (width - x) % every === 0);
    for (let y = 0; y <= height; y++) line(left, y0 + y * h, left + width * w, y0 + y * h, (height - y) % every === 0);
  }
  parts.push("</g>");
  const size = Math.max(6, Math.min(14, h * 0.8));
  const text = (x: number, y: number, anchor: string, words: string, big = size): void => {
    parts.push(
      `<text x="${x}" y="${y}" text-anchor="${anchor}" font-family="DejaVu Sans, sans-serif" font-size="${big}" fill="#222">${words}</text>`,
    );
  };
  for (let row = 1; row <= height; row++) {
    if (row % style.numbersEvery !== 0 && row !== 1) continue;
    const y = y0 + (height - row + 0.5) * h + size * 0.36;
    if (style.rowNumbers === "right" || style.rowNumbers === "both")
      text(left + width * w + 4, y, "start", String(row));
    if (style.rowNumbers === "left" || style.rowNumbers === "both") text(left - 4, y, "end", String(row));
  }
  if (style.columnNumbers) {
    for (let column = 1; column <= width; column++) {
      if (column % style.numbersEvery !== 0 && column !== 1) continue;
      text(left + (width - column + 0.5) * w, y0 + height * h + size + 2, "middle", String(column));
    }
  }
  if (style.title) text(left, top + 20, "start", "Station vest, border", 20);
  if (style.key) {
    for (const [index, colour] of Object.values(palette).entries()) {
      const x = 10 + index * 60;
      parts.push(`<rect x="${x}" y="${total[1] - 30}" width="18" height="18" fill="${colour}" stroke="#222"/>`);
      text(x + 24, total[1] - 16, "start", "ABCDEFGHIJKL"[index]!, 14);
    }
  }
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${total[0]}" height="${total[1]}">${parts.join("")}</svg>`;
  let image = sharp(Buffer.from(svg), { unlimited: true });
  if (style.jpeg !== null) image = sharp(await image.jpeg({ quality: style.jpeg }).toBuffer());
  const { data, info } = await image.ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return pixelsOf(info.width, info.height, new Uint8ClampedArray(data.buffer, data.byteOffset, data.length));
}

/** Invented yarns' colours, at least 8 ΔE00 from each other. */
const COLOURS = [
  "#e8e2d2",
  "#3a2a22",
  "#8a3b2e",
  "#5b6f4e",
  "#c9a24b",
  "#43607f",
  "#a9a29a",
  "#d88f7a",
  "#6b4a6e",
  "#1d1d22",
  "#ffffff",
  "#7fb0b8",
];

export interface Painting {
  rows: string[];
  palette: Record<string, string>;
  style: Style;
}

/** A chart and a style by chance. */
export function randomPainting(random: Random): Painting {
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const pick = <T>(...options: T[]): T => options[whole(0, options.length - 1)]!;
  const width = pick(whole(4, 12), whole(8, 40), whole(20, 80));
  const height = pick(whole(4, 12), whole(8, 40), whole(20, 80));
  const count = whole(2, 7);
  const order = [...COLOURS].sort(() => random() - 0.5);
  const ids = Array.from("PQRSTUVW").slice(0, count);
  const palette = Object.fromEntries(ids.map((id, index) => [id, order[index]!]));
  const rows = pick(randomRows, motifRows)(random, ids, width, height);
  const lines = pick<Style["lines"]>("none", "thin", "every 5", "every 10");
  const cell = pick(whole(5, 9), whole(8, 16), whole(12, 30)) + pick(0, 0, random());
  const clutter = lines !== "none" || random() < 0.5;
  const rowNumbers = clutter ? pick<Style["rowNumbers"]>("none", "right", "left", "both") : "none";
  const space = (wanted: boolean): number => (wanted ? whole(26, 60) : pick(0, whole(3, 60)));
  const columnNumbers = clutter && random() < 0.4;
  const margins: Style["margins"] = [
    space(rowNumbers === "left" || rowNumbers === "both"),
    space(rowNumbers === "right" || rowNumbers === "both"),
    pick(0, whole(3, 60)),
    space(columnNumbers),
  ];
  const lineWidth = cell < 8 ? 1 : pick(1, 1, 1, 1.5, 2);
  const style: Style = {
    cellWidth: cell,
    cellHeight: pick(cell, cell, cell * pick(0.8, 0.9, 0.75, 1.2), Math.round(cell * 0.85)),
    lines,
    lineWidth,
    heavyWidth: Math.min(cell / 4, lineWidth * pick(2, 3)),
    lineColour: pick("#000", "#444", "#999", "#bbb", "#fff", "#c04040"),
    page: pick("#ffffff", "#ffffff", "#ffffff", "#f4f1ea", "#cccccc"),
    margins,
    rowNumbers,
    numbersEvery: pick(1, 2, 5, 10),
    columnNumbers,
    title: clutter && random() < 0.3,
    key: clutter && random() < 0.3,
    sharpEdges: random() < 0.6,
    jpeg: random() < 0.25 ? whole(85, 95) : null,
  };
  return { rows, palette, style };
}

function randomRows(random: Random, ids: readonly string[], width: number, height: number): string[] {
  return Array.from({ length: height }, () =>
    Array.from({ length: width }, () => ids[Math.floor(random() * ids.length)]!).join(""),
  );
}

/** Bands of two colours with a repeat that mirrors, as knitters draw them. */
function motifRows(random: Random, ids: readonly string[], width: number, height: number): string[] {
  const rows: string[] = [];
  while (rows.length < height) {
    const repeat = 3 + Math.floor(random() * 10);
    const [ground, pattern] = [...ids].sort(() => random() - 0.5) as [string, string];
    for (let row = 0, band = 1 + Math.floor(random() * 9); row < band && rows.length < height; row++) {
      const half = Array.from({ length: repeat }, () => (random() < 0.4 ? pattern : ground));
      rows.push(
        Array.from({ length: width }, (_, x) => half[Math.abs((x % (2 * repeat)) - repeat) % repeat]!).join(""),
      );
    }
  }
  return rows;
}
