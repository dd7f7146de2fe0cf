import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { crossing, gridOfLines } from "../../intake/chartGrid.ts";
import { cornerMoved, draftOf, draftWrong, firstDraft, gridWithLine, sideMoved, type Side } from "./laying.ts";

const size = { width: 200, height: 100 };
// Three columns of 10 pixels and two rows of 20, by hand.
const grid = gridOfLines([20, 30, 40, 50], [10, 30, 50]);

describe("a row or column more or less at an end", () => {
  it("a column more lies one column's width beyond the last line, all others stay", () => {
    const wider = gridWithLine(grid, "left", 1)!;
    expect(wider.columns).toBe(4);
    expect([0, 1, 2, 3, 4].map((column) => crossing(wider, 0, column)[0])).toEqual([10, 20, 30, 40, 50]);
    const higher = gridWithLine(grid, "bottom", 1)!;
    expect(higher.rows).toBe(3);
    expect([0, 1, 2, 3].map((row) => crossing(higher, row, 2)[1])).toEqual([10, 30, 50, 70]);
  });
  it("a row less at the top leaves the lower ones", () => {
    const lower = gridWithLine(grid, "top", -1)!;
    expect([lower.rows, crossing(lower, 0, 0), crossing(lower, 1, 3)]).toEqual([1, [20, 30], [50, 50]]);
    expect(gridWithLine(lower, "top", -1)).toBeNull();
  });
  it("one more and one less at the same end is the same grid, however it lies", () => {
    const place = fc.integer({ min: 0, max: 400 });
    fc.assert(
      fc.property(
        fc.array(place, { minLength: 24, maxLength: 24 }),
        fc.constantFrom<Side>("top", "right", "bottom", "left"),
        (numbers, side) => {
          const askew = { columns: 3, rows: 2, corners: Float32Array.from(numbers) };
          expect(gridWithLine(gridWithLine(askew, side, 1)!, side, -1)).toEqual(askew);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe("corners in her hands", () => {
  it("a side moves with both its ends and stays on the sheet", () => {
    const moved = sideMoved(draftOf(grid), "right", [5, 0], size);
    expect(moved.corners).toEqual([
      [20, 10],
      [55, 10],
      [55, 50],
      [20, 50],
    ]);
    expect(cornerMoved(moved, 1, [900, -4], size).corners[1]).toEqual([200, 0]);
  });
  it("what cannot be a chart is told", () => {
    expect(draftWrong(firstDraft(size))).toBeNull();
    const crossed = cornerMoved(firstDraft(size), 0, [190, 90], size);
    expect(draftWrong(crossed)).toMatch(/^The corners: expected four around the chart/);
    expect(draftWrong({ ...firstDraft(size), rows: 1 })).toMatch(/whole numbers from 2/);
    expect(draftWrong({ ...firstDraft(size), columns: 2.5 })).toMatch(/whole numbers from 2/);
  });
});
