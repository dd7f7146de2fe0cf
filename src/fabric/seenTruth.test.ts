/** Picture and numbers held together: what V calls seen is left in the seen image, what V calls lost is gone. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import motifTable from "../../test/tables/motifs.json" with { type: "json" };
import { grey, SEEN_PAIRS } from "../../test/oracle/seenPairs.ts";
import { gridOf } from "../chart/chart.ts";
import { labFromHex, type Lab } from "../colour/lab.ts";
import type { Raster } from "../raster/raster.ts";
import { lookAtLevels, rasterOf } from "../vision/eye.ts";
import { takeApart } from "../vision/levels.ts";
import { bandContrast, spectrumMemory } from "./contrast.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { lookAtCloth, seenCloth } from "./seen.ts";
import { squaresOf } from "./squares.ts";
import { visibility } from "./visibility.ts";

const GAUGE = { stitches: 28, rows: 30 };
const LUX = 500;

/** The table's motifs, "1" on "0"; and thin lines far apart, whose contrast is finer than what V counts them by. */
const MOTIFS: Record<string, readonly string[]> = {
  ...Object.fromEntries(
    motifTable.motifs.map(({ id, rows }) => [id, rows.map((row) => row.replaceAll(".", "0").replaceAll("#", "1"))]),
  ),
  outline: ["00011000", "00100100", "01000010", "10000001", "10000001", "01000010", "00100100", "00011000"],
};

const DISTANCES = [0.5, 1, 2, 3.5, 6];

function clothOfRows(rows: string[], labs: readonly Lab[]): Cloth {
  const chart = { id: "c1", rows };
  const grid = gridOf(chart);
  const inks = grid.ids.map((id): Ink => {
    const lab = labs[Number(id)]!;
    return { colour: id, yarn: null, lab, uncertainty: 3, was: lab, flecks: [], over: false };
  });
  return { chart, grid, inks, cells: grid.cells, knitted: grid.cells, gauge: GAUGE, lines: [] };
}

/** Whole repeats, at least 24 stitches each way. */
function tiled(motif: readonly string[]): string[] {
  const [across, up] = [motif[0]!.length, motif.length].map((size) => Math.ceil(24 / size)) as [number, number];
  return Array.from({ length: up }, () => motif.map((row) => row.repeat(across))).flat();
}

function squares(cloth: Cloth, pixels: number): Raster {
  const { width, height } = cloth.grid;
  const size = { width: width * pixels, height: Math.round((height * pixels * GAUGE.stitches) / GAUGE.rows) };
  return squaresOf(cloth, { from: 1, to: height, repeatsAcross: 1 }, size);
}

/** Luminance about its mean, root mean square, without the rows next to top and bottom. */
function lightDarkOf({ width, height, data }: Raster): number {
  const light: number[] = [];
  for (let at = 30 * width; at < (height - 30) * width; at++)
    light.push(0.2126 * data[at * 3]! + 0.7152 * data[at * 3 + 1]! + 0.0722 * data[at * 3 + 2]!);
  const mean = light.reduce((sum, one) => sum + one, 0) / light.length;
  return Math.sqrt(light.reduce((sum, one) => sum + (one - mean) ** 2, 0) / light.length);
}

interface Case {
  readonly name: string;
  readonly V: number;
  /** Part of the light–dark contrast that is left. */
  readonly left: number;
}

function casesOf(id: string): Case[] {
  const motif = MOTIFS[id]!;
  return Object.entries(SEEN_PAIRS).flatMap(([pair, [background, foreground]]) => {
    const cloth = clothOfRows(tiled(motif), [background, foreground]);
    const picture = squares(cloth, 8);
    const apart = takeApart(picture, squares(cloth, 4), { x: "wrap" });
    const all = lightDarkOf(picture);
    return DISTANCES.map((distance): Case => {
      const { V } = visibility({ background, foreground, motif, gauge: GAUGE, distance, light: LUX });
      const seen = lookAtLevels(apart, lookAtCloth(cloth, { distanceM: distance, lux: LUX }));
      return { name: `${id}, ${pair}, ${distance} m`, V, left: lightDarkOf(rasterOf(seen, picture)) / all };
    });
  });
}

const BOUNDS = [0, 0.5, 0.7, 1, 1.4, 2, 3, Infinity];

/** What is left at V from each bound to the next, least first. */
const leftBetween = (cases: readonly Case[]): number[][] =>
  BOUNDS.slice(1).map((to, at) =>
    cases
      .filter(({ V }) => V >= BOUNDS[at]! && V < to)
      .map(({ left }) => left)
      .sort((a, b) => a - b),
  );
const quantile = (sorted: readonly number[], part: number): number => sorted[Math.floor(part * sorted.length)]!;

describe("the seen image of a pattern in two colours", () => {
  // One row repeated upwards is a field of stripes, but V counts a patch of one row and puts it too low.
  const ids = Object.keys(MOTIFS).filter((id) => MOTIFS[id]!.length > 1);
  const cases = ids.flatMap(casesOf);

  it("is tried on enough of all kinds", () => {
    expect(ids.length).toBeGreaterThanOrEqual(13);
    expect(cases.filter(({ V }) => V >= 2).length).toBeGreaterThan(250);
    expect(cases.filter(({ V }) => V <= 0.5).length).toBeGreaterThanOrEqual(15);
  });

  it("keeps at least 80 % of the light–dark contrast where V is 2 or more, but where single stitches make up a figure", () => {
    const short = cases.filter(({ V, left }) => V >= 2 && left < 0.8);
    // Their stitches one by one are below threshold there; what is seen, and what V counts, is the figure that they fill. V 2.1 to 3.5.
    expect(short.map(({ name }) => name)).toEqual([
      "net-8, greys 8 apart, 6 m",
      "lozenge-cross-16, madder and moss, 6 m",
      "lozenge-cross-16, navy and black, 6 m",
      "star-24, oat and pebble, 3.5 m",
    ]);
    for (const { left } of short) expect(left).toBeGreaterThan(0.45);
  });

  it("leaves at most 20 % where V is 0.5 or less", () => {
    for (const { name, V, left } of cases) if (V <= 0.5) expect(left, name).toBeLessThan(0.2);
  });

  it("keeps more the higher V is, on the whole, half of it about the threshold", () => {
    const medians = leftBetween(cases).map((left) => quantile(left, 0.5));
    for (let at = 1; at < medians.length; at++) expect(medians[at]).toBeGreaterThanOrEqual(medians[at - 1]!);
    expect(medians[2]).toBeLessThan(0.5);
    expect(medians[3]).toBeGreaterThan(0.5);
  });

  it("is in vision.md as it is measured", () => {
    const page = readFileSync("docs/vision.md", "utf8");
    const percent = (part: number): string => String(Math.round(100 * part));
    const row = leftBetween(cases).map(
      (left) => `${percent(quantile(left, 0.5))} (${percent(quantile(left, 0.1))}–${percent(quantile(left, 0.9))})`,
    );
    expect(page).toContain(`| left, % | ${row.join(" | ")} |`);
    expect(page).toContain(`4 of ${cases.filter(({ V }) => V >= 2).length} cases`);
  });
});

describe("the seen image of a small difference beside a large one", () => {
  const cream = labFromHex("#ede6d6")!;
  const charcoal = labFromHex("#3a3a3a")!;
  const plain = (rows: number): string[] => Array.from({ length: rows }, () => "0".repeat(24));
  const checks = Array.from({ length: 8 }, (_, row) => (row % 2 ? "12" : "21").repeat(12));
  const inner = ["0111111111111110", "0111111111111110", "0111122222211110", "0111122222211110", "0111122222211110"];
  const rectangle = [...inner, inner[2]!, inner[1]!, inner[0]!].map((row) => row + row);
  const NESTED: Record<string, [string[], Lab[]]> = {
    "a rectangle 3 apart in a charcoal shape on cream": [
      ["0".repeat(32), ...rectangle, "0".repeat(32), ...rectangle, "0".repeat(32)],
      [cream, charcoal, labFromHex("#414142")!],
    ],
    "checks of greys 3 apart between cream": [
      [...plain(8), ...checks, ...plain(8), ...checks, ...plain(8)],
      [cream, grey(30), grey(33)],
    ],
    "the same in a chart of many more colours": [
      [...plain(8), ...checks, "34".repeat(12), ...plain(3), ...checks, "3".repeat(24), ...plain(5)],
      [cream, grey(30), grey(33), labFromHex("#b03a3a")!, charcoal],
    ],
  };

  /** Green light of "2" less that of "1", away from other colours above and below. */
  function differenceIn({ width, height, data }: Raster, rows: readonly string[]): number {
    const sums: Record<string, [number, number]> = { "1": [0, 0], "2": [0, 0] };
    for (let pixel = 0; pixel < width * height; pixel++) {
      const row = Math.floor((Math.floor(pixel / width) * rows.length) / height);
      const column = Math.floor(((pixel % width) * rows[0]!.length) / width);
      const own = sums[rows[row]![column]!];
      const around = [rows[row - 1]?.[column], rows[row + 1]?.[column]];
      if (!own || around.some((cell) => cell !== "1" && cell !== "2")) continue;
      own[0] += data[pixel * 3 + 1]!;
      own[1] += 1;
    }
    return sums["2"]![0] / sums["2"]![1] - sums["1"]![0] / sums["1"]![1];
  }

  it.each(Object.entries(NESTED))("%s is gone where its figure's own number says so", (_, [rows, labs]) => {
    const cloth = clothOfRows(rows, labs);
    const drawn = squares(cloth, 8);
    for (const distanceM of [0.7, 1.5, 3, 6]) {
      const band = { rows: [1, rows.length] as [number, number], pattern: [0] };
      const { V, figures } = bandContrast(cloth, band, { distanceM, lux: LUX }, spectrumMemory());
      const figure = figures.find(({ area, against }) =>
        [area, against].every(({ colours }) => /[12]/.test(colours[0]!)),
      )!;
      expect(V).toBeGreaterThan(5);
      expect(figure.V).toBeLessThan(0.5);
      const seen = seenCloth(cloth, { distanceM, lux: LUX }, { pixelsPerStitch: 8 });
      expect(Math.abs(differenceIn(seen, rows) / differenceIn(drawn, rows))).toBeLessThan(0.2);
      // The large difference is still there.
      expect(lightDarkOf(seen)).toBeGreaterThan(0.8 * lightDarkOf(drawn));
    }
  });
});
