/** A band moved sideways over the rest of its chart. */
import { remainder } from "../base/divisors.ts";
import type { Chart } from "./chart.ts";
import type { Rows } from "./strip.ts";

export interface Shift {
  readonly rows: Rows;
  /** Stitches to the left, which is on in the order of knitting; below 0 to the right. */
  readonly by: number;
  /** The band's repeat in stitches: what leaves the chart on one side is what its repeat has on the other. */
  readonly repeat: number;
}

/** The chart's rows, top row first, with some of them shifted: the stitch of column c is what column c − by of the repeat had. */
export function shiftedRows(rows: Chart["rows"], { rows: [from, to], by, repeat }: Shift): string[] {
  const height = rows.length;
  return rows.map((text, index) => {
    const row = height - index;
    if (row < from || row > to) return text;
    const width = text.length;
    let shifted = "";
    for (let column = width; column >= 1; column--) shifted += text[width - 1 - remainder(column - 1 - by, repeat)]!;
    return shifted;
  });
}
