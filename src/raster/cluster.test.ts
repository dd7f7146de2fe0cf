import fc from "fast-check";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { seededRandom, type Random } from "../base/random.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, labFromHex, labFromLinear, linearFromLab, type Lab } from "../colour/lab.ts";
import { bytesFromLinear } from "../colour/srgb.ts";
import { clusterColours, type Clustering } from "./cluster.ts";
import { meanColour, rasterFromBytes } from "./raster.ts";

/** Normally distributed, by the method of Box and Muller 1958. */
const normal = (random: Random): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** A colour that lies so far in ΔE00 from another, in a direction of Lab. */
function awayFrom(lab: Lab, difference: number, [l, a, b]: Lab): Lab {
  let far: Lab = lab;
  for (let step = 0; deltaE2000(lab, far) < difference; step += 0.001)
    far = [lab[0] + step * l, lab[1] + step * a, lab[2] + step * b];
  return far;
}

/** Sightings of colours in turn, scattered around them by a standard deviation in every coordinate of Lab. */
function scattered(
  colours: readonly Lab[],
  counts: readonly number[],
  deviation: number,
  random: Random,
): { labs: Lab[]; truth: number[] } {
  const truth = counts.flatMap((count, colour) => new Array<number>(count).fill(colour));
  const labs = truth.map((colour): Lab => {
    const [l, a, b] = colours[colour]!;
    return [l + deviation * normal(random), a + deviation * normal(random), b + deviation * normal(random)];
  });
  return { labs, truth };
}

/** How many colours got another cluster than most of their kind. */
function astray({ assignment, centres }: Clustering, truth: readonly number[]): number {
  const tallies = centres.map(() => new Map<number, number>());
  truth.forEach((colour, at) => {
    const tally = tallies[assignment[at]!]!;
    tally.set(colour, (tally.get(colour) ?? 0) + 1);
  });
  return truth.length - tallies.reduce((sum, tally) => sum + Math.max(...tally.values()), 0);
}

const SIX = ["#e8e2d2", "#2b3a55", "#8a2f2f", "#c9992b", "#5d7a5a", "#7a7f86"].map((hex) => labFromHex(hex)!);
/** Four colours, each with a neighbour 3 ΔE00 away, as in a shaded ground. */
const NEAR: Lab[] = [
  [SIX[0]!, awayFrom(SIX[0]!, 3, [-1, 0.5, 1])],
  [SIX[1]!, awayFrom(SIX[1]!, 3, [1, 0, -0.3])],
  [SIX[2]!, awayFrom(SIX[2]!, 3, [0, 1, 1])],
  [SIX[5]!, awayFrom(SIX[5]!, 3, [1, 0.2, 0.1])],
].flat();

describe("the number of colours is found", () => {
  const check = (name: string, colours: readonly Lab[], counts: readonly number[], deviation: number, most = 0): void =>
    test(name, () => {
      const { labs, truth } = scattered(colours, counts, deviation, seededRandom(31));
      const found = clusterColours(labs);
      expect(found.centres.length).toBe(colours.length);
      expect(astray(found, truth)).toBeLessThanOrEqual(most);
    });

  check("clean colours", SIX, [400, 300, 200, 100, 50, 25], 0);
  check("clean colours, the rarest a single stitch", SIX, [400, 300, 200, 100, 2, 1], 0);
  check("scattered colours", SIX, [400, 300, 200, 100, 50, 25], 1);
  check("widely scattered colours", SIX, [400, 300, 200, 100, 90, 80], 2.5, 5);
  check("clean neighbours, one of them a single stitch", NEAR, [500, 1, 300, 200, 100, 50, 20, 10], 0);
  check("neighbours with a scatter much smaller than their distance", NEAR, [500, 40, 300, 200, 100, 90, 80, 70], 0.3);
  check("one colour, however wide its scatter", [SIX[5]!], [2000], 6);
  check("one colour, seldom seen and scattered", [SIX[5]!], [9], 2);
  check("two colours", [SIX[0]!, SIX[1]!], [30, 30], 1);

  test("one colour in a shading light stays one", () => {
    const random = seededRandom(8);
    const labs = Array.from({ length: 3000 }, (_, at): Lab => [50 + at / 150 + normal(random), 10 + normal(random), 5]);
    expect(clusterColours(labs).centres.length).toBe(1);
  });
});

/** A chart of cells drawn to a compressed picture and back, the mean of the middle of each cell. */
async function throughJpeg(
  colours: readonly Lab[],
  cell: number,
  quality: number,
): Promise<{ labs: Lab[]; truth: number[] }> {
  const [width, height] = [40, 42];
  const truth = Array.from({ length: width * height }, (_, at) => {
    const [x, y] = [at % width, Math.floor(at / width)];
    const ground = Math.floor(y / 7) % colours.length;
    return (x * ((Math.floor(y / 7) % 3) + 1) + 2 * y) % 5 < 2 ? ground : (ground + 1 + (y % 2)) % colours.length;
  });
  const pixels = new Uint8Array(width * cell * height * cell * 3);
  for (let y = 0; y < height * cell; y++)
    for (let x = 0; x < width * cell; x++) {
      const lab = colours[truth[Math.floor(y / cell) * width + Math.floor(x / cell)]!]!;
      pixels.set(bytesFromLinear(linearFromLab(lab)), (y * width * cell + x) * 3);
    }
  const jpeg = await sharp(pixels, { raw: { width: width * cell, height: height * cell, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();
  const { data } = await sharp(jpeg).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  const raster = rasterFromBytes(width * cell, height * cell, new Uint8Array(data));
  const margin = Math.floor(cell * 0.3);
  const labs = truth.map((_, at) =>
    labFromLinear(
      meanColour(raster, {
        x: (at % width) * cell + margin,
        y: Math.floor(at / width) * cell + margin,
        width: cell - 2 * margin,
        height: cell - 2 * margin,
      }),
    ),
  );
  return { labs, truth };
}

describe("a chart saved as JPEG", () => {
  test.each([
    ["six colours", SIX, 12, 95],
    ["six colours", SIX, 20, 85],
    ["six colours", SIX, 15, 75],
    ["neighbours 3 apart", NEAR, 12, 95],
    ["neighbours 3 apart", NEAR, 20, 85],
  ])("%s, %# ", async (_, colours, cell, quality) => {
    const { labs, truth } = await throughJpeg(colours, cell, quality);
    const found = clusterColours(labs);
    expect(found.centres.length).toBe(colours.length);
    expect(astray(found, truth)).toBe(0);
    // The centre is the colour that was drawn, but for what the compression did to it.
    for (const colour of colours)
      expect(Math.min(...found.centres.map((centre) => deltaE2000(centre, colour)))).toBeLessThan(1.5);
  });
});

describe("clusters", () => {
  const lab = fc.tuple(
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
  );

  test("every colour has a centre, every centre its weight, the heaviest is first, and the same comes out again", () => {
    fc.assert(
      fc.property(
        fc.array(lab, { maxLength: 60 }),
        fc.option(fc.integer({ min: 1, max: 8 }), { nil: undefined }),
        (labs, count) => {
          const options = count === undefined ? {} : { count };
          const found = clusterColours(labs, options);
          expect(found).toEqual(clusterColours(labs, options));
          const tally = new Array<number>(found.centres.length).fill(0);
          for (const centre of found.assignment) tally[centre]!++;
          expect(found.assignment.length).toBe(labs.length);
          expect(found.weights).toEqual(tally);
          expect(tally.every((weight) => weight > 0)).toBe(true);
          expect(tally.toSorted((one, other) => other - one)).toEqual(tally);
          if (count !== undefined) expect(found.centres.length).toBeLessThanOrEqual(count);
        },
      ),
      { seed: 7, numRuns: 100 },
    );
  });

  test("as many as are wanted", () => {
    const { labs, truth } = scattered(SIX, [400, 300, 200, 100, 50, 25], 1, seededRandom(5));
    for (const count of [1, 3, 6, 9]) expect(clusterColours(labs, { count }).centres.length).toBe(count);
    expect(astray(clusterColours(labs, { count: 6 }), truth)).toBe(0);
    // Where there are fewer colours, fewer come back.
    expect(clusterColours([SIX[0]!, SIX[0]!, SIX[1]!], { count: 5 }).centres.length).toBe(2);
    expect(clusterColours([]).centres).toEqual([]);
  });

  test("a weight counts as so many sightings", () => {
    const once = clusterColours([SIX[0]!, SIX[1]!, SIX[2]!], { weights: [2, 7, 1] });
    const often = clusterColours([0, 0, 1, 1, 1, 1, 1, 1, 1, 2].map((at) => SIX[at]!));
    expect(once.weights).toEqual([7, 2, 1]);
    expect(once.centres.map(hexFromLab)).toEqual(often.centres.map(hexFromLab));
  });

  test("a stray stitch does not pull the centre", () => {
    const labs = [...new Array<Lab>(9).fill([50, 0, 0]), [54, 3, 3] as Lab];
    const { centres, scatter } = clusterColours(labs, { count: 1 });
    expect(centres[0]).toEqual([50, 0, 0]);
    expect(scatter[0]).toBeGreaterThan(1);
  });
});
