/** Grids as shapes in a picture: laid on a sheet, between their crossings, over each other. */
import { cornersOfGrid, crossing, type ChartGrid, type Point } from "../chartGrid.ts";
import type { Box } from "./worthiest.ts";
import type { Sheet } from "./sheet.ts";

export function gridOfSheet(sheet: Sheet, { left, top, columns, rows }: Box): ChartGrid {
  const corners = new Float32Array((columns + 1) * (rows + 1) * 2);
  let at = 0;
  for (let row = 0; row <= rows; row++)
    for (let column = 0; column <= columns; column++) {
      const [x, y] = sheet.at(left + column, top + row);
      corners[at++] = x;
      corners[at++] = y;
    }
  return { columns, rows, corners };
}

/** Between four crossings, and beyond the outermost as their cell goes on. */
export function between(grid: ChartGrid, column: number, row: number): [number, number] {
  const left = Math.max(0, Math.min(grid.columns - 1, Math.floor(column)));
  const top = Math.max(0, Math.min(grid.rows - 1, Math.floor(row)));
  const [u, v] = [column - left, row - top];
  const [a, b] = [crossing(grid, top, left), crossing(grid, top, left + 1)];
  const [c, d] = [crossing(grid, top + 1, left), crossing(grid, top + 1, left + 1)];
  const mix = (axis: 0 | 1): number =>
    (a[axis] * (1 - u) + b[axis] * u) * (1 - v) + (c[axis] * (1 - u) + d[axis] * u) * v;
  return [mix(0), mix(1)];
}

/** Of corners clockwise as seen. */
export const isWithin = (corners: readonly Point[], x: number, y: number): boolean =>
  corners.every(([ax, ay], at) => {
    const [bx, by] = corners[(at + 1) % corners.length]!;
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0;
  });

/** Whether a good part of one's stitches lies on the other. */
export function overlaps(one: ChartGrid, other: ChartGrid): boolean {
  const part = (inner: ChartGrid, outer: ChartGrid): number => {
    const corners = cornersOfGrid(outer);
    let [inside, all] = [0, 0];
    for (let row = 0; row <= 8; row++)
      for (let column = 0; column <= 8; column++) {
        const [x, y] = between(inner, ((column + 0.5) / 9) * inner.columns, ((row + 0.5) / 9) * inner.rows);
        all++;
        if (isWithin(corners, x, y)) inside++;
      }
    return inside / all;
  };
  return Math.max(part(one, other), part(other, one)) > MOST_SHARED;
}

const MOST_SHARED = 0.2;
