/** Cells of a table of stitches without what stands round its edge: row numbers, column numbers, a spreadsheet's letters, empty columns. */
import { BLANK } from "./keyLines.ts";

export interface TableCells {
  /** Top row first; "" for an empty cell. */
  cells: string[][];
  /** Which of the rows handed in are left, by index. */
  kept: number[];
  /** The numbers that rows had, null where a row had none; null where the table has no row numbers. */
  numbers: (number | null)[] | null;
  /** Numbered as a spreadsheet numbers its own lines, downwards. */
  spreadsheet: boolean;
}

/** @param rows the cells of each line, trimmed */
export function withoutEdges(rows: readonly (readonly string[])[]): TableCells {
  let cells = rows.map((row) => [...row]);
  let kept = rows.map((_, index) => index);
  const drop = (index: number): void => {
    cells = cells.filter((_, at) => at !== index);
    kept = kept.filter((_, at) => at !== index);
  };
  cells = withoutEmptyColumns(cells);
  let letters = false;
  let headed = false;
  for (const at of [0, -1]) {
    if (cells.length < 2) break;
    const index = at === 0 ? 0 : cells.length - 1;
    const others = cells.filter((_, other) => other !== index).flat();
    const heading = headingOf(cells[index]!, others);
    if (!heading) continue;
    headed = true;
    letters ||= heading === "letters";
    drop(index);
  }
  cells = withoutEmptyColumns(cells);
  for (const sides of [["left", "right"], ["left"], ["right"]] as const) {
    const numbers = rowNumbers(cells, sides, headed ? 1 : LEAST_NUMBERS);
    if (!numbers) continue;
    const [from, to] = [
      sides.some((side) => side === "left") ? 1 : 0,
      sides.some((side) => side === "right") ? -1 : undefined,
    ];
    return { cells: cells.map((row) => row.slice(from, to)), kept, numbers, spreadsheet: letters };
  }
  return { cells, kept, numbers: null, spreadsheet: letters };
}

function withoutEmptyColumns(rows: string[][]): string[][] {
  let cells = rows;
  while (cells.every((row) => row.length > 1 && row.at(-1) === "")) cells = cells.map((row) => row.slice(0, -1));
  while (cells.every((row) => row.length > 1 && row[0] === "")) cells = cells.map((row) => row.slice(1));
  return cells;
}

/** Whether a row is column numbers or a spreadsheet's letters, perhaps with a corner. */
function headingOf(row: readonly string[], others: readonly string[]): "numbers" | "letters" | null {
  const digits = others.filter((cell) => /^\d+$/.test(cell)).length * 2 > others.filter(Boolean).length;
  for (const from of [0, 1]) {
    const corner = from === 0 ? "" : row[0]!;
    const last = row.at(-1);
    // Row numbers may stand at either side, and then so do the corners.
    const inner = row.slice(from, last === "" || last === corner ? -1 : undefined);
    if (inner.length < 2) continue;
    if (from === 1 && /^\d+$/.test(corner)) continue;
    const numbers = inner.map((cell) =>
      /^(?:st(?:itch)?\.?\s*)?\d{1,4}$/i.test(cell) ? Number(/\d+/.exec(cell)![0]) : NaN,
    );
    const even = numbers.every((number, index) => index === 0 || Math.abs(number - numbers[index - 1]!) === 1);
    const step = numbers[1]! - numbers[0]!;
    const steady = even && numbers.every((number, index) => number === numbers[0]! + index * step);
    if (steady && (!digits || (from === 1 && corner !== "") || inner.length > 9)) return "numbers";
    const named = inner.every((cell, index) => cell === columnLetters(index));
    if (named && inner.length >= 3 && from === 1 && others.some((cell) => /^\d+$/.test(cell))) return "letters";
  }
  return null;
}

/** "A", "B" … "Z", "AA". */
function columnLetters(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : columnLetters(Math.floor(index / 26) - 1) + letter;
}

/** The rows' numbers where the columns at those sides hold them; null where they are stitches. */
function rowNumbers(
  cells: readonly (readonly string[])[],
  sides: readonly ("left" | "right")[],
  least: number,
): (number | null)[] | null {
  if (cells.some((row) => row.length < sides.length + 1)) return null;
  const numbers: (number | null)[] = [];
  for (const row of cells) {
    const beside = sides.map((side) => (side === "left" ? row[0]! : row.at(-1)!)).filter(Boolean);
    const found = beside.map((cell) => /^(?:rows?|rnds?|rounds?|r)?\.?\s*(\d{1,4})\s*[:.)]?$/i.exec(cell)?.[1]);
    if (found.includes(undefined) || new Set(found.map(Number)).size > 1) return null;
    numbers.push(found.length === 0 ? null : Number(found[0]));
  }
  // A column at either side that numbers no row is no such column.
  if (sides.some((side) => cells.every((row) => (side === "left" ? row[0] : row.at(-1)) === ""))) return null;
  const inner = cells.flatMap((row) => row.slice(1, -1));
  return isNumbering(numbers, { digits: inner.every((cell) => /^\d*$/.test(cell)), least }) ? numbers : null;
}

/**
 * Whether numbers beside rows are theirs: they go up or down by one from row to row. Rows worked flat have one at every
 * second row of a side. Where stitches are digits too, only numbers that end at 1 are believed. `least`: how many it takes.
 */
export function isNumbering(
  numbers: readonly (number | null)[],
  { digits, least }: { digits: boolean; least: number },
): boolean {
  const stated = numbers.filter((number) => number !== null).length;
  if (stated < least || stated * 2 < numbers.length - 1) return false;
  const at = numbers.findIndex((number) => number !== null);
  for (const step of [-1, 1]) {
    const top = numbers[at]! - step * at;
    const last = top + step * (numbers.length - 1);
    const steady = numbers.every((number, index) => number === null || number === top + step * index);
    if (steady && Math.min(top, last) >= 1 && (!digits || Math.min(top, last) === 1)) return true;
  }
  return false;
}

/**
 * Empty cells of a table: the ground, where stitches are only marked on it, or places without a stitch. Null where none is empty.
 */
export function meaningOfBlanks(cells: readonly (readonly string[])[]): typeof BLANK | "no stitch" | null {
  const signs = new Set<string>();
  let [inner, all, empty] = [0, 0, 0];
  for (const row of cells) {
    const [first, last] = [row.findIndex(Boolean), row.findLastIndex(Boolean)];
    for (const [index, cell] of row.entries()) {
      all++;
      if (cell !== "") signs.add(cell);
      else empty++;
      if (cell === "" && index > first && index < last) inner++;
    }
  }
  if (empty === 0) return null;
  return signs.size === 1 || inner > all * MANY_BLANKS ? BLANK : "no stitch";
}

/** Fewer numbers than that may be stitches, where nothing else tells. Our choice. */
export const LEAST_NUMBERS = 3;
/** Share of a chart that lies empty between marked stitches where the ground was left blank: our choice; shaping leaves its gaps at the sides. */
const MANY_BLANKS = 0.25;
