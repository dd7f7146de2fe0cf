/** Planes against their definitions, written out plainly. */
import { expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { basinsOf, createPlane, smoothed, type Plane } from "./plane.ts";

function noise(width: number, height: number, seed: number): Plane {
  const random = seededRandom(seed);
  const plane = createPlane(width, height);
  plane.data.forEach((_, at) => (plane.data[at] = random()));
  return plane;
}

/** The mean over a square, its edge going on outside, by its definition. */
function plainMean({ width, height, data }: Plane, reach: number): Plane {
  const out = createPlane(width, height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let v = y - reach; v <= y + reach; v++)
        for (let u = x - reach; u <= x + reach; u++)
          sum += data[Math.max(0, Math.min(height - 1, v)) * width + Math.max(0, Math.min(width - 1, u))]!;
      out.data[y * width + x] = sum / (2 * reach + 1) ** 2;
    }
  return out;
}

it("smoothing is the mean over a square, taken twice", () => {
  for (const [width, height, reach] of [
    [9, 7, 1],
    [5, 12, 3],
    [1, 4, 2],
  ] as const) {
    const plane = noise(width, height, 5);
    const plain = plainMean(plainMean(plane, reach), reach);
    smoothed(plane, reach).data.forEach((value, at) => expect(value).toBeCloseTo(plain.data[at]!, 5));
  }
});

it("two hollows are two basins, parted at the ridge between them", () => {
  // By hand: |x − 4| and |x − 14| have their lowest at 4 and 14, and meet at 9.
  const plane = createPlane(19, 3);
  plane.data.forEach((_, at) => (plane.data[at] = Math.min(Math.abs((at % 19) - 4), Math.abs((at % 19) - 14))));
  const { of, count } = basinsOf(plane);
  expect(count).toBe(2);
  for (let x = 0; x < 19; x++) if (x !== 9) expect(of[x]).toBe(x < 9 ? 0 : 1);
});

it("every pixel is in a basin, and a basin hangs together", () => {
  const plane = smoothed(noise(30, 20, 8), 1);
  const { of, count } = basinsOf(plane);
  const islands = new Set<number>();
  const seen = new Set<number>();
  of.forEach((basin, start) => {
    expect(basin).toBeGreaterThanOrEqual(0);
    if (seen.has(start)) return;
    expect(islands.has(basin)).toBe(false);
    islands.add(basin);
    const open = [start];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (seen.has(at)) continue;
      seen.add(at);
      if (at % 30 > 0 && of[at - 1] === basin) open.push(at - 1);
      if (at % 30 < 29 && of[at + 1] === basin) open.push(at + 1);
      if (at >= 30 && of[at - 30] === basin) open.push(at - 30);
      if (at < 570 && of[at + 30] === basin) open.push(at + 30);
    }
  });
  expect(islands.size).toBe(count);
});
