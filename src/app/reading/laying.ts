/** A grid in her hands: its corners moved, its sides moved, a row or column more or less at an end. */
import { crossing, cornersOfGrid, type ChartGrid, type Point } from "../../intake/chartGrid.ts";

export interface GridDraft {
  /** Pixels of the sheet, clockwise from the top left. */
  readonly corners: readonly [Point, Point, Point, Point];
  readonly columns: number;
  readonly rows: number;
}

export type Side = "top" | "right" | "bottom" | "left";

export const CORNER_NAMES = ["top left", "top right", "bottom right", "bottom left"] as const;
/** The corners that each side runs between. */
export const SIDE_CORNERS: Readonly<Record<Side, readonly [number, number]>> = {
  top: [0, 1],
  right: [1, 2],
  bottom: [2, 3],
  left: [3, 0],
};

export const draftOf = (grid: ChartGrid): GridDraft => ({
  corners: cornersOfGrid(grid),
  columns: grid.columns,
  rows: grid.rows,
});

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Where nothing was found: the middle of the sheet, to be pulled onto the chart. Counts are a beginning, no guess. */
export const firstDraft = ({ width, height }: Size): GridDraft => ({
  corners: [
    [Math.round(0.2 * width), Math.round(0.2 * height)],
    [Math.round(0.8 * width), Math.round(0.2 * height)],
    [Math.round(0.8 * width), Math.round(0.8 * height)],
    [Math.round(0.2 * width), Math.round(0.8 * height)],
  ],
  columns: 24,
  rows: 24,
});

const within = ([x, y]: Point, { width, height }: Size): Point => [
  Math.min(width, Math.max(0, x)),
  Math.min(height, Math.max(0, y)),
];

export function cornerMoved(draft: GridDraft, corner: number, to: Point, size: Size): GridDraft {
  const corners = draft.corners.map((point, at) => (at === corner ? within(to, size) : point));
  return { ...draft, corners: corners as unknown as GridDraft["corners"] };
}

/** Both ends of a side go along, so that it keeps its direction. */
export function sideMoved(draft: GridDraft, side: Side, [across, down]: Point, size: Size): GridDraft {
  return SIDE_CORNERS[side].reduce((moved, corner) => {
    const [x, y] = draft.corners[corner]!;
    return cornerMoved(moved, corner, [x + across, y + down], size);
  }, draft);
}

export const middleOfSide = ({ corners }: GridDraft, side: Side): Point => {
  const [one, other] = SIDE_CORNERS[side].map((corner) => corners[corner]!) as [Point, Point];
  return [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2];
};

/**
 * A grid with one row or column more at an end, as far from the last line as that from the one before, or with one less.
 * All other lines stay where they are. null where nothing of it would be left.
 */
export function gridWithLine(grid: ChartGrid, side: Side, by: 1 | -1): ChartGrid | null {
  const isRow = side === "top" || side === "bottom";
  const columns = grid.columns + (isRow ? 0 : by);
  const rows = grid.rows + (isRow ? by : 0);
  if (columns < 1 || rows < 1) return null;
  const corners = new Float32Array((rows + 1) * (columns + 1) * 2);
  const [downBy, acrossBy] = [side === "top" ? by : 0, side === "left" ? by : 0];
  let at = 0;
  for (let row = 0; row <= rows; row++)
    for (let column = 0; column <= columns; column++) {
      const [x, y] = lineAt(grid, row - downBy, column - acrossBy);
      corners[at++] = x;
      corners[at++] = y;
    }
  return { columns, rows, corners };
}

/** A crossing of the grid, or of the line that would come next beside it. */
function lineAt(grid: ChartGrid, row: number, column: number): Point {
  const [down, across] = [inside(row, grid.rows), inside(column, grid.columns)];
  const [x, y] = crossing(grid, down, across);
  if (down === row && across === column) return [x, y];
  const [backX, backY] = crossing(grid, 2 * down - row, 2 * across - column);
  return [2 * x - backX, 2 * y - backY];
}

const inside = (value: number, most: number): number => Math.min(most, Math.max(0, value));

/** The least and most rows or columns that can be laid: a chart has two at least, and a project takes so many. */
export const COUNTS = { least: 2, most: 1000 };

/** A sentence where the corners cannot be a chart's: they cross over, or lie in one line. */
export function draftWrong({ corners, columns, rows }: GridDraft): string | null {
  const turns = corners.map((point, at) => {
    const [next, after] = [corners[(at + 1) % 4]!, corners[(at + 2) % 4]!];
    return (next[0] - point[0]) * (after[1] - next[1]) - (next[1] - point[1]) * (after[0] - next[0]);
  });
  if (!turns.every((turn) => turn > 1))
    return "The corners: expected four around the chart, clockwise from the top left, found sides that cross or lie in one line.";
  if (![columns, rows].every((count) => Number.isInteger(count) && count >= COUNTS.least && count <= COUNTS.most))
    return `Stitches and rows: expected whole numbers from ${COUNTS.least} to ${COUNTS.most}.`;
  return null;
}
