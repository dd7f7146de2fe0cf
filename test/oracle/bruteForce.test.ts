/**
 * The seeing model against drawings of charts: each chart is drawn flat, transformed by a library and weighed frequency by frequency,
 * with formulas written anew from the papers. Spectra in src come from the stitches without a drawing, in bins, and end at six
 * cycles to a stitch along either side. What a drawing has beyond them is fine edges, some per cent of V from near by, and what its
 * pixels alias, a per cent at 16 to the stitch and a quarter of that with every doubling; so the two agree as nearly as a drawing can.
 */
import { describe, expect, it } from "vitest";
import { NO_STITCH } from "../../src/chart/chart.ts";
import type { Lab } from "../../src/colour/lab.ts";
import { spectrumOf, type Piece } from "../../src/fabric/spectra.ts";
import { channelsAt, HUE_WEIGHT, sceneFor, USUAL_EYE, visibility, type Scene } from "../../src/fabric/visibility.ts";
import { SMOOTH_PAPER } from "../../src/vision/masking.ts";
import { figureVisibility, gainsOf, join, type ChannelVisibility } from "../../src/vision/visibility.ts";
import { chartShown, figureShown, FINENESS, type DrawnChart, type Shown } from "./drawnChart.ts";
import { randomCharts } from "./randomCharts.ts";

const CHARTS = randomCharts(220, 7);
const SMOOTH = { ...USUAL_EYE, texture: SMOOTH_PAPER };

const pieceOf = ({ width, height, cells, labs }: DrawnChart): Piece => ({
  width,
  height,
  cells: cells.map((cell) => (cell < 0 ? NO_STITCH : cell)),
  count: labs.length,
});

function sceneOf(chart: DrawnChart, eye = USUAL_EYE): Scene {
  const spectrum = spectrumOf(pieceOf(chart), { stitch: chart.stitch, rows: chart.rows });
  return sceneFor(spectrum, chart.labs as readonly Lab[], chart.lux, eye);
}

/** V joined as it is told, on cloth and on smooth paper. */
const joined = (shown: Shown, lightDark: "masked" | "bare"): number =>
  join({ ...shown, lightDark: shown[lightDark] }, HUE_WEIGHT.usual);
const told = (channels: ChannelVisibility): number => join(channels, HUE_WEIGHT.usual);

const apart = (found: number, expected: number): number => Math.abs(found / expected - 1);

interface Misses {
  readonly median: number;
  readonly worst: number;
}

function missesOf(errors: readonly number[], what: string): Misses {
  const sorted = errors.toSorted((a, b) => a - b);
  const misses = { median: sorted[sorted.length >> 1]!, worst: sorted.at(-1)! };
  const inPerCent = (part: number): string => `${(100 * part).toFixed(3)} %`;
  console.info(`${what}: ${errors.length}, median ${inPerCent(misses.median)}, worst ${inPerCent(misses.worst)}`);
  return misses;
}

/** V of a chart of which the drawing says nothing at all would make no ratio. */
const VISIBLE = 1e-6;

describe("220 charts by chance", () => {
  const drawn = CHARTS.map((chart) => ({ chart, ...chartShown(chart) })).filter(
    ({ all }) => joined(all, "masked") > VISIBLE,
  );

  it("are nearly all visible to the drawing, tiled and alone, from two colours to five", () => {
    expect(drawn.length).toBeGreaterThan(200);
    for (const rows of ["tiled", "once"])
      for (const colours of [2, 3, 4, 5])
        expect(
          drawn.filter(({ chart }) => chart.rows === rows && chart.labs.length === colours).length,
        ).toBeGreaterThan(9);
  });

  it("are told by the public measure as the rooms below see them", () => {
    for (const { chart } of drawn) {
      const { width, height, stitch } = chart;
      const digits = chart.cells.map((cell) => (cell < 0 ? "-" : String(cell)));
      const { V } = visibility({
        colours: chart.labs as readonly Lab[],
        motif: Array.from({ length: height }, (_, y) => digits.slice(y * width, (y + 1) * width).join("")),
        gauge: { stitches: 100 / stitch.widthMm, rows: 100 / stitch.heightMm },
        distance: chart.distanceMm / 1000,
        light: chart.lux,
        ...(chart.rows === "once" ? { rows: "once" } : {}),
      });
      expect(apart(V, told(channelsAt(sceneOf(chart), chart.distanceMm)))).toBeLessThan(1e-9);
    }
  });

  describe.each([
    { surface: "cloth", lightDark: "masked", eye: USUAL_EYE },
    { surface: "smooth paper", lightDark: "bare", eye: SMOOTH },
  ] as const)("on $surface", ({ surface, lightDark, eye }) => {
    const found = drawn.map(({ chart }) => channelsAt(sceneOf(chart, eye), chart.distanceMm));

    it.each(["tiled", "once"])("%s, all that the drawing has", (rows) => {
      const errors = drawn.flatMap(({ chart, all }, at) =>
        chart.rows === rows ? [apart(told(found[at]!), joined(all, lightDark))] : [],
      );
      const { median, worst } = missesOf(errors, `${rows}, ${surface}, all`);
      expect(median).toBeLessThan(0.02);
      expect(worst).toBeLessThan(0.1);
    });

    it.each(["tiled", "once"])("%s, up to six cycles to a stitch", (rows) => {
      const errors = drawn.flatMap(({ chart, coarse }, at) =>
        chart.rows === rows ? [apart(told(found[at]!), joined(coarse, lightDark))] : [],
      );
      const { median, worst } = missesOf(errors, `${rows}, ${surface}, up to six cycles`);
      expect(median).toBeLessThan(0.005);
      expect(worst).toBeLessThan(0.03);
    });

    it("each channel alone, up to six cycles to a stitch", () => {
      const errors = drawn.flatMap(({ coarse }, at) => {
        const pairs = [
          [found[at]!.lightDark, coarse[lightDark]],
          [found[at]!.redGreen, coarse.redGreen],
          [found[at]!.yellowViolet, coarse.yellowViolet],
        ] as const;
        return pairs.filter(([, expected]) => expected > VISIBLE).map(([one, other]) => apart(one, other));
      });
      const { median, worst } = missesOf(errors, `channels, ${surface}, up to six cycles`);
      expect(median).toBeLessThan(0.005);
      expect(worst).toBeLessThan(0.06);
    });
  });
});

describe("what is left is the drawing's own", () => {
  const some = CHARTS.slice(0, 24).filter(({ height, rows }) => rows === "tiled" || height < 5);

  it("with twice the pixels to a stitch the two agree four times as nearly", () => {
    const errorsAt = (fineness: number): number[] =>
      some.flatMap((chart) => {
        const { coarse } = chartShown(chart, fineness);
        return [USUAL_EYE, SMOOTH].map((eye, at) =>
          apart(told(channelsAt(sceneOf(chart, eye), chart.distanceMm)), joined(coarse, at ? "bare" : "masked")),
        );
      });
    const rough = missesOf(errorsAt(FINENESS), `${FINENESS} pixels to a stitch`);
    const fine = missesOf(errorsAt(2 * FINENESS), `${2 * FINENESS} pixels to a stitch`);
    expect(fine.worst).toBeLessThan(0.35 * rough.worst);
    expect(fine.median).toBeLessThan(0.35 * rough.median);
    expect(fine.worst).toBeLessThan(0.005);
  });
});

describe("figures: the chart less the chart with one colour knitted in another", () => {
  const charts = CHARTS.filter(({ labs }) => labs.length > 2).slice(0, 60);

  it("are what the drawing says, either way about", () => {
    const errors: number[] = [];
    for (const chart of charts) {
      const { spectrum, field, eye } = sceneOf(chart);
      const gains = gainsOf(spectrum, chart.distanceMm, field.luminance, eye);
      for (const [area, against] of [
        [0, 1],
        [2, 0],
      ] as const) {
        const found = figureVisibility(spectrum, field, gains, { area, against }, eye.contrastCap);
        const { all } = figureShown(chart, area, against);
        if (joined(all, "masked") > VISIBLE) errors.push(apart(told(found), joined(all, "masked")));
      }
    }
    expect(errors.length).toBeGreaterThan(100);
    const { median, worst } = missesOf(errors, "figures, all");
    expect(median).toBeLessThan(0.02);
    expect(worst).toBeLessThan(0.1);
  });
});

describe("colours that coincide", () => {
  const charts = CHARTS.filter(({ labs }) => labs.length > 2);
  /** The chart with its later colours drawn as one of the first two. */
  const inTwo = (chart: DrawnChart): DrawnChart => ({
    ...chart,
    cells: chart.cells.map((cell) => (cell < 0 ? cell : cell % 2)),
    labs: chart.labs.slice(0, 2),
  });
  const coinciding = (chart: DrawnChart): DrawnChart => ({
    ...chart,
    labs: chart.labs.map((_, at) => chart.labs[at % 2]!),
  });

  it("the power of the pairs that differ adds up to that of two colours, to the last digits", () => {
    for (const chart of charts) {
      const many = spectrumOf(pieceOf(chart), chart);
      const [two] = spectrumOf(pieceOf(inTwo(chart)), chart).powers;
      let sum = 0;
      for (let j = 0, pair = 0; j < many.count; j++)
        for (let k = j + 1; k < many.count; k++, pair++)
          if (j % 2 !== k % 2) sum += many.powers[pair]!.reduce((all, power) => all + power, 0);
      expect(
        apart(
          sum,
          two!.reduce((all, power) => all + power, 0),
        ),
      ).toBeLessThan(1e-9);
    }
  });

  // The bins stand where the power of all pairs lies, so they stand elsewhere for two colours; first moments mend nearly all of it.
  it("show as two colours do, half of them to 1e-6 and all within what bins may cost", () => {
    const errors = charts.map((chart) =>
      apart(
        told(channelsAt(sceneOf(coinciding(chart)), chart.distanceMm)),
        told(channelsAt(sceneOf(inTwo(chart)), chart.distanceMm)),
      ),
    );
    const { median, worst } = missesOf(errors, "colours that coincide");
    expect(median).toBeLessThan(1e-6);
    // What bins may cost against the full sum, tiled: vision.md B2.
    expect(worst).toBeLessThan(5e-5);
  });

  it("a figure in the colour of what it lies on is nothing", () => {
    for (const chart of charts) {
      const { spectrum, field, eye } = sceneOf(coinciding(chart));
      const gains = gainsOf(spectrum, chart.distanceMm, field.luminance, eye);
      expect(told(figureVisibility(spectrum, field, gains, { area: 0, against: 2 }, eye.contrastCap))).toBe(0);
    }
  });
});
