/** The seen image: the cloth in the hand, from afar, from memory, and by her own threshold. */
import { describe, expect, it } from "vitest";
import { SEEN_PAIRS } from "../../test/oracle/seenPairs.ts";
import { gridOf } from "../chart/chart.ts";
import { labFromHex, type Lab } from "../colour/lab.ts";
import { crop, meanColour, type Raster } from "../raster/raster.ts";
import { lookAt } from "../vision/eye.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { renderCloth } from "./render.ts";
import { lookAtCloth, seenCloth, seenMemory } from "./seen.ts";
import { visibility } from "./visibility.ts";

const GAUGE = { stitches: 28, rows: 30 };
const LUX = 500;
/** Left of a pattern that V puts at half the threshold, and at twice it, as parts of its contrast. */
const GONE = 0.2;
const THERE = 0.8;

const CHECKER = ["01", "10"];
const DIAMOND = ["0000000000", "0000100000", "0001110000", "0011111000", "0001110000", "0000100000", "0000000000"];

function clothOfMotif(motif: readonly string[], labs: readonly Lab[], size = 20): Cloth {
  const across = Math.ceil(size / motif[0]!.length);
  const up = Math.ceil(size / motif.length);
  const rows = Array.from({ length: up }, () => motif.map((row) => row.repeat(across))).flat();
  const chart = { id: "c1", rows };
  const grid = gridOf(chart);
  const inks = grid.ids.map((id): Ink => {
    const lab = labs[Number(id)]!;
    return { colour: id, yarn: null, lab, uncertainty: 3, was: lab, flecks: [], over: false };
  });
  return { chart, grid, inks, cells: grid.cells, knitted: grid.cells, gauge: GAUGE, lines: [] };
}

/** Root mean square about the mean, away from the edges. */
function contrastOf(raster: Raster, margin: number): number {
  const inner = crop(raster, {
    x: margin,
    y: margin,
    width: raster.width - 2 * margin,
    height: raster.height - 2 * margin,
  });
  const mean = meanColour(inner);
  let sum = 0;
  inner.data.forEach((light, at) => (sum += (light - mean[at % 3]!) ** 2));
  return Math.sqrt(sum / inner.data.length);
}

describe("the seen image", () => {
  it("leaves the cloth as it is in the hand", () => {
    const cloth = clothOfMotif(DIAMOND, SEEN_PAIRS["cream and charcoal"]!, 20);
    const knitted = renderCloth(cloth, { pixelsPerStitch: 8 });
    const seen = seenCloth(cloth, { distanceM: 0.25, lux: LUX }, { pixelsPerStitch: 8 });
    let difference = 0;
    seen.data.forEach((light, at) => (difference += Math.abs(light - knitted.data[at]!)));
    // A hundredth of white, on average, is below a step that the eye parts.
    expect(difference / seen.data.length).toBeLessThan(0.01);
  });

  it("takes the relief of the stitches away from afar and keeps the colour", () => {
    const cloth = clothOfMotif(["0"], [labFromHex("#c9992b")!]);
    const near = renderCloth(cloth, { pixelsPerStitch: 8 });
    const far = seenCloth(cloth, { distanceM: 12, lux: LUX }, { pixelsPerStitch: 8 });
    expect(contrastOf(far, 20)).toBeLessThan(0.1 * contrastOf(near, 20));
    meanColour(far).forEach((light, channel) => expect(light).toBeCloseTo(meanColour(near)[channel]!, 2));
  });

  it("is the same from memory, whatever was looked at before, and forgets no change of the cloth", () => {
    const [oat, pebble] = SEEN_PAIRS["oat and pebble"]!;
    const cloth = clothOfMotif(DIAMOND, [oat, pebble], 10);
    const recoloured = clothOfMotif(DIAMOND, [pebble, oat], 10);
    const options = { pixelsPerStitch: 5, repeatsAcross: 2 };
    const memory = seenMemory();
    for (const [seen, distanceM, more] of [
      [cloth, 1, {}],
      [cloth, 6, {}],
      [recoloured, 6, {}],
      [cloth, 2, { threshold: 1.5 }],
      [cloth, 2, { rows: [2, 6] }],
      [cloth, 2, { pixelsPerStitch: 4 }],
      [cloth, 1, {}],
    ] as const) {
      const asked = { ...options, ...more };
      const kept = seenCloth(seen, { distanceM, lux: LUX }, asked, memory);
      expect(kept).toEqual(seenCloth(seen, { distanceM, lux: LUX }, asked));
    }
  });

  it("shows her what is above her own threshold", () => {
    const [background, foreground] = SEEN_PAIRS["greys 8 apart"]!;
    const cloth = clothOfMotif(CHECKER, [background, foreground], 20);
    const flat = renderCloth(cloth, { pixelsPerStitch: 8, surface: "square" });
    const { V } = visibility({ background, foreground, motif: CHECKER, gauge: GAUGE, distance: 1.5, light: LUX });
    const left = (threshold: number): number =>
      contrastOf(lookAt(flat, { ...lookAtCloth(cloth, { distanceM: 1.5, lux: LUX }), threshold }), 40) /
      contrastOf(flat, 40);
    expect(left(V / 2)).toBeGreaterThan(THERE);
    expect(left(V / 0.5)).toBeLessThan(GONE);
    // The same through the cloth's own picture, stitches and all.
    const through = (threshold: number): number =>
      contrastOf(seenCloth(cloth, { distanceM: 1.5, lux: LUX }, { pixelsPerStitch: 8, threshold }), 40);
    expect(through(20)).toBeLessThan(0.2 * through(1));
  });

  it("leaves a uniform field uniform", () => {
    const cloth = clothOfMotif(["0"], [labFromHex("#1f6f78")!]);
    const flat = renderCloth(cloth, { pixelsPerStitch: 4, surface: "square" });
    const seen = lookAt(flat, lookAtCloth(cloth, { distanceM: 2, lux: LUX }));
    seen.data.forEach((light, at) => expect(light).toBeCloseTo(flat.data[at]!, 4));
  });
});
