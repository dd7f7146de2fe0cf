/** Draws a sheet with the read cells over it: each cell where it lies in the picture, however the page lay before the camera. */
import { crossing, type ChartGrid, type Point } from "../../intake/chartGrid.ts";
import { SYMBOL_SIDE, type ReadColour, type ReadSymbol } from "../../intake/readChart.ts";
import type { SheetPictures } from "./useSheetPictures.ts";

/** How a sheet is looked at: CSS pixels to one of the sheet, and which of its pixels lies in the view's top left corner. */
export interface Look {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

export interface ViewSize {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  /** The screen's own pixels to one of these. */
  readonly ratio: number;
}

/** Cells as they are shown, the part's own, top row first. */
export interface ShownCells {
  readonly rows: readonly string[];
  readonly colours: Readonly<Record<string, ReadColour>>;
  readonly symbols: Readonly<Record<string, ReadSymbol>>;
  readonly grid: ChartGrid;
}

export function drawPicture(
  context: CanvasRenderingContext2D,
  { full, small, width, height }: SheetPictures,
  { scale, x, y }: Look,
  { width: wide, height: high }: ViewSize,
): void {
  context.fillStyle = "#a8a8a8";
  context.fillRect(0, 0, wide, high);
  const picture = small && scale * width <= small.width ? small : full;
  const from = picture.width / width;
  const [left, top] = [Math.max(0, x), Math.max(0, y)];
  const [right, bottom] = [Math.min(width, x + wide / scale), Math.min(height, y + high / scale)];
  if (right <= left || bottom <= top) return;
  // One large pixel to the stitch is not to be blurred.
  context.imageSmoothingEnabled = scale / from < 3;
  context.drawImage(
    picture,
    left * from,
    top * from,
    (right - left) * from,
    (bottom - top) * from,
    (left - x) * scale,
    (top - y) * scale,
    (right - left) * scale,
    (bottom - top) * scale,
  );
}

/** Cells of a side that are drawn at once, where the grid lies flat enough; a picture of all of them is never needed whole. Our choice. */
const LARGEST_PIECE = 64;
/** CSS pixels by which a drawn cell may lie beside its place: nobody sees half of one. */
const LEAST_BEND = 0.5;
/** CSS pixels of a cell from which on its sign, and the grid's lines, are drawn. */
const SIGN_FROM = 11;

/** The cells as one small picture, a pixel each. */
export function cellsTexture({ rows, colours }: Pick<ShownCells, "rows" | "colours">): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  canvas.width = rows[0]?.length ?? 1;
  canvas.height = Math.max(1, rows.length);
  const context = canvas.getContext("2d")!;
  const image = context.createImageData(canvas.width, canvas.height);
  const words = new Uint32Array(image.data.buffer);
  const codes = new Map(Object.entries(colours).map(([id, { hex }]) => [id, wordOf(hex)]));
  rows.forEach((row, at) => {
    for (let column = 0; column < row.length; column++)
      words[at * canvas.width + column] = codes.get(row[column]!) ?? NO_STITCH_WORD;
  });
  context.putImageData(image, 0, 0);
  return canvas;
}

/** Red in the lowest byte, as image data has it on every machine that browsers run on. */
const wordOf = (hex: string): number => {
  const code = Number.parseInt(hex.slice(1), 16);
  return (0xff000000 | ((code & 0xff) << 16) | (code & 0xff00) | (code >> 16)) >>> 0;
};
/** Where there is no stitch: the room's grey. */
const NO_STITCH_WORD = 0xffa8a8a8;

export function drawCells(
  context: CanvasRenderingContext2D,
  cells: ShownCells,
  texture: HTMLCanvasElement,
  signs: ReadonlyMap<string, HTMLCanvasElement>,
  look: Look,
  view: ViewSize,
): void {
  const { grid, rows } = cells;
  const seen = visibleCells(grid, look, view);
  if (seen.bottom <= seen.top || seen.right <= seen.left) return;
  context.save();
  context.imageSmoothingEnabled = false;
  const draw = (piece: Piece): void => {
    const { row, column, wide, high } = piece;
    if (!isStraight(grid, piece, LEAST_BEND / look.scale)) return halves(piece).forEach(draw);
    onto(context, grid, piece, look, view.ratio);
    // A little larger, so that no seam shows between pieces.
    context.drawImage(texture, column, row, wide, high, -0.02, -0.02, wide + 0.04, high + 0.04);
  };
  for (let row = seen.top; row < seen.bottom; row += LARGEST_PIECE)
    for (let column = seen.left; column < seen.right; column += LARGEST_PIECE)
      draw({
        row,
        column,
        wide: Math.min(LARGEST_PIECE, seen.right - column),
        high: Math.min(LARGEST_PIECE, seen.bottom - row),
      });
  if (signs.size > 0 && cellSize(grid, look) >= SIGN_FROM) {
    context.imageSmoothingEnabled = true;
    for (let row = seen.top; row < seen.bottom; row++)
      for (let column = seen.left; column < seen.right; column++) {
        const sign = signs.get(rows[row]![column]!);
        if (!sign) continue;
        onto(context, grid, { row, column, wide: 1, high: 1 }, look, view.ratio);
        context.drawImage(sign, 0.08, 0.08, 0.84, 0.84);
      }
  }
  context.restore();
}

interface Piece {
  readonly row: number;
  readonly column: number;
  readonly wide: number;
  readonly high: number;
}

/** Whether a piece of the grid is a parallelogram of even cells, to within so many pixels of the sheet. */
function isStraight(grid: ChartGrid, { row, column, wide, high }: Piece, most: number): boolean {
  if (wide === 1 && high === 1) return true;
  const [x, y] = crossing(grid, row, column);
  const [rightX, rightY] = crossing(grid, row, column + wide);
  const [downX, downY] = crossing(grid, row + high, column);
  const isThere = (down: number, across: number): boolean => {
    const [isX, isY] = crossing(grid, row + down, column + across);
    const [part, along] = [across / wide, down / high];
    return (
      Math.abs(x + part * (rightX - x) + along * (downX - x) - isX) <= most &&
      Math.abs(y + part * (rightY - y) + along * (downY - y) - isY) <= most
    );
  };
  const [half, middle] = [high >> 1, wide >> 1];
  return (
    isThere(high, wide) &&
    isThere(half, middle) &&
    isThere(half, 0) &&
    isThere(half, wide) &&
    isThere(0, middle) &&
    isThere(high, middle)
  );
}

function halves({ row, column, wide, high }: Piece): [Piece, Piece] {
  if (wide >= high) {
    const half = wide >> 1;
    return [
      { row, column, wide: half, high },
      { row, column: column + half, wide: wide - half, high },
    ];
  }
  const half = high >> 1;
  return [
    { row, column, wide, high: half },
    { row: row + half, column, wide, high: high - half },
  ];
}

/** One unit across and down is one cell of the piece. */
function onto(
  context: CanvasRenderingContext2D,
  grid: ChartGrid,
  { row, column, wide, high }: Piece,
  { scale, x, y }: Look,
  ratio: number,
): void {
  const [left, top] = crossing(grid, row, column);
  const [rightX, rightY] = crossing(grid, row, column + wide);
  const [downX, downY] = crossing(grid, row + high, column);
  const by = scale * ratio;
  context.setTransform(
    ((rightX - left) / wide) * by,
    ((rightY - top) / wide) * by,
    ((downX - left) / high) * by,
    ((downY - top) / high) * by,
    (left - x) * by,
    (top - y) * by,
  );
}

/** CSS pixels of the first cell's shorter side. */
export function cellSize(grid: ChartGrid, { scale }: Look): number {
  const [left, top] = crossing(grid, 0, 0);
  const [right, bottom] = crossing(grid, grid.rows, grid.columns);
  const [width, height] = [Math.abs(right - left) / grid.columns, Math.abs(bottom - top) / grid.rows];
  return Math.min(width, height) * scale;
}

interface CellRange {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Rows and columns of which something is in view; a grid that lies askew may give some more. */
function visibleCells(grid: ChartGrid, { scale, x, y }: Look, view: ViewSize): CellRange {
  const [right, bottom] = [x + view.width / scale, y + view.height / scale];
  let range = { top: grid.rows, bottom: 0, left: grid.columns, right: 0 };
  const stride = Math.max(1, Math.floor(Math.max(grid.rows, grid.columns) / 64));
  for (let row = 0; row < grid.rows; row += stride)
    for (let column = 0; column < grid.columns; column += stride) {
      const [toRow, toColumn] = [Math.min(grid.rows, row + stride), Math.min(grid.columns, column + stride)];
      const corners = [
        crossing(grid, row, column),
        crossing(grid, row, toColumn),
        crossing(grid, toRow, toColumn),
        crossing(grid, toRow, column),
      ];
      const [xs, ys] = [corners.map(([at]) => at), corners.map(([, at]) => at)];
      if (Math.max(...xs) < x || Math.min(...xs) > right || Math.max(...ys) < y || Math.min(...ys) > bottom) continue;
      range = {
        top: Math.min(range.top, row),
        bottom: Math.max(range.bottom, toRow),
        left: Math.min(range.left, column),
        right: Math.max(range.right, toColumn),
      };
    }
  return range;
}

/** The lines of a grid: all of them where they can be told apart, else its outline alone. Black with white beside it. */
export function drawGrid(context: CanvasRenderingContext2D, grid: ChartGrid, look: Look): void {
  const every = cellSize(grid, look) >= 4 ? 1 : 10;
  const path = new Path2D();
  const line = (points: readonly Point[]): void =>
    points.forEach(([x, y], at) => {
      const [to, down] = [(x - look.x) * look.scale, (y - look.y) * look.scale];
      if (at === 0) path.moveTo(to, down);
      else path.lineTo(to, down);
    });
  const along = (count: number): number[] => Array.from({ length: count + 1 }, (_, at) => at);
  for (let row = 0; row <= grid.rows; row++)
    if ((grid.rows - row) % every === 0 || row === 0)
      line(along(grid.columns).map((column) => crossing(grid, row, column)));
  for (let column = 0; column <= grid.columns; column++)
    if ((grid.columns - column) % every === 0 || column === 0)
      line(along(grid.rows).map((row) => crossing(grid, row, column)));
  context.lineWidth = 2.5;
  context.strokeStyle = "rgb(255 255 255 / 0.75)";
  context.stroke(path);
  context.lineWidth = 1;
  context.strokeStyle = "#000";
  context.stroke(path);
}

/** Frames around cells (row and column from the top left, from 0): white within black, thick for the one in hand. */
export function drawFrames(
  context: CanvasRenderingContext2D,
  grid: ChartGrid,
  cells: readonly (readonly [row: number, column: number])[],
  look: Look,
  weight: number,
): void {
  const path = new Path2D();
  for (const [row, column] of cells) {
    const corners = [
      crossing(grid, row, column),
      crossing(grid, row, column + 1),
      crossing(grid, row + 1, column + 1),
      crossing(grid, row + 1, column),
    ];
    corners.forEach(([x, y], at) => {
      const [to, down] = [(x - look.x) * look.scale, (y - look.y) * look.scale];
      if (at === 0) path.moveTo(to, down);
      else path.lineTo(to, down);
    });
    path.closePath();
  }
  context.lineJoin = "round";
  context.lineWidth = weight + 2;
  context.strokeStyle = "#000";
  context.stroke(path);
  context.lineWidth = weight;
  context.strokeStyle = "#fff";
  context.stroke(path);
}

/** A sign as dark marks on nothing, to be laid over a cell of any colour. */
export function signPicture({ picture, text }: ReadSymbol, ground: string): HTMLCanvasElement | null {
  if (!picture && !text) return null;
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = picture ? SYMBOL_SIDE : 64;
  const context = canvas.getContext("2d")!;
  const dark = isDark(ground);
  if (picture) {
    const image = context.createImageData(SYMBOL_SIDE, SYMBOL_SIDE);
    picture.forEach((row, y) =>
      Array.from(row, (digit, x) =>
        image.data.set([dark ? 255 : 0, dark ? 255 : 0, dark ? 255 : 0, Number(digit) * 28], (y * SYMBOL_SIDE + x) * 4),
      ),
    );
    context.putImageData(image, 0, 0);
    return canvas;
  }
  if (Array.from(text!).length > 3) return null;
  context.font = `${text!.length > 1 ? 36 : 56}px sans-serif`;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.fillStyle = dark ? "#fff" : "#000";
  context.fillText(text!, 32, 35);
  return canvas;
}

/** Whether white shows better on it than black: by its light, roughly. */
function isDark(hex: string): boolean {
  const code = Number.parseInt(hex.slice(1), 16);
  return 0.3 * (code >> 16) + 0.59 * ((code >> 8) & 0xff) + 0.11 * (code & 0xff) < 120;
}

/** Where a place of the view lies on the sheet, and the cell there (from the top left, from 0); null outside the grid. */
export function cellUnder(grid: ChartGrid, [x, y]: Point): readonly [row: number, column: number] | null {
  // A quadrangle turns the same way round at all four corners for a point within.
  for (let row = 0; row < grid.rows; row++) {
    const [[, top], [, end]] = [crossing(grid, row, 0), crossing(grid, row, grid.columns)];
    const [[, low], [, lowEnd]] = [crossing(grid, row + 1, 0), crossing(grid, row + 1, grid.columns)];
    const slack = 3 * Math.abs(low - top) + Math.abs(end - top);
    if (y < Math.min(top, end) - slack || y > Math.max(low, lowEnd) + slack) continue;
    for (let column = 0; column < grid.columns; column++) if (isWithin(grid, row, column, x, y)) return [row, column];
  }
  return null;
}

function isWithin(grid: ChartGrid, row: number, column: number, x: number, y: number): boolean {
  const corners = [
    crossing(grid, row, column),
    crossing(grid, row, column + 1),
    crossing(grid, row + 1, column + 1),
    crossing(grid, row + 1, column),
  ];
  return corners.every(([x1, y1], at) => {
    const [x2, y2] = corners[(at + 1) % 4]!;
    return (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) >= 0;
  });
}
