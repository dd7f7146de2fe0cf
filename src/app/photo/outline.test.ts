import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  cornersOf,
  drawnOutline,
  fitted,
  foundOutline,
  GRIPS,
  LEAST_OUTLINE,
  measuredArea,
  middleOfOutline,
  moved,
  pulled,
  resized,
} from "./outline.ts";

const SIZE = { width: 400, height: 300 };
const number = fc.double({ min: -1000, max: 1000, noNaN: true });
const box = fc.record({ x: number, y: number, width: number, height: number });

const isOnPicture = ({ x, y, width, height }: { x: number; y: number; width: number; height: number }) =>
  [x, y, width, height].every(Number.isInteger) &&
  x >= 0 &&
  y >= 0 &&
  x + width <= SIZE.width &&
  y + height <= SIZE.height &&
  width >= LEAST_OUTLINE &&
  height >= LEAST_OUTLINE;

describe("an outline", () => {
  test("stays on the photograph in whole pixels, wherever it is put", () => {
    fc.assert(
      fc.property(box, number, number, (wanted, across, down) => {
        const outline = drawnOutline("ellipse", wanted, SIZE);
        expect(isOnPicture(outline.box)).toBe(true);
        expect(isOnPicture(moved(outline, across, down, SIZE).box)).toBe(true);
        expect(isOnPicture(resized(outline, wanted, SIZE).box)).toBe(true);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  test("keeps its size when it is moved, and comes back where there is room", () => {
    const outline = drawnOutline("box", { x: 100, y: 100, width: 50, height: 40 }, SIZE);
    const there = moved(outline, 30, -20, SIZE);
    expect(there.box).toEqual({ x: 130, y: 80, width: 50, height: 40 });
    expect(moved(there, -30, 20, SIZE)).toEqual(outline);
    expect(moved(outline, 9999, 9999, SIZE).box).toEqual({ x: 350, y: 260, width: 50, height: 40 });
  });

  test("that was found has the corners it was found by, and is looked at inside", () => {
    const found = {
      outline: [
        [110, 100],
        [190, 105],
        [185, 180],
        [112, 178],
      ] as const,
      inner: { x: 120, y: 115, width: 60, height: 50 },
      confidence: 0.9,
    };
    const outline = foundOutline(found, SIZE);
    expect(outline.box).toEqual({ x: 110, y: 100, width: 80, height: 80 });
    for (const [at, corner] of cornersOf(outline).entries()) {
      expect(corner[0]).toBeCloseTo(found.outline[at]![0], 9);
      expect(corner[1]).toBeCloseTo(found.outline[at]![1], 9);
    }
    const area = measuredArea(outline) as { x: number; y: number; width: number; height: number };
    expect(area.x).toBeCloseTo(120, 9);
    expect(area.height).toBeCloseTo(50, 9);
    // Twice as wide about the same left edge: so is what is looked at.
    const wide = measuredArea(resized(outline, { ...outline.box, width: 160 }, SIZE)) as typeof area;
    expect(wide.x).toBeCloseTo(110 + 2 * 10, 9);
    expect(wide.width).toBeCloseTo(120, 9);
  });

  test("that was found with next to no place to look is looked at in its middle", () => {
    const found = {
      outline: [
        [100, 100],
        [200, 100],
        [200, 200],
        [100, 200],
      ] as const,
      inner: { x: 100, y: 150, width: 20, height: 20 },
      confidence: 0.9,
    };
    const outline = foundOutline(found, SIZE);
    expect(measuredArea(outline)).toEqual({ x: 120, y: 120, width: 60, height: 60 });
    expect(middleOfOutline(outline)).toEqual({ x: 120, y: 120, width: 60, height: 60 });
  });

  test("pulled by a grip leaves the opposite side where it is, and turns over when pulled beyond it", () => {
    const start = { x: 100, y: 100, width: 50, height: 40 };
    expect(GRIPS).toHaveLength(8);
    expect(pulled(start, { across: 1, down: 1 }, [180, 170])).toEqual({ x: 100, y: 100, width: 80, height: 70 });
    expect(pulled(start, { across: -1, down: 0 }, [120, 5])).toEqual({ x: 120, y: 100, width: 30, height: 40 });
    expect(pulled(start, { across: -1, down: 0 }, [170, 5])).toEqual({ x: 150, y: 100, width: 20, height: 40 });
  });

  test("a frame larger than the photograph becomes the photograph", () => {
    expect(fitted({ x: -50, y: -50, width: 900, height: 900 }, SIZE)).toEqual({ x: 0, y: 0, ...SIZE });
  });
});
