/** Ruled charts by construction: lines, dots in some cells, dark cells, a lean; what is no lattice has none. */
import { expect, test } from "vitest";
import { ruledGrids } from "./ruled.ts";
import type { Level } from "./levels.ts";

/** Lines of two pixels on white; a dot in every third cell, a wholly dark cell where `dark` says so. */
function drawn(
  columns: number,
  rows: number,
  pitch: number,
  options: { lean?: number; dark?: (column: number, row: number) => boolean } = {},
): Level {
  const { lean = 0, dark = () => false } = options;
  const [width, height] = [columns * pitch + 80, rows * pitch + 80 + Math.ceil(lean * columns * pitch)];
  const rgba = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [u, v] = [x - 40, y - 40 - lean * (x - 40)];
      if (u < 0 || v < 0 || u > columns * pitch + 1 || v > rows * pitch + 1) continue;
      const [column, row] = [Math.floor(u / pitch), Math.floor(v / pitch)];
      const isLine = u % pitch < 2 || v % pitch < 2;
      const away = Math.hypot((u % pitch) - pitch / 2 - 1, (v % pitch) - pitch / 2 - 1);
      const isDot = (column + 2 * row) % 3 === 0 && away < pitch / 5;
      const value = isLine ? 90 : isDot || dark(column, row) ? 20 : 255;
      rgba.fill(value, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  return { width, height, scale: 1, rgba };
}

const cornersOf = (level: Level): number[] => {
  const [{ sheet, columns, rows }] = ruledGrids(level) as [ReturnType<typeof ruledGrids>[number]];
  return [columns, rows, ...sheet.at(0, 0), ...sheet.at(columns, rows)];
};

/** Half a pixel for the middle of a line of two. */
const NEAR = 0;

test("a chart of dots is counted and placed by its lines", () => {
  const [columns, rows, left, top, right, bottom] = cornersOf(drawn(17, 12, 20));
  expect([columns, rows]).toEqual([17, 12]);
  expect(left).toBeCloseTo(41, NEAR);
  expect(top).toBeCloseTo(41, NEAR);
  expect(right).toBeCloseTo(381, NEAR);
  expect(bottom).toBeCloseTo(281, NEAR);
});

test("a lean of three in a hundred and dark stitches change nothing", () => {
  const level = drawn(16, 20, 18, { lean: 0.03, dark: (column, row) => (column * 7 + row * 5) % 6 === 0 });
  expect(cornersOf(level).slice(0, 2)).toEqual([16, 20]);
});

test("a row that is dark from end to end parts no chart", () => {
  expect(cornersOf(drawn(14, 15, 18, { dark: (_, row) => row === 6 })).slice(0, 2)).toEqual([14, 15]);
});

test("an even page has none", () => {
  const level: Level = { width: 90, height: 70, scale: 1, rgba: new Uint8ClampedArray(90 * 70 * 4).fill(230) };
  expect(ruledGrids(level)).toEqual([]);
});
