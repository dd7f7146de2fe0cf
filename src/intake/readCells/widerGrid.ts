/** The grid with some more cells around it, where the page tells how the light fell and what white was. */
import type { ChartGrid } from "../chartGrid.ts";

/** `border` cells more on each side, as large as the outermost ones. */
export function widerGrid({ columns, rows, corners }: ChartGrid, border: number): ChartGrid {
  const wide = columns + 2 * border;
  const high = rows + 2 * border;
  const wider = new Float32Array((wide + 1) * (high + 1) * 2);
  const place = (row: number, column: number, axis: number): number =>
    corners[(row * (columns + 1) + column) * 2 + axis]!;
  // Straight on from the last two lines, first along the rows, then across them.
  const across = (row: number, column: number, axis: number): number => {
    if (column < 0) return place(row, 0, axis) + column * (place(row, 1, axis) - place(row, 0, axis));
    if (column <= columns) return place(row, column, axis);
    return place(row, columns, axis) + (column - columns) * (place(row, columns, axis) - place(row, columns - 1, axis));
  };
  for (let row = -border; row <= rows + border; row++)
    for (let column = -border; column <= columns + border; column++)
      for (let axis = 0; axis < 2; axis++) {
        let value;
        if (row < 0) value = across(0, column, axis) + row * (across(1, column, axis) - across(0, column, axis));
        else if (row <= rows) value = across(row, column, axis);
        else
          value =
            across(rows, column, axis) + (row - rows) * (across(rows, column, axis) - across(rows - 1, column, axis));
        wider[((row + border) * (wide + 1) + column + border) * 2 + axis] = value;
      }
  return { columns: wide, rows: high, corners: wider };
}
