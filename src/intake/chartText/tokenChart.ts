/** A typed chart between its text and its ids: cells are still the signs that stood there. */

import type { Problem } from "../../base/problem.ts";

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

/** Two words and more of many letters, as a sentence has them; groups of a row's signs have few. */
export function isWordy(text: string): boolean {
  const tokens = text.toLowerCase().split(/\s+/);
  const first = tokens.findIndex((token) => /\p{L}{3}/u.test(token) && new Set(token).size * 2 > token.length + 1);
  const letters = new Set(text.toLowerCase().replace(/\P{L}/gu, ""));
  return (
    first >= 0 && letters.size >= FEW_LETTERS && tokens.some((token, at) => at !== first && /\p{L}{2}/u.test(token))
  );
}

/** Different letters; a chart that is typed in groups rarely has so many colours. Our choice. */
const FEW_LETTERS = 7;

/** A line's words as a name. */
export const titleOf = (text: string): string =>
  text
    .trim()
    .replace(/^#+\s*/, "")
    .replace(/\s*:$/, "");

/** A line that is neither a row nor the key nor a name. */
export function leftOut({ line, text }: TextLine): Problem {
  const bare = text.trim();
  const got = `${JSON.stringify(bare.length > SHOWN ? `${bare.slice(0, SHOWN)}…` : bare)}, left out`;
  return { where: `line ${line}`, expected: "a row of stitches or a key line", got, severity: "note", line };
}

/** Characters of a line that is told of. Our choice. */
const SHOWN = 40;
