import { describe, expect, it } from "vitest";
import { gridOfLines } from "../../intake/chartGrid.ts";
import { setCells } from "../../intake/correctChart.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import { drawnLooks } from "../worker/drawnLooks.ts";
import { joinedInHand, placesOf } from "./joining.ts";
import { chartInHand, partAt } from "./reading.ts";

const black = { hex: "#000000", lab: [0, 0, 0] as [number, number, number] };
const white = { hex: "#ffffff", lab: [100, 0, 0] as [number, number, number] };
const chart = (rows: string[]): ReadChart => ({
  rows,
  colours: { A: white, B: black },
  confidence: 1,
  box: null,
  page: 1,
  uncertain: [],
  grid: gridOfLines(
    [0, 10, 20, 30],
    Array.from({ length: rows.length + 1 }, (_, at) => 10 * at),
  ),
});
const hand = (rows: string[], sheet: string) =>
  chartInHand(`${sheet} 1`, sheet, { chart: chart(rows), looks: drawnLooks(chart(rows)) }, sheet, false);

describe("where parts come to lie", () => {
  it("the upper page at the top, with the shared rows counted once", () => {
    // Five rows below, four above, two of them the same: seven in all, the lower part beginning at the third.
    const sizes = [
      { columns: 3, rows: 5 },
      { columns: 3, rows: 4 },
    ];
    expect(placesOf(sizes, [{ first: 0, second: 1, side: "above", overlap: 2 }])).toEqual([
      { top: 2, left: 0 },
      { top: 0, left: 0 },
    ]);
  });
  it("four quarters hang together by three joints, whichever is first", () => {
    const sizes = [3, 3, 3, 3].map((columns) => ({ columns, rows: 2 }));
    const joints = [
      { first: 2, second: 3, side: "left", overlap: 0 },
      { first: 2, second: 1, side: "above", overlap: 0 },
      { first: 1, second: 0, side: "left", overlap: 1 },
    ] as const;
    expect(placesOf(sizes, joints)).toEqual([
      { top: 0, left: 1 },
      { top: 0, left: 3 },
      { top: 2, left: 3 },
      { top: 2, left: 0 },
    ]);
    expect(placesOf(sizes, joints.slice(0, 1))).toBeNull();
  });
});

describe("a chart put together", () => {
  it("knows of each cell which sheet it is on, and keeps what she put right", () => {
    const lower = hand(["ABA", "BBB"], "lower");
    const righted = { ...lower, state: setCells(lower.state, [[1, 3]], "A") };
    const upper = hand(["AAA", "ABA"], "upper");
    const whole: ReadChart = { ...chart(["AAA", "ABA", "ABB"]), colours: { A: white, B: black } };
    const joined = joinedInHand([righted, upper], whole, [{ first: 0, second: 1, side: "above", overlap: 1 }]);
    expect(joined.state.looks.rows).toBe(3);
    expect(partAt(joined, 0, 0)!.sheet).toBe("upper");
    expect(partAt(joined, 2, 0)!.sheet).toBe("lower");
    // The bottom row's leftmost cell: row 1, column 3, the seventh from the top left.
    expect([...joined.state.touched]).toEqual([6]);
    // Its picture had black there, whatever she said of it.
    expect([...joined.state.looks.labs.slice(18, 21)]).toEqual([0, 0, 0]);
  });
});
