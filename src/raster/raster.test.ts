import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../base/random.ts";
import { byteFromLinear, linearFromBytes } from "../colour/srgb.ts";
import { bytesFromRaster, clipBox, createRaster, crop, meanColour, rasterFromBytes } from "./raster.ts";

const rgbaOf = (...pixels: [number, number, number, number][]): Uint8Array => Uint8Array.from(pixels.flat());

describe("raster", () => {
  test("every byte comes back, and is opaque", () => {
    const rgba = rgbaOf(
      ...Array.from({ length: 256 }, (_, byte): [number, number, number, number] => [byte, 255 - byte, byte ^ 90, 255]),
    );
    expect([...bytesFromRaster(rasterFromBytes(16, 16, rgba))]).toEqual([...rgba]);
  });

  test("any light becomes the byte that the plain rounding gives", () => {
    const random = seededRandom(12);
    const raster = createRaster(100, 100);
    // Squares crowd in the darks, where the curve is steepest.
    raster.data.forEach((_, at) => (raster.data[at] = 1.2 * random() ** 4 - 0.01));
    const rgba = bytesFromRaster(raster);
    raster.data.forEach((light, at) => expect(rgba[Math.floor(at / 3) * 4 + (at % 3)]).toBe(byteFromLinear(light)));
  });

  test("what shines through is white paper, mixed as viewers do", () => {
    const raster = rasterFromBytes(3, 1, rgbaOf([255, 0, 0, 0], [0, 0, 0, 255], [0, 0, 100, 51]));
    // By hand: 51/255 = 0.2; 0.2 · 0 + 0.8 · 255 = 204, 0.2 · 100 + 0.8 · 255 = 224.
    expect([...bytesFromRaster(raster)]).toEqual([255, 255, 255, 255, 0, 0, 0, 255, 204, 204, 224, 255]);
  });

  test("the mean of black and white is half the light", () => {
    const raster = rasterFromBytes(2, 1, rgbaOf([0, 0, 0, 255], [255, 255, 255, 255]));
    expect(meanColour(raster)).toEqual([0.5, 0.5, 0.5]);
    expect(meanColour(raster, { x: 1, y: 0, width: 1, height: 1 })).toEqual([1, 1, 1]);
  });

  test("a crop is the part of the picture, cut at its edges, at the same scale", () => {
    const pixels = Array.from({ length: 12 }, (_, at): [number, number, number, number] => [at * 20, 0, 0, 255]);
    const raster = { ...rasterFromBytes(4, 3, rgbaOf(...pixels)), millimetresPerPixel: 0.5 };
    const part = crop(raster, { x: 2, y: 1, width: 5, height: 9 });
    expect([part.width, part.height, part.millimetresPerPixel]).toEqual([2, 2, 0.5]);
    const reds = [...bytesFromRaster(part)].filter((_, at) => at % 4 === 0);
    // By hand: pixels 6, 7, 10 and 11 of twelve.
    expect(reds).toEqual([120, 140, 200, 220]);
    expect(() => crop(raster, { x: 4, y: 0, width: 2, height: 2 })).toThrow("0 pixels wide");
  });

  test("a clipped box lies on the raster and inside the box", () => {
    const whole = fc.integer({ min: -20, max: 20 });
    const size = fc.integer({ min: 0, max: 30 });
    fc.assert(
      fc.property(whole, whole, size, size, (x, y, width, height) => {
        const clipped = clipBox({ width: 10, height: 8 }, { x, y, width, height });
        expect(clipped.width).toBeGreaterThanOrEqual(0);
        expect(clipped.height).toBeGreaterThanOrEqual(0);
        expect(clipped.x + clipped.width).toBeLessThanOrEqual(10);
        expect(clipped.y + clipped.height).toBeLessThanOrEqual(8);
        expect(clipped.width).toBeLessThanOrEqual(width);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test("mean and crop agree", () => {
    const random = seededRandom(2);
    const raster = createRaster(9, 7);
    raster.data.forEach((_, at) => (raster.data[at] = random()));
    const box = { x: 2, y: 3, width: 5, height: 2 };
    meanColour(raster, box).forEach((value, at) => expect(value).toBeCloseTo(meanColour(crop(raster, box))[at]!, 10));
    expect(meanColour(rasterFromBytes(1, 1, rgbaOf([10, 20, 30, 255])))).toEqual(
      linearFromBytes(10, 20, 30).map(Math.fround),
    );
  });
});
