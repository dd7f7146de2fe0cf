/** Where floats are caught and what a changed stitch does to them: worked by hand, and by laws over any rows. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catchesIn, catchesNeeded, columnsPassed, laddersIn } from "./catches.ts";
import { changedFloats } from "./changedStitch.ts";
import { gridOf, type Grid } from "./chart.ts";
import { floatsInRow } from "./floats.ts";

const runs = { seed: 7, numRuns: 300 };
const columnsOf = (rows: string[], limit: number): string =>
  catchesIn(gridOf({ rows }), [1, rows.length], limit)
    .catches.map(({ row, column }) => `${row}:${column}`)
    .join(" ");

describe("catches", () => {
  // trade.md 3: up to the limit fine; up to twice the limit caught once or twice. By hand: each catch leaves n − 1 stitches to share between two strands.
  it.each([
    [7, 7, 0],
    [8, 7, 1],
    [12, 7, 1],
    [14, 7, 1],
    [15, 7, 1],
    [16, 7, 2],
    [5, 1, 2],
  ])("a float over %i stitches, of which %i lie well, needs %i", (length, limit, expected) => {
    expect(catchesNeeded(length, limit)).toBe(expected);
  });

  it("lie in the middle of the float, and cross the round's end with it", () => {
    // B is column 13, and the strand passes columns 1 to 12 of the next repeat: twelve, whose middle is the sixth or seventh.
    expect(["1:6", "1:7"]).toContain(columnsOf(["BAAAAAAAAAAAA"], 7));
    // B is column 7; passed are 8 to 13 and 1 to 6: the sixth is column 13, the seventh column 1.
    expect(["1:13", "1:1"]).toContain(columnsOf(["AAAAAABAAAAAA"], 7));
  });

  it("flat, nothing is caught before the first and after the last use", () => {
    const rows = ["AAAAAABAAAAAA"];
    expect(catchesIn(gridOf({ rows }), [1, 1], 3, { worked: "flat" }).catches).toEqual([]);
  });

  it("no catch stands above another, nor beside it, where there is another place", () => {
    const rows = Array.from({ length: 4 }, () => "BAAAAAAAAAAAA");
    const { catches, stacked } = catchesIn(gridOf({ rows }), [1, 4], 7);
    expect(stacked).toEqual([]);
    // Of the four places 5 to 8 two that are neither above nor beside one another: 5 and 7, 5 and 8, or 6 and 8, by turns.
    const columns = catches.map(({ column }) => column);
    for (const [index, column] of columns.slice(1).entries())
      expect(Math.abs(column - columns[index]!)).toBeGreaterThan(1);
  });

  it("nor where the chart begins again above itself", () => {
    // Three rows by turns would end as they began: of places 5 to 8 two rows can alternate, a third must find a column of its own.
    const grid = gridOf({ rows: Array.from({ length: 3 }, () => "BAAAAAAAAAAAA") });
    const once = catchesIn(grid, [1, 3], 7).catches.map(({ column }) => column);
    expect(once[2]).toBe(once[0]);
    const { catches, stacked } = catchesIn(grid, [1, 3], 7, { again: true });
    expect(stacked).toEqual([]);
    expect(new Set(catches.map(({ column }) => column)).size).toBe(catches.length);
  });

  it("one more catch, where the only place stands above another", () => {
    // Fifteen stitches: 7 on either side of the eighth, which is column 8; once more in the row above there are two others.
    const { catches, stacked } = catchesIn(gridOf({ rows: Array<string>(2).fill(`B${"A".repeat(15)}`) }), [1, 2], 7);
    expect(catches[0]).toMatchObject({ row: 1, column: 8 });
    expect(catches.filter(({ row }) => row === 2)).toHaveLength(2);
    expect(stacked).toEqual([]);
  });

  it("floats too long to catch are left alone where that is asked for", () => {
    const grid = gridOf({ rows: [`B${"A".repeat(15)}`] });
    expect(catchesIn(grid, [1, 1], 7, { longest: 14 }).catches).toEqual([]);
  });

  const charts = fc
    .record({ width: fc.integer({ min: 2, max: 24 }), height: fc.integer({ min: 1, max: 6 }) })
    .chain(({ width, height }) =>
      fc.array(
        fc.string({ unit: fc.constantFrom("A", "A", "A", "A", "A", "B", "-"), minLength: width, maxLength: width }),
        { minLength: height, maxLength: height },
      ),
    );

  it("no strand hangs free over more than the limit, nothing short is caught, and none is stacked from a limit of 2 on", () => {
    fc.assert(
      fc.property(charts, fc.integer({ min: 2, max: 7 }), (rows, limit) => {
        const grid = gridOf({ rows });
        const { catches, stacked } = catchesIn(grid, [1, grid.height], limit);
        let counted = 0;
        for (let row = 1; row <= grid.height; row++) {
          for (const float of floatsInRow(grid, row)) {
            const passed = columnsPassed(grid, float);
            const caught = passed.map((column) =>
              catches.some((one) => one.row === row && one.column === column && one.colour === float.colour),
            );
            counted += caught.filter(Boolean).length;
            const strands = caught
              .map((each) => (each ? "|" : "."))
              .join("")
              .split("|");
            expect(Math.max(...strands.map(({ length }) => length))).toBeLessThanOrEqual(limit);
            expect(caught.filter(Boolean).length).toBeLessThanOrEqual(catchesNeeded(float.length, limit) + 1);
            if (float.length <= limit) expect(caught.some(Boolean)).toBe(false);
          }
        }
        expect(catches).toHaveLength(counted);
        expect(stacked).toEqual([]);
      }),
      runs,
    );
  });
});

describe("ladders", () => {
  it.each([
    // Trade sources: columns 3 to 5 stitches apart; floats of 26 and 106 stitches.
    [26],
    [106],
  ])("behind a float of %i stand three to five stitches apart", (length) => {
    const grid = gridOf({ rows: [`B${"A".repeat(length)}`] });
    const [float] = floatsInRow(grid, 1).filter((each) => each.length === length);
    const columns = [0, ...laddersIn(grid, float!), length + 1];
    for (const [index, column] of columns.slice(1).entries()) {
      expect(column - columns[index]!).toBeGreaterThanOrEqual(3);
      expect(column - columns[index]!).toBeLessThanOrEqual(5);
    }
  });
});

describe("a changed stitch", () => {
  const told = (rows: string[], column: number, colour: string, worked?: "round" | "flat") => {
    const grid = gridOf({ rows });
    const { gone, come, longest, colours } = changedFloats(
      grid,
      { row: 1, column, colour: grid.ids.indexOf(colour) },
      worked,
    );
    const words = (floats: typeof gone) =>
      floats
        .map((float) => `${grid.ids[float.colour]}${float.length}`)
        .sort()
        .join(" ");
    return [words(gone), words(come), longest, colours];
  };

  it("in the middle parts a long float in two", () => {
    // B twelve A; the seventh stitch of the float in B: six and five on its sides, and A passes the new B.
    expect(told(["AAAAAAAAAAAAB"], 8, "B")).toEqual(["B12", "A1 B5 B6", [12, 6], [2, 2]]);
  });

  it("that takes a colour away leaves a row of one", () => {
    expect(told(["AAAAAAAAAAAAB"], 1, "A")).toEqual(["A1 B12", "", [12, 0], [2, 1]]);
  });

  it("to what it is already changes nothing; and a change and its undoing mirror each other", () => {
    const charts = fc.string({ unit: fc.constantFrom("A", "B", "C"), minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(charts, fc.nat(11), fc.constantFrom("round" as const, "flat" as const), (text, at, worked) => {
        const grid = gridOf({ rows: [text] });
        const column = (at % text.length) + 1;
        const own = grid.cells[column - 1]!;
        const same = changedFloats(grid, { row: 1, column, colour: own }, worked);
        expect([same.gone, same.come]).toEqual([[], []]);
        for (const colour of grid.ids.keys()) {
          const change = changedFloats(grid, { row: 1, column, colour }, worked);
          const after: Grid = { ...grid, cells: grid.cells.with(column - 1, colour) };
          const back = changedFloats(after, { row: 1, column, colour: own }, worked);
          const sorted = (floats: typeof back.gone) => floats.map((float) => JSON.stringify(float)).sort();
          expect([sorted(back.gone), sorted(back.come)]).toEqual([sorted(change.come), sorted(change.gone)]);
          expect(back.longest).toEqual(change.longest.toReversed());
        }
      }),
      runs,
    );
  });
});
