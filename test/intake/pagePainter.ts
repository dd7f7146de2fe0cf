/** Draws charts on pages as programs and designers do, in many styles, as PDF and as SVG, and knows what was drawn. */
import { degrees, PDFDocument, PDFName, StandardFonts, type PDFFont } from "pdf-lib";
import type { Random } from "../../src/base/random.ts";
import motifTable from "../tables/motifs.json" with { type: "json" };

export interface PageStyle {
  cells: "each" | "runs" | "column runs" | "on ground" | "paths" | "strokes" | "triangles";
  shuffled: boolean;
  /** Part of a cell left open between cells. */
  gap: number;
  lines: "none" | "thin" | "every 5" | "every 10" | "white" | "thin areas" | "outlines";
  signs: "none" | "letters" | "dingbats" | "paths" | "letters on white" | "paths on white";
  numbers: "none" | "right" | "both";
  key: "none" | "right" | "below" | "words";
  title: boolean;
  /** How the content comes to its place: as it is, in other units, on a page that is turned, turned on its page, or askew. */
  placed: "plain" | "scaled" | "turned page" | "turned content" | "askew";
  /** Places are rounded to so many points; 0 leaves them as they are. */
  rounded: number;
  missing: "none" | "yoke" | "grey";
  clipped: boolean;
  /** Width and height of a cell in points. */
  cell: [number, number];
}

export interface DrawnChart {
  title: string | null;
  /** Letters of the palette, "-" for no stitch. */
  rows: string[];
  palette: Record<string, { hex: string; name: string }>;
}

export interface DrawnPage {
  style: PageStyle;
  charts: DrawnChart[];
}

const pick = <T>(random: Random, items: readonly T[]): T => items[Math.floor(random() * items.length)]!;

export function randomPage(random: Random): DrawnPage {
  const signs = pick(random, ["none", "none", "none", "letters", "dingbats", "paths", "letters on white", "paths on white"] as const); // prettier-ignore
  const onWhite = signs.endsWith("white") || signs === "dingbats";
  const width = 4 + random() * 8;
  const lined = ["thin", "every 5", "every 10", "outlines", "thin areas"] as const;
  const style: PageStyle = {
    cells: pick(random, ["each", "runs", "column runs", "on ground", "paths", "strokes", "triangles"] as const),
    shuffled: random() < 0.4,
    gap: 0,
    lines: onWhite ? pick(random, lined) : pick(random, ["none", "white", ...lined] as const),
    signs,
    numbers: pick(random, ["none", "right", "both"] as const),
    key: pick(random, ["none", "right", "below"] as const),
    title: random() < 0.7,
    placed: pick(random, ["plain", "plain", "scaled", "turned page", "turned content", "askew"] as const),
    rounded: pick(random, [0, 0.01, 0.1]),
    missing: "none",
    clipped: random() < 0.3,
    cell: [width, width * (0.7 + random() * 0.5)],
  };
  if (style.cells === "each" && style.lines === "none" && random() < 0.5) style.gap = pick(random, [0.05, 0.15]);
  if (signs === "letters on white" && random() < 0.4) style.key = "words";
  if (random() < 0.3) style.missing = style.lines === "none" && style.cells === "on ground" ? "none" : pick(random, ["yoke", "grey"] as const); // prettier-ignore
  if (style.missing === "grey") style.key = style.key === "words" ? "words" : "right";
  const charts = Array.from({ length: random() < 0.25 ? 2 : 1 }, (_, index) => randomChart(random, style, index));
  return { style, charts };
}

function randomChart(random: Random, style: PageStyle, index: number): DrawnChart {
  const [width, height] = [8 + Math.floor(random() * 22), 8 + Math.floor(random() * 16)];
  const letters = "abcdef".slice(0, 2 + Math.floor(random() * 4));
  const fromBottom: string[] = [];
  while (fromBottom.length < height) {
    const [ground, figure] = [pick(random, [...letters]), pick(random, [...letters])];
    const { rows } = pick(random, motifTable.motifs);
    for (const row of rows)
      fromBottom.push(row.repeat(Math.ceil(width / row.length)).slice(0, width).replaceAll("#", figure).replaceAll(".", ground)); // prettier-ignore
    if (random() < 0.4) fromBottom.push(Array.from({ length: width }, () => pick(random, [...letters])).join(""));
  }
  let rows = fromBottom.slice(0, height).toReversed();
  // One colour alone is no chart.
  if (new Set(rows.join("")).size < 2) return randomChart(random, style, index);
  // Where nothing else tells how wide a stitch is, some row must have each beside another colour.
  if (style.lines === "none") rows[height - 2] = Array.from({ length: width }, (_, at) => letters[at % 2]!).join("");
  if (style.missing !== "none") {
    rows = rows.map((row, at) => {
      const cut = Math.floor(((height - 1 - at) / height) * (width / 3));
      return "-".repeat(cut) + row.slice(cut, width - cut) + "-".repeat(cut);
    });
  }
  const hexes = new Set<string>(["#dcdcdc", "#ffffff"]);
  const palette: DrawnChart["palette"] = {};
  for (const letter of new Set(rows.join("").replaceAll("-", ""))) {
    let hex = "#ffffff";
    while (hexes.has(hex))
      hex = `#${Math.floor(random() * 0x1000000)
        .toString(16)
        .padStart(6, "0")}`;
    hexes.add(hex);
    palette[letter] = { hex, name: NAMES[letter.charCodeAt(0) - 97]! };
  }
  return { title: style.title ? ["Ridge and cornice", "Second hut"][index]! : null, rows, palette };
}

/** Invented, and no words for colours. */
const NAMES = ["Cornice", "Lichen", "Gneiss", "Saxifrage", "Firn", "Marmot"];

/** What a page is drawn with; y downwards, points. */
interface Pen {
  area(runs: readonly Run[], fill: string, how?: { evenOdd?: boolean }): void;
  line(run: Run, stroke: string, width: number): void;
  words(
    x: number,
    y: number,
    size: number,
    text: string,
    how?: { font?: "plain" | "bold" | "signs"; middle?: boolean },
  ): void;
}
type Run = readonly (readonly [number, number])[];

const box = (x: number, y: number, width: number, height: number): Run => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/** Calls the pen for all of a page; the width of words is the pen's own business. */
function draw({ style, charts }: DrawnPage, random: Random, pen: Pen): void {
  let top = 70;
  for (const chart of charts) {
    const [width, height] = [chart.rows[0]!.length * style.cell[0], chart.rows.length * style.cell[1]];
    if (chart.title !== null)
      pen.words(60, top - (style.numbers === "none" ? 8 : 16), 14, chart.title, { font: "bold" });
    drawChart(chart, style, [60, top], random, pen);
    const keyAt: [number, number] = style.key === "below" ? [60, top + height + 24] : [60 + width + 40, top];
    if (style.key !== "none") drawKey(chart, style, keyAt, pen);
    top += (style.key === "below" ? height + 20 * 8 : Math.max(height, 18 * 7)) + 60;
  }
  // A page that its charts fill has no room for words below them.
  if (top < 820)
    pen.words(60, 834, 8, "Knitted at the upper station. Keep the strand held low all through, and read every row from the right."); // prettier-ignore
}

/** A sign for each letter, as words and as shapes in a unit square. */
const LETTERS = ["x", "o", "v", "+", "z", "t"];
const DINGBATS = ["\u2717", "\u25cf", "\u25a0", "\u2605", "\u2756", "\u25b2"];
const SHAPES: readonly { area?: Run; lines?: readonly Run[] }[] = [
  { lines: [[[0.2, 0.2], [0.8, 0.8]], [[0.8, 0.2], [0.2, 0.8]]] }, // prettier-ignore
  { area: [[0.5, 0.2], [0.8, 0.75], [0.2, 0.75]] }, // prettier-ignore
  { area: [[0.5, 0.8], [0.8, 0.25], [0.2, 0.25]] }, // prettier-ignore
  { lines: [[[0.5, 0.2], [0.5, 0.8]], [[0.2, 0.5], [0.8, 0.5]]] }, // prettier-ignore
  { area: [[0.5, 0.15], [0.85, 0.5], [0.5, 0.85], [0.15, 0.5]] }, // prettier-ignore
  { area: [[0.3, 0.3], [0.7, 0.3], [0.7, 0.7], [0.3, 0.7]] }, // prettier-ignore
];

function drawChart(chart: DrawnChart, style: PageStyle, [left, top]: [number, number], random: Random, pen: Pen): void {
  const { rows, palette } = chart;
  const [w, h] = style.cell;
  const [columns, height] = [rows[0]!.length, rows.length];
  const at = (value: number): number => (style.rounded > 0 ? Math.round(value / style.rounded) * style.rounded : value);
  const x = (column: number): number => at(left + column * w);
  const y = (row: number): number => at(top + row * h);
  const block = (column: number, row: number, wide: number, high: number): Run => {
    const [gx, gy] = [(style.gap * w) / 2, (style.gap * h) / 2];
    return box(x(column) + gx, y(row) + gy, x(column + wide) - x(column) - 2 * gx, y(row + high) - y(row) - 2 * gy);
  };
  const fills: { runs: Run[]; fill: string; cell: [number, number, number, number] }[] = [];
  const isPaper = style.signs.endsWith("white") || style.signs === "dingbats";
  const hexOf = (letter: string): string => (letter === "-" ? "#dcdcdc" : palette[letter]!.hex);
  const isDrawn = (letter: string): boolean => (letter === "-" ? style.missing === "grey" : !isPaper);
  const counts = new Map<string, number>();
  for (const letter of rows.join("")) if (letter !== "-") counts.set(letter, (counts.get(letter) ?? 0) + 1);
  const main = [...counts].sort((a, b) => b[1] - a[1])[0]![0];
  const onGround = style.cells === "on ground" && style.missing === "none" && !isPaper;
  if (onGround) pen.area([block(0, 0, columns, height)], hexOf(main));
  for (let row = 0; row < height; row++)
    for (let column = 0; column < columns;) {
      const letter = rows[row]![column]!;
      let wide = 1;
      if (style.cells === "runs" || style.cells === "strokes") while (rows[row]![column + wide] === letter) wide++;
      let high = 1;
      let skip = false;
      if (style.cells === "column runs") {
        skip = row > 0 && rows[row - 1]![column] === letter;
        while (rows[row + high]?.[column] === letter) high++;
      }
      if (isDrawn(letter) && !skip && !(onGround && letter === main))
        fills.push({ runs: [block(column, row, wide, high)], fill: hexOf(letter), cell: [column, row, wide, high] });
      column += wide;
    }
  if (style.shuffled) fills.sort(() => random() - 0.5);
  if (style.cells === "paths") {
    for (const fill of new Set(fills.map((one) => one.fill)))
      pen.area(
        fills.filter((one) => one.fill === fill).flatMap(({ runs }) => runs),
        fill,
      );
  } else if (style.cells === "triangles") {
    for (const { runs, fill } of fills) {
      const [a, b, c, d] = runs[0]!;
      pen.area([[a!, b!, c!]], fill);
      pen.area([[a!, c!, d!]], fill);
    }
  } else if (style.cells === "strokes") {
    for (const { runs, fill } of fills) {
      const [a, b, c] = runs[0]!;
      const middle = (b![1] + c![1]) / 2;
      pen.line([[a![0], middle], [b![0], middle]], fill, c![1] - b![1]); // prettier-ignore
    }
  } else for (const { runs, fill } of fills) pen.area(runs, fill);

  drawLines(chart, style, x, y, pen);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < columns; column++) {
      const letter = rows[row]![column]!;
      if (letter !== "-" && letter !== main) drawSign(letter, style, [x(column), y(row)], style.cell, pen);
    }
  if (style.numbers === "none") return;
  for (let row = 0; row < height; row++) {
    const number = height - row;
    if (style.numbers === "right" || number % 2 === 1)
      pen.words(x(columns) + 4, y(row) + h * 0.75, h * 0.7, String(number));
    else pen.words(x(0) - 12, y(row) + h * 0.75, h * 0.7, String(number));
  }
  for (let column = 0; column < columns; column++)
    if ((columns - column) % 5 === 0)
      pen.words(x(column) + w / 2, y(height) + 8, 6, String(columns - column), { middle: true });
}

function drawLines(
  { rows }: DrawnChart,
  style: PageStyle,
  x: (column: number) => number,
  y: (row: number) => number,
  pen: Pen,
): void {
  const [columns, height] = [rows[0]!.length, rows.length];
  const isThere = (row: number, column: number): boolean => (rows[row]?.[column] ?? "-") !== "-" || (style.missing !== "yoke" && row >= 0 && column >= 0 && row < height && column < columns); // prettier-ignore
  const least = Math.min(...style.cell);
  if (style.lines === "none") return;
  if (style.lines === "outlines") {
    for (let row = 0; row < height; row++)
      for (let column = 0; column < columns; column++)
        if (isThere(row, column)) {
          const cell = box(x(column), y(row), x(column + 1) - x(column), y(row + 1) - y(row));
          pen.line([...cell, cell[0]!], "#202020", 0.3);
        }
    return;
  }
  const line = (from: readonly [number, number], to: readonly [number, number], count: number): void => {
    const every = style.lines === "every 5" ? 5 : style.lines === "every 10" ? 10 : 0;
    const width = every > 0 && count % every === 0 ? least * 0.16 : least * 0.05;
    const colour = style.lines === "white" ? "#ffffff" : "#303030";
    if (style.lines !== "thin areas") return pen.line([from, to], colour, width);
    if (from[0] === to[0]) pen.area([box(from[0] - width / 2, from[1], width, to[1] - from[1])], colour);
    else pen.area([box(from[0], from[1] - width / 2, to[0] - from[0], width)], colour);
  };
  for (let row = 0; row <= height; row++) {
    const there = Array.from({ length: columns }, (_, column) => isThere(row, column) || isThere(row - 1, column));
    const [first, last] = [there.indexOf(true), there.lastIndexOf(true)];
    line([x(first), y(row)], [x(last + 1), y(row)], height - row);
  }
  for (let column = 0; column <= columns; column++) {
    const there = Array.from({ length: height }, (_, row) => isThere(row, column) || isThere(row, column - 1));
    const [first, last] = [there.indexOf(true), there.lastIndexOf(true)];
    line([x(column), y(first)], [x(column), y(last + 1)], columns - column);
  }
}

function drawSign(
  letter: string,
  style: PageStyle,
  [x, y]: [number, number],
  [w, h]: [number, number],
  pen: Pen,
): void {
  const place = letter.charCodeAt(0) - 97;
  const size = Math.min(w, h);
  if (style.signs === "letters" || style.signs === "letters on white")
    pen.words(x + w / 2, y + h / 2 + size * 0.22, size * 0.75, LETTERS[place]!, { middle: true });
  if (style.signs === "dingbats")
    pen.words(x + w / 2, y + h / 2 + size * 0.25, size * 0.75, DINGBATS[place]!, { font: "signs", middle: true });
  if (!style.signs.startsWith("paths")) return;
  const { area, lines } = SHAPES[place]!;
  const put = ([px, py]: readonly [number, number]): readonly [number, number] => [x + w / 2 + (px - 0.5) * size, y + h / 2 + (py - 0.5) * size]; // prettier-ignore
  if (area) pen.area([area.map(put)], "#000000");
  for (const run of lines ?? []) pen.line(run.map(put), "#000000", size * 0.08);
}

function drawKey(chart: DrawnChart, style: PageStyle, [left, top]: [number, number], pen: Pen): void {
  const counts = new Map<string, number>();
  for (const letter of chart.rows.join("")) if (letter !== "-") counts.set(letter, (counts.get(letter) ?? 0) + 1);
  const main = [...counts].sort((a, b) => b[1] - a[1])[0]![0];
  const entries = Object.entries(chart.palette).map(([letter, { name, hex }]) => ({ letter, name, hex }));
  if (style.missing === "grey") entries.push({ letter: "-", name: "no stitch", hex: "#dcdcdc" });
  const isPaper = style.signs.endsWith("white") || style.signs === "dingbats";
  for (const [index, { letter, name, hex }] of entries.entries()) {
    const y = top + index * 18;
    if (style.key === "words" && letter !== "-") {
      const sign = letter === main ? "blank" : LETTERS[letter.charCodeAt(0) - 97]!;
      pen.words(left, y + 9, 9, `${sign} = ${name}`);
      continue;
    }
    const [w, h] = [12, (12 * style.cell[1]) / style.cell[0]];
    if (!isPaper || letter === "-") pen.area([box(left, y, w, h)], hex);
    const edge = box(left, y, w, h);
    pen.line([...edge, edge[0]!], "#404040", 0.3);
    if (letter !== "-" && letter !== main) drawSign(letter, style, [left, y], [w, h], pen);
    pen.words(left + w + 8, y + h / 2 + 3, 9, name);
  }
}

/** The page as a PDF of one page. */
export async function pdfOf(page: DrawnPage, random: Random): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  const fonts = {
    plain: await document.embedFont(StandardFonts.Helvetica),
    bold: await document.embedFont(StandardFonts.HelveticaBold),
    signs: await document.embedFont(StandardFonts.ZapfDingbats),
  };
  const { placed, clipped } = page.style;
  const [width, height] = [595, 842];
  const turnedPage = placed === "turned page";
  const sheet = document.addPage(turnedPage ? [height, width] : [width, height]);
  const parts: string[] = [];
  const n = (value: number): string => String(Number(value.toFixed(5)));
  // From points with y downwards to where the file wants them.
  const matrix = {
    plain: [1, 0, 0, -1, 0, height],
    scaled: [0.7, 0, 0, -0.7, 30, height - 40],
    "turned page": [0, 1, 1, 0, 0, 0],
    "turned content": [0, -1, -1, 0, width, height],
    askew: [Math.cos(0.03), Math.sin(0.03), Math.sin(0.03), -Math.cos(0.03), 10, height - 30],
  }[placed];
  if (turnedPage) sheet.setRotation(degrees(90));
  parts.push(`${matrix.map(n).join(" ")} cm`);
  if (clipped) parts.push(`10 10 ${width - 20} ${height - 20} re W n`);
  const colour = (hex: string): string =>
    [1, 3, 5].map((at) => n(Number.parseInt(hex.slice(at, at + 2), 16) / 255)).join(" ");
  const path = (run: Run): string =>
    run.map(([px, py], index) => `${n(px)} ${n(py)} ${index === 0 ? "m" : "l"}`).join(" ");
  draw(page, random, {
    area: (runs, fill) => {
      const shapes = runs.map((run) => {
        const [a, , c] = run;
        const isBox = run.length === 4 && run[1]![1] === a![1] && run[2]![0] === run[1]![0] && run[3]![0] === a![0];
        return isBox ? `${n(a![0])} ${n(a![1])} ${n(c![0] - a![0])} ${n(c![1] - a![1])} re` : `${path(run)} h`;
      });
      parts.push(`${colour(fill)} rg ${shapes.join(" ")} f`);
    },
    line: (run, stroke, lineWidth) => {
      const closed = run.length > 2 && run[0] === run.at(-1);
      parts.push(
        `q ${colour(stroke)} RG ${n(lineWidth)} w ${path(closed ? run.slice(0, -1) : run)} ${closed ? "s" : "S"} Q`,
      );
    },
    words: (x, y, size, text, { font = "plain", middle = false } = {}) => {
      const own: PDFFont = fonts[font];
      const from = middle ? x - own.widthOfTextAtSize(text, size) / 2 : x;
      parts.push(
        `BT 0 g /${font} ${n(size)} Tf 1 0 0 -1 ${n(from)} ${n(y)} Tm ${own.encodeText(text).toString()} Tj ET`,
      );
    },
  });
  for (const [name, font] of Object.entries(fonts)) sheet.node.setFontDictionary(PDFName.of(name), font.ref);
  const stream = document.context.flateStream(parts.join("\n"));
  sheet.node.set(PDFName.of("Contents"), document.context.register(stream));
  return document.save({ useObjectStreams: random() < 0.5 });
}

/** The page as an SVG drawing. */
export function svgOf(page: DrawnPage, random: Random): string {
  const { placed } = page.style;
  const parts: string[] = [];
  const n = (value: number): string => String(Number(value.toFixed(5)));
  const points = (run: Run): string => run.map(([x, y]) => `${n(x)},${n(y)}`).join(" ");
  const classes = new Map<string, string>();
  const styled = random() < 0.4;
  const fillOf = (fill: string): string => {
    if (!styled) return `fill="${fill}"`;
    if (!classes.has(fill)) classes.set(fill, `c${classes.size}`);
    return `class="${classes.get(fill)!}"`;
  };
  draw(page, random, {
    area: (runs, fill) => {
      const [run] = runs;
      const [a, , c] = run!;
      if (runs.length === 1 && run!.length === 4 && run![1]![1] === a![1] && run![2]![0] === run![1]![0])
        parts.push(
          `<rect x="${n(a![0])}" y="${n(a![1])}" width="${n(c![0] - a![0])}" height="${n(c![1] - a![1])}" ${fillOf(fill)}/>`,
        );
      else parts.push(`<path d="${runs.map((one) => `M${points(one)}z`).join("")}" ${fillOf(fill)}/>`);
    },
    line: (run, stroke, width) =>
      parts.push(`<polyline points="${points(run)}" fill="none" style="stroke:${stroke};stroke-width:${n(width)}"/>`),
    words: (x, y, size, text, { font = "plain", middle = false } = {}) =>
      parts.push(
        `<text x="${n(x)}" y="${n(y)}" font-size="${n(size)}" font-family="${font}"${middle ? ' text-anchor="middle"' : ""}>${text}</text>`,
      ),
  });
  const transform = {
    plain: "",
    scaled: "translate(20 30) scale(0.7)",
    "turned page": "translate(595 0) rotate(90) scale(0.7)",
    "turned content": "matrix(0 0.7 -0.7 0 595 0)",
    askew: "translate(30 0) rotate(2)",
  }[placed];
  const sheet = [...classes].map(([fill, name]) => `.${name}{fill:${fill}}`).join("");
  return `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" width="595pt" height="842pt" viewBox="0 0 595 842"><style>${sheet}</style><g transform="${transform}">${parts.join("")}</g></svg>`;
}
