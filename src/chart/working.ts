/** How a row of the chart is worked: from which side of the cloth, and in which direction it is read. */
import type { Chart } from "./chart.ts";

export interface WorkingOrder {
  readonly direction: "right-to-left" | "left-to-right";
  /** RS: right side facing, knitted. WS: wrong side facing, purled. */
  readonly side: "RS" | "WS";
}

/**
 * In the round every row is read from right to left; flat, odd rows are right-side rows and even rows wrong-side rows.
 * The row's number stands where one begins to read: at the right for right-to-left. Source: trade.md 6 (trade's usage).
 */
export function workingOrder(chart: Pick<Chart, "worked">, row: number): WorkingOrder {
  if (chart.worked === "flat" && row % 2 === 0) return { direction: "left-to-right", side: "WS" };
  return { direction: "right-to-left", side: "RS" };
}
