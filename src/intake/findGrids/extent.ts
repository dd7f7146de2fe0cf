/** Which columns and rows of a laid-out sheet are charts: numbers, title, key and page are left out. */
import { worthOfCells } from "./cellWorth.ts";
import { contrastOf, drawnSides, type Drawn } from "./lineLooks.ts";
import type { Sides } from "./sides.ts";
import { chartBoxes, type Box } from "./worthiest.ts";

export interface Extent extends Box {
  readonly lined: boolean;
  /** 0 to 1: how much of what is told of a chart is so here. */
  readonly trust: number;
  /** For the left, top, right and bottom end, 0 to 1, how clearly the outermost stitches are the chart's and what is beyond them is not. */
  readonly ends: readonly [number, number, number, number];
}

/** The charts of the sheet, that of most stitches first. `core`: where the grid was seen. */
export function extentsOf(sides: Sides, seen: Uint8Array, core: Box): Extent[] {
  const { columns, rows } = sides;
  const least = sides.noise < CLEAN ? LEAST_CLEAN_STEP : LEAST_STEP;
  const noise = Math.max(least, Math.min(MOST_NOISE, NOISE_TIMES * sides.noise));
  let boxes: readonly Box[] = [core];
  for (let round = 0; ; round++) {
    const inside = insideOf(boxes, columns, rows);
    const contrast = contrastOf(sides, (row, column) => inside[row * columns + column] === 1, noise);
    const lined = contrast.linedness > (round === 0 ? PERHAPS_LINED : LINED);
    const drawn = drawnSides(sides, seen, noise, lined ? contrast : null);
    const worth = worthOfCells(sides, seen, drawn, { inside, lined, noise });
    const next = chartBoxes(worth, columns, rows, LEAST_WORTH);
    if (round < MOST_ROUNDS && next.length > 0 && !areSame(next, boxes)) {
      boxes = next;
      continue;
    }
    return next.map((box) => ({
      ...box,
      lined,
      trust: trustOf(sides, worth, drawn, box, lined),
      ends: endsOf(sides, worth, box),
    }));
  }
}

function insideOf(boxes: readonly Box[], columns: number, rows: number): Uint8Array {
  const inside = new Uint8Array(columns * rows);
  for (const { left, top, columns: wide, rows: high } of boxes)
    for (let row = top; row < top + high; row++) inside.fill(1, row * columns + left, row * columns + left + wide);
  return inside;
}

const areSame = (some: readonly Box[], others: readonly Box[]): boolean =>
  some.length === others.length &&
  some.every(
    ({ left, top, columns, rows }, at) =>
      left === others[at]!.left &&
      top === others[at]!.top &&
      columns === others[at]!.columns &&
      rows === others[at]!.rows,
  );

/** The part of the stitches that have lines all around, or where there are none, that are of one colour. */
function trustOf(sides: Sides, worth: Float64Array, { upright, level }: Drawn, box: Box, lined: boolean): number {
  const { columns, spread, noise } = sides;
  let [cells, good] = [0, 0];
  for (let row = box.top; row < box.top + box.rows; row++)
    for (let column = box.left; column < box.left + box.columns; column++) {
      const cell = row * columns + column;
      if (worth[cell]! <= 0) continue;
      cells++;
      const side = row * (columns + 1) + column;
      const around = [upright[side], upright[side + 1], level[cell], level[cell + columns]];
      if (lined ? around.filter((is) => is !== 0).length >= 3 : spread[cell]! < Math.max(20, 4 * noise)) good++;
    }
  return cells === 0 ? 0 : good / cells;
}

function endsOf(
  { columns, rows }: Sides,
  worth: Float64Array,
  { left, top, columns: wide, rows: high }: Box,
): [number, number, number, number] {
  const mean = (count: number, cellAt: (index: number) => number): number => {
    let sum = 0;
    for (let index = 0; index < count; index++) sum += worth[cellAt(index)]!;
    return sum / count;
  };
  const column = (x: number): number | null =>
    x < 0 || x >= columns ? null : mean(high, (y) => (top + y) * columns + x);
  const row = (y: number): number | null => (y < 0 || y >= rows ? null : mean(wide, (x) => y * columns + left + x));
  const clear = (inner: number | null, outer: number | null): number =>
    Math.max(
      0,
      Math.min(1, Math.min(inner ?? 0, CLEAR_END) / CLEAR_END, -Math.max(outer ?? -CLEAR_END, -CLEAR_END) / CLEAR_END),
    );
  return [
    clear(column(left), column(left - 1)),
    clear(row(top), row(top - 1)),
    clear(column(left + wide - 1), column(left + wide)),
    clear(row(top + high - 1), row(top + high)),
  ];
}

/** Part of the sides between like stitches. */
const LINED = 0.55;
const PERHAPS_LINED = 0.25;
/** Bytes. */
const LEAST_CLEAN_STEP = 3;
const LEAST_STEP = 5;
const CLEAN = 0.5;
const MOST_NOISE = 40;
/** A side's part is a mean over some samples; three of its own deviations are met by chance hardly ever. */
const NOISE_TIMES = 2;
const MOST_ROUNDS = 8;
/** Worth of a chart of nine stitches, lines around each. */
const LEAST_WORTH = 9;
/** Worth of a cell that leaves no doubt. */
const CLEAR_END = 0.8;
