/** Moving and mirroring stitches: they change places with what they come to lie on, so that no stitch is lost and none is new. */
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

/**
 * Mirrors chosen stitches within their rectangle, left to right or upside down, or turns them by a half. Where only some
 * stitches of the rectangle are chosen, these change places with what lies at their mirrored places; the others stay.
 */
export function mirrored(grid: Grid, selection: Selection, how: "across" | "up" | "about"): Moved {
  const { width } = grid;
  const { rows, columns } = selection;
  const chosen = maskOf(grid, selection);
  const cells = grid.cells.slice();
  const mask = new Uint8Array(chosen.length);
  for (let row = rows[0]; row <= rows[1]; row++)
    for (let column = columns[0]; column <= columns[1]; column++) {
      const at = (row - 1) * width + column - 1;
      const toRow = how === "across" ? row : rows[0] + rows[1] - row;
      const toColumn = how === "up" ? column : columns[0] + columns[1] - column;
      const to = (toRow - 1) * width + toColumn - 1;
      mask[to] = chosen[at]!;
      if (chosen[at] === 1 || chosen[to] === 1) cells[to] = grid.cells[at]!;
    }
  return { grid: { ...grid, cells }, selection: { ...selection, mask: selection.mask && mask } };
}

const within = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));
