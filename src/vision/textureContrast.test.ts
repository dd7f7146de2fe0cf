/** Pictures whose texture is known because it was put there. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { seededRandom } from "../base/random.ts";
import { createRaster, type Raster } from "../raster/raster.ts";
import { textureContrast, type TextureContrast } from "./textureContrast.ts";

const STITCH = { width: 8, height: 7.5 };

type Light = (x: number, y: number) => number;

/** A picture by its light; x in stitches from the left, y in rows from the top. */
function pictured(light: Light, { columns = 24, rows = 24, stitch = STITCH } = {}): Raster {
  const raster = createRaster(Math.round(columns * stitch.width), Math.round(rows * stitch.height));
  for (let y = 0, at = 0; y < raster.height; y++)
    for (let x = 0; x < raster.width; x++, at += 3)
      raster.data.fill(light((x + 0.5) / stitch.width, (y + 0.5) / stitch.height), at, at + 3);
  return raster;
}

function measured(raster: Raster, stitch = STITCH): TextureContrast {
  const { value, problems } = textureContrast(raster, stitch);
  expect(problems).toEqual([]);
  return value!;
}

/** A wave of so many cycles per stitch and row, whose root mean square is `contrast`. */
const wave =
  (contrast: number, across: number, up: number): Light =>
  (x, y) =>
    contrast * Math.SQRT2 * Math.cos(2 * Math.PI * (across * x + up * y) + 1);
const cloth =
  (...waves: Light[]): Light =>
  (x, y) =>
    0.4 * waves.reduce((sum, one) => sum + one(x, y), 1);

/** What fading a picture to its borders costs: 2 % of a contrast. */
const FADING = 0.02;
const near = (found: number, expected: number, part = FADING): void =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(part * expected);

describe("the stitch's octave", () => {
  it.each([
    [0.12, 1, 0],
    [0.12, 0, 1],
    [0.05, 1, 1],
    [0.3, 1, -1],
    [0.02, 0.9, 0.3],
  ])("holds a wave of contrast %d, %d across and %d up", (contrast, across, up) => {
    const { stitch, floor } = measured(pictured(cloth(wave(contrast, across, up))));
    near(stitch, contrast);
    expect(floor).toBeLessThan(0.01 * contrast);
  });

  it("adds waves in power, and leaves harmonics to finer octaves", () => {
    const { stitch, octaves } = measured(pictured(cloth(wave(0.09, 1, 0), wave(0.12, 0, 1), wave(0.2, 2, 0))));
    near(stitch, 0.15); // 9, 12, 15
    near(octaves.find(({ from }) => from === 1.5)!.contrast, 0.2);
  });

  it("is the same in any light, at any size, and on any cut", () => {
    const light = cloth(wave(0.12, 1, 0), wave(0.03, 0.4, 0.3));
    for (const raster of [
      pictured((x, y) => 0.05 * light(x, y)),
      pictured(light, { columns: 21.3, rows: 18.7 }),
      pictured(light, { columns: 70, rows: 50 }),
    ])
      near(measured(raster).stitch, 0.12);
    // From 16 pixels a stitch on, pixels are joined; each is the mean light of its area.
    const large = { width: 45, height: 40 };
    near(measured(pictured(light, { columns: 20, rows: 20, stitch: large }), large).stitch, 0.12);
  });

  it("grows as the contrast does", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.2, noNaN: true }), fc.integer({ min: 1, max: 5 }), (contrast, seed) => {
        const random = seededRandom(seed);
        const waves = Array.from({ length: 3 }, () => wave(contrast, 0.8 + 0.4 * random(), random()));
        const once = measured(pictured(cloth(...waves), { columns: 17, rows: 17 }));
        const half = measured(pictured((x, y) => (0.4 + cloth(...waves)(x, y)) / 2, { columns: 17, rows: 17 }));
        near(half.stitch, once.stitch / 2, 0.05);
      }),
      { seed: 7, numRuns: 8 },
    ));
});

describe("the floor", () => {
  it("is the contrast an octave below the stitch's, whatever the stitch's own", () => {
    const uneven = [wave(0.025, 0.27, 0), wave(0.025, 0.1, 0.5)];
    near(measured(pictured(cloth(...uneven))).floor, 0.025, 0.05);
    near(measured(pictured(cloth(...uneven, wave(0.2, 1, 0), wave(0.2, 0, 1)))).floor, 0.025, 0.05);
  });

  it("of white noise is the noise's share of those frequencies", () => {
    // Power is even over the plane: an octave from f has π (4f² − f²) / (w h) of it. Over 5000 waves: within 5 %.
    const random = seededRandom(11);
    const noise = pictured(() => 0.4 * (1 + 0.3 * Math.sqrt(3) * (2 * random() - 1)), { columns: 32, rows: 32 });
    const share = (from: number) => (3 * Math.PI * from * from) / (STITCH.width * STITCH.height);
    const { stitch, floor } = measured(noise);
    near(stitch, 0.3 * Math.sqrt(share(0.75)), 0.05);
    near(floor, 0.3 * Math.sqrt((share(0.375) + share(0.1875)) / 2), 0.1);
  });

  it("does not hold a lamp that stands to one side", () => {
    const lit = pictured((x, y) => cloth(wave(0.12, 1, 0))(x, y) * (0.8 + (0.4 * x) / 24));
    const { stitch, floor } = measured(lit);
    near(stitch, 0.12);
    expect(floor).toBeLessThan(0.004);
  });

  it("even cloth has none", () => {
    const { stitch, floor } = measured(pictured(() => 0.3));
    expect(Math.max(stitch, floor)).toBeLessThan(1e-6);
  });
});

describe("what cannot be measured", () => {
  it.each<[string, Raster, { width: number; height: number }, string]>([
    [
      "too few stitches",
      pictured(() => 0.4, { columns: 9.5 }),
      STITCH,
      "expected at least 16 stitches each way, found 9.",
    ],
    ["too coarse", pictured(() => 0.4), { width: 3, height: 3 }, "expected stitches of at least 4 pixels, found 3."],
    [
      "no size",
      pictured(() => 0.4),
      { width: Number.NaN, height: 8 },
      "expected stitches of at least 4 pixels, found NaN.",
    ],
    ["black", pictured(() => 0), STITCH, "expected some light, found black."],
  ])("%s", (_, raster, stitch, words) => {
    const { value, problems } = textureContrast(raster, stitch);
    expect(value).toBeNull();
    expect(problems.map(problemSentence)).toEqual([`The picture of plain cloth: ${words}`]);
  });
});
