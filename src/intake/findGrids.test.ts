import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { pixelsOf, type Pixels } from "../raster/pixels.ts";
import { crossing, gridOfLines, type ChartGrid, type Point } from "./chartGrid.ts";
import { findGrids, gridBetween, refineGrid } from "./findGrids.ts";
import { homographyBetween, place } from "./yarnPhoto/homography.ts";

/** A chart by chance, painted pixel by pixel as a camera would see it: four corners in a picture are its truth. */
function photographed(
  corners: readonly Point[],
  columns: number,
  rows: number,
  { width, height, lined, seed }: { width: number; height: number; lined: boolean; seed: number },
): Pixels {
  const random = seededRandom(seed);
  const palette = [
    [236, 228, 208],
    [60, 84, 120],
    [150, 60, 48],
  ];
  const cells = Array.from({ length: columns * rows }, () => palette[Math.floor(random() * palette.length)]!);
  const unit: Point[] = [
    [0, 0],
    [columns, 0],
    [columns, rows],
    [0, rows],
  ];
  const back = homographyBetween(corners, unit)!;
  const rgba = new Uint8ClampedArray(width * height * 4);
  const parts = 3;
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at += 4) {
      const sum = [0, 0, 0];
      for (let part = 0; part < parts * parts; part++) {
        const [u, v] = place(back, x + ((part % parts) + 0.5) / parts, y + (Math.floor(part / parts) + 0.5) / parts);
        const inside = u >= 0 && v >= 0 && u < columns && v < rows;
        const line = lined && Math.min(Math.abs(u - Math.round(u)), Math.abs(v - Math.round(v))) < 0.05;
        const near = u > -0.05 && v > -0.05 && u < columns + 0.05 && v < rows + 0.05;
        const colour =
          line && near ? [40, 40, 40] : inside ? cells[Math.floor(v) * columns + Math.floor(u)]! : [250, 250, 246];
        for (let channel = 0; channel < 3; channel++) sum[channel]! += colour[channel]!;
      }
      for (let channel = 0; channel < 3; channel++)
        rgba[at + channel] = sum[channel]! / parts ** 2 + (random() - 0.5) * 6;
      rgba[at + 3] = 255;
    }
  return pixelsOf(width, height, rgba);
}

/** The farthest that any crossing lies from where four corners put it, in stitches. */
function farthest(grid: ChartGrid, corners: readonly Point[]): number {
  const truth = gridBetween(corners, grid.columns, grid.rows);
  const side = Math.hypot(corners[1]![0] - corners[0]![0], corners[1]![1] - corners[0]![1]) / grid.columns;
  let most = 0;
  for (let row = 0; row <= grid.rows; row++)
    for (let column = 0; column <= grid.columns; column++) {
      const [x, y] = crossing(grid, row, column);
      const [u, v] = crossing(truth, row, column);
      most = Math.max(most, Math.hypot(x - u, y - v) / side);
    }
  return most;
}

// Corners in pixels of a picture of 640 × 520, chosen by hand: upright, turned, and as a telephone held aslant sees a page.
const VIEWS: [string, Point[]][] = [
  ["upright", [[80, 60], [560, 60], [560, 460], [80, 460]]],
  ["turned by some 5°", [[104, 44], [582, 86], [547, 484], [69, 442]]],
  ["held aslant", [[120, 70], [540, 52], [590, 470], [60, 440]]],
]; // prettier-ignore

describe("a chart in a picture", () => {
  it.each(VIEWS.flatMap(([name, corners]) => [true, false].map((lined) => ({ name, corners, lined }))))(
    "$name, lines drawn: $lined",
    ({ corners, lined }) => {
      const pixels = photographed(corners, 24, 20, { width: 640, height: 520, lined, seed: 3 });
      const { grids, why } = findGrids(pixels);
      expect(why).toBeNull();
      expect(grids).toHaveLength(1);
      expect([grids[0]!.grid.columns, grids[0]!.grid.rows]).toEqual([24, 20]);
      expect(grids[0]!.lined).toBe(lined);
      expect(farthest(grids[0]!.grid, corners)).toBeLessThan(0.2);
    },
    20_000,
  );

  it("is counted between corners that she set", () => {
    const corners = VIEWS[2]![1];
    const pixels = photographed(corners, 24, 20, { width: 640, height: 520, lined: true, seed: 5 });
    // Each corner two or three pixels off, as by hand.
    const set = corners.map(([x, y], at): Point => [x + [2, -2, 3, -2][at]!, y + [-2, 2, 2, -3][at]!]);
    const { grids } = findGrids(pixels, { within: set });
    expect([grids[0]!.grid.columns, grids[0]!.grid.rows]).toEqual([24, 20]);
    expect(farthest(grids[0]!.grid, corners)).toBeLessThan(0.2);
  }, 20_000);
});

describe("a grid set by hand", () => {
  it("goes to what is drawn, and its counts stay", () => {
    const corners = VIEWS[2]![1];
    const pixels = photographed(corners, 24, 20, { width: 640, height: 520, lined: true, seed: 4 });
    // Up to 5 pixels off, about a quarter of a stitch of 18 × 19 pixels.
    const set = corners.map(([x, y], at): Point => [x + [5, -4, 4, -4][at]!, y + [-4, 4, 5, -4][at]!]);
    const rough = gridBetween(set, 24, 20);
    const refined = refineGrid(pixels, rough);
    expect([refined.columns, refined.rows]).toEqual([24, 20]);
    expect(farthest(rough, corners)).toBeGreaterThan(0.25);
    expect(farthest(refined, corners)).toBeLessThan(0.12);
  });

  it("between four corners goes through them, and straight lines stay straight", () => {
    const near = fc.double({ min: -0.2, max: 0.2, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(near, near), { minLength: 4, maxLength: 4 }),
        fc.integer({ min: 2, max: 40 }),
        fc.integer({ min: 2, max: 40 }),
        (moved, columns, rows) => {
          const square: Point[] = [
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 1],
          ];
          const corners = square.map(([x, y], at): Point => [(x + moved[at]![0]) * 1000, (y + moved[at]![1]) * 1000]);
          const grid = gridBetween(corners, columns, rows);
          const ends: Point[] = [
            crossing(grid, 0, 0),
            crossing(grid, 0, columns),
            crossing(grid, rows, columns),
            crossing(grid, rows, 0),
          ];
          for (const [at, [x, y]] of ends.entries()) {
            expect(x).toBeCloseTo(corners[at]![0], 1);
            expect(y).toBeCloseTo(corners[at]![1], 1);
          }
          // A perspective takes straight lines to straight lines: every crossing lies on the line of its row's ends.
          for (let row = 0; row <= rows; row++) {
            const [[ax, ay], [bx, by]] = [crossing(grid, row, 0), crossing(grid, row, columns)];
            for (let column = 1; column < columns; column++) {
              const [x, y] = crossing(grid, row, column);
              const off = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
              expect(Math.abs(off)).toBeLessThan(0.05);
            }
          }
        },
      ),
      { seed: 7, numRuns: 30 },
    );
  });
});

describe("exact pictures", () => {
  it("blocks of three pixels are found to the pixel", () => {
    const random = seededRandom(11);
    const [columns, rows] = [14, 9];
    const cells = Array.from({ length: columns * rows }, () => (random() < 0.5 ? 30 : 220));
    const rgba = new Uint8ClampedArray(columns * rows * 9 * 4);
    for (let y = 0; y < rows * 3; y++)
      for (let x = 0; x < columns * 3; x++) {
        const value = cells[Math.floor(y / 3) * columns + Math.floor(x / 3)]!;
        rgba.set([value, value, value, 255], (y * columns * 3 + x) * 4);
      }
    const { grids } = findGrids(pixelsOf(columns * 3, rows * 3, rgba));
    const lines = (count: number): number[] => Array.from({ length: count + 1 }, (_, at) => at * 3);
    expect(grids[0]!.exact).toBe(true);
    expect(grids[0]!.grid).toEqual(gridOfLines(lines(columns), lines(rows)));
  });
});

describe("what is no chart", () => {
  const painted = (width: number, height: number, valueAt: (x: number, y: number) => number): Pixels => {
    const rgba = new Uint8ClampedArray(width * height * 4);
    for (let y = 0, at = 0; y < height; y++)
      for (let x = 0; x < width; x++, at += 4) rgba.set([valueAt(x, y), valueAt(x, y), valueAt(x, y), 255], at);
    return pixelsOf(width, height, rgba);
  };
  it.each<[string, () => Pixels]>([
    [
      "noise",
      () => {
        const random = seededRandom(9);
        const values = Array.from({ length: 300 * 300 }, () => random() * 255);
        return painted(300, 300, (x, y) => values[y * 300 + x]!);
      },
    ],
    ["stripes", () => painted(400, 300, (x) => ((x >> 3) % 2 ? 240 : 40))],
    ["a sky", () => painted(400, 300, (_, y) => 80 + y / 2)],
    ["one colour", () => painted(200, 200, () => 128)],
    ["a line of pixels", () => painted(1, 20_000, (_, y) => (y * 37) % 256)],
    ["a strip", () => painted(20_000, 3, (x, y) => (x * 37 + y * 91) % 256)],
  ])("%s is said to be none", (_, picture) => {
    const { grids, why } = findGrids(picture());
    expect(grids).toEqual([]);
    expect(why).toMatch(/^\S.*[^.]$/);
  });
});
