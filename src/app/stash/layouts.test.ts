import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  alongLadder,
  aroundCircle,
  circleIn,
  heightOf,
  LADDER_MARGIN,
  type LadderItem,
  type Placed,
} from "./layouts.ts";

const span = { top: 100, bottom: 0 };
const area = { width: 800, height: 600 };
const ladder = (lightness: readonly number[], nameWidth = 60): LadderItem[] =>
  lightness.map((L, index) => ({ id: `y${index}`, L, nameWidth }));
const lightness = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 120 });

/** Each ball against each other one. */
function overlaps({ spots, radius }: Placed): number {
  let count = 0;
  spots.forEach((one, at) => {
    for (const other of spots.slice(at + 1))
      if (Math.hypot(one.x - other.x, one.y - other.y) < 2 * radius - 0.01) count++;
  });
  return count;
}

describe("along the ladder", () => {
  it("the lightest stands at the top, the darkest at the bottom, and between them L* is even", () => {
    expect(heightOf(100, span, 600)).toBe(LADDER_MARGIN);
    expect(heightOf(0, span, 600)).toBe(600 - LADDER_MARGIN);
    expect(heightOf(50, span, 600)).toBe(300);
  });
  it("every yarn is there once, at its own height, within the width, and no ball lies upon another", () => {
    fc.assert(
      fc.property(lightness, (list) => {
        const items = ladder(list);
        const placed = alongLadder(items, span, area);
        expect(placed.spots.map(({ id }) => id).sort()).toEqual(items.map(({ id }) => id).sort());
        for (const spot of placed.spots) {
          const { L } = items.find(({ id }) => id === spot.id)!;
          expect(spot.y).toBeCloseTo(heightOf(L, span, area.height), 9);
          expect(spot.x + placed.radius).toBeLessThanOrEqual(area.width);
        }
        expect(overlaps(placed)).toBe(0);
      }),
      { seed: 7, numRuns: 50 },
    );
  });
  it("few have names, many are smaller, and thousands still lie within the width", () => {
    const few = alongLadder(ladder(Array.from({ length: 40 }, (_, i) => i * 2.5)), span, area);
    expect(few.spots.every(({ name }) => name !== null)).toBe(true);
    const many = alongLadder(ladder(Array.from({ length: 600 }, (_, i) => (i * 37) % 100)), span, area);
    expect(many.spots.every(({ name }) => name === null)).toBe(true);
    expect(many.radius).toBeLessThan(few.radius);
    const heap = alongLadder(ladder(Array.from({ length: 3000 }, () => 50)), span, area);
    expect(heap.spots.every(({ x }) => x <= area.width)).toBe(true);
  });
});

describe("around the circle", () => {
  it("red lies to the right and yellow above the middle; a lone yarn is where its colour is", () => {
    const circle = circleIn(area, 60);
    const [x, y] = circle.middle;
    const at = (a: number, b: number) => aroundCircle([{ id: "y", a, b, nameWidth: 40 }], circle, area).spots[0]!;
    expect(at(60, 0)).toMatchObject({ x: x + circle.radius, y });
    expect(at(0, 30)).toMatchObject({ x, y: y - circle.radius / 2 });
  });
  it("yarns of one colour part until each can be seen", () => {
    const items = Array.from({ length: 30 }, (_, index) => ({ id: `y${index}`, a: 1, b: 1, nameWidth: 40 }));
    const placed = aroundCircle(items, circleIn(area, 40), area);
    expect(new Set(placed.spots.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`)).size).toBe(30);
  });
});
