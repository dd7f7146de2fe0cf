/** Echoes: whether a band is the same band again, elsewhere in the chart or in another: shifted, mirrored or in other colours. */
import { oncePer } from "../base/oncePer.ts";
import type { Grid } from "./chart.ts";
import { horizontalPeriod } from "./repeats.ts";
import { sameTile, type Sameness } from "./sameTile.ts";
import { mirroredTile, tileOf, type Rows, type Tile } from "./strip.ts";

export type Mirroring = "none" | "across" | "up" | "both";

export interface Echo extends Sameness {
  readonly mirrored: Mirroring;
}

const WAYS: readonly { readonly mirrored: Mirroring; readonly across: boolean; readonly up: boolean }[] = [
  { mirrored: "none", across: false, up: false },
  { mirrored: "across", across: true, up: false },
  { mirrored: "up", across: false, up: true },
  { mirrored: "both", across: true, up: true },
];

/**
 * How the second tile is the first again, or null; as little as possible is said to have been done: as it is before mirrored, and then in
 * its own colours before others. The shift is from the mirrored first to the second.
 */
export function echoBetween(first: Tile, second: Tile): Echo | null {
  if (first.width !== second.width || first.height !== second.height) return null;
  for (const { mirrored, ...how } of WAYS) {
    const found = sameTile(mirrored === "none" ? first : waysOf(first)(how), second, "any colours");
    if (found) return { ...found, mirrored };
  }
  return null;
}

/** The tile's mirrored forms, each made when first asked for. */
const waysOf = oncePer((tile: Tile) => {
  const known = new Map<number, Tile>();
  return ({ across, up }: { readonly across: boolean; readonly up: boolean }): Tile => {
    const key = Number(across) + 2 * Number(up);
    let made = known.get(key);
    if (!made) known.set(key, (made = mirroredTile(tile, { across, up })));
    return made;
  };
});

/**
 * Whether two strips of rows are the same up to a horizontal shift (round the tube) and a renaming of colours:
 * one colour of the first for one of the second throughout. A place without a stitch stays one.
 */
export function sameBand(grid: Grid, a: { readonly rows: Rows }, b: { readonly rows: Rows }): boolean {
  if (b.rows[1] - b.rows[0] !== a.rows[1] - a.rows[0]) return false;
  const period = horizontalPeriod(grid, ...a.rows);
  if (horizontalPeriod(grid, ...b.rows) !== period) return false;
  return sameTile(tileOf(grid, a.rows, period), tileOf(grid, b.rows, period), "any colours") !== null;
}
