/** A sheet of a chart as a knitter works from it: cells, marks, numbers where she begins to read, bands and the repeat. */
import type { Band } from "../chart/bands.ts";
import { cellAt, NO_STITCH } from "../chart/chart.ts";
import { floatsInRow } from "../chart/floats.ts";
import { workingOrder } from "../chart/working.ts";
import type { OverStitch } from "../fabric/colourway.ts";
import { placeHoldsRow } from "../garment/place.ts";
import type { ChartUse } from "./chartUses.ts";
import { BLACK, WHITE, type Operation, type Point } from "./drawing.ts";
import { range, type Tile } from "./page.ts";
import { drawMark, type KeyEntry } from "./sheetKey.ts";
import { fitText, textWidth } from "./textWidth.ts";

export interface Cell {
  readonly width: number;
  readonly height: number;
}

/** mm that a sheet of a chart needs around its cells. */
export const GUTTER = { left: 34, right: 8, bottom: 5, wrongSide: 8 } as const;
export const leftGutter = (use: ChartUse): number => GUTTER.left + (use.chart.worked === "flat" ? GUTTER.wrongSide : 0);

export interface SheetOfChart {
  readonly use: ChartUse;
  readonly key: readonly KeyEntry[];
  readonly tile: Tile;
  readonly cell: Cell;
  /** Top left corner of the cells. */
  readonly at: Point;
  readonly overStitched: readonly OverStitch[];
  /** A float of more stitches is marked. */
  readonly floatLimit: number;
}

export function drawChart(sheet: SheetOfChart): Operation[] {
  return [
    ...cells(sheet),
    ...gridLines(sheet),
    ...longFloats(sheet),
    ...duplicateStitches(sheet),
    ...repeatBox(sheet),
    ...rowNumbers(sheet),
    ...stitchNumbers(sheet),
    ...bandNames(sheet),
  ];
}

/** Whether an embroidery belongs to a use of a chart: by chart, or by the section that the chart is knitted in. */
export function sewnRows(over: OverStitch, use: ChartUse, row: number): boolean {
  return "chart" in over.at
    ? placeHoldsRow(over.at, use.chart.id, row)
    : use.sections.includes(over.at.section) && row >= use.rows[0] && row <= use.rows[1];
}

const columnsOf = ({ tile }: SheetOfChart): number => tile.columns[1] - tile.columns[0] + 1;
const rowsOf = ({ tile }: SheetOfChart): number => tile.rows[1] - tile.rows[0] + 1;
const left = (sheet: SheetOfChart, column: number): number =>
  sheet.at[0] + (sheet.tile.columns[1] - column) * sheet.cell.width;
const top = (sheet: SheetOfChart, row: number): number => sheet.at[1] + (sheet.tile.rows[1] - row) * sheet.cell.height;
const rightEdge = (sheet: SheetOfChart): number => sheet.at[0] + columnsOf(sheet) * sheet.cell.width;
const bottomEdge = (sheet: SheetOfChart): number => sheet.at[1] + rowsOf(sheet) * sheet.cell.height;

function* places({ tile }: SheetOfChart): Generator<[row: number, column: number]> {
  for (let row = tile.rows[0]; row <= tile.rows[1]; row++) {
    for (let column = tile.columns[0]; column <= tile.columns[1]; column++) yield [row, column];
  }
}

function cells(sheet: SheetOfChart): Operation[] {
  const { use, key, cell } = sheet;
  const entryOf = use.strands.ids.map((strand) => key.find((entry) => entry.strand === strand)!);
  const operations: Operation[] = [];
  for (const [row, column] of places(sheet)) {
    const strand = cellAt(use.strands, row, column);
    const [x, y] = [left(sheet, column), top(sheet, row)];
    if (strand === NO_STITCH) {
      operations.push(...noStitch(x, y, cell));
      continue;
    }
    const entry = entryOf[strand]!;
    const stitch = { chart: use.chart.id, row, column };
    operations.push({ kind: "rect", x, y, width: cell.width, height: cell.height, fill: entry.fill, stitch });
    const centre: Point = [x + cell.width / 2, y + cell.height / 2];
    operations.push(...drawMark(entry, centre, Math.min(cell.width, cell.height) * MARK_SIZE));
  }
  return operations;
}

/** A mark leaves enough of the yarn's colour to see. Birthplace: our choice, looked at on paper-sized prints. */
const MARK_SIZE = 0.58;

/** Hatched: there is no stitch here. */
export function noStitch(x: number, y: number, { width, height }: Cell): Operation[] {
  const hatch = [0.25, 0.75].map((part): Operation => ({
    kind: "line",
    from: [x + part * width, y],
    to: [x + part * width, y + height],
    stroke: "#b0b0b0",
    lineWidth: 0.25,
  }));
  return [{ kind: "rect", x, y, width, height, fill: "#e6e6e6" }, ...hatch];
}

/** A fine line between stitches, heavier after every fifth and tenth, counted from the bottom right. */
function gridLines(sheet: SheetOfChart): Operation[] {
  const { tile } = sheet;
  const lines: { weight: number; from: Point; to: Point }[] = [];
  const weightOf = (line: number): number => (line % 10 === 0 ? 2 : line % 5 === 0 ? 1 : 0);
  for (let line = tile.columns[0] - 1; line <= tile.columns[1]; line++) {
    const x = rightEdge(sheet) - (line - tile.columns[0] + 1) * sheet.cell.width;
    lines.push({ weight: weightOf(line), from: [x, sheet.at[1]], to: [x, bottomEdge(sheet)] });
  }
  for (let line = tile.rows[0] - 1; line <= tile.rows[1]; line++) {
    const y = bottomEdge(sheet) - (line - tile.rows[0] + 1) * sheet.cell.height;
    lines.push({ weight: weightOf(line), from: [sheet.at[0], y], to: [rightEdge(sheet), y] });
  }
  lines.sort((a, b) => a.weight - b.weight);
  return lines.flatMap(({ weight, from, to }) => cased(from, to, LINE_WEIGHTS[weight]!));
}

/** mm of line, of the white on both sides that carries it across dark yarns, and its colour. Birthplace: our choice. */
const LINE_WEIGHTS = [
  { line: 0.1, casing: 0, stroke: "#808080" },
  { line: 0.25, casing: 0.5, stroke: "#000000" },
  { line: 0.45, casing: 0.8, stroke: "#000000" },
] as const;

function cased(from: Point, to: Point, weight: (typeof LINE_WEIGHTS)[number]): Operation[] {
  const line: Operation = { kind: "line", from, to, stroke: weight.stroke, lineWidth: weight.line };
  if (weight.casing === 0) return [line];
  return [{ kind: "line", from, to, stroke: WHITE, lineWidth: weight.casing }, line];
}

/** A dotted line in the lower part of the stitches that a long float passes, and its length beside the row. */
function longFloats(sheet: SheetOfChart): Operation[] {
  const { use, tile, cell, floatLimit } = sheet;
  const operations: Operation[] = [];
  for (let row = tile.rows[0]; row <= tile.rows[1]; row++) {
    const long = floatsInRow(use.strands, row, use.chart.worked).filter(({ length }) => length > floatLimit);
    if (long.length === 0) continue;
    const y = top(sheet, row) + cell.height * 0.86;
    for (const float of long) {
      for (const column of passed(use, row, float.fromColumn, float.length)) {
        if (column < tile.columns[0] || column > tile.columns[1]) continue;
        const x = left(sheet, column);
        const strand = use.strands.ids[cellAt(use.strands, row, column)]!;
        const { ink } = sheet.key.find((entry) => entry.strand === strand)!;
        const [from, to]: [Point, Point] = [[x, y], [x + cell.width, y]]; // prettier-ignore
        operations.push({ kind: "line", from, to, stroke: ink, lineWidth: 0.25, dash: [0.4, 0.8] });
      }
    }
    const text = `~${Math.max(...long.map(({ length }) => length))}`;
    const offset = use.chart.worked === "flat" ? GUTTER.wrongSide : 1.6;
    const at: Point = [sheet.at[0] - offset, top(sheet, row) + cell.height * 0.7];
    operations.push({ kind: "text", at, text, size: numberSize(cell) * 0.85, anchor: "end", fill: "#505050" });
  }
  return operations;
}

/** Columns with a stitch, from one on in the direction right to left, around the end of the row. */
function passed(use: ChartUse, row: number, fromColumn: number, length: number): number[] {
  const columns: number[] = [];
  for (let step = 0; columns.length < length && step < length + use.grid.width; step++) {
    const column = ((fromColumn - 1 + step) % use.grid.width) + 1;
    if (cellAt(use.strands, row, column) !== NO_STITCH) columns.push(column);
  }
  return columns;
}

/** A corner in the sewn yarn's colour on the stitch below; embroidered lines as they lie. */
function duplicateStitches(sheet: SheetOfChart): Operation[] {
  const { use, tile, cell } = sheet;
  const operations: Operation[] = [];
  const within = (row: number, column: number): boolean =>
    row >= tile.rows[0] && row <= tile.rows[1] && column >= tile.columns[0] && column <= tile.columns[1];
  for (const over of sheet.overStitched) {
    const entry = sheet.key.find(({ strand }) => strand === over.yarn);
    if (!entry) continue;
    for (const [row, column] of over.cells ?? []) {
      if (!within(row, column) || !sewnRows(over, use, row) || cellAt(use.strands, row, column) === NO_STITCH) continue;
      const [x, y] = [left(sheet, column), top(sheet, row)];
      const reach = Math.min(cell.width, cell.height) * 0.42;
      operations.push({
        kind: "polygon",
        points: [[x, y], [x + reach, y], [x, y + reach]], // prettier-ignore
        fill: entry.fill,
        stroke: entry.ink,
        lineWidth: 0.2,
      });
    }
    for (const line of over.lines ?? []) {
      // A line belongs to the sheet that its middle lies on.
      const [row, column] = [0, 1].map((axis) => Math.max(1, Math.ceil((line[0][axis]! + line[1][axis]!) / 2)));
      if (!within(row!, column!) || !sewnRows(over, use, row!)) continue;
      const [from, to] = line.map(([rowLine, columnLine]): Point => [
        rightEdge(sheet) - (columnLine - tile.columns[0] + 1) * cell.width,
        bottomEdge(sheet) - (rowLine - tile.rows[0] + 1) * cell.height,
      ]) as [Point, Point];
      operations.push(
        { kind: "line", from, to, stroke: entry.ink, lineWidth: 1.1 },
        { kind: "line", from, to, stroke: entry.fill, lineWidth: 0.7 },
      );
    }
  }
  return operations;
}

/** A bold frame around the stitches that recur; its sides are drawn on the sheets they lie on. */
function repeatBox(sheet: SheetOfChart): Operation[] {
  const { use, tile } = sheet;
  const period = use.repeat;
  const last = Math.min(period, tile.columns[1]);
  if (last < tile.columns[0]) return [];
  // At the chart's own edges the frame lies outside, so that it hides nothing of a stitch.
  const half = FRAME / 2;
  const x1 = left(sheet, last) - (period === use.grid.width && period === last ? half : 0);
  const x2 = rightEdge(sheet) + (tile.columns[0] === 1 ? half : 0);
  const y1 = sheet.at[1] - (tile.rows[1] === use.rows[1] ? half : 0);
  const y2 = bottomEdge(sheet) + (tile.rows[0] === use.rows[0] ? half : 0);
  const sides: [Point, Point][] = [];
  if (tile.columns[0] === 1) sides.push([[x2, y1], [x2, y2]]); // prettier-ignore
  if (period === last) sides.push([[x1, y1], [x1, y2]]); // prettier-ignore
  if (tile.rows[1] === use.rows[1]) sides.push([[x1 - half, y1], [x2 + half, y1]]); // prettier-ignore
  if (tile.rows[0] === use.rows[0]) sides.push([[x1 - half, y2], [x2 + half, y2]]); // prettier-ignore
  return sides.map(([from, to]) => ({ kind: "line", from, to, stroke: BLACK, lineWidth: FRAME }));
}

/** mm of the frame's line. Birthplace: our choice, twice the line after a ten. */
const FRAME = 0.9;

/** em of the numbers beside the rows: as large as the row allows, never larger than is pleasant. */
const numberSize = (cell: Cell): number => Math.min(2.9, cell.height * 0.72);

function rowNumbers(sheet: SheetOfChart): Operation[] {
  const { tile, cell, use } = sheet;
  return Array.from({ length: rowsOf(sheet) }, (_, index): Operation => {
    const row = tile.rows[0] + index;
    const rightSide = workingOrder(use.chart, row).direction === "right-to-left";
    return {
      kind: "text",
      at: [
        rightSide ? rightEdge(sheet) + 1.6 : sheet.at[0] - 1.6,
        top(sheet, row) + cell.height * 0.5 + numberSize(cell) * 0.36,
      ],
      text: String(row),
      size: numberSize(cell),
      weight: row % 10 === 0 ? "bold" : "regular",
      anchor: rightSide ? "start" : "end",
    };
  });
}

function stitchNumbers(sheet: SheetOfChart): Operation[] {
  const { tile, cell } = sheet;
  const widest = textWidth(String(tile.columns[1]), 2.6, "bold");
  const every = widest + 0.4 <= cell.width ? 1 : 5;
  const operations: Operation[] = [];
  for (let column = tile.columns[0]; column <= tile.columns[1]; column++) {
    if (column % every !== 0 && column !== 1) continue;
    operations.push({
      kind: "text",
      at: [left(sheet, column) + cell.width / 2, bottomEdge(sheet) + 3.5],
      text: String(column),
      size: 2.6,
      weight: column % 10 === 0 ? "bold" : "regular",
      anchor: "middle",
    });
  }
  return operations;
}

/** A bracket along every band and its name, with the rows, the repeat and what she wants of it where there is room. */
function bandNames(sheet: SheetOfChart): Operation[] {
  const { use, tile, cell } = sheet;
  const x = sheet.at[0] - (leftGutter(use) - GUTTER.left) - 6.5;
  const width = GUTTER.left - 8.5;
  const operations: Operation[] = [];
  for (const band of use.bands) {
    const from = Math.max(band.rows[0], tile.rows[0], use.rows[0]);
    const to = Math.min(band.rows[1], tile.rows[1], use.rows[1]);
    if (to < from) continue;
    const [upper, lower] = [top(sheet, to) + 0.3, top(sheet, from) + cell.height - 0.3];
    operations.push(
      { kind: "line", from: [x, upper], to: [x, lower], stroke: BLACK, lineWidth: 0.25 },
      { kind: "line", from: [x, upper], to: [x + 1, upper], stroke: BLACK, lineWidth: 0.25 },
      { kind: "line", from: [x, lower], to: [x + 1, lower], stroke: BLACK, lineWidth: 0.25 },
    );
    const lines = bandLines(band, use, band.rows[0] < from).slice(0, Math.max(1, Math.floor((lower - upper) / 3)));
    const size = Math.min(2.6, (lower - upper) * 0.85);
    const first = (upper + lower) / 2 - (lines.length - 1) * 1.5 + size * 0.36;
    for (const [index, text] of lines.entries()) {
      const weight = index === 0 ? "bold" : "regular";
      const at: Point = [x - 1, first + index * 3];
      operations.push({ kind: "text", at, text: fitText(text, size, width, weight), size, weight, anchor: "end" });
    }
  }
  return operations;
}

function bandLines(band: Band, use: ChartUse, continued: boolean): string[] {
  const plain = band.pattern.length === 0 && !band.name;
  const name = band.name ?? (plain ? "plain" : band.id);
  const lines = [continued ? `${name} (continued)` : name, `rows ${range(band.rows)}`];
  if (band.period < use.repeat && !plain) lines.push(`repeat of ${band.period}`);
  if (band.want) lines.push(`wanted ${band.want}`);
  return lines;
}
