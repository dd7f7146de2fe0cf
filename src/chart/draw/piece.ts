/** A piece of a chart: taken out, mirrored, turned, laid down again, laid over and over, and as text. */
import { remainder } from "../../base/divisors.ts";
import type { Outcome } from "../../base/problem.ts";
import { rowsOfGrid, type Grid } from "../chart.ts";
import { columnsOf, gridOver, regionOn, rowsOf, type Region, type Stitch } from "../draw.ts";
import { chartText, parseChartText } from "../text.ts";

/** A grid of its own over the same colours. */
export type Piece = Grid;

export function pieceOf(grid: Grid, region: Region): Piece {
  const [width, height] = [columnsOf(region), rowsOf(region)];
  const cells = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    const from = (region.rows[0] - 1 + row) * grid.width + region.columns[0] - 1;
    cells.set(grid.cells.subarray(from, from + width), row * width);
  }
  return { width, height, ids: grid.ids, cells };
}

/** The piece laid down with its bottom right stitch at a place, which need not be on the grid; what hangs over is left out. */
export function stamped(grid: Grid, piece: Piece, [row, column]: Stitch): Grid {
  const cells = grid.cells.slice();
  const on = regionOn(grid, { rows: [row, row + piece.height - 1], columns: [column, column + piece.width - 1] });
  if (!on) return grid;
  for (let at = on.rows[0]; at <= on.rows[1]; at++) {
    const from = (at - row) * piece.width + on.columns[0] - column;
    cells.set(piece.cells.subarray(from, from + columnsOf(on)), (at - 1) * grid.width + on.columns[0] - 1);
  }
  return { ...grid, cells };
}

export const mirroredAcross = (piece: Piece): Piece =>
  rearranged(piece, piece.width, piece.height, (row, column) => [row, piece.width - 1 - column]);

export const mirroredUp = (piece: Piece): Piece =>
  rearranged(piece, piece.width, piece.height, (row, column) => [piece.height - 1 - row, column]);

/** Turned as a picture is: right is clockwise. A quarter turn makes width of height. */
export function turned(piece: Piece, way: "right" | "left" | "about"): Piece {
  const { width, height } = piece;
  if (way === "about") return rearranged(piece, width, height, (row, column) => [height - 1 - row, width - 1 - column]);
  return way === "right"
    ? rearranged(piece, height, width, (row, column) => [height - 1 - column, row])
    : rearranged(piece, height, width, (row, column) => [column, width - 1 - row]);
}

/** @param from where each stitch of the new piece comes from; rows and columns from 0 */
function rearranged(
  piece: Piece,
  width: number,
  height: number,
  from: (row: number, column: number) => readonly [number, number],
): Piece {
  const cells = new Uint8Array(width * height);
  for (let row = 0, to = 0; row < height; row++)
    for (let column = 0; column < width; column++, to++) {
      const [oldRow, oldColumn] = from(row, column);
      cells[to] = piece.cells[oldRow * piece.width + oldColumn]!;
    }
  return { ...piece, width, height, cells };
}

/** A region laid over and over across another, so that it stays where it is itself. */
export function tiled(grid: Grid, of: Region, over: Region): Grid {
  const piece = pieceOf(grid, of);
  const cells = grid.cells.slice();
  const on = regionOn(grid, over);
  if (!on) return grid;
  for (let row = on.rows[0]; row <= on.rows[1]; row++) {
    const from = remainder(row - of.rows[0], piece.height) * piece.width;
    for (let column = on.columns[0]; column <= on.columns[1]; column++)
      cells[(row - 1) * grid.width + column - 1] = piece.cells[from + remainder(column - of.columns[0], piece.width)]!;
  }
  return { ...grid, cells };
}

/** The chart's own text form. */
export const pieceText = (piece: Piece): string => chartText(rowsOfGrid(piece));

/** Reads a piece; line ends of any machine, and empty lines around, are no matter. @param ids colours that may be in it */
export function readPiece(text: string, ids: readonly string[]): Outcome<Piece> {
  const lines = text.split(/\r\n?|\n/).map((line) => line.trimEnd());
  const first = lines.findIndex((line) => line !== "");
  const last = lines.findLastIndex((line) => line !== "");
  const { value, problems } = parseChartText(first < 0 ? "" : lines.slice(first, last + 1).join("\n"));
  if (!value) return { value: null, problems };
  const strangers = new Set(value.rows.flatMap((row) => [...row].filter((id) => id !== "-" && !ids.includes(id))));
  if (strangers.size === 0) return { value: gridOver(value.rows, ids), problems };
  const got = [...strangers].slice(0, 5).join(" ");
  return {
    value: null,
    problems: [
      { where: "the text", expected: `colours of the pattern, which are ${ids.join(" ")}`, got, severity: "fault" },
    ],
  };
}
