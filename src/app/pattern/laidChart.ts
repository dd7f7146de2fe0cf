/** A chart laid out to be seen: where its rows, stitches and numbers lie, in CSS pixels. Row 1 is the lowest, stitch 1 at the right. */
import type { Chart } from "../../chart/chart.ts";
import { workingOrder } from "../../chart/working.ts";

export interface LaidChart {
  readonly columns: number;
  readonly rows: number;
  /** Width and height of a stitch. */
  readonly stitch: number;
  readonly row: number;
  /** The chart's top left corner. */
  readonly left: number;
  readonly top: number;
  /** All of it, with what stands beside the chart. */
  readonly width: number;
  readonly height: number;
}

/** The left edge of a column; of column 0 the right edge of the chart. A column of .5 lies between two. */
export const leftOf = ({ columns, stitch, left }: LaidChart, column: number): number =>
  left + (columns - column) * stitch;

/** The upper edge of a row; of row 0 the lower edge of the chart. */
export const topOf = ({ rows, row, top }: LaidChart, at: number): number => top + (rows - at) * row;

/** Row and column under a point, which may lie off the chart. */
export const cellUnder = (
  { columns, rows, stitch, row, left, top }: LaidChart,
  x: number,
  y: number,
): readonly [row: number, column: number] => [
  rows - Math.floor((y - top) / row),
  columns - Math.floor((x - left) / stitch),
];

/** Numbers of which each has room: 1, 2, 5, 10, 20 … @param room CSS pixels for one step */
export function everyNth(room: number, needed: number): number {
  for (let power = 1; ; power *= 10)
    for (const step of [power, 2 * power, 5 * power]) if (step * room >= needed) return step;
}

/**
 * Whether a row has its number, where each needs so much height, and at which side: where one begins to read it. Flat
 * every odd step numbers both sides by turns, so its numbers may be twice as near.
 */
export function rowNumbers(
  { row }: LaidChart,
  worked: Chart["worked"],
  needed: number,
): (at: number) => "left" | "right" | null {
  const chart = worked ? { worked } : {};
  let every = everyNth(row, needed);
  if (worked === "flat") for (every = 1; 2 * every * row < needed;) every *= 5;
  return (at) => {
    if (at !== 1 && at % every !== 0) return null;
    return workingOrder(chart, at).direction === "left-to-right" ? "left" : "right";
  };
}

/** Whether anything is numbered at the left. */
export const isNumberedLeft = (worked: Chart["worked"]): boolean => worked === "flat";
