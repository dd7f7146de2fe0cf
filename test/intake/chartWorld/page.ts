/** Draws a page with charts on it, as SVG, and knows where every cell was put. */
import type { Point } from "../../../src/intake/chartGrid.ts";
import type { Chance } from "./chance.ts";
import type { Design } from "./designs.ts";
import { SIGNS } from "./signs.ts";

export interface Style {
  /** Page units, which are pixels where nothing is scaled. */
  cellWidth: number;
  cellHeight: number;
  lines: "none" | "drawn" | "dashed";
  lineWidth: number;
  lineColour: string;
  /** 0 for never. */
  heavyEvery: number;
  heavyWidth: number;
  heavyColour: string;
  /** Width of a frame around the chart, 0 for none. */
  frame: number;
  /** Counted from the lower right, as stitches are, or from the upper left, as tables are. */
  heavyFrom: "right" | "left";
  page: string;
  ink: string;
  font: string;
  crisp: boolean;
  numbers: "none" | "right" | "left" | "both" | "turns";
  numbersEvery: number;
  columnNumbers: "none" | "below" | "above";
  title: string | null;
  /** Lines of text over and under. */
  textOver: number;
  textUnder: number;
  key: "none" | "below" | "beside";
  signs: "none" | "white" | "colour";
  /** Part of the cell that a sign's line is wide. */
  signLine: number;
  noStitch: "grey" | "hatched" | "blank" | "missing";
  grey: string;
  /** How a cell shows its colour. */
  fill: "whole" | "disc" | "stitch" | "gap" | "pencil";
  /** Left, right, top, bottom. */
  margins: readonly [number, number, number, number];
}

export interface DrawnChart {
  readonly rows: string[];
  readonly palette: Record<string, string>;
  readonly signs: Record<string, string>;
  /** Page units. */
  readonly x: number;
  readonly y: number;
}

export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly svg: string;
  readonly charts: DrawnChart[];
  readonly legend: { id: string; box: readonly [number, number, number, number] }[];
  /** What a camera is pointed at: the charts with what stands around them. */
  readonly focus: readonly [Point, Point];
}

export function drawPage(
  chance: Chance,
  designs: readonly (Design & { signs: Record<string, string> })[],
  style: Style,
): Drawing {
  const { cellWidth: w, cellHeight: h, margins } = style;
  const letter = Math.max(7, Math.min(22, h * chance.among(0.6, 0.95)));
  const body = Math.max(9, letter);
  const parts: string[] = [];
  const aside = style.numbers === "none" ? 0 : letter * 2.6;
  const [left, right, top, bottom] = margins;
  const x0 = left + (style.numbers === "right" ? 0 : aside);
  let y = top;
  let widest = 0;
  const text = (x: number, at: number, anchor: string, words: string, size: number, extra = ""): void => {
    parts.push(
      `<text x="${round(x)}" y="${round(at)}" text-anchor="${anchor}" font-family="${style.font}" font-size="${round(size)}" fill="${style.ink}"${extra}>${words}</text>`,
    );
  };
  const paragraph = (lines: number, width: number): void => {
    for (let line = 0; line < lines; line++) {
      y += body * 1.45;
      text(left, y, "start", sentence(chance, Math.max(3, Math.floor((width / body) * 1.6))), body);
    }
    if (lines > 0) y += body;
  };
  const broadest = Math.max(...designs.map(({ rows }) => rows[0]!.length)) * w;
  if (style.title !== null) {
    y += body * 1.9;
    text(left, y, "start", style.title, body * 1.6, ' font-weight="bold"');
    y += body;
  }
  paragraph(style.textOver, broadest);
  const drawn: DrawnChart[] = [];
  for (const [index, { rows, palette, signs }] of designs.entries()) {
    if (index > 0) {
      y += letter * chance.among(2, 4);
      if (style.title !== null) {
        text(x0, y, "start", `Chart ${"ABC"[index]}`, body);
        y += body * 0.8;
      }
    }
    if (style.columnNumbers === "above") y += letter * 1.5;
    drawn.push({ rows, palette, signs, x: x0, y });
    parts.push(drawChart(chance, { rows, palette, signs, x: x0, y }, style));
    numbers(rows, x0, y, style, letter, text);
    y += rows.length * h + (style.columnNumbers === "below" ? letter * 1.5 : 0);
    widest = Math.max(widest, x0 + rows[0]!.length * w + (style.numbers === "left" ? 0 : aside));
  }
  const legend: Drawing["legend"] = [];
  if (style.key !== "none") {
    const swatch = Math.max(8, Math.min(30, h * chance.among(0.9, 1.8)));
    const all = new Map(
      designs.flatMap(({ palette, signs }) =>
        Object.entries(palette).map(([id, hex]) => [id, { hex, sign: signs[id] }]),
      ),
    );
    let at: [number, number] = style.key === "below" ? [left, y + swatch] : [widest + swatch, drawn[0]!.y];
    const wordy = chance.odds(0.6);
    const step = wordy ? swatch + body * 9 : swatch + body * 2.2;
    for (const [number, [id, { hex, sign }]] of [...all].entries()) {
      const [sx, sy] = at;
      parts.push(
        `<rect x="${round(sx)}" y="${round(sy)}" width="${round(swatch)}" height="${round(swatch)}" fill="${hex}" stroke="${style.ink}" stroke-width="${round(Math.max(0.7, swatch / 24))}"/>`,
      );
      if (sign !== undefined)
        parts.push(
          style.fill === "pencil"
            ? pencil(chance, sign, sx, sy, swatch, swatch, style.ink)
            : drawSign(sign, sx, sy, swatch, swatch, signInk(hex, style), style.signLine),
        );
      text(
        sx + swatch * 1.35,
        sy + swatch * 0.5 + body * 0.35,
        "start",
        wordy ? `${sentence(chance, 12).slice(0, 14)} ${number + 1}` : "ABCDEFGHIJKLMNOPQRSTUVWXYZ"[number]!,
        body,
      );
      legend.push({ id, box: [sx, sy, swatch, swatch] });
      widest = Math.max(widest, sx + step);
      at =
        style.key === "beside" || sx + 2 * step > Math.max(broadest + left, 12 * body)
          ? [style.key === "beside" ? sx : left, sy + swatch * 1.5]
          : [sx + step, sy];
      y = Math.max(y, sy + swatch * 1.4);
    }
  }
  y += style.textUnder > 0 ? body : 0;
  paragraph(style.textUnder, broadest);
  const width = Math.ceil(widest + right);
  const height = Math.ceil(y + bottom);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="WIDTH" height="HEIGHT"><rect width="${width}" height="${height}" fill="${style.page}"/>${parts.join("")}</svg>`;
  return {
    width,
    height,
    svg,
    charts: drawn,
    legend,
    focus: [
      [Math.max(0, left - 20), Math.max(0, top - 20)],
      [Math.min(width, widest + 20), Math.min(height, y + 20)],
    ],
  };
}

function drawChart(chance: Chance, chart: DrawnChart, style: Style): string {
  const { rows, palette, signs, x, y } = chart;
  const { cellWidth: w, cellHeight: h } = style;
  const [columns, lines] = [rows[0]!.length, rows.length];
  const parts: string[] = [];
  const paths = new Map<string, string[]>();
  const add = (colour: string, path: string): void => {
    const known = paths.get(colour);
    if (known) known.push(path);
    else paths.set(colour, [path]);
  };
  const overlay: string[] = [];
  const box = (cx: number, cy: number, width: number, height: number): string =>
    `M${round(cx)} ${round(cy)}h${round(width)}v${round(height)}h${round(-width)}z`;
  const drawnCell = (row: number, column: number): boolean => {
    const id = rows[row]?.[column];
    return id !== undefined && (id !== "-" || style.noStitch !== "missing");
  };
  for (const [row, text] of rows.entries())
    for (let from = 0; from < columns;) {
      let to = from + 1;
      const id = text[from]!;
      while (to < columns && text[to] === id) to++;
      const [cx, cy] = [x + from * w, y + row * h];
      if (id === "-") {
        if (style.noStitch === "grey") add(style.grey, box(cx, cy, (to - from) * w, h));
        if (style.noStitch === "hatched")
          for (let column = from; column < to; column++) overlay.push(hatch(x + column * w, cy, w, h, style.grey));
      } else {
        const hex = palette[id]!;
        if (style.fill === "whole") add(hex, box(cx, cy, (to - from) * w, h));
        for (let column = from; column < to; column++) {
          const sx = x + column * w;
          if (style.fill === "disc" && hex !== style.page)
            add(
              hex,
              `M${round(sx + w * 0.1)} ${round(cy + h / 2)}a${round(w * 0.4)} ${round(h * 0.4)} 0 1 0 ${round(w * 0.8)} 0a${round(w * 0.4)} ${round(h * 0.4)} 0 1 0 ${round(-w * 0.8)} 0Z`,
            );
          if (style.fill === "gap") add(hex, box(sx + w * 0.08, cy + h * 0.08, w * 0.84, h * 0.84));
          if (style.fill === "stitch") {
            add(hex, box(sx, cy, w, h));
            overlay.push(
              `<path d="M${round(sx + w * 0.08)} ${round(cy + h * 0.1)}L${round(sx + w / 2)} ${round(cy + h * 0.9)}L${round(sx + w * 0.92)} ${round(cy + h * 0.1)}" fill="none" stroke="#000" stroke-opacity=".3" stroke-width="${round(w * 0.06)}"/>`,
            );
          }
          const sign = signs[id];
          if (sign !== undefined)
            overlay.push(
              style.fill === "pencil"
                ? pencil(chance, sign, sx, cy, w, h, style.ink)
                : drawSign(sign, sx, cy, w, h, signInk(hex, style), style.signLine),
            );
        }
      }
      from = to;
    }
  for (const [colour, path] of paths)
    parts.push(`<path d="${path.join("")}" fill="${colour}"${style.crisp ? ' shape-rendering="crispEdges"' : ""}/>`);
  if (style.lines !== "none") {
    const thin: string[] = [];
    const heavy: string[] = [];
    const isHeavy = (index: number, count: number): boolean =>
      style.heavyEvery > 0 && (style.heavyFrom === "right" ? count - index : index) % style.heavyEvery === 0;
    for (let column = 0; column <= columns; column++)
      for (let row = 0; row < lines;) {
        const on = (at: number): boolean => drawnCell(at, column - 1) || drawnCell(at, column);
        let to = row + 1;
        if (on(row)) {
          while (to < lines && on(to)) to++;
          (isHeavy(column, columns) ? heavy : thin).push(
            `M${round(x + column * w)} ${round(y + row * h)}V${round(y + to * h)}`,
          );
        }
        row = to;
      }
    for (let row = 0; row <= lines; row++)
      for (let column = 0; column < columns;) {
        const on = (at: number): boolean => drawnCell(row - 1, at) || drawnCell(row, at);
        let to = column + 1;
        if (on(column)) {
          while (to < columns && on(to)) to++;
          (isHeavy(row, lines) ? heavy : thin).push(
            `M${round(x + column * w)} ${round(y + row * h)}H${round(x + to * w)}`,
          );
        }
        column = to;
      }
    const dash = style.lines === "dashed" ? ` stroke-dasharray="${round(w * 0.22)} ${round(w * 0.14)}"` : "";
    const crisp = style.crisp ? ' shape-rendering="crispEdges"' : "";
    parts.push(
      `<path d="${thin.join("")}" fill="none" stroke="${style.lineColour}" stroke-width="${round(style.lineWidth)}"${dash}${crisp}/>`,
    );
    if (heavy.length > 0)
      parts.push(
        `<path d="${heavy.join("")}" fill="none" stroke="${style.heavyColour}" stroke-width="${round(style.heavyWidth)}"${crisp} stroke-linecap="square"/>`,
      );
  }
  if (style.frame > 0)
    parts.push(
      `<rect x="${round(x)}" y="${round(y)}" width="${round(columns * w)}" height="${round(lines * h)}" fill="none" stroke="${style.heavyColour}" stroke-width="${round(style.frame)}"/>`,
    );
  return parts.join("") + overlay.join("");
}

function numbers(
  rows: readonly string[],
  x: number,
  y: number,
  style: Style,
  letter: number,
  text: (x: number, y: number, anchor: string, words: string, size: number) => void,
): void {
  const { cellWidth: w, cellHeight: h, numbersEvery: every } = style;
  const [columns, lines] = [rows[0]!.length, rows.length];
  const size = Math.min(letter, h * 0.95);
  if (style.numbers !== "none" && size >= 4)
    for (let row = 1; row <= lines; row++) {
      if (row % every !== 0 && row !== 1) continue;
      const at = y + (lines - row + 0.5) * h + size * 0.36;
      const side = style.numbers === "turns" ? (row % 2 === 1 ? "right" : "left") : style.numbers;
      if (side !== "left") text(x + columns * w + size * 0.4, at, "start", String(row), size);
      if (side !== "right") text(x - size * 0.4, at, "end", String(row), size);
    }
  const small = Math.min(letter, w * (columns > 99 ? 0.5 : 0.75) * (every > 1 ? 1.5 : 1));
  if (style.columnNumbers !== "none" && small >= 4)
    for (let column = 1; column <= columns; column++) {
      if (column % every !== 0 && column !== 1) continue;
      const at = x + (columns - column + 0.5) * w;
      text(
        at,
        style.columnNumbers === "below" ? y + lines * h + small * 1.15 : y - small * 0.35,
        "middle",
        String(column),
        small,
      );
    }
}

/** Black on light, white on dark, as program and book do it. */
function signInk(hex: string, style: Style): string {
  const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [
    number,
    number,
    number,
  ];
  return 0.3 * red + 0.59 * green + 0.11 * blue < 110 ? "#ffffff" : style.ink;
}

function drawSign(name: string, x: number, y: number, w: number, h: number, ink: string, line: number): string {
  if (name.length === 1)
    return `<text x="${round(x + w / 2)}" y="${round(y + h * 0.78)}" text-anchor="middle" font-family="DejaVu Sans" font-size="${round(Math.min(w, h) * 0.75)}" fill="${ink}">${name}</text>`;
  const { path, fill } = SIGNS[name]!;
  return `<path transform="translate(${round(x)} ${round(y)}) scale(${round(w)} ${round(h)})" d="${path}" ${fill ? `fill="${ink}"` : `fill="none" stroke="${ink}" stroke-width="${line}"`}/>`;
}

/** A sign by hand: its strokes waver, and every one is a little other. */
function pencil({ among }: Chance, name: string, x: number, y: number, w: number, h: number, ink: string): string {
  const at = (u: number, v: number): string =>
    `${round(x + w * (u + among(-0.07, 0.07)))} ${round(y + h * (v + among(-0.07, 0.07)))}`;
  const path =
    name === "cross"
      ? `M${at(0.15, 0.15)}Q${at(0.5, 0.5)} ${at(0.85, 0.85)}M${at(0.85, 0.15)}Q${at(0.5, 0.5)} ${at(0.15, 0.85)}`
      : name === "slash"
        ? `M${at(0.15, 0.85)}Q${at(0.5, 0.5)} ${at(0.85, 0.15)}`
        : name === "dot"
          ? `M${at(0.45, 0.45)}L${at(0.55, 0.5)}L${at(0.48, 0.55)}L${at(0.52, 0.45)}`
          : `M${at(0.15, 0.2)}L${at(0.8, 0.25)}L${at(0.2, 0.4)}L${at(0.8, 0.5)}L${at(0.2, 0.62)}L${at(0.82, 0.72)}L${at(0.2, 0.82)}`;
  return `<path d="${path}" fill="none" stroke="${ink}" stroke-opacity="${round(among(0.65, 0.95))}" stroke-width="${round(w * among(0.07, 0.13))}" stroke-linecap="round"/>`;
}

function hatch(x: number, y: number, w: number, h: number, grey: string): string {
  const paths = [0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75].map((at) => {
    const from: [number, number] = at <= 1 ? [0, at] : [at - 1, 1];
    const to: [number, number] = at <= 1 ? [at, 0] : [1, at - 1];
    return `M${round(x + w * from[0])} ${round(y + h * from[1])}L${round(x + w * to[0])} ${round(y + h * to[1])}`;
  });
  return `<path d="${paths.join("")}" fill="none" stroke="${grey}" stroke-width="${round(w * 0.06)}"/>`;
}

const WORDS =
  "work the rounds from right to left and carry the yarn not in use behind at the same tension until all stitches of the body have been worked once more then begin again at the marker with ground shade station vest border hem sleeve cuff wind frost cloud snow ridge lamp mast 1 2 3 4 12 24 96 192 240 cm mm sts rnds".split(
    " ",
  );

export function sentence({ pick }: Chance, letters: number): string {
  let text = pick(WORDS);
  while (text.length < letters) text += ` ${pick(WORDS)}`;
  return text[0]!.toUpperCase() + text.slice(1);
}

const round = (value: number): string => String(Math.round(value * 1000) / 1000);
