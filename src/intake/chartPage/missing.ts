/** Which of a chart's cells hold no stitch: a chart need not be a rectangle. */
import { labFromHex } from "../../colour/lab.ts";
import type { Kinds } from "./kinds.ts";
import type { PaintedCells } from "./paint.ts";
import { hasSign } from "./key.ts";

/** By cell. Where lines are drawn, blank cells that the outside reaches through sides without one; else blank ends of rows. */
export function missingCells(painted: PaintedCells, columns: number, rows: number): Uint8Array {
  const blank = painted.cells.map((look) => look.ground === null && !hasSign(look));
  const missing = new Uint8Array(columns * rows);
  if (!blank.includes(true)) return missing;
  return isLined(painted, blank) ? reached(painted, blank, columns, rows) : blankEnds(blank, columns, rows);
}

function isLined({ drawnLeft, drawnAbove }: PaintedCells, blank: readonly boolean[]): boolean {
  const drawn = drawnLeft.reduce((sum, one) => sum + one, 0) + drawnAbove.reduce((sum, one) => sum + one, 0);
  return drawn >= LINED * 2 * blank.length;
}

function reached(painted: PaintedCells, blank: readonly boolean[], columns: number, rows: number): Uint8Array {
  const { drawnLeft, drawnAbove } = painted;
  const missing = new Uint8Array(columns * rows);
  const left = (row: number, column: number): boolean => drawnLeft[row * (columns + 1) + column] === 1;
  const above = (row: number, column: number): boolean => drawnAbove[row * columns + column] === 1;
  const open: number[] = [];
  const enter = (row: number, column: number): void => {
    const cell = row * columns + column;
    if (row < 0 || column < 0 || row >= rows || column >= columns || missing[cell] || !blank[cell]) return;
    missing[cell] = 1;
    open.push(cell);
  };
  for (let row = 0; row < rows; row++) {
    if (!left(row, 0)) enter(row, 0);
    if (!left(row, columns)) enter(row, columns - 1);
  }
  for (let column = 0; column < columns; column++) {
    if (!above(0, column)) enter(0, column);
    if (!above(rows, column)) enter(rows - 1, column);
  }
  while (open.length > 0) {
    const cell = open.pop()!;
    const [row, column] = [Math.floor(cell / columns), cell % columns];
    if (!left(row, column)) enter(row, column - 1);
    if (!left(row, column + 1)) enter(row, column + 1);
    if (!above(row, column)) enter(row - 1, column);
    if (!above(row + 1, column)) enter(row + 1, column);
  }
  return missing;
}

/** Where every row is one run without a hole, what is left of it and right of it was never there; else the page's own colour is one of the chart's. */
function blankEnds(blank: readonly boolean[], columns: number, rows: number): Uint8Array {
  const missing = new Uint8Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    const own = blank.slice(row * columns, (row + 1) * columns);
    const [first, last] = [own.indexOf(false), own.lastIndexOf(false)];
    if (first < 0 || own.slice(first, last + 1).includes(true)) return new Uint8Array(columns * rows);
    for (let column = 0; column < columns; column++)
      if (column < first || column > last) missing[row * columns + column] = 1;
  }
  return missing;
}

/** Kinds of cells that stand at the ends of rows alone and are drawn grey, which the key does not name: they are no stitches. */
export function greyedOut({ of, looks }: Kinds, named: ReadonlyMap<number, string>, columns: number): Set<number> {
  const found = new Set<number>();
  const others = new Set([...of].filter((kind) => !named.has(kind)));
  for (const kind of others) {
    const { ground, marks } = looks[kind]!;
    const isHatched = marks.length > 0 && marks.every((mark) => mark.kind === "bar" || mark.kind === "stroke");
    if (ground === null || !isGrey(ground) || (marks.length > 0 && !isHatched)) continue;
    // Without a key a plain grey is as likely a colour.
    if (!isHatched && (others.size > 1 || named.size === 0)) continue;
    if (standsAtEnds(of, kind, columns)) found.add(kind);
  }
  return found;
}

function isGrey(hex: string): boolean {
  const [lightness, a, b] = labFromHex(hex) ?? [0, 0, 0];
  return Math.hypot(a, b) < GREYISH && lightness > DARKEST && lightness < LIGHTEST;
}

function standsAtEnds(of: Int32Array, kind: number, columns: number): boolean {
  let some = 0;
  for (let from = 0; from < of.length; from += columns) {
    const row = of.subarray(from, from + columns);
    const first = row.findIndex((one) => one !== kind);
    if (first < 0) return false;
    const last = row.findLastIndex((one) => one !== kind);
    if (row.subarray(first, last).includes(kind)) return false;
    some += first + columns - 1 - last;
  }
  return some > 0;
}

/** C*ab and L* within which a ground is the grey that charts cover what is not there with: common practice, no source. */
const GREYISH = 3;
const DARKEST = 55;
const LIGHTEST = 97;
/** Part of all sides that have a line where a chart is drawn with lines. */
const LINED = 0.4;
