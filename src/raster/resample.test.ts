import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../base/random.ts";
import { createRaster, meanColour, type Raster } from "./raster.ts";
import { shrink, shrinkBy } from "./resample.ts";

/** A float holds seven digits. */
const FLOAT = 1e-6;

function noise(width: number, height: number, seed: number): Raster {
  const random = seededRandom(seed);
  const raster = createRaster(width, height);
  raster.data.forEach((_, at) => (raster.data[at] = random()));
  return raster;
}

/** The area of each old pixel under each new one, summed without any shortcut. */
function plain(raster: Raster, width: number, height: number): number[] {
  const overlap = (new1: number, size: number, old: number): number =>
    Math.max(0, Math.min((new1 + 1) * size, old + 1) - Math.max(new1 * size, old));
  const [across, down] = [raster.width / width, raster.height / height];
  const result: number[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let channel = 0; channel < 3; channel++) {
        let sum = 0;
        for (let row = 0; row < raster.height; row++)
          for (let column = 0; column < raster.width; column++)
            sum +=
              overlap(x, across, column) *
              overlap(y, down, row) *
              raster.data[(row * raster.width + column) * 3 + channel]!;
        result.push(sum / (across * down));
      }
  return result;
}

const side = fc.integer({ min: 1, max: 17 });

describe("shrinking", () => {
  test("two by two pixels become their mean, at twice the millimetres", () => {
    const raster = { ...createRaster(4, 2), millimetresPerPixel: 0.1 };
    [0, 1, 0.5, 0.5, 1, 0, 0, 0].forEach((light, pixel) => raster.data.fill(light, pixel * 3, pixel * 3 + 3));
    const small = shrinkBy(raster, 0.5);
    // By hand: (0 + 1 + 1 + 0)/4 and (0.5 + 0.5 + 0 + 0)/4.
    expect([...small.data]).toEqual([0.5, 0.5, 0.5, 0.25, 0.25, 0.25]);
    expect(small.millimetresPerPixel).toBeCloseTo(0.2, 12);
  });

  test("equals the areas summed one by one, keeps the mean and leaves a plain field plain", () => {
    fc.assert(
      fc.property(side, side, side, side, (width, height, smallWidth, smallHeight) => {
        fc.pre(smallWidth <= width && smallHeight <= height);
        const raster = noise(width, height, width * 31 + height);
        const small = shrink(raster, { width: smallWidth, height: smallHeight });
        plain(raster, smallWidth, smallHeight).forEach((value, at) =>
          expect(Math.abs(small.data[at]! - value)).toBeLessThan(FLOAT),
        );
        const mean = meanColour(raster);
        meanColour(small).forEach((value, at) => expect(Math.abs(value - mean[at]!)).toBeLessThan(FLOAT));
        raster.data.fill(0.3);
        shrink(raster, { width: smallWidth, height: smallHeight }).data.forEach((value) =>
          expect(Math.abs(value - 0.3)).toBeLessThan(FLOAT),
        );
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  test("the size it has is left as it is, and at least one pixel remains", () => {
    const raster = noise(5, 3, 1);
    expect(shrink(raster, { width: 5, height: 3 })).toBe(raster);
    const least = shrinkBy(raster, 0.01);
    expect([least.width, least.height]).toEqual([1, 1]);
    expect(() => shrink(raster, { width: 6, height: 3 })).toThrow("larger");
  });
});
