/** A world of charts on pages, scans, photographs and screens, every one with its truth: what the reader of charts is measured on. */
import { seededRandom } from "../../src/base/random.ts";
import { crossing, gridOfLines, type ChartGrid, type Point } from "../../src/intake/chartGrid.ts";
import { pixelsOf, type Pixels } from "../../src/raster/pixels.ts";
import { compressed, renderPage, shoot, shrunk } from "./chartWorld/camera.ts";
import { chanceOf, type Chance } from "./chartWorld/chance.ts";
import { sceneOf, type Family, type Scene } from "./chartWorld/families.ts";
import { drawPage, type DrawnChart, type Drawing } from "./chartWorld/page.ts";
import type { Truth, TruthChart } from "./chartWorld/score.ts";

export { HELD_OUT, TUNED, type Family } from "./chartWorld/families.ts";
export { score, scoreChart, type ChartScore, type Score, type Truth, type TruthChart } from "./chartWorld/score.ts";

export interface Painted {
  readonly pixels: Pixels;
  readonly truth: Truth;
}

/** One picture of the family; the same for the same seed. */
export async function paintChart(family: Family, seed: number): Promise<Painted> {
  const chance = chanceOf(seededRandom(seed * 2_654_435 + hashOf(family)));
  const scene = sceneOf(family, chance);
  if (family.endsWith(": pixels")) return paintPixels(family, scene, chance);
  return paintScene(family, scene, chance);
}

export async function paintScene(family: string, { designs, style, damage }: Scene, chance: Chance): Promise<Painted> {
  const page = drawPage(chance, designs, style);
  const told = (pixels: Pixels, place: (point: Point) => Point): Painted => ({
    pixels,
    truth: {
      family,
      charts: page.charts.map((chart) => placed(chart, style.cellWidth, style.cellHeight, place)),
      legend: page.legend.map(({ id, box: [x, y, w, h] }) => ({ id, at: place([x + w / 2, y + h / 2]) })),
      lined: style.lines !== "none",
    },
  });
  if (family.startsWith("clean")) return told(await renderPage(page, 1), (point) => point);
  if (family.startsWith("small")) return small(page, damage.jpeg, chance, told);
  const { pixels, place } = await shoot(chance, page, damage);
  return told(pixels, place);
}

/** A picture made small for a web page: drawn large, shrunk by a factor of its own, compressed. */
async function small(
  page: Drawing,
  quality: number,
  { among, pick }: Chance,
  told: (pixels: Pixels, place: (point: Point) => Point) => Painted,
): Promise<Painted> {
  const large = await renderPage(page, among(1.3, 3));
  const [width, height] = [Math.round(page.width), Math.round(page.height)];
  let pixels = await shrunk(large, width, height, pick(["linear", "lanczos3", "lanczos3"] as const));
  if (quality > 0) pixels = await compressed(pixels, quality);
  return told(pixels, ([x, y]) => [(x * width) / page.width, (y * height) / page.height]);
}

/** Whole pixels to a stitch, one most often. */
function paintPixels(family: string, { designs }: Scene, { pick }: Chance): Painted {
  const { rows, palette } = designs[0]!;
  const side = rows.length > 150 ? pick([1, 2]) : pick([1, 1, 1, 2, 3]);
  const [width, height] = [rows[0]!.length * side, rows.length * side];
  const bytes = new Uint8ClampedArray(width * height * 4).fill(255);
  const rgb = new Map(
    Object.entries(palette).map(([id, hex]) => [id, [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16))]),
  );
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      bytes.set(rgb.get(rows[Math.floor(y / side)]![Math.floor(x / side)]!)!, (y * width + x) * 4);
  const lines = (count: number): number[] => Array.from({ length: count + 1 }, (_, at) => at * side);
  const grid = gridOfLines(lines(rows[0]!.length), lines(rows.length));
  return {
    pixels: pixelsOf(width, height, bytes),
    truth: { family, charts: [{ rows, palette, signs: {}, grid }], legend: [], lined: false },
  };
}

function placed(chart: DrawnChart, w: number, h: number, place: (point: Point) => Point): TruthChart {
  const { rows, palette, signs, x, y } = chart;
  const across = Array.from({ length: rows[0]!.length + 1 }, (_, column) => x + column * w);
  const down = Array.from({ length: rows.length + 1 }, (_, row) => y + row * h);
  const flat = gridOfLines(across, down);
  const corners = new Float32Array(flat.corners.length);
  for (let row = 0; row <= flat.rows; row++)
    for (let column = 0; column <= flat.columns; column++)
      corners.set(place(crossing(flat, row, column)), (row * (flat.columns + 1) + column) * 2);
  const grid: ChartGrid = { columns: flat.columns, rows: flat.rows, corners };
  return { rows, palette, signs, grid };
}

/** A family's own part of the seed. Source: the FNV-1a hash, from memory. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const sign of text) hash = Math.imul(hash ^ sign.codePointAt(0)!, 0x01000193) >>> 0;
  return hash;
}
