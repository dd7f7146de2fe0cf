/** Where rows and columns of a chart lie on the plane on which its structure is shown: bands on the left, what each row is on the right. */
import type { Gauge } from "../../garment/gauge.ts";

export interface Plane {
  readonly columns: number;
  readonly rows: number;
  /** CSS pixels of a stitch. */
  readonly stitch: number;
  readonly row: number;
  readonly left: number;
  readonly top: number;
  /** All of it, with what stands beside the chart. */
  readonly width: number;
  readonly height: number;
}

/** CSS pixels beside the chart: row numbers and bands; ground and pattern of each row, and its mark. */
export const LEFT = 52;
export const RIGHT = 48;
const AROUND = 10;
/** Larger the stitches are not to begin with, or a small chart would be a wall; smaller they cannot be drawn. CSS pixels. */
const FIRST_MOST = 16;
const LEAST = 0.5;
const MOST = 40;

/** @param zoom 1: the chart's width in view, its stitches not larger than they need be */
export function planeOf(
  chart: { readonly columns: number; readonly rows: number },
  gauge: Gauge,
  { view, zoom }: { readonly view: number; readonly zoom: number },
): Plane {
  const { columns, rows } = chart;
  const fits = Math.min(FIRST_MOST, Math.max(LEAST, (view - LEFT - RIGHT) / columns));
  const stitch = Math.min(MOST, Math.max(LEAST, fits * zoom));
  // Width to height of a stitch is as rows to stitches of the gauge (trade.md 3).
  const row = (stitch * gauge.stitches) / gauge.rows;
  const own = LEFT + columns * stitch + RIGHT;
  // What is narrower than the view stands in its middle.
  const beside = Math.max(0, Math.floor((view - own) / 2));
  return {
    columns,
    rows,
    stitch,
    row,
    left: LEFT + beside,
    top: AROUND,
    width: own + beside,
    height: rows * row + 2 * AROUND,
  };
}

/** The upper edge of a row; of row 0 the lower edge of the chart. */
export const topOf = (plane: Plane, row: number): number => plane.top + (plane.rows - row) * plane.row;

/** The left edge of a column; of column 0 the right edge of the chart. A column of .5 lies between two. */
export const leftOf = (plane: Plane, column: number): number => plane.left + (plane.columns - column) * plane.stitch;

/** Row and column of a point on the plane; a column of 0 or one beyond the last for what lies beside the chart. null above it and below. */
export function placeAt(plane: Plane, x: number, y: number): { readonly row: number; readonly column: number } | null {
  const row = plane.rows - Math.floor((y - plane.top) / plane.row);
  if (row < 1 || row > plane.rows) return null;
  const column = plane.columns - Math.floor((x - plane.left) / plane.stitch);
  return { row, column: Math.min(plane.columns + 1, Math.max(0, column)) };
}
