/** The drawn cloth: its colours are true, it is the same every time, and it joins. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridOf, NO_STITCH } from "../chart/chart.ts";
import { labFromHex, linearFromLab, type Lab } from "../colour/lab.ts";
import { crop, meanColour } from "../raster/raster.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { renderCloth } from "./render.ts";

/** Of white: the bar for true colours. */
const ONE_PERCENT = 0.01;

interface Made {
  over?: string;
  flecks?: Record<string, Ink["flecks"]>;
  lines?: Cloth["lines"];
}

function clothFrom(rows: string[], hexes: Record<string, string>, { over, flecks, lines = [] }: Made = {}): Cloth {
  const chart = { id: "c1", rows };
  const grid = gridOf(chart);
  const inks = grid.ids.map((id): Ink => {
    const lab = labFromHex(hexes[id]!)!;
    return { colour: id, yarn: null, lab, uncertainty: 3, was: lab, flecks: flecks?.[id] ?? [], over: over === id };
  });
  return { chart, grid, inks, cells: grid.cells, knitted: grid.cells, gauge: { stitches: 28, rows: 30 }, lines };
}

const HEXES = { A: "#ede6d6", B: "#3a3a3a", C: "#b03a3a", D: "#1f6f78" };
const MOTIF = ["AABBAABB", "ABCCBAAB", "ADDBBDDA", "BBAABBAA", "CACACACA", "AAAAAAAA", "BABABABA", "DDDDCCCC"];

/** The area-weighted mean of the yarns, by hand. */
function flatMean(cloth: Cloth): number[] {
  const sum = [0, 0, 0];
  let count = 0;
  for (const cell of cloth.cells) {
    if (cell === NO_STITCH) continue;
    linearFromLab(cloth.inks[cell]!.lab).forEach((light, channel) => (sum[channel]! += light));
    count++;
  }
  return sum.map((light) => light / count);
}

function expectMean(cloth: Cloth, pixelsPerStitch: number): void {
  const expected = flatMean(cloth);
  meanColour(renderCloth(cloth, { pixelsPerStitch, repeatsAcross: 2 })).forEach((light, channel) =>
    expect(Math.abs(light - expected[channel]!)).toBeLessThan(ONE_PERCENT),
  );
}

describe("rendered cloth", () => {
  it.each([0.5, 1, 1.7, 3, 8, 12.4, 20])("has the mean of its yarns at %f pixels a stitch", (pixels) =>
    expectMean(clothFrom(MOTIF, HEXES), pixels),
  );

  it("has the mean of its yarns whatever is knitted", () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[ABCD]{9}$/), { minLength: 8, maxLength: 12 }),
        fc.double({ min: 1, max: 9, noNaN: true }),
        (rows, pixels) => expectMean(clothFrom(rows, HEXES), pixels),
      ),
      { seed: 7, numRuns: 12 },
    );
  });

  it("keeps a single yarn's colour within 1 % of it, pale or dark", () => {
    for (const hex of ["#f4f0e6", "#3a3a3a", "#c9992b"]) {
      const cloth = clothFrom(["AAA", "AAA"], { A: hex });
      const [red, green, blue] = linearFromLab(cloth.inks[0]!.lab);
      const mean = meanColour(renderCloth(cloth, { pixelsPerStitch: 16 }));
      [red, green, blue].forEach((light, channel) => expect(Math.abs(mean[channel]! / light - 1)).toBeLessThan(0.01));
    }
  });

  it("gives a heather the mean of its flecks", () => {
    const mean = "#8f8d72";
    const flecks = [{ shade: { hex: "#77aa44" }, share: 0.2 }];
    expectMean(clothFrom(["AAAA", "AAAA"], { A: mean }, { flecks: { A: flecks } }), 10);
    const plain = renderCloth(clothFrom(["AAAA"], { A: mean }), { pixelsPerStitch: 10 });
    const heather = renderCloth(clothFrom(["AAAA"], { A: mean }, { flecks: { A: flecks } }), { pixelsPerStitch: 10 });
    expect(heather.data).not.toEqual(plain.data);
  });

  it("is the same for the same seed and another for another", () => {
    const cloth = clothFrom(MOTIF, HEXES);
    const once = renderCloth(cloth, { pixelsPerStitch: 9, seed: 3 });
    expect(renderCloth(cloth, { pixelsPerStitch: 9, seed: 3 }).data).toEqual(once.data);
    expect(renderCloth(cloth, { pixelsPerStitch: 9, seed: 4 }).data).not.toEqual(once.data);
  });

  it("has the true proportion of the gauge and knows its scale", () => {
    // 28 stitches and 30 rows to 10 cm: 8 stitches are 28.57 mm wide, 8 rows 26.67 mm high.
    const raster = renderCloth(clothFrom(MOTIF, HEXES), { pixelsPerStitch: 15 });
    expect(raster.width * raster.millimetresPerPixel!).toBeCloseTo(28.571, 2);
    expect(raster.height * raster.millimetresPerPixel!).toBeCloseTo(26.667, 0);
  });

  it("joins without a seam: a repeat's colours do not depend on where it is cut", () => {
    const turned = MOTIF.map((row) => row.slice(3) + row.slice(0, 3));
    const flat = { pixelsPerStitch: 8, repeatsAcross: 2, surface: "flat" } as const;
    const straight = renderCloth(clothFrom(MOTIF, HEXES), { ...flat, surface: "square" });
    const shifted = renderCloth(clothFrom(turned, HEXES), { ...flat, surface: "square" });
    const box = { x: 0, y: 0, width: 64, height: straight.height };
    const cut = crop(straight, { ...box, x: 24 });
    const other = crop(shifted, box);
    cut.data.forEach((light, at) => expect(light).toBeCloseTo(other.data[at]!, 5));
  });

  it("shows rows cut out of the cloth with the neighbours that they have in it", () => {
    const cloth = clothFrom(["AA", "BB", "AA", "BB"], HEXES);
    const whole = renderCloth({ ...cloth, gauge: { stitches: 20, rows: 20 } }, { pixelsPerStitch: 10 });
    const part = renderCloth({ ...cloth, gauge: { stitches: 20, rows: 20 } }, { pixelsPerStitch: 10, rows: [2, 3] });
    expect(part.data).toEqual(crop(whole, { x: 0, y: 10, width: 20, height: 20 }).data);
  });

  it("leaves the grey room where there is no stitch", () => {
    const raster = renderCloth(clothFrom(["--", "AA"], HEXES), { pixelsPerStitch: 8 });
    const empty = crop(raster, { x: 0, y: 0, width: raster.width, height: 6 });
    // 0.4 of white in linear light: the design's grey room.
    for (const light of empty.data) expect(light).toBeCloseTo(0.4, 3);
  });

  it("draws row 1 at the bottom and column 1 at the right", () => {
    const raster = renderCloth(clothFrom(["BBBB", "BBBA"], HEXES), { pixelsPerStitch: 12, surface: "square" });
    const corner = meanColour(raster, { x: 40, y: raster.height - 8, width: 6, height: 6 });
    expect(corner[0]).toBeCloseTo(linearFromLab(labFromHex(HEXES.A) as Lab)[0], 3);
  });

  it("lays duplicate stitch fuller over the cloth", () => {
    const rows = ["BBB", "BAB", "BBB"];
    const covered = (cloth: Cloth): number =>
      meanColour(renderCloth(cloth, { pixelsPerStitch: 20, surface: "flat" }))[0];
    expect(covered(clothFrom(rows, HEXES, { over: "A" }))).toBeGreaterThan(covered(clothFrom(rows, HEXES)));
  });

  it("draws embroidery along the edges of cells", () => {
    const lab = labFromHex("#ffffff")!;
    // Row line 1, from column line 0 to 2, counted from the bottom right: the middle of two rows.
    const cloth = clothFrom(["BB", "BB"], HEXES, { lines: [{ from: [1, 0], to: [1, 2], lab }] });
    const raster = renderCloth(cloth, { pixelsPerStitch: 16 });
    const at = (x: number, y: number): number => meanColour(raster, { x, y, width: 2, height: 2 })[0];
    expect(at(8, raster.height / 2 - 1)).toBeGreaterThan(0.7);
    expect(at(8, 3)).toBeLessThan(0.1);
  });
});
