/** A typed chart between its text and its ids: cells are still the signs that stood there. */

/** Stands for a cell without a stitch. */
export const NO_CELL = "";

export interface TokenRow {
  /** Signs, left to right as seen; `NO_CELL` for no stitch. */
  cells: string[];
  /** From 1 at the top of the text; 0 for a row of which nothing stands there. */
  line: number;
}

export interface TokenChart {
  name: string | null;
  /** Top row first; may be of different lengths. */
  rows: TokenRow[];
  /** The number of the bottom row, where rows are numbered from another than 1. */
  firstRow: number;
  /** Cells to look at again: [row from 1 at the bottom, column from 1 at the right]. */
  uncertain: [number, number][];
}

export interface TextLine {
  /** From 1 at the top of the text. */
  line: number;
  text: string;
}
