/** The fourteen published-shape motifs, counted by this room and compared with the table's own numbers. */
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { findBands } from "./bands.ts";
import { gridOf } from "./chart.ts";
import { countStitches, rowColours } from "./counts.ts";
import { floatsInRow } from "./floats.ts";
import { mirrorAxes } from "./mirrors.ts";
import { horizontalPeriod } from "./repeats.ts";

describe.each(table.motifs)("$id", (motif) => {
  const grid = gridOf(motif);
  const pattern = grid.ids.indexOf("#");
  const ground = grid.ids.indexOf(".");
  const rows = Array.from({ length: motif.height }, (_, index) => index + 1);

  it("has the table's size and stitches", () => {
    expect([grid.width, grid.height]).toEqual([motif.width, motif.height]);
    const stitches = countStitches(grid);
    expect([stitches[pattern], stitches[ground]]).toEqual([motif.patternStitches, motif.backgroundStitches]);
    expect(rows.filter((row) => rowColours(grid, row).length === 2)).toHaveLength(motif.twoColourRows);
  });

  it("has the table's longest floats, cyclically", () => {
    const longest = (colour: number): number =>
      Math.max(
        ...rows.flatMap((row) =>
          floatsInRow(grid, row)
            .filter((float) => float.colour === colour)
            .map(({ length }) => length),
        ),
      );
    expect(longest(ground)).toBe(motif.longestGroundFloat);
    expect(longest(pattern)).toBe(motif.longestPatternFloat);
  });

  it("has the table's repeat and mirror axes, turned to columns from 1 at the right", () => {
    expect(horizontalPeriod(grid, 1, motif.height)).toBe(motif.minimalPeriod);
    // A column counted from 0 at the left is width − column counted from 1 at the right; a line below 1 is the same line a repeat on.
    const expected = motif.mirrorAxes
      .map((axis) => motif.width - axis)
      .map((axis) => (axis < 1 ? axis + motif.width : axis));
    expect(mirrorAxes(grid, 1, motif.height)).toEqual(expected.sort((a, b) => a - b));
  });

  it("is one band on its ground between two plain rows, unless plain rows cut it", () => {
    const plain = ".".repeat(motif.width);
    const framed = gridOf({ rows: [plain, ...motif.rows, plain] });
    const bands = findBands({}, framed);
    const motifs = bands.filter((band) => band.pattern.length > 0);
    // Scattered seeds have plain rows inside: a limit that findBands states.
    expect(motifs.map(({ rows }) => rows)).toEqual(
      motif.id === "seed-6"
        ? [
            [4, 4],
            [7, 7],
          ]
        : [[2, motif.height + 1]],
    );
    for (const band of motifs) {
      expect(framed.ids[band.ground]).toBe(".");
      expect(band.pattern.map((index) => framed.ids[index])).toEqual(["#"]);
    }
  });
});
