/** How the inks of a cloth lie, whatever yarns they are: counted once, however often a yarn is swapped. */
import { oncePer } from "../base/oncePer.ts";
import { findBands, type Band } from "../chart/bands.ts";
import { NO_STITCH, type Grid } from "../chart/chart.ts";
import type { Cloth } from "./cloth.ts";
import type { Piece } from "./spectra.ts";

/** Rows of a cloth, once across their repeat; an area for each ink. */
export interface InkPiece {
  readonly piece: Piece;
  /** Ink of each area, in order of first stitch. */
  readonly inks: readonly number[];
  /** Of each area, across the whole chart. */
  readonly stitches: readonly number[];
}

/** Rows `from` to `to`. Remembered with the cloth's cells, which are never changed. */
export function inkPieceOf(cloth: Pick<Cloth, "grid" | "cells">, from: number, to: number): InkPiece {
  const known = piecesIn(cloth.cells);
  const place = from * (cloth.grid.height + 1) + to;
  let piece = known.get(place);
  if (!piece) known.set(place, (piece = cutOut(cloth, from, to)));
  return piece;
}

const piecesIn = oncePer((_cells: Uint8Array) => new Map<number, InkPiece>());

function cutOut({ grid, cells }: Pick<Cloth, "grid" | "cells">, from: number, to: number): InkPiece {
  const { width } = grid;
  const areaOf = new Int16Array(NO_STITCH).fill(-1);
  const inks: number[] = [];
  const stitches: number[] = [];
  const areas = new Uint8Array(width * (to - from + 1)).fill(NO_STITCH);
  for (let at = 0; at < areas.length; at++) {
    const ink = cells[(from - 1) * width + at]!;
    if (ink === NO_STITCH) continue;
    let area = areaOf[ink]!;
    if (area < 0) {
      area = areaOf[ink] = inks.length;
      inks.push(ink);
      stitches.push(0);
    }
    stitches[area]! += 1;
    areas[at] = area;
  }
  const piece = { width, height: to - from + 1, cells: areas, count: inks.length };
  return { piece: onceAcross(piece), inks, stitches };
}

/** A piece with some of its areas joined; `labels` has the new area of each. */
export function joined(piece: Piece, labels: readonly number[]): Piece {
  const known = joinedFrom(piece);
  const key = labels.join();
  let made = known.get(key);
  if (!made) {
    const cells = Uint8Array.from(piece.cells, (area) => (area === NO_STITCH ? NO_STITCH : labels[area]!));
    known.set(key, (made = onceAcross({ ...piece, cells, count: Math.max(...labels) + 1 })));
  }
  return made;
}

const joinedFrom = oncePer((_piece: Piece) => new Map<string, Piece>());

/** A piece cut to the smallest number of columns after which it recurs. */
function onceAcross(piece: Piece): Piece {
  const { width, height, cells } = piece;
  for (let period = 1; period < width; period++) {
    if (width % period !== 0 || !recursAfter(piece, period)) continue;
    const once = new Uint8Array(period * height);
    for (let y = 0; y < height; y++) for (let x = 0; x < period; x++) once[y * period + x] = cells[y * width + x]!;
    return { ...piece, width: period, cells: once };
  }
  return piece;
}

function recursAfter({ width, height, cells }: Piece, period: number): boolean {
  for (let y = 0; y < height; y++)
    for (let x = period; x < width; x++) if (cells[y * width + x] !== cells[y * width + x - period]) return false;
  return true;
}

/** Equal for pieces that are alike stitch by stitch, wherever they lie. */
export const alikeKey = oncePer(
  ({ width, height, count, cells }: Piece) => `${width}x${height}/${count} ${textOfCells(cells)}`,
);

/** Cells as text, a character each. */
export function textOfCells(cells: ArrayLike<number>): string {
  const codes = Uint8Array.from(cells);
  let text = "";
  // A call takes some tens of thousands of arguments at most.
  for (let at = 0; at < codes.length; at += 8192)
    text += String.fromCharCode.apply(null, codes.subarray(at, at + 8192) as unknown as number[]);
  return text;
}

/** Pairs of areas j < k that touch by a side, the piece repeating sideways. */
export const touchingIn = oncePer(({ width, height, cells, count }: Piece): readonly (readonly [number, number])[] => {
  const touch = new Uint8Array(count * count);
  const meet = (one: number, other: number): void => {
    if (one !== other && one !== NO_STITCH && other !== NO_STITCH)
      touch[Math.min(one, other) * count + Math.max(one, other)] = 1;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const here = cells[y * width + x]!;
      meet(here, cells[y * width + ((x + 1) % width)]!);
      if (y + 1 < height) meet(here, cells[(y + 1) * width + x]!);
    }
  }
  const pairs: [number, number][] = [];
  for (let one = 0; one < count; one++)
    for (let other = one + 1; other < count; other++) if (touch[one * count + other]) pairs.push([one, other]);
  return pairs;
});

/** The chart's bands. A grid is made from one chart and stands for its declared bands too. */
export function bandsOf({ chart, grid }: Pick<Cloth, "chart" | "grid">): readonly Band[] {
  let bands = BANDS.get(grid);
  if (!bands) BANDS.set(grid, (bands = findBands(chart, grid)));
  return bands;
}

const BANDS = new WeakMap<Grid, readonly Band[]>();

/** In how many rows of each band each ink is met: `[band][ink]`. */
export function rowsOfInks(cloth: Pick<Cloth, "chart" | "grid" | "cells" | "inks">): readonly (readonly number[])[] {
  let rows = ROWS_OF_INKS.get(cloth.cells);
  if (!rows) {
    rows = bandsOf(cloth).map(({ rows: [from, to] }) => {
      const met = cloth.inks.map(() => 0);
      for (let row = from; row <= to; row++) for (const ink of inkPieceOf(cloth, row, row).inks) met[ink]! += 1;
      return met;
    });
    ROWS_OF_INKS.set(cloth.cells, rows);
  }
  return rows;
}

const ROWS_OF_INKS = new WeakMap<Uint8Array, readonly (readonly number[])[]>();
