/** What is in the hand above the chart and not yet laid down: a piece, or stitches that are being moved. */
import type { Grid } from "../../chart/chart.ts";
import { columnsOf, regionBetween, rowsOf, type Region, type Selection, type Stitch } from "../../chart/draw.ts";
import { moved } from "../../chart/draw/move.ts";
import { stamped, type Piece } from "../../chart/draw/piece.ts";

export type Held =
  | { readonly kind: "piece"; readonly piece: Piece; readonly at: Stitch }
  /** Rows up and columns to the left. */
  | { readonly kind: "stitches"; readonly selection: Selection; readonly by: readonly [number, number] };

/** The chart as it would be, and what would then be chosen. */
export function withHeld(
  grid: Grid,
  held: Held,
  wraps: boolean,
): { readonly grid: Grid; readonly selection: Selection } {
  if (held.kind === "stitches") return moved(grid, held.selection, held.by, wraps);
  return { grid: stamped(grid, held.piece, held.at), selection: regionOfPiece(held.piece, held.at) };
}

/** A piece stays on the chart by at least a stitch, chosen stitches wholly. */
export function heldBy(grid: Grid, held: Held, [rows, columns]: readonly [number, number], wraps: boolean): Held {
  if (held.kind === "stitches") {
    const { selection, by } = held;
    const turns = wraps && columnsOf(selection) === grid.width;
    const up = within(by[0] + rows, 1 - selection.rows[0], grid.height - selection.rows[1]);
    const left = by[1] + columns;
    const across = turns
      ? left % grid.width
      : within(left, 1 - selection.columns[0], grid.width - selection.columns[1]);
    return { ...held, by: [up, across] };
  }
  const { piece, at } = held;
  return {
    ...held,
    at: [within(at[0] + rows, 2 - piece.height, grid.height), within(at[1] + columns, 2 - piece.width, grid.width)],
  };
}

export const regionOfPiece = ({ width, height }: Piece, [row, column]: Stitch): Selection =>
  regionBetween([row, column], [row + height - 1, column + width - 1]);

/** Where a piece is laid first: at the corner of what is chosen, or where the keys are, as far on the chart as it goes. */
export function pieceAt(grid: Grid, piece: Piece, corner: Stitch): Held {
  const row = Math.max(1, Math.min(corner[0], grid.height - piece.height + 1));
  const column = Math.max(1, Math.min(corner[1], grid.width - piece.width + 1));
  return { kind: "piece", piece, at: [row, column] };
}

export const isSquare = (region: Region): boolean => rowsOf(region) === columnsOf(region);

const within = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));
