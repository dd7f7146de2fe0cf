/** A strip of rows as sequences: every column, or every row, by a number that is the same for those that are alike. */
import { NO_STITCH, type Grid } from "./chart.ts";

/** From and to, counted from 1 at the bottom, both included. */
export type Rows = readonly [number, number];

/** A class for each column, the rightmost first: equal for columns that are alike in all the rows, different for others. */
export function columnClasses({ width, cells }: Pick<Grid, "width" | "cells">, [from, to]: Rows): Int32Array {
  const classes = new Int32Array(width);
  // Columns that differ go on differing: once each has a class of its own the other rows need not be read.
  for (let row = from, count = 1; row <= to && count < width; row++) {
    const start = (row - 1) * width;
    const known = new Map<number, number>();
    for (let column = 0; column < width; column++) {
      const key = classes[column]! * 256 + cells[start + column]!;
      let name = known.get(key);
      if (name === undefined) known.set(key, (name = known.size));
      classes[column] = name;
    }
    count = known.size;
  }
  return classes;
}

/** A class for each row, the lowest first: rows are alike in every stitch, or in shape whatever the colours. */
export function rowClasses(
  { width, cells }: Pick<Grid, "width" | "cells">,
  [from, to]: Rows,
  alike: "stitches" | "shape",
): Int32Array {
  const kinds: Uint8Array[] = [];
  const known = new Map<number, number[]>();
  return Int32Array.from({ length: to - from + 1 }, (_, step) => {
    const stitches = cells.subarray((from + step - 1) * width, (from + step) * width);
    const row = alike === "shape" ? inOrderOfUse(stitches) : stitches;
    const key = mixed(row);
    const near = known.get(key) ?? [];
    const same = near.find((kind) => kinds[kind]!.every((cell, column) => cell === row[column]));
    if (same !== undefined) return same;
    known.set(key, [...near, kinds.length]);
    return kinds.push(row) - 1;
  });
}

/** A number that is the same for rows that are alike, and seldom for others: Knuth's multiplicative hash, a cell at a time. */
function mixed(row: Uint8Array): number {
  let sum = 0;
  for (let column = 0; column < row.length; column++) {
    sum = Math.imul(sum ^ (row[column]! + 1), 0x9e3779b1);
    sum ^= sum >>> 15;
  }
  return sum;
}

/** Colours renamed in the order of their first stitch, so that rows which part their stitches alike are equal. */
function inOrderOfUse(stitches: Uint8Array): Uint8Array {
  const names = new Uint8Array(NO_STITCH + 1).fill(NO_STITCH);
  const renamed = new Uint8Array(stitches.length);
  let next = 0;
  for (let column = 0; column < stitches.length; column++) {
    const cell = stitches[column]!;
    if (cell !== NO_STITCH && names[cell] === NO_STITCH) names[cell] = next++;
    renamed[column] = names[cell]!;
  }
  return renamed;
}

/** What recurs of a strip, once: `width` columns of `height` rows, the lowest row first. */
export interface Tile {
  readonly width: number;
  readonly height: number;
  readonly cells: Uint8Array;
}

export function tileOf(grid: Pick<Grid, "width" | "cells">, [from, to]: Rows, stitches: number): Tile {
  const height = to - from + 1;
  const cells = new Uint8Array(stitches * height);
  for (let row = 0; row < height; row++) {
    const start = (from + row - 1) * grid.width;
    cells.set(grid.cells.subarray(start, start + stitches), row * stitches);
  }
  return { width: stitches, height, cells };
}

/** The tile as a mirror shows it, across, up or both ways. Its first column stays the first of the mirrored order: c becomes width − 1 − c. */
export function mirroredTile(tile: Tile, { across, up }: { readonly across: boolean; readonly up: boolean }): Tile {
  const { width, height, cells } = tile;
  const turned = new Uint8Array(cells.length);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++)
      turned[row * width + column] =
        cells[(up ? height - 1 - row : row) * width + (across ? width - 1 - column : column)]!;
  return { width, height, cells: turned };
}
