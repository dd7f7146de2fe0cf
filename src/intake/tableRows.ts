/** The text of a table divided into rows of cells, each with the line that it stands on: separated text, or a page's table. */
// Ambient types have no import style, and the shells compile this file without seeing the whole room.
// eslint-disable-next-line @typescript-eslint/triple-slash-reference
/// <reference path="./papaparse.d.ts" />
import papaparse from "papaparse";
import { isPageTable, rowsOfPage } from "./pageTable.ts";

export interface TableRow {
  /** From 1 at the top of the file. */
  line: number;
  cells: string[];
}

export type Separator = (typeof SEPARATORS)[number];
export const SEPARATORS = ["\t", ";", ",", "|"] as const;

export interface TableRows {
  rows: TableRow[];
  /** Null for a page's table, which has none. */
  separator: string | null;
  /** Lines with a quote that is not closed. */
  stray: number[];
}

/**
 * The rows that are not blank. Without a separator the file's own "sep=" line counts, and else whichever sign divides the
 * rows most evenly; `headings` tells how many of a row's cells look like headings.
 */
export function rowsOfTable(
  text: string,
  headings: (cells: readonly string[]) => number,
  separator?: string,
): TableRows {
  const whole = text.replace(/^\uFEFF/, "");
  if (separator === undefined && isPageTable(whole)) return { rows: rowsOfPage(whole), separator: null, stray: [] };
  const named = /^"?sep=(.)"?[^\S\r\n\t]*(?:\r\n?|\n|$)/i.exec(whole);
  const bare = named ? whole.slice(named[0].length) : whole;
  const first = named ? 2 : 1;
  const sign = separator ?? named?.[1] ?? bestSeparator(bare, headings);
  const { rows, stray } = divide(bare, sign, first);
  return { rows: sign === "|" ? withoutFrame(rows) : rows, separator: sign, stray };
}

function bestSeparator(text: string, headings: (cells: readonly string[]) => number): Separator {
  let best: { sign: Separator; score: number } = { sign: ",", score: -1 };
  for (const sign of SEPARATORS) {
    const { rows } = divide(text, sign, 1, LOOKED_AT);
    const widths = new Map<number, number>();
    for (const { cells } of rows) widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
    const [width, often] = [...widths].sort((one, other) => other[1] - one[1])[0] ?? [0, 0];
    const known = Math.max(0, ...rows.slice(0, HEADING_ROWS).map(({ cells }) => headings(cells)));
    // Known headings speak loudest; then how many of the rows have the same number of cells, more than one.
    const score = known * 10 + (width > 1 ? often / rows.length : 0);
    if (score > best.score) best = { sign, score };
  }
  return best.sign;
}

function divide(text: string, sign: string, firstLine: number, most = 0): { rows: TableRow[]; stray: number[] } {
  const rows: TableRow[] = [];
  const stray: number[] = [];
  let line = firstLine;
  let at = 0;
  const goTo = (end: number): void => {
    for (; at < end; at++) if (isLineEnd(text, at)) line++;
  };
  while (at < text.length && (most === 0 || rows.length < most)) {
    const begin = at;
    let broken = false;
    // Where quotes have gone wrong too often, they are letters like others.
    const quoteChar = stray.length < MOST_STRAY ? '"' : "\0";
    papaparse.parse(begin === 0 ? text : text.slice(begin), {
      delimiter: sign,
      quoteChar,
      preview: most,
      step: ({ data, errors, meta }, parser) => {
        if (broken) return;
        if (errors.some(({ type }) => type === "Quotes")) {
          broken = true;
          parser.abort();
          return;
        }
        if (data.some((cell) => /[^\s,;|]/.test(cell))) rows.push({ line, cells: data });
        // Cells in quotes may hold line ends, so that a row is not a line.
        goTo(begin + meta.cursor);
      },
    });
    if (!broken) break;
    // A quote that is never closed would swallow the rest: its line alone is taken letter by letter.
    const [own] = /^[^\r\n]*/.exec(text.slice(at, at + LONGEST_LINE))!;
    stray.push(line);
    rows.push({ line, cells: own.split(sign) });
    goTo(at + own.length);
    goTo(at + (text.startsWith("\r\n", at) ? 2 : 1));
  }
  return { rows, stray };
}

const isLineEnd = (text: string, at: number): boolean => {
  const code = text.charCodeAt(at);
  return code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10);
};

/** "| name | hex |" has a bar at either end, and perhaps a row of dashes below the headings. */
function withoutFrame(rows: readonly TableRow[]): TableRow[] {
  const framed = rows.every(({ cells }) => cells.length > 2 && cells[0]!.trim() === "" && cells.at(-1)!.trim() === "");
  const inner = framed ? rows.map(({ line, cells }) => ({ line, cells: cells.slice(1, -1) })) : [...rows];
  return inner.filter(({ cells }) => !cells.every((cell) => /^[\s:]*-+[\s:]*$/.test(cell)));
}

/** Titles and empty lines may stand above the headings; our choice of how far to look. */
export const HEADING_ROWS = 12;
/** Rows that are enough to know a separator by; our choice. */
const LOOKED_AT = 100;
/** Lines whose quotes are mended one by one; our choice, so that a file full of them is still read quickly. */
const MOST_STRAY = 40;
/** Characters of a line that are still taken. */
const LONGEST_LINE = 20_000;
