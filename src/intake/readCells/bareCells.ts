/** Which cells have no lines about them, in a chart whose cells have lines. */
import type { Patches } from "./patches.ts";

/** Bytes by which a line differs from what is on both sides of it. */
const LINE = 12;
/** Part of the sides in a chart that must have a line for the chart to have lines. */
const LINED = 0.5;

/**
 * For each of the chart's cells 1 where fewer than two of its four sides have a line; all 0 where the chart has no lines.
 * `patches` are of the chart with `border` cells more on each side.
 */
export function bareCells(patches: Patches, border: number): Uint8Array {
  const { columns: wide, rows: high, side } = patches;
  const [columns, rows] = [wide - 2 * border, high - 2 * border];
  const bare = new Uint8Array(columns * rows);
  if (side < 6) return bare;
  const sides = new Uint8Array(columns * rows);
  let lines = 0;
  const count = (column: number, row: number, drawn: number): void => {
    if (column < 0 || row < 0 || column >= columns || row >= rows) return;
    sides[row * columns + column]! += drawn;
    lines += drawn;
  };
  for (let row = 0; row <= rows; row++)
    for (let column = 0; column <= columns; column++) {
      const cell = (row + border) * wide + column + border;
      if (row < rows) {
        const left = lineBetween(patches, cell - 1, cell, false);
        count(column - 1, row, left);
        count(column, row, left);
      }
      if (column < columns) {
        const over = lineBetween(patches, cell - wide, cell, true);
        count(column, row - 1, over);
        count(column, row, over);
      }
    }
  if (lines < LINED * 4 * columns * rows * 0.5) return bare;
  return bare.map((_, cell) => (sides[cell]! < 2 ? 1 : 0));
}

/** 1 where the samples at the common side are unlike those further in, on both sides. */
function lineBetween({ side, bytes }: Patches, one: number, other: number, down: boolean): number {
  const each = side * side * 3;
  const sums = [0, 0, 0];
  const depth = Math.max(1, Math.round(0.3 * side));
  const near = Math.max(1, Math.round(0.12 * side));
  const at = (cell: number, along: number, across: number, channel: number): number =>
    bytes[cell * each + (down ? across * side + along : along * side + across) * 3 + channel]!;
  const skip = Math.round(0.2 * side);
  const profile: number[][] = [];
  for (let across = side - depth; across < side + depth; across++) {
    const mean = sums.map(() => 0);
    for (let along = skip; along < side - skip; along++)
      for (let channel = 0; channel < 3; channel++)
        mean[channel]! +=
          (across < side ? at(one, along, across, channel) : at(other, along, across - side, channel)) /
          (side - 2 * skip);
    profile.push(mean);
  }
  const [first, last] = [profile[0]!, profile.at(-1)!];
  for (let index = depth - near; index < depth + near; index++)
    for (let channel = 0; channel < 3; channel++) {
      const value = profile[index]![channel]!;
      const [low, top] = [Math.min(first[channel]!, last[channel]!), Math.max(first[channel]!, last[channel]!)];
      if (value < low - LINE || value > top + LINE) return 1;
    }
  return 0;
}
