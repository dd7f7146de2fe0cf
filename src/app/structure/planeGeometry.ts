/** Where rows and columns of a chart lie on the plane on which its structure is shown: bands on the left, what each row is on the right. */
import type { Gauge } from "../../garment/gauge.ts";
import { cellUnder, isNumberedLeft, type LaidChart } from "../pattern/laidChart.ts";
import type { Chart } from "../../chart/chart.ts";

export interface Plane extends LaidChart {
  /** Room for row numbers at the left, between the bands and the chart; 0 where none stand there. */
  readonly before: number;
}

/** CSS pixels beside the chart: bands; row numbers, then ground and pattern of each row, and its mark. */
export const LEFT = 28;
export const RIGHT = 74;
/** Of a number of three digits, with what keeps it off the chart. */
export const NUMBER = 26;
const AROUND = 10;
/** Larger the stitches are not to begin with, or a small chart would be a wall; smaller they cannot be drawn. CSS pixels. */
const FIRST_MOST = 16;
const LEAST = 0.5;
const MOST = 40;

/** @param zoom 1: the chart's width in view, its stitches not larger than they need be */
export function planeOf(
  chart: { readonly columns: number; readonly rows: number; readonly worked?: Chart["worked"] },
  gauge: Gauge,
  { view, zoom }: { readonly view: number; readonly zoom: number },
): Plane {
  const { columns, rows, worked } = chart;
  const before = isNumberedLeft(worked) ? NUMBER : 0;
  const fits = Math.min(FIRST_MOST, Math.max(LEAST, (view - LEFT - before - RIGHT) / columns));
  const stitch = Math.min(MOST, Math.max(LEAST, fits * zoom));
  // Width to height of a stitch is as rows to stitches of the gauge (trade.md 3).
  const row = (stitch * gauge.stitches) / gauge.rows;
  const own = LEFT + before + columns * stitch + RIGHT;
  // What is narrower than the view stands in its middle.
  const beside = Math.max(0, Math.floor((view - own) / 2));
  return {
    columns,
    rows,
    stitch,
    row,
    left: LEFT + before + beside,
    top: AROUND,
    width: own + beside,
    height: rows * row + 2 * AROUND,
    before,
  };
}

/** Row and column of a point on the plane; a column of 0 or one beyond the last for what lies beside the chart. null above it and below. */
export function placeAt(plane: Plane, x: number, y: number): { readonly row: number; readonly column: number } | null {
  const [row, column] = cellUnder(plane, x, y);
  if (row < 1 || row > plane.rows) return null;
  return { row, column: Math.min(plane.columns + 1, Math.max(0, column)) };
}
