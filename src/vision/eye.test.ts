/** The eye on any picture: quick as slow, whole repeats as one, and her threshold as V has it. */
import { describe, expect, it } from "vitest";
import { plainSight, type Grid } from "../../test/oracle/plainSight.ts";
import { seededRandom } from "../base/random.ts";
import { xyzFromLinear } from "../colour/xyz.ts";
import type { Raster } from "../raster/raster.ts";
import { lookAt, lookAtLevels, type Look } from "./eye.ts";
import { takeApart } from "./levels.ts";
import { KNITTED_WOOL } from "./masking.ts";
import { opponentFromXyz } from "./opponent.ts";

const STITCH = { widthMm: 100 / 28, heightMm: 100 / 30 };
const WRAP = { x: "wrap" } as const;

const looking = (distanceM: number, threshold?: number): Look => ({
  distanceMm: distanceM * 1000,
  lux: 500,
  texture: KNITTED_WOOL,
  textureFrequency: 1 / Math.sqrt(STITCH.widthMm * STITCH.heightMm),
  veil: 0.05,
  hueWeight: 0.5,
  threshold,
});

/** Squares of four pixels in three colours near each other and one a little off, by chance: some of it is lost at any distance. */
function chartLike(width: number, height: number, seed: number): Raster {
  const random = seededRandom(seed);
  const colours = Array.from({ length: 4 }, (_, at) => [0, 1, 2].map(() => 0.2 + (at === 3 ? 0.05 : 0.012) * random()));
  const across = Math.ceil(width / 4);
  const cells = Array.from({ length: across * Math.ceil(height / 4) }, () => colours[Math.floor(random() * 4)]!);
  const data = new Float32Array(width * height * 3);
  for (let at = 0; at < data.length; at++) {
    const pixel = Math.floor(at / 3);
    data[at] = cells[(Math.floor(pixel / width) >> 2) * across + ((pixel % width) >> 2)]![at % 3]!;
  }
  return { width, height, data, millimetresPerPixel: STITCH.widthMm / 4 };
}

function tiled({ width, height, data, ...rest }: Raster, times: number): Raster {
  const out = new Float32Array(data.length * times);
  for (let y = 0; y < height; y++)
    for (let time = 0; time < times; time++)
      out.set(data.subarray(y * width * 3, (y + 1) * width * 3), (y * times + time) * width * 3);
  return { ...rest, width: width * times, height, data: out };
}

const grids = ({ width, height, data }: Raster): [Grid, Grid, Grid] =>
  [0, 1, 2].map((channel) =>
    Array.from({ length: height }, (_, y) =>
      Array.from({ length: width }, (_, x) => {
        const [r, g, b] = data.subarray((y * width + x) * 3) as unknown as [number, number, number];
        return opponentFromXyz(xyzFromLinear([r, g, b]))[channel]!;
      }),
    ),
  ) as Grid[] as [Grid, Grid, Grid];

/** Root mean square about each channel's mean. */
function contrastOf(data: Float32Array): number {
  const means = [0, 1, 2].map(
    (channel) => (3 * data.reduce((sum, v, at) => sum + (at % 3 === channel ? v : 0), 0)) / data.length,
  );
  return Math.sqrt(data.reduce((sum, light, at) => sum + (light - means[at % 3]!) ** 2, 0) / data.length);
}

const differences = (one: Float32Array, other: Float32Array): { most: number; mean: number } => {
  const all = one.map((light, at) => Math.abs(light - other[at]!));
  return { most: all.reduce((a, b) => Math.max(a, b), 0), mean: all.reduce((a, b) => a + b, 0) / all.length };
};

describe("the eye", () => {
  it.each([
    [0.3, 48, 40, "wrap", 1.2],
    [1, 37, 41, "mirror", 1],
    [2, 48, 40, "wrap", 1.3],
    [4, 33, 40, "wrap", 1],
    [8, 48, 40, "mirror", 0.5],
  ] as const)("from %f m sees of %i × %i pixels what the plain sums leave (%s)", (metres, w, h, x, threshold) => {
    const picture = chartLike(w, h, 5);
    const apart = takeApart(picture, picture, { x });
    const quick = lookAtLevels(apart, looking(metres, threshold));
    const { meanY } = apart.judged;
    const sight = { distanceMm: metres * 1000, lux: 500, stitch: STITCH, threshold, wraps: x === "wrap", meanY };
    const slow = plainSight(grids(picture), { ...sight, millimetresPerPixel: picture.millimetresPerPixel! });
    slow.forEach((channel, at) =>
      expect(differences(quick[at]!, Float32Array.from(channel.flat())).most).toBeLessThan(1e-5),
    );
    // Something was taken away, something left: otherwise nothing was tested.
    const seen = lookAt(picture, looking(metres, threshold), picture, { x }).data;
    const all = contrastOf(picture.data);
    expect(contrastOf(seen) / all).toBeGreaterThan(0.05);
    expect(contrastOf(seen) / all).toBeLessThan(0.95);
  });

  it.each([1, 2, 4])("sees two repeats from %i m as one repeat twice", (metres) => {
    const one = chartLike(64, 60, 9);
    const seen = lookAt(one, looking(metres), one, WRAP);
    const two = lookAt(tiled(one, 2), looking(metres), tiled(one, 2), WRAP);
    expect(differences(two.data, tiled(seen, 2).data).most).toBeLessThan(1e-5);
  });

  /** A three-hundredth of white, about a byte. */
  const SEAM = 1 / 300;
  it.each([75, 86, 101])("shows hardly a seam where a repeat of %i pixels does not halve", (width) => {
    const one = chartLike(width, 60, 9);
    for (const metres of [1, 2, 4]) {
      const seen = lookAt(one, looking(metres), one, WRAP);
      const two = lookAt(tiled(one, 2), looking(metres), tiled(one, 2), WRAP);
      const { most, mean } = differences(two.data, tiled(seen, 2).data);
      expect(most).toBeLessThan(SEAM);
      expect(mean).toBeLessThan(SEAM / 10);
    }
  });

  it("keeps less the higher her threshold is, and the same at the ordinary one", () => {
    const picture = chartLike(64, 60, 3);
    const lost = [undefined, 1, 1.2, 1.5, 2].map(
      (threshold) => differences(lookAt(picture, looking(1, threshold)).data, picture.data).mean,
    );
    expect(lost[0]).toBe(lost[1]);
    for (let at = 2; at < lost.length; at++) expect(lost[at]).toBeGreaterThan(lost[at - 1]!);
  });
});
