/** Paints charts pixel by pixel, as spreadsheets, scripts and drawing programs leave them, so that every picture's truth is known. */
import sharp from "sharp";
import type { Random } from "../../src/base/random.ts";
import { deltaE2000 } from "../../src/colour/difference.ts";
import { labFromHex, type Lab } from "../../src/colour/lab.ts";
import { pixelsOf, type Pixels } from "../../src/raster/pixels.ts";

export interface CellPainting {
  /** Top row first; "A" is the first of `colours`. */
  rows: string[];
  pixels: Pixels;
  /** Whether nothing in the picture tells where the chart ends: its rim has the page's colour and no line. */
  edgeHidden: boolean;
}

export const FAMILIES = [
  "pixels",
  "blocks, no margin",
  "blocks, margin",
  "blocks, ground of the page",
  "lines, no margin",
  "lines, margin",
  "lines every 5 or 10",
  "lines of the page's colour",
  "lines like a cell",
  "near colours",
  "text around",
  "resized",
  "jpeg",
] as const;
export type Family = (typeof FAMILIES)[number];

/** One stretch of an axis: page, a cell, or a line. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly kind: "page" | "cell" | "thin" | "heavy";
  readonly cell: number;
}

type Rgb = readonly [number, number, number];

export async function paintCells(family: Family, random: Random): Promise<CellPainting> {
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const pick = <T>(...options: readonly T[]): T => options[whole(0, options.length - 1)]!;
  const chance = (part: number): boolean => random() < part;

  const lined = family.startsWith("lines") || (!/pixels|blocks/.test(family) && chance(0.6));
  const page: Rgb = pick<Rgb>(
    [255, 255, 255],
    [255, 255, 255],
    [244, 241, 234],
    [204, 204, 204],
    [30, 34, 40],
    [222, 235, 247],
  );
  const pageColoured = family === "lines of the page's colour";
  const line: Rgb = pageColoured
    ? page
    : pick<Rgb>(
        [0, 0, 0],
        [68, 68, 68],
        [150, 150, 150],
        [187, 187, 187],
        [221, 221, 221],
        [255, 255, 255],
        [192, 64, 64],
        [60, 90, 200],
      );
  const heavyLine: Rgb = pageColoured || chance(0.7) ? line : pick<Rgb>([0, 0, 0], [200, 30, 30], [40, 40, 120]);
  const count = pick(2, 2, 3, 4, whole(2, 8), whole(5, 20));
  const least = family === "near colours" ? 4 : 9;
  const colours = palette(random, count, least, family === "near colours");
  const margined =
    family === "blocks, margin" ||
    family === "lines, margin" ||
    family === "blocks, ground of the page" ||
    family === "text around" ||
    pageColoured ||
    chance(0.5);
  const bare = family === "pixels" ? chance(0.7) : /no margin/.test(family) || !margined;
  if (family === "lines like a cell") colours[whole(0, Math.min(1, count - 1))] = [...line];
  if (family === "blocks, ground of the page") colours[0] = [...page];
  else if (!bare && chance(0.4) && family !== "blocks, margin") colours[whole(0, count - 1)] = [...page];
  if (!distinct(colours, least)) return paintCells(family, random);

  const large = pick(false, false, true);
  const width = large ? whole(20, 90) : whole(4, 30);
  const height = large ? whole(20, 90) : whole(4, 30);
  const ids = colours.map((_, index) => String.fromCharCode(65 + index));
  const rows = pick(scattered, motifs, motifs, sparse, bands)(random, ids, width, height);
  if (chance(0.4)) plainRim(random, rows, ids[0]!);
  if (
    !readable(
      rows,
      lined,
      ids.find((_, index) => near(colours[index]!, line)),
    )
  )
    return paintCells(family, random);
  const sides = rim(rows);
  const pageId = ids.find((_, index) => near(colours[index]!, page));
  // A stitch of the page's colour at the rim is seen only where a line or the picture's end closes it.
  const lineSeen = lined && !near(line, page);
  const rimHidden = !bare && !lineSeen && sides.some((side) => Array.from(side).every((id) => id === pageId));
  if (rimHidden && family === "blocks, margin") return paintCells(family, random);

  // Geometry.
  const most = Math.max(2, Math.floor(1400 / Math.max(width, height)));
  const cellWidth =
    family === "pixels"
      ? 1
      : Math.min(
          most,
          lined ? pick(whole(4, 8), whole(6, 20), whole(12, 60)) : pick(whole(2, 5), whole(4, 16), whole(12, 60)),
        );
  const cellHeight =
    family === "pixels"
      ? 1
      : pick(cellWidth, cellWidth, Math.max(lined ? 4 : 2, Math.round(cellWidth * pick(0.7, 0.75, 0.85, 1.25))));
  const every = family === "lines every 5 or 10" ? pick(5, 10) : pick(0, 0, 5, 10);
  const thin = Math.min(Math.floor(Math.min(cellWidth, cellHeight) / 4), pick(1, 1, 1, 2, 3));
  const heavy = every === 0 ? thin : Math.min(Math.ceil(Math.min(cellWidth, cellHeight) / 3), thin + pick(1, 2));
  const manner = pick("beside", "over", "within");
  const frame = pick("line", "line", "none", "heavy");
  const soft = family === "resized" && chance(0.35);
  const [cw, ch] = soft ? [cellWidth + random(), cellHeight + random()] : [cellWidth, cellHeight];
  const textual = family === "text around" || (family === "jpeg" && chance(0.4));
  const margin = (): number =>
    bare ? 0 : textual ? whole(30, 70) : chance(0.05) ? 0 : pick(whole(1, 6), whole(5, 60), whole(5, 60), cellWidth);
  const fromStart = chance(0.5);
  const edges = (from: number, cells: number, size: number): { stretches: Stretch[]; begin: number; end: number } =>
    axis({ margin: from, cells, size, lined, thin, heavy, every, manner, frame, fromStart });
  const margins: [number, number, number, number] = chance(0.2)
    ? fill(margin())
    : [margin(), margin(), margin(), margin()];
  // Margins of whole stitches look like plain stitches, but where a ring of their own colour goes all around.
  const stepX = cw + (lined && manner === "beside" ? thin : 0);
  const stepY = ch + (lined && manner === "beside" ? thin : 0);
  const fitting = margins.every((each, side) => {
    const step = side < 2 ? stepX : stepY;
    return (each + heavy + 1.5) % step < 2 * heavy + 3;
  });
  const likeStitches =
    !lineSeen &&
    fitting &&
    margins.some((each) => each > 0) &&
    !(pageId === undefined && margins.every((each) => each > 0));
  // A bare chart with a plain border of its own colour all around looks like a chart on a page.
  const framed =
    bare && (!lined || near(line, colours[rows[0]!.charCodeAt(0) - 65]!)) && new Set(sides.join("")).size === 1;
  const edgeHidden = rimHidden || likeStitches || framed;
  const x = edges(margins[0], width, cw);
  const y = edges(margins[2], height, ch);
  const W = Math.ceil(x.end - (margins[1] === 0 && soft ? 0.999 : 0)) + margins[1];
  const H = Math.ceil(y.end - (margins[3] === 0 && soft ? 0.999 : 0)) + margins[3];
  const colourOf = (across: Stretch, down: Stretch): Rgb => {
    if (across.kind === "page" || down.kind === "page") return page;
    if (across.kind === "heavy" || down.kind === "heavy") return heavyLine;
    if (across.kind === "thin" || down.kind === "thin") return line;
    return colours[rows[down.cell]!.charCodeAt(across.cell) - 65]!;
  };
  let rgb = Buffer.alloc(W * H * 3);
  const coverX = coverage(x.stretches, W);
  const coverY = coverage(y.stretches, H);
  for (let py = 0; py < H; py++) {
    for (let px = 0; px < W; px++) {
      const sum = [0, 0, 0];
      for (const [down, partY] of coverY[py]!) {
        for (const [across, partX] of coverX[px]!) {
          const colour = colourOf(across, down);
          for (let channel = 0; channel < 3; channel++) sum[channel]! += partX * partY * colour[channel]!;
        }
      }
      for (let channel = 0; channel < 3; channel++) rgb[(py * W + px) * 3 + channel] = Math.round(sum[channel]!);
    }
  }
  let size = { width: W, height: H };
  if (textual) {
    const words = writing({ W, H, margins, x, y, width, height, colours, page, pick, whole, chance });
    rgb = await sharp(rgb, { raw: { ...size, channels: 3 } })
      .composite([{ input: Buffer.from(words) }])
      .removeAlpha()
      .raw()
      .toBuffer();
  }
  if (family === "resized" && !soft) {
    const kernel = pick<"nearest" | "cubic" | "mitchell" | "lanczos3" | "linear">(
      "nearest",
      "cubic",
      "mitchell",
      "lanczos3",
      "linear",
    );
    const smallest = Math.min(cellWidth, cellHeight) / (lined ? 5 : 4);
    const scale = Math.max(1 / smallest, kernel === "nearest" && lined ? 1 + random() : 0.45 + random() * 1.3);
    const resized = await sharp(rgb, { raw: { ...size, channels: 3 } })
      .resize({ width: Math.round(W * scale), height: Math.round(H * scale), fit: "fill", kernel })
      .raw()
      .toBuffer({ resolveWithObject: true });
    rgb = resized.data;
    size = { width: resized.info.width, height: resized.info.height };
  }
  if (family === "jpeg") {
    const jpeg = await sharp(rgb, { raw: { ...size, channels: 3 } })
      .jpeg({ quality: whole(85, 95), chromaSubsampling: pick("4:4:4", "4:2:0") })
      .toBuffer();
    rgb = await sharp(jpeg).raw().toBuffer();
  }
  const rgba = new Uint8ClampedArray(size.width * size.height * 4).fill(255);
  for (let at = 0; at < size.width * size.height; at++) rgba.set(rgb.subarray(at * 3, at * 3 + 3), at * 4);
  return { rows, pixels: pixelsOf(size.width, size.height, rgba), edgeHidden };
}

const fill = (value: number): [number, number, number, number] => [value, value, value, value];

interface Axis {
  margin: number;
  cells: number;
  size: number;
  lined: boolean;
  thin: number;
  heavy: number;
  every: number;
  manner: "beside" | "over" | "within";
  frame: "line" | "none" | "heavy";
  fromStart: boolean;
}

/** Lines stand beside the cells and push them on, over their sides, or within each cell's left and upper side. */
function axis({ margin, cells, size, lined, thin, heavy, every, manner, frame, fromStart }: Axis): {
  stretches: Stretch[];
  begin: number;
  end: number;
} {
  const stretches: Stretch[] = [];
  let at = 0;
  const put = (length: number, kind: Stretch["kind"], cell = -1): void => {
    if (length > 0) stretches.push({ from: at, to: at + length, kind, cell });
    at += length;
  };
  put(margin, "page");
  const begin = at;
  for (let border = 0; border <= cells; border++) {
    const isHeavy = every > 0 && (fromStart ? border : cells - border) % every === 0;
    const isRim = border === 0 || border === cells;
    let thick = !lined || (isRim && frame === "none") ? 0 : isHeavy || (isRim && frame === "heavy") ? heavy : thin;
    const kind = thick === heavy && heavy > thin ? "heavy" : "thin";
    if (manner === "beside") put(thick, kind);
    else if (thick > 0) {
      const middle = begin + border * size;
      const from =
        manner === "within" ? middle : border === 0 && margin === 0 ? middle : middle - Math.floor(thick / 2);
      if (stretches.length > 0 && from < at) {
        const last = stretches.pop()!;
        at = from;
        stretches.push({ ...last, to: from });
      }
      // A line drawn over the page's side covers a little of the page.
      put(thick, kind);
      thick = 0;
    }
    if (border < cells) {
      if (manner === "beside") put(size, "cell", border);
      else put(begin + (border + 1) * size - at, "cell", border);
    }
  }
  const end = at;
  put(1e6, "page");
  return { stretches, begin, end };
}

function coverage(stretches: readonly Stretch[], length: number): [Stretch, number][][] {
  return Array.from({ length }, (_, pixel) =>
    stretches
      .filter(({ from, to }) => to > pixel + 1e-9 && from < pixel + 1 - 1e-9)
      .map((stretch): [Stretch, number] => [stretch, Math.min(stretch.to, pixel + 1) - Math.max(stretch.from, pixel)]),
  );
}

interface Writing {
  W: number;
  H: number;
  margins: [number, number, number, number];
  x: { begin: number; end: number };
  y: { begin: number; end: number };
  width: number;
  height: number;
  colours: readonly Rgb[];
  page: Rgb;
  pick: <T>(...options: readonly T[]) => T;
  whole: (from: number, to: number) => number;
  chance: (part: number) => boolean;
}

function writing({ W, H, x, y, width, height, colours, page, pick, whole, chance }: Writing): string {
  const ink = page[0] < 100 ? "#ddd" : pick("#000", "#333", "#888", "#a02020");
  const cw = (x.end - x.begin) / width;
  const ch = (y.end - y.begin) / height;
  const family = pick("DejaVu Sans", "DejaVu Serif", "DejaVu Sans Mono");
  const every = pick(1, 2, 5, 10);
  const size = Math.max(6, Math.min(14, ch * 0.85 * every));
  const parts: string[] = [];
  const text = (left: number, base: number, anchor: string, words: string, big: number): void => {
    parts.push(
      `<text x="${left}" y="${base}" text-anchor="${anchor}" font-family="${family}" font-size="${big}" fill="${ink}">${words}</text>`,
    );
  };
  const sides = pick(["right"], ["left"], ["left", "right"], []);
  for (let row = 1; row <= height; row++) {
    if (row !== 1 && row % every !== 0) continue;
    const base = y.end - (row - 0.5) * ch + size * 0.36;
    if (sides.includes("right")) text(x.end + 3, base, "start", String(row), size);
    if (sides.includes("left")) text(x.begin - 3, base, "end", String(row), size);
  }
  if (chance(0.5)) {
    const small = Math.max(6, Math.min(14, cw * every * 0.6));
    for (let column = 1; column <= width; column++) {
      if (column % every === 0 || column === 1)
        text(x.end - (column - 0.5) * cw, y.end + small + 2, "middle", String(column), small);
    }
  }
  if (chance(0.4)) text(x.begin, Math.max(12, y.begin - 8), "start", "Station vest, ridge border", whole(10, 16));
  if (chance(0.4)) {
    const side = whole(8, 16);
    colours.forEach((colour, index) => {
      const left = 4 + index * (side + 26);
      if (left + side > W) return;
      parts.push(
        `<rect x="${left}" y="${H - side - 4}" width="${side}" height="${side}" fill="rgb(${colour.join()})" stroke="${pick(ink, "none")}"/>`,
      );
      text(left + side + 3, H - 6, "start", String.fromCharCode(65 + index), 11);
    });
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${W}" height="${H}">${parts.join("")}</svg>`;
}

const near = (one: Rgb, other: Rgb): boolean => one.every((value, channel) => Math.abs(value - other[channel]!) < 3);
const hex = (rgb: Rgb): string => `#${rgb.map((value) => value.toString(16).padStart(2, "0")).join("")}`;
const lab = (rgb: Rgb): Lab => labFromHex(hex(rgb))!;

function distinct(colours: readonly Rgb[], least: number): boolean {
  const labs = colours.map(lab);
  return labs.every((one, index) => labs.slice(0, index).every((other) => deltaE2000(one, other) >= least));
}

/** Colours of yarns by chance, white among them at times, each at least so many ΔE00 from the others. */
function palette(random: Random, count: number, least: number, close: boolean): Rgb[] {
  const colours: Rgb[] = random() < 0.4 ? [[255, 255, 255]] : [];
  for (let tries = 0; colours.length < count && tries < 5000; tries++) {
    const from = colours.at(-1);
    const colour = [0, 1, 2].map((channel) =>
      close && from && random() < 0.9
        ? Math.min(255, Math.max(0, from[channel]! + Math.round((random() - 0.5) * 50)))
        : Math.floor(random() * 256),
    ) as [number, number, number];
    if (distinct([...colours, colour], least)) colours.push(colour);
  }
  return colours;
}

function scattered(random: Random, ids: readonly string[], width: number, height: number): string[] {
  return Array.from({ length: height }, () =>
    Array.from({ length: width }, () => ids[Math.floor(random() * ids.length)]!).join(""),
  );
}

/** Bands of two colours, mirrored in each repeat. */
function motifs(random: Random, ids: readonly string[], width: number, height: number): string[] {
  const rows: string[] = [];
  while (rows.length < height) {
    const ground = random() < 0.6 ? ids[0]! : ids[Math.floor(random() * ids.length)]!;
    const pattern = ids[Math.floor(random() * ids.length)]!;
    const repeat = 3 + Math.floor(random() * 9);
    for (let row = 0, band = 1 + Math.floor(random() * 9); row < band && rows.length < height; row++) {
      const half = Array.from({ length: repeat }, () => (random() < 0.4 ? pattern : ground));
      rows.push(
        Array.from({ length: width }, (_, x) => half[Math.abs((x % (2 * repeat)) - repeat) % repeat]!).join(""),
      );
    }
  }
  return rows;
}

/** A few figures far apart on one ground. */
function sparse(random: Random, ids: readonly string[], width: number, height: number): string[] {
  const cells = Array.from({ length: height }, () => Array<string>(width).fill(ids[0]!));
  for (let figures = 0; figures < 2 + (width * height) / 40; figures++) {
    const [column, row] = [Math.floor(random() * width), Math.floor(random() * height)];
    const id = ids[Math.floor(random() * ids.length)]!;
    for (let y = row; y < Math.min(height, row + 3); y++)
      for (let x = column; x < Math.min(width, column + 3); x++) if (random() < 0.6) cells[y]![x] = id;
  }
  return cells.map((row) => row.join(""));
}

/** Plain bands among bands of figures. */
function bands(random: Random, ids: readonly string[], width: number, height: number): string[] {
  const rows = motifs(random, ids, width, height);
  for (let row = 0; row < height; row += 1 + Math.floor(random() * 6))
    rows[row] = ids[Math.floor(random() * ids.length)]!.repeat(width);
  return rows;
}

/** One or more rows or columns of ground at the rim. */
function plainRim(random: Random, rows: string[], ground: string): void {
  const width = rows[0]!.length;
  const deep = random() < 0.8 ? 1 : 2;
  if (random() < 0.6) for (let row = 0; row < deep; row++) rows[row] = ground.repeat(width);
  if (random() < 0.5) rows[rows.length - 1] = ground.repeat(width);
  if (random() < 0.3) for (const [index, row] of rows.entries()) rows[index] = ground.repeat(deep) + row.slice(deep);
  if (random() < 0.3) for (const [index, row] of rows.entries()) rows[index] = row.slice(0, -1) + ground;
}

function rim(rows: readonly string[]): string[] {
  return [rows[0]!, rows.at(-1)!, rows.map((row) => row[0]!).join(""), rows.map((row) => row.at(-1)!).join("")];
}

/** Whether a careful eye could tell the stitches: without lines their size is told only by where colours change. */
function readable(rows: readonly string[], lined: boolean, lineId: string | undefined): boolean {
  const width = rows[0]!.length;
  const colours = new Set(rows.join(""));
  if (colours.size < 2) return false;
  const changes = (count: number, differ: (at: number) => boolean): number[] =>
    Array.from({ length: count - 1 }, (_, at) => at + 1).filter(differ);
  const across = changes(width, (x) => rows.some((row) => row[x] !== row[x - 1]));
  const down = changes(rows.length, (y) => rows[y] !== rows[y - 1]);
  if (lined) {
    // Lines are seen only beside stitches of another colour than theirs.
    const columns = Array.from(rows[0]!, (_, x) => x).filter((x) => rows.some((row) => row[x] !== lineId));
    const seen = rows.filter((row) => Array.from(row).some((id) => id !== lineId));
    return across.length > 0 && down.length > 0 && 2 * columns.length >= width && 2 * seen.length >= rows.length;
  }
  const part = (one: number, other: number): number => (other === 0 ? one : part(other, one % other));
  // Among the changes inside: the chart's own sides may be hidden.
  const steps = (places: number[]): number =>
    places.slice(1).reduce((sum, place, index) => part(sum, place - places[index]!), 0);
  return across.length > 2 && down.length > 2 && steps(across) === 1 && steps(down) === 1;
}
