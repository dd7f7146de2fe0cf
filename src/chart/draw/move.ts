/** Moving stitches: they change places with what they come to lie on, so that no stitch is lost and none is new. */
import type { Grid } from "../chart.ts";
import { columnsOf, maskOf, type Selection } from "../draw.ts";

export interface Moved {
  readonly grid: Grid;
  /** The same stitches where they are now. */
  readonly selection: Selection;
}

/**
 * Moves chosen stitches up (rows) and to the left (columns), as far as the grid goes. What lay there fills the places
 * that they leave: a motif that is moved on its ground leaves ground. Where the grid is round and the choice goes all
 * the way round, it turns.
 */
export function moved(grid: Grid, selection: Selection, by: readonly [number, number], wraps: boolean): Moved {
  const turns = wraps && columnsOf(selection) === grid.width;
  const rows = within(by[0], 1 - selection.rows[0], grid.height - selection.rows[1]);
  const columns = turns
    ? by[1] % grid.width
    : within(by[1], 1 - selection.columns[0], grid.width - selection.columns[1]);
  if (rows === 0 && columns === 0) return { grid, selection };
  const { width } = grid;
  const chosen = maskOf(grid, selection);
  const cells = grid.cells.slice();
  const mask = new Uint8Array(chosen.length);
  const step = (at: number, sign: 1 | -1): number => {
    const column = (at % width) + sign * columns;
    const row = Math.floor(at / width) + sign * rows;
    if (row < 0 || row >= grid.height || (!turns && (column < 0 || column >= width))) return -1;
    return row * width + ((column + width) % width);
  };
  for (let at = 0; at < chosen.length; at++) {
    if (chosen[at] !== 1) continue;
    const to = step(at, 1);
    mask[to] = 1;
    cells[to] = grid.cells[at]!;
  }
  for (let at = 0; at < chosen.length; at++) {
    if (mask[at] !== 1 || chosen[at] === 1) continue;
    // Back along the way of the move to the first place that nothing came to: it was left, and is free for what lay here.
    let free = at;
    do free = step(free, -1);
    while (mask[free] === 1);
    cells[free] = grid.cells[at]!;
  }
  return {
    grid: { ...grid, cells },
    selection: {
      rows: [selection.rows[0] + rows, selection.rows[1] + rows],
      columns: turns ? selection.columns : [selection.columns[0] + columns, selection.columns[1] + columns],
      mask: selection.mask && mask,
    },
  };
}

const within = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));
