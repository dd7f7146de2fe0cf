/** The middle of a motif belongs to the motif: it moves with it, however the chart's edge cuts it. */
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { remainder } from "../base/divisors.ts";
import { findBands } from "./bands.ts";
import { centreOf } from "./centres.ts";
import { gridOf } from "./chart.ts";
import { structureOf } from "./structure.ts";

/** Where the middle lies of a motif on plain ground, its rows turned so many stitches to the left. */
function middle(rows: readonly string[], left: number) {
  const turned = rows.map((row) => (row.slice(left) + row.slice(0, left)).repeat(2));
  const plain = ".".repeat(turned[0]!.length);
  const chart = {
    rows: [plain, ...turned, plain],
    bands: [{ rows: [2, rows.length + 1] as [number, number], ground: ["."] }],
  };
  const grid = gridOf(chart);
  return centreOf(grid, structureOf(grid, findBands(chart, grid))[1]!);
}

describe("the middle of a motif", () => {
  it.each(table.motifs.map(({ id, rows }) => [id, rows] as const))("%s moves with its stitches", (_, rows) => {
    const start = middle(rows, 0);
    for (let left = 1; left < rows[0]!.length; left++) {
      const moved = middle(rows, left);
      if (!start) expect(moved).toBeNull();
      else expect([left, remainder(moved!.column - start.column - left, start.repeat)]).toEqual([left, 0]);
    }
  });

  it("of a zigzag it is at its peaks", () => {
    // By hand: the peak of the upper row is the single stitch in column 3 of six, from the right.
    expect(middle(["...#..", "..#.#.", ".#...#"], 0)).toEqual({ column: 3, repeat: 6 });
  });
});
