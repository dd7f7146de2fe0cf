/** Where rows have their numbers, by hand. */
import { describe, expect, it } from "vitest";
import { everyNth, rowNumbers, type LaidChart } from "./laidChart.ts";

const laid = (row: number): LaidChart => ({
  columns: 4,
  rows: 200,
  stitch: row,
  row,
  left: 0,
  top: 0,
  width: 4 * row,
  height: 200 * row,
});

describe("the numbers of rows", () => {
  it("stand 1, 2, 5, 10 … apart, as near as they have room", () => {
    // By hand: 13 pixels are needed; a step has 20, 8, 3 and 0.3.
    expect([20, 8, 3, 0.3].map((room) => everyNth(room, 13))).toEqual([1, 2, 5, 50]);
  });

  it("stand where one begins to read: in the round at the right, flat odd ones at the right and even ones at the left (trade.md 6)", () => {
    const round = rowNumbers(laid(20), "round", 13);
    expect([1, 2, 3, 4].map(round)).toEqual(["right", "right", "right", "right"]);
    expect([1, 2, 3, 4].map(rowNumbers(laid(20), undefined, 13))).toEqual(["right", "right", "right", "right"]);
    const flat = rowNumbers(laid(20), "flat", 13);
    expect([1, 2, 3, 4].map(flat)).toEqual(["right", "left", "right", "left"]);
  });

  it("flat go on from side to side where not every row has one", () => {
    // By hand: 4 pixels a row, 13 are needed; every row would have 8 on its side, every fifth has 40.
    const flat = rowNumbers(laid(4), "flat", 13);
    expect([1, 2, 4, 5, 6, 10, 15].map(flat)).toEqual(["right", null, null, "right", null, "left", "right"]);
    // 7 pixels a row: 14 on its side is enough for every row.
    expect([1, 2, 3].map(rowNumbers(laid(7), "flat", 13))).toEqual(["right", "left", "right"]);
  });
});
