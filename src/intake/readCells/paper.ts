/** What the page around a chart tells of the camera: which white it saw, and whether there was a camera at all. */
import type { Pixels } from "../../raster/pixels.ts";
import { crossing, type ChartGrid } from "../chartGrid.ts";
import type { Grounds } from "./grounds.ts";

export interface Paper {
  /** Linear light of the page, the unevenness taken out. */
  readonly light: readonly [number, number, number];
  /** Whether a scanner or a camera has been at work: nothing drawn by a program has grain on its page. */
  readonly grainy: boolean;
  /** Whether it may be taken for white: nothing in the chart is much lighter. */
  readonly white: boolean;
}

/** Bytes: pages that vary more have grain. Our choice; the least noise of a good scanner is about half a byte. */
const GRAIN = 0.3;
/** Part of a cell around the chart that must be of one colour to be page. */
const BARE = 0.85;
/** Part of the cells around the chart that must be the page's. */
const ENOUGH = 0.15;
/** Part of the chart's lightest that the page must have to be white paper. */
const WHITEST = 0.75;
/** How far from the page's usual light, as a part of it, what is page may lie. */
const ALIKE = 0.12;

/** `light` is of the cells of the wider grid, of which the outer `border` on each side are around the chart. */
export function paperOf(
  pixels: Pixels,
  wider: ChartGrid,
  border: number,
  grounds: Grounds,
  light: Float32Array,
): Paper | null {
  const around: number[] = [];
  for (let row = 0; row < wider.rows; row++)
    for (let column = 0; column < wider.columns; column++) {
      const inside = row >= border && row < wider.rows - border && column >= border && column < wider.columns - border;
      const cell = row * wider.columns + column;
      if (!inside && grounds.even[cell]! >= BARE && isOn(pixels, wider, row, column)) around.push(cell);
    }
  if (around.length === 0) return null;
  const luma = (cell: number): number =>
    0.3 * light[cell * 3]! + 0.6 * light[cell * 3 + 1]! + 0.1 * light[cell * 3 + 2]!;
  // The lightest colour that many have; a desk beside the page is darker.
  const sorted = around.toSorted((one, other) => luma(other) - luma(one));
  const needed = Math.max(4, ENOUGH * around.length);
  for (let from = 0; from < sorted.length; from++) {
    const top = luma(sorted[from]!);
    const members = sorted.slice(from).filter((cell) => luma(cell) > top * (1 - 2 * ALIKE));
    if (members.length < needed) continue;
    const channel = (index: number): number => middle(members.map((cell) => light[cell * 3 + index]!));
    const grain = middle(
      members.map((cell) => grainIn(pixels, wider, Math.floor(cell / wider.columns), cell % wider.columns)),
    );
    // A page that is darker than what stands on it is not white.
    const lumas = Array.from({ length: light.length / 3 }, (_, cell) => luma(cell)).sort((one, other) => one - other);
    const white = luma(members[members.length >> 1]!) >= WHITEST * lumas[Math.floor(0.95 * (lumas.length - 1))]!;
    return { light: [channel(0), channel(1), channel(2)], grainy: grain > GRAIN, white };
  }
  return null;
}

const middle = (numbers: number[]): number => numbers.sort((one, other) => one - other)[numbers.length >> 1]!;

function isOn({ width, height }: Pixels, grid: ChartGrid, row: number, column: number): boolean {
  return [0, 1].every((down) =>
    [0, 1].every((across) => {
      const [x, y] = crossing(grid, row + down, column + across);
      return x >= 0 && y >= 0 && x <= width && y <= height;
    }),
  );
}

/** Mean difference of neighbouring pixels across the middle of a cell, bytes. */
function grainIn({ width, rgba, height }: Pixels, grid: ChartGrid, row: number, column: number): number {
  const [x0, y0] = crossing(grid, row, column);
  const [x1, y1] = crossing(grid, row + 1, column + 1);
  const y = Math.min(height - 1, Math.max(0, Math.floor((y0 + y1) / 2)));
  const [from, to] = [Math.ceil(Math.min(x0, x1) + 1), Math.floor(Math.max(x0, x1) - 1)];
  let [sum, count] = [0, 0];
  for (let x = Math.max(1, from); x < Math.min(width, to); x++)
    for (let channel = 0; channel < 3; channel++, count++)
      sum += Math.abs(rgba[(y * width + x) * 4 + channel]! - rgba[(y * width + x - 1) * 4 + channel]!);
  return count === 0 ? 0 : sum / count;
}
