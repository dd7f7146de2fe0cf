import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tileLabel, tilesOf } from "./page.ts";

describe("tiling", () => {
  it("cuts where a band ends, else after a ten", () => {
    const rows = (welcome?: number[]): unknown[] =>
      tilesOf({
        rows: [1, 190],
        width: 24,
        rowsPerSheet: 70,
        columnsPerSheet: 30,
        ...(welcome ? { welcome } : {}),
      }).map((tile) => tile.rows);
    // 190 rows in sheets of at most 70 are three; by hand, the first cut lies within 50 to 70, the second within 120 to 130;
    // 120 and 130 are equally near the middle, and the lower wins.
    expect(rows()).toEqual([[1, 60], [61, 120], [121, 190]]); // prettier-ignore
    expect(rows([66, 128])).toEqual([[1, 66], [67, 128], [129, 190]]); // prettier-ignore
  });

  it("goes from the bottom up and from right to left", () => {
    expect(tilesOf({ rows: [1, 4], width: 4, rowsPerSheet: 2, columnsPerSheet: 2 })).toEqual([
      { rows: [1, 2], columns: [1, 2] },
      { rows: [1, 2], columns: [3, 4] },
      { rows: [3, 4], columns: [1, 2] },
      { rows: [3, 4], columns: [3, 4] },
    ]);
  });

  it("no stitch is lost or doubled, no sheet holds more than it can, no fewer sheets would do", () => {
    const count = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(
        count,
        count,
        count,
        count,
        count,
        fc.array(count),
        (first, rows, width, perRow, perColumn, welcome) => {
          const options = {
            rows: [first, first + rows - 1] as const,
            width,
            rowsPerSheet: perRow,
            columnsPerSheet: perColumn,
            welcome,
          };
          const seen = new Map<string, number>();
          const tiles = tilesOf(options);
          for (const tile of tiles) {
            expect(tile.rows[1] - tile.rows[0]).toBeLessThan(perRow);
            expect(tile.columns[1] - tile.columns[0]).toBeLessThan(perColumn);
            for (let row = tile.rows[0]; row <= tile.rows[1]; row++) {
              for (let column = tile.columns[0]; column <= tile.columns[1]; column++) {
                const place = `${row} ${column}`;
                seen.set(place, (seen.get(place) ?? 0) + 1);
              }
            }
          }
          expect(seen.size).toBe(rows * width);
          expect(Math.max(...seen.values())).toBe(1);
          expect(seen.has(`${first} 1`) && seen.has(`${first + rows - 1} ${width}`)).toBe(true);
          expect(tiles.length).toBe(Math.ceil(rows / perRow) * Math.ceil(width / perColumn));
        },
      ),
      { seed: 7, numRuns: 150 },
    );
  });

  it("names rows, and stitches where the chart is cut across", () => {
    expect(tileLabel({ rows: [1, 60], columns: [1, 24] }, 24, 1, 3)).toBe("rows 1–60, sheet 1 of 3");
    expect(tileLabel({ rows: [7, 7], columns: [25, 48] }, 48, 2, 2)).toBe("rows 7, stitches 25–48, sheet 2 of 2");
  });
});
