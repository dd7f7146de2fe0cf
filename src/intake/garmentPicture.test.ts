import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom, type Random } from "../base/random.ts";
import type { Outcome, Problem } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labFromLch, linearFromLab, type Lab } from "../colour/lab.ts";
import { ontoScreen } from "../colour/gamut.ts";
import { encodeSrgb, decodeSrgb } from "../colour/srgb.ts";
import { createRaster, type Box, type Raster } from "../raster/raster.ts";
import { colourOfPlaces, mixedPlace, type PictureColour } from "./garmentPicture.ts";
import type { Area } from "./yarnPhoto/area.ts";
import { surveyPhoto, type PhotoReference } from "./yarnPhoto/survey.ts";
import { yarnReader } from "./yarnPhoto/yarnReader.ts";

/** The whole way from places in a picture to one colour, as the page goes it in steps. */
function colourAt(
  picture: Raster,
  places: readonly Area[],
  reference: PhotoReference = { kind: "none" },
): Outcome<PictureColour> {
  const surveyed = surveyPhoto(picture, reference);
  if (!surveyed.value) return { value: null, problems: surveyed.problems };
  const { shadeOf } = yarnReader(surveyed.value);
  const told = places.map((area, at) => shadeOf({ picture, area, where: `place ${at + 1}` }));
  const problems: Problem[] = [...surveyed.problems, ...told.flatMap((one) => one.problems)];
  return { value: colourOfPlaces(told.flatMap(({ value }) => value ?? [])), problems };
}

const normal = (random: Random): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

interface Shot {
  /** Light on the garment by channel: a lamp's or a shade's cast. */
  readonly cast: readonly [number, number, number];
  /** Exponent of the camera's curve on the encoded value, and how much it lifts the middle. */
  readonly bend: number;
  /** Light at the right edge over that at the left. */
  readonly slope: number;
}

const STITCH = 12;
const BLOCK = 96;
const CARD: Box = { x: 0, y: 0, width: 60, height: 30 };

/** Stitches as two leaning legs with dark between them, in blocks of one colour each; a grey card lies at the top left. */
function knitted(colours: readonly Lab[], shot: Shot, random: Random): Raster {
  const [width, height] = [BLOCK * colours.length, BLOCK + CARD.height];
  const raster = createRaster(width, height);
  const linear = colours.map(linearFromLab);
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at += 3) {
      const isCard = y < CARD.height;
      const [across, down] = [
        (x % STITCH) / STITCH - 0.5,
        ((y + Math.abs((x % STITCH) - STITCH / 2)) % STITCH) / STITCH,
      ];
      // Rounded legs: lit on their crowns, dark in the middle of the stitch, at its sides and where the next one begins.
      const leg = Math.abs(Math.sin(2 * Math.PI * across)) ** 0.5 * Math.sin(Math.PI * down) ** 0.4;
      const light = isCard ? 1 : 0.3 + 0.7 * leg;
      const colour = isCard ? [0.18, 0.18, 0.18] : linear[Math.floor(x / BLOCK)]!;
      const fall = 1 + (shot.slope - 1) * (x / width);
      for (let channel = 0; channel < 3; channel++) {
        const lit = colour[channel]! * light * fall * shot.cast[channel]! * (1 + 0.02 * normal(random));
        const encoded = encodeSrgb(Math.max(0, lit)) ** shot.bend;
        raster.data[at + channel] = decodeSrgb(Math.min(1, Math.round(255 * encoded) / 255));
      }
    }
  return raster;
}

const shotOf = (random: Random): Shot => ({
  cast: castOf(Math.exp(0.22 * normal(random) - 0.1), Math.exp(0.12 * normal(random)), Math.exp(0.2 * normal(random))),
  bend: 1 + 0.1 * normal(random),
  slope: 1 + 0.15 * normal(random),
});
/** Exposure, and what is redder and bluer for it. */
const castOf = (exposure: number, red: number, blue: number): Shot["cast"] => [
  exposure * red,
  exposure,
  exposure * blue,
];
const wool = (random: Random): Lab =>
  ontoScreen(labFromLch([22 + 55 * random(), 45 * random() ** 1.3, 360 * random()]));
const placesIn = (block: number, random: Random): Box[] =>
  Array.from({ length: 2 }, () => ({
    x: block * BLOCK + 8 + Math.floor(random() * 40),
    y: CARD.height + 4 + Math.floor(random() * 48),
    width: 30,
    height: 30,
  }));

describe("colours off a picture of a garment", () => {
  test("between the stitches it is dark, and that is not the yarn's colour: by a card within 5 ΔE00 in an even light", () => {
    const random = seededRandom(3);
    const colours: Lab[] = [
      [70, 4, 20],
      [45, 30, 15],
      [35, -5, -25],
    ];
    const picture = knitted(colours, { cast: [1, 1, 1], bend: 1, slope: 1 }, random);
    colours.forEach((lab, block) => {
      const places = placesIn(block, random);
      const { value } = colourAt(picture, places, { kind: "grey", area: CARD });
      expect(deltaE2000(value!.lab, lab)).toBeLessThan(5);
      // The plain mean of the same pixels is much darker: what shadows would do if they were counted.
      const [first] = places as [Box, ...Box[]];
      let mean = 0;
      for (let y = first.y; y < first.y + first.height; y++)
        for (let x = first.x; x < first.x + first.width; x++) mean += picture.data[(y * picture.width + x) * 3 + 1]!;
      expect(mean / (first.width * first.height)).toBeLessThan(0.85 * linearFromLab(lab)[1]);
    });
  });

  test.each([
    ["a grey card", true],
    ["no reference", false],
  ])("with %s the range stated holds the truth about as often as it says", (_, hasCard) => {
    const random = seededRandom(17);
    let [held, all] = [0, 0];
    for (let shots = 0; shots < 12; shots++) {
      const colours = Array.from({ length: 4 }, () => wool(random));
      const picture = knitted(colours, shotOf(random), random);
      colours.forEach((lab, block) => {
        const { value } = colourAt(
          picture,
          placesIn(block, random),
          hasCard ? { kind: "grey", area: CARD } : { kind: "none" },
        );
        // What is burnt out is refused, and no colour is told of it.
        if (!value) return;
        all++;
        if (deltaE2000(value.lab, lab) <= value.uncertainty) held++;
      });
    }
    // Twelve cameras and lights, so that a share of 80 % scatters by about a tenth.
    expect(all).toBeGreaterThan(35);
    expect(held / all).toBeGreaterThan(0.7);
    expect(held / all).toBeLessThanOrEqual(0.98);
  });

  test("without a reference the range is wider", () => {
    const random = seededRandom(3);
    const picture = knitted([[50, 10, 10]], { cast: [1, 1, 1], bend: 1, slope: 1 }, random);
    const places = placesIn(0, random);
    const by = colourAt(picture, places, { kind: "grey", area: CARD }).value!;
    const without = colourAt(picture, places);
    expect(without.value!.uncertainty).toBeGreaterThan(by.uncertainty);
    expect(without.problems.map(({ severity }) => severity)).toEqual(["doubt"]);
  });

  test("a place over two colours is told of, one within a colour is not", () => {
    const random = seededRandom(3);
    const picture = knitted(
      [
        [75, 4, 20],
        [25, 5, -25],
      ],
      { cast: [1, 1, 1], bend: 1, slope: 1 },
      random,
    );
    const read = (x: number) => colourAt(picture, [{ x, y: 50, width: 40, height: 40 }]);
    expect(read(10).value).not.toBeNull();
    const flecks = [
      { lab: [75, 4, 20] as Lab, hex: "#c1b58f", share: 0.5 },
      { lab: [25, 5, -25] as Lab, hex: "#2d3a62", share: 0.5 },
    ];
    expect(mixedPlace({ flecks }, "place 1")!.severity).toBe("doubt");
    expect(mixedPlace({ flecks: [] }, "place 1")).toBeNull();
  });

  test("a place outside the picture is no place, and no place is no colour", () => {
    const picture = knitted([[50, 10, 10]], { cast: [1, 1, 1], bend: 1, slope: 1 }, seededRandom(3));
    const { value, problems } = colourAt(picture, [{ x: 900, y: 5, width: 30, height: 30 }]);
    expect(value).toBeNull();
    expect(problems.some(({ where, severity }) => where === "place 1" && severity === "fault")).toBe(true);
    expect(colourOfPlaces([])).toBeNull();
  });

  const places = fc.array(
    fc.record({
      lab: fc.tuple(
        fc.integer({ min: 20, max: 80 }),
        fc.integer({ min: -30, max: 30 }),
        fc.integer({ min: -30, max: 30 }),
      ),
      uncertainty: fc.integer({ min: 1, max: 15 }),
    }),
    { minLength: 1, maxLength: 6 },
  );
  test("is never surer than its surest place, and the order of places does not matter", () => {
    fc.assert(
      fc.property(places, (all) => {
        const one = colourOfPlaces(all)!;
        expect(one.uncertainty).toBeGreaterThanOrEqual(Math.max(...all.map(({ uncertainty }) => uncertainty)));
        const other = colourOfPlaces(all.toReversed())!;
        other.lab.forEach((part, at) => expect(part).toBeCloseTo(one.lab[at]!, 9));
        expect(other.uncertainty).toBeCloseTo(one.uncertainty, 9);
        // The same place picked again and again has no spread of its own.
        expect(colourOfPlaces([all[0]!, all[0]!, all[0]!])!.spread).toBeLessThan(1e-6);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
