/** Floats: how far a strand travels behind stitches that are knitted with another. */
import { cellAt, NO_STITCH, type Chart, type Grid } from "./chart.ts";

export type Worked = NonNullable<Chart["worked"]>;

export interface Float {
  readonly row: number;
  /** Index of the colour that is carried. */
  readonly colour: number;
  /** The first column passed, in the direction right to left. */
  readonly fromColumn: number;
  /** Stitches passed; places without a stitch are not counted. */
  readonly length: number;
}

/**
 * The floats of a row, right to left, colour by colour. In the round the row joins end to end, so that a float may
 * cross the join; flat, a strand travels only between its first and its last use. A one-colour row has none.
 * Source: trade.md 3 (common practice) and its warnings 1 and 2.
 */
export function floatsInRow(grid: Grid, row: number, worked: Worked = "round"): Float[] {
  const columns: number[] = [];
  const uses = new Map<number, number[]>();
  for (let column = 1; column <= grid.width; column++) {
    const colour = cellAt(grid, row, column);
    if (colour === NO_STITCH) continue;
    const places = uses.get(colour);
    if (places) places.push(columns.length);
    else uses.set(colour, [columns.length]);
    columns.push(column);
  }
  if (uses.size < 2) return [];
  const floats: Float[] = [];
  for (const [colour, places] of uses) {
    const next = worked === "round" ? [...places.slice(1), places[0]! + columns.length] : places.slice(1);
    for (const [index, after] of next.entries()) {
      const first = places[index]! + 1;
      if (after > first) {
        floats.push({ row, colour, fromColumn: columns[first % columns.length]!, length: after - first });
      }
    }
  }
  return floats;
}

/** The longest float of some rows, the lowest and rightmost of equals; null where there is none. */
export function longestFloat(grid: Grid, fromRow: number, toRow: number, worked: Worked = "round"): Float | null {
  let longest: Float | null = null;
  for (let row = fromRow; row <= toRow; row++) {
    for (const float of floatsInRow(grid, row, worked)) {
      if (!longest || float.length > longest.length) longest = float;
    }
  }
  return longest;
}
