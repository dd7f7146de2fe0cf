/** The seeing model against tables computed by an independent program from the same equations, every frequency summed. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import smooth from "../../test/tables/band-visibility.json" with { type: "json" };
import seen from "../../test/tables/seen.json" with { type: "json" };
import { transform, type Matrix3, type Vector3 } from "../base/matrix3.ts";
import type { Lab } from "../colour/lab.ts";
import { linearFromBytes } from "../colour/srgb.ts";
import type { Xyz } from "../colour/xyz.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";
import { KNITTED_WOOL, SMOOTH_PAPER } from "../vision/masking.ts";
import { opponentFromXyz } from "../vision/opponent.ts";
import { ROOM_VEIL } from "../vision/viewing.ts";
import {
  farthest,
  fieldOf,
  figureVisibility,
  gainsOf,
  join,
  patternVisibility,
  type Eye,
} from "../vision/visibility.ts";
import { spectrumOf } from "./spectra.ts";
import { channelsAt, pieceOfMotif, readsTo, readsToOf, sceneFor, USUAL_EYE, visibility, wordOf } from "./visibility.ts";

/** Relative bars of the design. */
const GAIN_TOLERANCE = 1e-3;
const V_TOLERANCE = 2e-3;
/** The table of gains is printed with six decimals. */
const HALF_A_DIGIT = 5.1e-7;
/** 0.5 % or 5 mm, whichever is larger. */
const metresApart = (a: number, b: number): number => Math.abs(a - b) / Math.max(0.005, 0.005 * Math.max(a, b));

const PAPER: Eye = { texture: SMOOTH_PAPER, veil: 0, contrastCap: Infinity };
const apart = (actual: number, expected: number): number =>
  expected === 0 ? Math.abs(actual) : Math.abs(actual / expected - 1);

function expectGain(squared: number, expected: number): void {
  expect(Math.abs(Math.sqrt(squared) - expected)).toBeLessThan(GAIN_TOLERANCE * expected + HALF_A_DIGIT);
}

describe("smooth paper: no masking, no veil, no cap, hue in full", () => {
  const { gauge_sts_per_10cm: stitches, rows_per_10cm: rows, illuminance_lux: lux } = smooth.settings;
  const stitch = stitchSizeMm({ stitches, rows });
  const spectrum = (pattern: string) => {
    const cells = smooth.patterns[pattern as keyof typeof smooth.patterns];
    const motif = cells.map((row) => row.join(""));
    return spectrumOf(pieceOfMotif(motif, 2), { stitch, rows: "tiled", patch: { widthMm: 400, heightMm: 400 } });
  };
  // The table decodes hex with the four-decimal matrix of IEC 61966-2-1.
  const FOUR_DECIMALS: Matrix3 = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505];
  const xyzOf = (hex: string): Xyz => {
    const bytes = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number];
    return transform(FOUR_DECIMALS, linearFromBytes(...bytes));
  };
  const field = (pattern: string, pair: string) => {
    const [one, zero] = smooth.pairs[pair as keyof typeof smooth.pairs].sRGB.map(xyzOf) as [Xyz, Xyz];
    const { shares } = spectrum(pattern);
    const meanY = shares[0]! * zero[1] + shares[1]! * one[1];
    return fieldOf(shares, [opponentFromXyz(zero), opponentFromXyz(one)], meanY, lux, PAPER);
  };

  it.each(smooth.band_factors)("G of $pattern at $distance_m m, $L_cd_m2 cd/m²", (row) => {
    const gains = gainsOf(spectrum(row.pattern), row.distance_m * 1000, row.L_cd_m2, PAPER);
    expectGain(gains.lightDark[0]!, row.G_A);
    expectGain(gains.redGreen[0]!, row.G_RG);
    expectGain(gains.yellowViolet[0]!, row.G_YV);
  });

  it.each(smooth.visibility)("V of $pattern in $pair", (row) => {
    const shape = spectrum(row.pattern);
    const colours = field(row.pattern, row.pair);
    for (const [key, expected] of Object.entries(row)) {
      const metres = /^V_(.*)m$/.exec(key)?.[1];
      if (metres === undefined) continue;
      const gains = gainsOf(shape, Number(metres) * 1000, colours.luminance, PAPER);
      const v = join(patternVisibility(shape, colours, gains), 1);
      expect(Math.abs(v - Number(expected))).toBeLessThan(Math.max(V_TOLERANCE * Number(expected), 1e-4));
    }
  });

  it.each(smooth.threshold_distance_m)("$pattern in $pair reads to", (row) => {
    const shape = spectrum(row.pattern);
    const colours = field(row.pattern, row.pair);
    const at = (mm: number) => join(patternVisibility(shape, colours, gainsOf(shape, mm, colours.luminance, PAPER)), 1);
    for (const threshold of [1, 3, 10] as const) {
      const found = farthest(shape, at, threshold).distanceMm / 1000;
      expect(metresApart(found, row[`V=${threshold}`])).toBeLessThan(1);
    }
  });
});

type SeenRow = (typeof seen.rows)[number] & {
  rows?: string;
  patch?: { widthMm: number; heightMm: number } | null;
  gauge?: Gauge | null;
};

describe("the model as used", () => {
  const motifOf = (row: SeenRow) => ({
    background: row.background as unknown as Lab,
    foreground: row.foreground as unknown as Lab,
    motif: seen.patterns[row.pattern as keyof typeof seen.patterns],
    gauge: row.gauge ?? seen.settings.gauge,
    light: row.light,
    ...(row.patch ? { patch: row.patch } : {}),
    ...(row.rows ? { rows: "once" as const } : {}),
  });

  it.each(seen.rows as SeenRow[])("$pattern, $pair, $distance m, $light lx", (row) => {
    const motif = motifOf(row);
    const { V, lightDark, shows } = visibility({ ...motif, distance: row.distance });
    expect(apart(V, row.V)).toBeLessThan(V_TOLERANCE);
    expect(apart(lightDark, row.V_light)).toBeLessThan(V_TOLERANCE);
    expect(shows).toBe(row.shows);
    const found = readsTo(motif);
    expect(metresApart(found.metres, row.readsTo.metres)).toBeLessThan(1);
    expect(metresApart(found.low, row.readsTo.low)).toBeLessThan(1);
    expect(metresApart(found.high, row.readsTo.high)).toBeLessThan(1);
    expect(found.beyond).toBe(row.readsTo.beyond);
  });

  it.each(seen.rows as SeenRow[])("range and bare paper: $pattern, $pair, $distance m", (row) => {
    const motif = motifOf(row);
    const spectrum = spectrumOf(pieceOfMotif(motif.motif, 2), {
      stitch: stitchSizeMm(motif.gauge),
      rows: motif.rows ?? "tiled",
      ...(motif.patch ? { patch: motif.patch } : {}),
    });
    const bare: Eye = { ...USUAL_EYE, texture: SMOOTH_PAPER };
    const labs = [motif.background, motif.foreground];
    const masked = channelsAt(sceneFor(spectrum, labs, row.light, USUAL_EYE), row.distance * 1000);
    const unmasked = sceneFor(spectrum, labs, row.light, bare);
    expect(apart(join(masked, 0), row.low)).toBeLessThan(V_TOLERANCE);
    expect(apart(join(masked, 1), row.high)).toBeLessThan(V_TOLERANCE);
    expect(apart(join(channelsAt(unmasked, row.distance * 1000), 1), row.V_unmasked)).toBeLessThan(V_TOLERANCE);
    const far = readsToOf(unmasked, seen.settings.threshold).high;
    expect(metresApart(far, row.readsTo_unmasked.metres)).toBeLessThan(1);
  });

  it.each(seen.figures)("figures of $pattern in $sRGB at $distance m", (row) => {
    const motif = seen.patterns[row.pattern as keyof typeof seen.patterns];
    const stitch = stitchSizeMm(seen.settings.gauge);
    const spectrum = spectrumOf(pieceOfMotif(motif, 3), { stitch, rows: "tiled" });
    const scene = sceneFor(spectrum, row.colours as unknown as Lab[], row.light, USUAL_EYE);
    const gains = gainsOf(spectrum, row.distance * 1000, scene.field.luminance, USUAL_EYE);
    const band = patternVisibility(spectrum, scene.field, gains);
    expect(apart(join(band, 0.5), row.band.V)).toBeLessThan(V_TOLERANCE);
    expect(apart(band.lightDark, row.band.V_light)).toBeLessThan(V_TOLERANCE);
    for (const figure of row.figures) {
      const shown = (area: number, against: number) =>
        join(figureVisibility(spectrum, scene.field, gains, { area, against }, USUAL_EYE.contrastCap), 0.5);
      expect(apart(shown(figure.colour, figure.against), figure.V)).toBeLessThan(V_TOLERANCE);
      expect(apart(shown(figure.against, figure.colour), figure.V_reversed)).toBeLessThan(V_TOLERANCE);
      expect(wordOf(figure.V)).toBe(figure.shows);
    }
  });
});

describe("laws", () => {
  const gauge = { stitches: 28, rows: 30 };
  const lab = fc.tuple(
    fc.double({ min: 5, max: 95, noNaN: true }),
    fc.double({ min: -40, max: 40, noNaN: true }),
    fc.double({ min: -40, max: 40, noNaN: true }),
  );
  const distance = fc.double({ min: 0.4, max: 8, noNaN: true });

  it("equal colours show nothing", () => {
    fc.assert(
      fc.property(lab, distance, (colour, metres) => {
        const { V } = visibility({
          background: colour,
          foreground: colour,
          motif: ["10", "01"],
          gauge,
          distance: metres,
        });
        expect(V).toBe(0);
      }),
      { seed: 7, numRuns: 30 },
    );
  });

  it("a colour that is listed and not used changes nothing", () => {
    const pair = { motif: ["01", "10"], gauge, distance: 1.5 };
    const dark: Lab = [8, 0, 0];
    const lighter: Lab = [14, 0, 0];
    const { V } = visibility({ ...pair, colours: [dark, lighter] });
    expect(visibility({ ...pair, colours: [dark, lighter, [90, 0, 0]] }).V).toBeCloseTo(V, 9);
  });

  it("at half area the two colours may change places", () => {
    fc.assert(
      fc.property(lab, lab, distance, (one, other, metres) => {
        const shown = (background: Vector3, foreground: Vector3) =>
          visibility({ background, foreground, motif: ["1100", "0011"], gauge, distance: metres }).V;
        expect(shown(one, other)).toBeCloseTo(shown(other, one), 9);
      }),
      { seed: 7, numRuns: 30 },
    );
  });

  it("scaling every length scales the distance", () => {
    const pair = {
      background: [46, 0, 0] as Lab,
      foreground: [60, 5, 9] as Lab,
      motif: ["0010", "0111", "0010", "0000"],
    };
    for (const metres of [0.7, 1.5, 3]) {
      const small = visibility({ ...pair, gauge, distance: metres });
      const large = visibility({ ...pair, gauge: { stitches: 14, rows: 15 }, distance: metres * 2 });
      expect(large.V).toBeCloseTo(small.V, 9);
    }
  });

  it("masking never raises V", () => {
    fc.assert(
      fc.property(lab, lab, distance, (one, other, metres) => {
        const spectrum = spectrumOf(pieceOfMotif(["100", "110"], 2), { stitch: stitchSizeMm(gauge), rows: "tiled" });
        const shown = (texture: typeof KNITTED_WOOL) =>
          join(
            channelsAt(
              sceneFor(spectrum, [one, other], 500, { texture, veil: ROOM_VEIL, contrastCap: 2 }),
              metres * 1000,
            ),
            0.5,
          );
        expect(shown(KNITTED_WOOL)).toBeLessThanOrEqual(shown(SMOOTH_PAPER) + 1e-9);
      }),
      { seed: 7, numRuns: 30 },
    );
  });
});

// Common practice, no source: how knitters speak of value differences, and what a larger shape does for them.
describe("what the trade knows", () => {
  const gauge = { stitches: 28, rows: 30 };
  const checker = ["10", "01"];
  const diamond = [
    "0000000000",
    "0000100000",
    "0001110000",
    "0011111000",
    "0001110000",
    "0000100000",
    "0000000000",
    "0000000000",
  ];
  const greys = (difference: number, motif: string[]) => ({
    background: [50 - difference / 2, 0, 0] as Lab,
    foreground: [50 + difference / 2, 0, 0] as Lab,
    motif,
    gauge,
  });
  const shows = (difference: number, motif: string[], distance = 1.5) =>
    visibility({ ...greys(difference, motif), distance }).shows;
  const order = ["lost", "faint", "clear", "strong"];

  it("two greys ΔL* 3 apart in a 1×1 row are lost at any distance", () => {
    for (const distance of [0.3, 0.5, 0.7, 1, 1.5, 2, 3, 4, 6]) expect(shows(3, checker, distance)).toBe("lost");
    expect(readsTo(greys(3, checker)).metres).toBe(0);
  });

  it("8 and 15 apart are faint, 30 apart clear", () => {
    expect(shows(8, checker)).toBe("faint");
    expect(shows(15, checker)).toBe("faint");
    expect(shows(30, checker)).toBe("clear");
  });

  it("a large shape in the same yarns shows at least one word better", () => {
    for (const difference of [3, 8, 15, 30])
      expect(order.indexOf(shows(difference, diamond))).toBeGreaterThan(order.indexOf(shows(difference, checker)));
  });

  it("a slightly lighter contrast on a dark ground reads farther", () => {
    const to = (lightness: number) =>
      readsTo({ background: [22, 0, 0], foreground: [lightness, 0, 0], motif: diamond, gauge }).metres;
    expect(to(38)).toBeGreaterThan(to(34));
    expect(to(34)).toBeGreaterThan(to(30));
  });

  it("the order of values can be flipped with the ground and still read", () => {
    const light = visibility({ background: [80, 0, 0], foreground: [40, 0, 0], motif: diamond, gauge, distance: 1.5 });
    const dark = visibility({ background: [40, 0, 0], foreground: [80, 0, 0], motif: diamond, gauge, distance: 1.5 });
    expect([light.shows, dark.shows]).not.toContain("lost");
    expect([light.shows, dark.shows]).not.toContain("faint");
  });
});

describe("bad input", () => {
  const good = {
    background: [50, 0, 0] as Lab,
    foreground: [60, 0, 0] as Lab,
    motif: ["10"],
    gauge: { stitches: 28, rows: 30 },
    distance: 1,
  };
  it.each([
    [{ motif: [] }, "at least one stitch"],
    [{ motif: ["10", "1"] }, "2 stitches in motif row 2"],
    [{ motif: ["13"] }, 'found "3"'],
    [{ distance: 0 }, "distance to be a number above 0, found 0"],
    [{ light: Number.NaN }, "light to be a number above 0, found NaN"],
    [{ background: [50, Number.NaN, 0] as Lab }, "three finite numbers"],
  ])("%j", (change, sentence) => {
    expect(() => visibility({ ...good, ...change })).toThrow(sentence);
  });
});
