/** What recurs across a chart: the repeat's width, and the lines about which it mirrors. */
import { cellAt, type Grid } from "./chart.ts";

/** The smallest width in stitches that divides the chart's and after which every row from `fromRow` to `toRow` recurs. */
export function horizontalPeriod(grid: Grid, fromRow: number, toRow: number): number {
  const { width } = grid;
  for (let period = 1; period < width; period++) {
    if (width % period === 0 && recursAfter(grid, fromRow, toRow, period)) return period;
  }
  return width;
}

function recursAfter(grid: Grid, fromRow: number, toRow: number, period: number): boolean {
  for (let row = fromRow; row <= toRow; row++) {
    for (let column = period + 1; column <= grid.width; column++) {
      if (cellAt(grid, row, column) !== cellAt(grid, row, column - period)) return false;
    }
  }
  return true;
}

/**
 * Where every row from `fromRow` to `toRow` mirrors when the chart tiles: columns counted from 1 at the right edge,
 * .5 between two stitches, from 1 up to but not including the repeat's width + 1. None for a motif that leans.
 */
export function mirrorAxes(grid: Grid, fromRow: number, toRow: number): number[] {
  const period = horizontalPeriod(grid, fromRow, toRow);
  const axes: number[] = [];
  // Columns c and s − c lie on opposite sides of the axis s / 2; a sum s and s + period name the two axes of one reflection.
  for (let sum = 0; sum < 2 * period; sum++) {
    if (mirrorsAt(grid, fromRow, toRow, period, sum)) axes.push(1 + sum / 2);
  }
  return axes;
}

function mirrorsAt(grid: Grid, fromRow: number, toRow: number, period: number, sum: number): boolean {
  for (let row = fromRow; row <= toRow; row++) {
    for (let column = 0; column < period; column++) {
      const opposite = (sum - column + 2 * period) % period;
      if (cellAt(grid, row, column + 1) !== cellAt(grid, row, opposite + 1)) return false;
    }
  }
  return true;
}
