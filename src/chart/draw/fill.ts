/** Filling: an area that hangs together in one colour, a whole choice of stitches, or one colour by another. */
import type { Grid } from "../chart.ts";
import { cellIndex, isOn, type Stitch } from "../draw.ts";

interface Bounds {
  /** Whether the left edge is beside the right one, as it is in the round. */
  readonly wraps: boolean;
  /** 1 for each cell that may be filled; null: all may. */
  readonly mask: Uint8Array | null;
}

/** Fills the stitches of one colour that hang together with a stitch by their sides. A stitch off the grid or the mask fills nothing. */
export function flooded(grid: Grid, from: Stitch, value: number, { wraps, mask }: Bounds): Grid {
  const { width, height } = grid;
  const cells = grid.cells.slice();
  if (!isOn(grid, from)) return grid;
  const start = cellIndex(grid, from);
  const before = cells[start]!;
  if (before === value || (mask && mask[start] !== 1)) return grid;
  // A cell is filled when it is put here, so it comes here once.
  const waiting = new Int32Array(cells.length);
  let count = 0;
  const take = (at: number): void => {
    if (cells[at] !== before || (mask && mask[at] !== 1)) return;
    cells[at] = value;
    waiting[count++] = at;
  };
  take(start);
  while (count > 0) {
    const at = waiting[--count]!;
    const column = at % width;
    if (column > 0) take(at - 1);
    else if (wraps) take(at + width - 1);
    if (column < width - 1) take(at + 1);
    else if (wraps) take(at - width + 1);
    if (at >= width) take(at - width);
    if (at < width * (height - 1)) take(at + width);
  }
  return { ...grid, cells };
}

/** Every chosen stitch in one colour. @param mask 1 for each cell that is chosen */
export function filled(grid: Grid, mask: Uint8Array, value: number): Grid {
  return { ...grid, cells: grid.cells.map((cell, at) => (mask[at] === 1 ? value : cell)) };
}

/** Every chosen stitch of one colour in another. @param mask 1 for each cell that is chosen */
export function replaced(grid: Grid, mask: Uint8Array, from: number, to: number): Grid {
  return { ...grid, cells: grid.cells.map((cell, at) => (cell === from && mask[at] === 1 ? to : cell)) };
}
