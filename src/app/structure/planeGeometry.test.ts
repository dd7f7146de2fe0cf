/** The plane by hand: knitters' rows and columns, and the shape of a stitch. */
import { describe, expect, it } from "vitest";
import { leftOf, topOf } from "../pattern/laidChart.ts";
import { LEFT, placeAt, planeOf, RIGHT } from "./planeGeometry.ts";

const gauge = { stitches: 28, rows: 30 };

describe("the plane", () => {
  it("draws a stitch of 28 by 30 to 10 cm 1.071 times as wide as high (trade.md 3)", () => {
    const { stitch, row } = planeOf({ columns: 24, rows: 120 }, gauge, { view: 300, zoom: 1 });
    expect(stitch / row).toBeCloseTo(1.071, 3);
  });

  it("fits the width and grows from there", () => {
    const view = LEFT + RIGHT + 400;
    expect(planeOf({ columns: 400, rows: 400 }, gauge, { view, zoom: 1 }).stitch).toBe(1);
    expect(planeOf({ columns: 400, rows: 400 }, gauge, { view, zoom: 2 }).stitch).toBe(2);
  });

  it("stands in the middle of a view that is wider", () => {
    // 24 stitches of 16 pixels and what is beside them leave 114 of 600: half of it on each side.
    expect(LEFT + RIGHT).toBe(102);
    expect(planeOf({ columns: 24, rows: 9 }, gauge, { view: 600, zoom: 1 })).toMatchObject({
      left: LEFT + 57,
      width: 543,
    });
  });

  it("has row 1 at the bottom and column 1 at the right, and finds them again", () => {
    const plane = planeOf({ columns: 10, rows: 20 }, gauge, { view: LEFT + RIGHT + 100, zoom: 1 });
    const middle = (row: number, column: number): [number, number] => [
      leftOf(plane, column) + plane.stitch / 2,
      topOf(plane, row) + plane.row / 2,
    ];
    expect(leftOf(plane, 1)).toBeCloseTo(plane.width - RIGHT - plane.stitch);
    for (const [row, column] of [
      [1, 1],
      [20, 10],
      [7, 3],
    ] as const)
      expect(placeAt(plane, ...middle(row, column))).toEqual({ row, column });
    expect(placeAt(plane, 4, middle(7, 1)[1])).toEqual({ row: 7, column: 11 });
    expect(placeAt(plane, plane.width - 4, middle(7, 1)[1])).toEqual({ row: 7, column: 0 });
    expect(placeAt(plane, 100, 2)).toBeNull();
  });
});
