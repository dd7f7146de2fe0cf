/** Variegated yarn in the cloth: every colour has its share, lasts as long as it is told, and goes on from round to round. */
import { describe, expect, it } from "vitest";
import { gridOf } from "../chart/chart.ts";
import { labFromHex, linearFromLab } from "../colour/lab.ts";
import { meanColour } from "../raster/raster.ts";
import type { Fleck } from "../yarn/yarn.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { renderCloth } from "./render.ts";
import { fleckKindIn, laidInRuns, partsAlong, stitchLengthMm } from "./yarnRuns.ts";

const GAUGE = { stitches: 28, rows: 30 };

function clothFrom(rows: string[], flecks: readonly Fleck[], worked: "round" | "flat" = "round"): Cloth {
  const chart = { id: "c1", rows, worked };
  const grid = gridOf(chart);
  const inks = grid.ids.map((id): Ink => {
    const lab = labFromHex(id === "A" ? "#8f8a78" : "#202020")!;
    return { colour: id, yarn: id, lab, uncertainty: 3, was: lab, flecks: id === "A" ? flecks : [], over: false };
  });
  return { chart, grid, inks, cells: grid.cells, knitted: grid.cells, gauge: GAUGE, lines: [] };
}

const plain = (width: number, height: number): string[] => new Array<string>(height).fill("A".repeat(width));
const light: Fleck = { shade: { hex: "#e0d8c8" }, share: 0.3, lengthMm: 100 };

it("a stitch takes the yarn that its gauge tells", () => {
  // Munden's wet-relaxed constant 21.6 (docs/trade.md), by hand: √(21.6 / (2.8 · 3.0)) cm = 16.04 mm.
  expect(stitchLengthMm(GAUGE)).toBeCloseTo(16.04, 2);
});

describe("the kind of flecks is their length and share", () => {
  const kind = (lengthMm: number | undefined, share: number): string =>
    fleckKindIn([{ shade: { hex: "#e0d8c8" }, share, ...(lengthMm === undefined ? {} : { lengthMm }) }], GAUGE);
  it.each([
    [undefined, 0.3, "heather"],
    [0.5, 0.3, "heather"],
    [4, 0.06, "tweed"],
    [5, 0.5, "marl"],
    [16.5, 0.3, "variegated"],
    [300, 0.1, "variegated"],
  ] as const)("%s mm of %f: %s", (lengthMm, share, expected) => expect(kind(lengthMm, share)).toBe(expected));
});

it("between flecks lies as much ground as is left", () => {
  // 30 % in lengths of 100 mm: one in 333 mm, 233 of them ground.
  const [ground, fleck] = partsAlong({ lab: [60, 0, 5], flecks: [light] }, 16);
  expect(fleck!.lengthMm).toBe(100);
  expect(ground!.lengthMm).toBeCloseTo(233.3, 1);
});

describe("a variegated yarn", () => {
  const cloth = clothFrom(plain(24, 60), [light]);
  const laid = laidInRuns(cloth, 2, 1);

  it("has its share over many stitches", () => {
    const part = laid.cells.reduce((sum, cell) => sum + (cell === 2 ? 1 : 0), 0) / laid.cells.length;
    expect(laid.inks).toHaveLength(3);
    expect(part).toBeGreaterThan(0.22);
    expect(part).toBeLessThan(0.38);
    // With it the cloth has the yarn's own colour, but for that chance.
    const mean = meanColour(renderCloth(cloth, { pixelsPerStitch: 4, repeatsAcross: 2 }));
    linearFromLab(cloth.inks[0]!.lab).forEach((part, channel) =>
      expect(Math.abs(mean[channel]! - part)).toBeLessThan(0.04),
    );
  });

  it("lasts as many stitches as fit into its length", () => {
    // 100 mm of 16.04 mm a stitch are 6.2 stitches, a third more or less.
    const runs: number[] = [];
    for (let row = 0; row < 60; row++) {
      let run = 0;
      for (let column = 0; column < 48; column++) {
        if (laid.cells[row * 48 + column] === 2) run++;
        else if (run > 0) {
          if (column - run > 0) runs.push(run);
          run = 0;
        }
      }
    }
    expect(runs.length).toBeGreaterThan(40);
    for (const run of runs) {
      expect(run).toBeGreaterThanOrEqual(3);
      expect(run).toBeLessThanOrEqual(9);
    }
  });

  it("goes on from round to round where the round is what is drawn", () => {
    const round = laidInRuns(clothFrom(plain(240, 8), [light]), 1, 1);
    for (let row = 1; row < 8; row++) {
      // The last stitch of a round and the first of the next are one yarn: where neither begins, they are alike.
      const line = (at: number): string => round.cells.subarray(at * 240, at * 240 + 240).join("");
      const [last, first] = [line(row - 1).slice(-3), line(row).slice(0, 3)];
      const changes = (last + first).replace(/(.)\1+/g, "$1").length - 1;
      expect(changes).toBeLessThanOrEqual(1);
    }
  });

  it("is worked back on every second row of flat knitting", () => {
    const flat = laidInRuns(clothFrom(plain(240, 2), [light], "flat"), 1, 1);
    const round = laidInRuns(clothFrom(plain(240, 2), [light]), 1, 1);
    const second = ({ cells }: Cloth): number[] => [...cells.subarray(240)];
    expect(second(flat)).toEqual(second(round).toReversed());
    expect([...flat.cells.subarray(0, 240)]).toEqual([...round.cells.subarray(0, 240)]);
  });

  it("is the same for the same seed, and no other yarn is touched", () => {
    const striped = clothFrom(["AABBBB", "BBAAAA"], [light]);
    expect(laidInRuns(striped, 3, 4).cells).toEqual(laidInRuns(striped, 3, 4).cells);
    const cells = laidInRuns(striped, 3, 4).cells;
    for (let at = 0; at < cells.length; at++) {
      const own = striped.cells[Math.floor(at / 18) * 6 + (at % 6)]!;
      expect(cells[at] === 1).toBe(own === 1);
    }
    expect(laidInRuns(clothFrom(plain(4, 2), []), 3, 1).grid.width).toBe(4);
  });

  it("shows the same rows whether all are drawn or some", () => {
    const all = renderCloth(cloth, { pixelsPerStitch: 4, surface: "flat" });
    const some = renderCloth(cloth, { pixelsPerStitch: 4, surface: "flat", rows: [11, 60] });
    const height = Math.round((some.height * 40) / 50);
    let differ = 0;
    for (let at = 0; at < all.width * height * 3; at++)
      differ += Math.abs(all.data[at]! - some.data[at]!) > 0.2 ? 1 : 0;
    expect(differ / (all.width * height * 3)).toBeLessThan(0.02);
  });
});

it("a tweed's specks make up their share over many stitches", () => {
  const cloth = clothFrom(plain(40, 40), [{ shade: { hex: "#f0f0f0" }, share: 0.08, lengthMm: 4 }]);
  const expected = linearFromLab(cloth.inks[0]!.lab);
  meanColour(renderCloth(cloth, { pixelsPerStitch: 10 })).forEach((part, channel) =>
    expect(Math.abs(part / expected[channel]! - 1)).toBeLessThan(0.04),
  );
});

it("a marl has the mean of its plies", () => {
  const cloth = clothFrom(plain(6, 6), [{ shade: { hex: "#4f4a42" }, share: 0.5, lengthMm: 5 }]);
  const expected = linearFromLab(cloth.inks[0]!.lab);
  meanColour(renderCloth(cloth, { pixelsPerStitch: 16 })).forEach((part, channel) =>
    expect(Math.abs(part / expected[channel]! - 1)).toBeLessThan(0.01),
  );
});
