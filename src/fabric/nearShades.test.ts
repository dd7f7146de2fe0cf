/** Near shades parted from the rest: nothing is lost, and only what lies together goes together. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridOf, NO_STITCH } from "../chart/chart.ts";
import { linearFromLab, type Lab } from "../colour/lab.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { partedShades } from "./nearShades.ts";

/** A and B are 3 apart in L*, X and Y are far from them and from each other; "-" is no stitch. */
const LABS: Record<string, Lab> = { A: [30, 0, 0], B: [33, 0, 0], X: [90, 0, 0], Y: [60, 40, 20] };

function clothOfRows(rows: string[]): Cloth {
  const chart = { id: "c1", rows };
  const grid = gridOf(chart);
  const inks = grid.ids.map((id): Ink => {
    const lab = LABS[id]!;
    return { colour: id, yarn: null, lab, uncertainty: 3, was: lab, flecks: [], over: false };
  });
  const gauge = { stitches: 28, rows: 30 };
  return { chart, grid, inks, cells: grid.cells, knitted: grid.cells, gauge, lines: [] };
}

describe("near shades", () => {
  it("add up to the cloth again, stitch by stitch", () => {
    const rows = fc.array(fc.stringMatching(/^[ABXY-]{6}$/), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(rows, (given) => {
        fc.pre(given.some((row) => /[ABXY]/.test(row)));
        const cloth = clothOfRows(given);
        const parted = partedShades(cloth);
        if (!parted) return;
        const { merged, pieces, differences, covers } = parted;
        cloth.cells.forEach((cell, at) => {
          if (cell === NO_STITCH) expect([merged.cells[at], covers.cells[at]]).toEqual([NO_STITCH, 0]);
          else {
            const under = linearFromLab(merged.inks[merged.cells[at]!]!.lab);
            const more = covers.cells[at] ? differences[pieces.cells[at]!]! : [0, 0, 0];
            linearFromLab(cloth.inks[cell]!.lab).forEach((light, channel) =>
              expect(under[channel]! + more[channel]!).toBeCloseTo(light, 9),
            );
          }
        });
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("go together where they touch, and are left alone where one of them lies by itself", () => {
    const parted = partedShades(clothOfRows(["XAXXXX", "XXXXXX", "XABAXX", "XXXXXX", "BXXXXA", "YYYYYY"]))!;
    // Column 1 is the right edge, row 1 the lowest. The seam joins B and A of one row.
    const covered = [...parted.covers.cells].map(String).join("");
    expect(covered.match(/.{6}/g)!.reverse()).toEqual(["000000", "000000", "001110", "000000", "100001", "000000"]);
  });

  it("are not parted where there are none, or nothing else", () => {
    expect(partedShades(clothOfRows(["AXAX", "XAXA"]))).toBeNull();
    expect(partedShades(clothOfRows(["ABAB", "BABA"]))).toBeNull();
    // Near, but nowhere side by side.
    expect(partedShades(clothOfRows(["AAAA", "XXXX", "BBBB"]))).toBeNull();
  });
});
