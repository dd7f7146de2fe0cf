import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellUnder, leftOf, topOf } from "../pattern/laidChart.ts";
import { deskGeometry, firstStitch, NUMBERS, stitchWindow, wholeStitch, zoomWithin } from "./deskGeometry.ts";

const sizes = fc.record({
  columns: fc.integer({ min: 1, max: 400 }),
  rows: fc.integer({ min: 1, max: 400 }),
  aspect: fc.double({ min: 0.6, max: 1.2, noNaN: true }),
  view: fc.record({ width: fc.integer({ min: 200, max: 2000 }), height: fc.integer({ min: 200, max: 1500 }) }),
});

describe("where stitches lie on the desk", () => {
  it("the stitch under a stitch's middle is that stitch, at any size", () => {
    fc.assert(
      fc.property(sizes, fc.double({ min: 1.5, max: 64, noNaN: true }), fc.nat(), (size, stitch, seed) => {
        const geometry = deskGeometry(size, stitch);
        const [row, column] = [(seed % size.rows) + 1, (seed % size.columns) + 1];
        const x = leftOf(geometry, column) + stitch / 2;
        const y = topOf(geometry, row) + geometry.row / 2;
        expect(cellUnder(geometry, x, y)).toEqual([row, column]);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("row 1 is lowest, column 1 rightmost, and the chart has room for its numbers", () => {
    const geometry = deskGeometry({ columns: 4, rows: 3, aspect: 1, view: { width: 400, height: 300 } }, 20);
    expect(leftOf(geometry, 4)).toBe(geometry.left);
    expect(topOf(geometry, 3)).toBe(geometry.top);
    expect(leftOf(geometry, 1)).toBeGreaterThan(leftOf(geometry, 2));
    expect(topOf(geometry, 1)).toBeGreaterThan(topOf(geometry, 2));
    expect(geometry.width).toBe(400);
  });

  it("seen whole it fits the view as far as stitches may shrink; what she begins with can be drawn in", () => {
    fc.assert(
      fc.property(sizes, (size) => {
        const whole = wholeStitch(size);
        const { width, height } = deskGeometry(size, whole);
        if (whole > zoomWithin(0)) {
          expect(width).toBeLessThanOrEqual(size.view.width + 1e-6);
          expect(height).toBeLessThanOrEqual(size.view.height + 1e-6);
        }
        expect(firstStitch(size)).toBeGreaterThanOrEqual(7);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("flat it has room for numbers at both sides, and no stitch is seen under them", () => {
    const size = { columns: 40, rows: 30, aspect: 1, view: { width: 400, height: 300 }, worked: "flat" } as const;
    const flat = deskGeometry(size, 20);
    const round = deskGeometry({ ...size, worked: "round" }, 20);
    expect(flat.left - round.left).toBe(NUMBERS.width);
    expect(flat.width - round.width).toBe(NUMBERS.width);
    // Scrolled into its middle, the chart goes on behind both.
    expect(stitchWindow(flat, { x: 200, y: 0 }, size.view)).toMatchObject({ left: NUMBERS.width, right: 400 - NUMBERS.width }); // prettier-ignore
    expect(stitchWindow(round, { x: 200, y: 0 }, size.view).left).toBe(0);
  });
});
