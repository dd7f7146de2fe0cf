/** How the cells of a chart look in its picture, kept as plain data so that she can correct a reading without the picture. */
import type { Lab } from "../colour/lab.ts";
import type { Box } from "../raster/raster.ts";
import type { ReadChart } from "./readChart.ts";

export interface CellLooks {
  readonly columns: number;
  readonly rows: number;
  /** CIELAB (D65) of each cell's ground, the lamp's unevenness taken out: three to the cell, top row first, each from the left. */
  readonly labs: Float32Array;
  /** How much the ground varies within the cell, about ΔE00. */
  readonly spread: Float32Array;
  /** Which sign stands in the cell: cells with the same number look alike; −1 for none. */
  readonly signs: Int16Array;
  /** The part of the cell that is of its ground or its sign, 0 to 1. */
  readonly evenness: Float32Array;
}

export interface CellsRead {
  readonly chart: ReadChart;
  readonly looks: CellLooks;
}

/** What a key beside a chart shows: its words are not read. */
export interface Legend {
  readonly entries: readonly LegendEntry[];
}

export interface LegendEntry {
  /** Where its swatch is, pixels. */
  readonly box: Box;
  /** The swatch's colour as it is in the picture; null where none could be had. */
  readonly lab: Lab | null;
  /** The sign in it, as `ReadSymbol.picture` has it; null for none. */
  readonly sign: readonly string[] | null;
}
