import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridOf, NO_STITCH, rowsOfGrid, type Grid } from "./chart.ts";
import { filled, flooded, replaced } from "./draw/fill.ts";
import { mirrored, moved } from "./draw/move.ts";
import { mirroredAcross, mirroredUp, pieceOf, pieceText, readPiece, stamped, tiled, turned } from "./draw/piece.ts";
import { drawn, inManner, lineBetween, outlineOf, PLAIN_MANNER, stitchesOf, strokeThrough } from "./draw/stroke.ts";
import { gridOver, holds, maskOf, regionBetween, sameColour, wholeOf, type Selection, type Stitch } from "./draw.ts";

const LAWS = { seed: 7, numRuns: 200 };
const IDS = ["A", "B", "C"];

const grids = fc
  .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
  .chain(([width, height]) =>
    fc
      .array(fc.constantFrom(0, 1, 2, NO_STITCH), { minLength: width * height, maxLength: width * height })
      .map((cells): Grid => ({ width, height, ids: IDS, cells: Uint8Array.from(cells) })),
  );
const stitchOn = ({ width, height }: Grid) =>
  fc.tuple(fc.integer({ min: 1, max: height }), fc.integer({ min: 1, max: width }));
const withRegion = grids.chain((grid) =>
  fc.tuple(fc.constant(grid), stitchOn(grid), stitchOn(grid)).map(([of, one, other]) => ({
    grid: of,
    region: regionBetween(one, other),
  })),
);
const at = (grid: Grid, row: number, column: number): number => grid.cells[(row - 1) * grid.width + column - 1]!;
const counts = (grid: Grid): number[] =>
  [0, 1, 2, NO_STITCH].map((value) => grid.cells.filter((c) => c === value).length);
const rowsAfter = (rows: string[], act: (grid: Grid) => Grid): string[] => rowsOfGrid(act(gridOver(rows, IDS)));

describe("cells over given colours", () => {
  it("are the chart's own stitches, and go back to its rows", () => {
    fc.assert(
      fc.property(grids, (grid) => {
        const rows = rowsOfGrid(grid);
        expect(gridOver(rows, IDS).cells).toEqual(grid.cells);
        // The same stitches as the reader of charts has, whose ids are in another order.
        const other = gridOf({ rows });
        for (let cell = 0; cell < grid.cells.length; cell++)
          expect(other.ids[other.cells[cell]!]).toBe(IDS[grid.cells[cell]!]);
      }),
      LAWS,
    );
  });

  it("all of one colour are chosen with the rectangle around them", () => {
    fc.assert(
      fc.property(withRegion, fc.constantFrom(0, 1, 2, NO_STITCH), ({ grid, region }, value) => {
        const found = sameColour(grid, value, region);
        const plain: Stitch[] = [...stitchesOf(grid, region)].filter(
          ([row, column]) => at(grid, row, column) === value,
        );
        if (!found) return void expect(plain).toEqual([]);
        expect(found.mask!.reduce((sum, one) => sum + one, 0)).toBe(plain.length);
        for (const stitch of plain) expect(holds(grid, found, stitch)).toBe(true);
        expect(found.rows).toEqual([Math.min(...plain.map(([row]) => row)), Math.max(...plain.map(([row]) => row))]);
        expect(found.columns).toEqual([Math.min(...plain.map(([, c]) => c)), Math.max(...plain.map(([, c]) => c))]);
      }),
      LAWS,
    );
  });
});

describe("strokes", () => {
  const stitches = fc.tuple(fc.integer({ min: -5, max: 20 }), fc.integer({ min: -5, max: 20 }));

  it("a line goes from end to end in steps to a neighbour, and nowhere farther than half a stitch from the straight one", () => {
    fc.assert(
      fc.property(stitches, stitches, (from, to) => {
        const line = lineBetween(from, to);
        expect(line[0]).toEqual(from);
        expect(line.at(-1)).toEqual(to);
        const [rows, columns] = [to[0] - from[0], to[1] - from[1]];
        expect(line).toHaveLength(Math.max(Math.abs(rows), Math.abs(columns)) + 1);
        for (const [index, [row, column]] of line.entries()) {
          const along = line.length === 1 ? 0 : index / (line.length - 1);
          expect(Math.abs(row - from[0] - along * rows)).toBeLessThanOrEqual(0.5);
          expect(Math.abs(column - from[1] - along * columns)).toBeLessThanOrEqual(0.5);
        }
      }),
      LAWS,
    );
  });

  it("a stroke joins what was seen of it", () => {
    // By hand: from the bottom right three to the left, then up.
    expect(
      strokeThrough([
        [1, 1],
        [1, 4],
        [3, 4],
      ]),
    ).toEqual([
      [1, 1],
      [1, 2],
      [1, 3],
      [1, 4],
      [2, 4],
      [3, 4],
    ]);
    expect(strokeThrough([])).toEqual([]);
  });

  it("the outline of a rectangle is its stitches without the inner ones, each once", () => {
    fc.assert(
      fc.property(withRegion, ({ grid, region }) => {
        const key = ([row, column]: Stitch): string => `${row} ${column}`;
        const outline = outlineOf(region).map(key);
        const { rows, columns } = region;
        const inner = ([row, column]: Stitch): boolean =>
          row > rows[0] && row < rows[1] && column > columns[0] && column < columns[1];
        const plain = [...stitchesOf(grid, region)].filter((stitch) => !inner(stitch)).map(key);
        expect(new Set(outline).size).toBe(outline.length);
        expect(outline.toSorted()).toEqual(plain.toSorted());
      }),
      LAWS,
    );
  });

  it("draws on the grid and in the mask only", () => {
    fc.assert(
      fc.property(withRegion, fc.array(stitches), ({ grid, region }, drawing) => {
        const after = drawn(grid, drawing, 1, maskOf(grid, region));
        for (const [row, column] of stitchesOf(grid, wholeOf(grid))) {
          const isHit = holds(grid, region, [row, column]) && drawing.some(([r, c]) => r === row && c === column);
          expect(at(after, row, column)).toBe(isHit ? 1 : at(grid, row, column));
        }
      }),
      LAWS,
    );
  });

  it("what is mirrored comes on both sides of the line, what repeats in each repeat of its row", () => {
    const manner = (one: Partial<typeof PLAIN_MANNER>): string[] =>
      rowsAfter(["AAAAAAAA", "AAAAAAAA"], (grid) =>
        drawn(grid, inManner(grid, [[1, 2]], { ...PLAIN_MANNER, ...one }), 1),
      );
    // By hand: column 2 about the line between 4 and 5 is column 7; every 3 stitches 2, 5 and 8.
    expect(manner({ mirror: 4.5 })).toEqual(["AAAAAAAA", "ABAAAABA"]);
    expect(manner({ repeats: [3, 0] })).toEqual(["AAAAAAAA", "BAABAABA"]);
    expect(manner({ repeats: [4, 0], mirror: 2.5 })).toEqual(["AAAAAAAA", "ABBAABBA"]);
    expect(manner({ repeats: [0, 3] })).toEqual(["AAAAAAAA", "AAAAAABA"]);
  });

  it("a grid that recurs still does after a stitch in every repeat", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 4 }), fc.nat(), (repeat, times, seed) => {
        const width = repeat * times;
        const grid = gridOver(["A".repeat(width)], IDS);
        const stitch: Stitch = [1, (seed % width) + 1];
        const after = drawn(grid, inManner(grid, [stitch], { mirror: null, repeats: [repeat] }), 2);
        for (let column = 1; column + repeat <= width; column++)
          expect(at(after, 1, column)).toBe(at(after, 1, column + repeat));
        expect(at(after, ...(stitch as [number, number]))).toBe(2);
      }),
      LAWS,
    );
  });
});

describe("filling", () => {
  it("fills what a slow search finds stitch by stitch, in bounds and round the end", () => {
    const cases = withRegion.chain(({ grid, region }) =>
      fc.record({
        grid: fc.constant(grid),
        from: stitchOn(grid),
        wraps: fc.boolean(),
        mask: fc.constantFrom(null, maskOf(grid, region)),
        value: fc.constantFrom(0, 1, 2, NO_STITCH),
      }),
    );
    fc.assert(
      fc.property(cases, ({ grid, from, wraps, mask, value }) => {
        const may = (row: number, column: number): boolean =>
          at(grid, row, column) === at(grid, ...(from as [number, number])) &&
          (mask === null || mask[(row - 1) * grid.width + column - 1] === 1);
        const area = new Set<string>();
        if (may(from[0], from[1])) area.add(`${from[0]} ${from[1]}`);
        // Again and again over the whole grid, until nothing is added.
        for (let size = -1; size !== area.size;) {
          size = area.size;
          for (const [row, column] of stitchesOf(grid, wholeOf(grid))) {
            if (!may(row, column)) continue;
            const left = column === grid.width && wraps ? 1 : column + 1;
            const right = column === 1 && wraps ? grid.width : column - 1;
            const beside = [`${row} ${left}`, `${row} ${right}`, `${row + 1} ${column}`, `${row - 1} ${column}`];
            if (beside.some((key) => area.has(key))) area.add(`${row} ${column}`);
          }
        }
        const after = flooded(grid, from, value, { wraps, mask });
        for (const [row, column] of stitchesOf(grid, wholeOf(grid)))
          expect(at(after, row, column)).toBe(area.has(`${row} ${column}`) ? value : at(grid, row, column));
      }),
      { ...LAWS, numRuns: 100 },
    );
  });

  it("round the end it goes on at the other edge, flat it stops", () => {
    const fill = (wraps: boolean) => (grid: Grid) => flooded(grid, [1, 1], 2, { wraps, mask: null });
    expect(rowsAfter(["ABBA"], fill(true))).toEqual(["CBBC"]);
    expect(rowsAfter(["ABBA"], fill(false))).toEqual(["ABBC"]);
  });

  it("a colour is replaced where it is chosen, and nowhere else", () => {
    const right = (grid: Grid): Uint8Array => maskOf(grid, regionBetween([1, 1], [2, 2]));
    expect(rowsAfter(["ABAB", "BABA"], (grid) => replaced(grid, right(grid), 0, 2))).toEqual(["ABCB", "BABC"]);
    expect(rowsAfter(["ABAB", "BABA"], (grid) => filled(grid, right(grid), NO_STITCH))).toEqual(["AB--", "BA--"]);
  });
});

describe("pieces", () => {
  it("mirrored twice, turned four times, turned right and left is as before; about is both mirrors", () => {
    fc.assert(
      fc.property(grids, (piece) => {
        expect(mirroredAcross(mirroredAcross(piece))).toEqual(piece);
        expect(mirroredUp(mirroredUp(piece))).toEqual(piece);
        expect(turned(turned(piece, "right"), "left")).toEqual(piece);
        expect(turned(turned(piece, "right"), "right")).toEqual(turned(piece, "about"));
        expect(turned(piece, "about")).toEqual(mirroredUp(mirroredAcross(piece)));
      }),
      LAWS,
    );
  });

  it("are mirrored and turned as a picture is", () => {
    // By hand, as it stands on paper: a quarter turn clockwise brings the left column to the top, read upwards.
    const rows = ["ABC", "AAB"];
    expect(rowsAfter(rows, mirroredAcross)).toEqual(["CBA", "BAA"]);
    expect(rowsAfter(rows, mirroredUp)).toEqual(["AAB", "ABC"]);
    expect(rowsAfter(rows, (grid) => turned(grid, "right"))).toEqual(["AA", "AB", "BC"]);
    expect(rowsAfter(rows, (grid) => turned(grid, "left"))).toEqual(["CB", "BA", "AA"]);
    expect(rowsAfter(rows, (grid) => turned(grid, "about"))).toEqual(["BAA", "CBA"]);
  });

  it("laid down where they were taken change nothing; beside the grid they change nothing either", () => {
    fc.assert(
      fc.property(withRegion, ({ grid, region }) => {
        const piece = pieceOf(grid, region);
        expect(stamped(grid, piece, [region.rows[0], region.columns[0]])).toEqual(grid);
        expect(stamped(grid, piece, [grid.height + 1, 1])).toEqual(grid);
        expect(stamped(grid, piece, [1, 1 - piece.width])).toEqual(grid);
      }),
      LAWS,
    );
  });

  it("laid down elsewhere have each stitch at its place, and hang over the edge", () => {
    const piece = gridOver(["BC", "CB"], IDS);
    expect(rowsAfter(["AAA", "AAA", "AAA"], (grid) => stamped(grid, piece, [2, 1]))).toEqual(["ABC", "ACB", "AAA"]);
    expect(rowsAfter(["AAA", "AAA", "AAA"], (grid) => stamped(grid, piece, [3, 3]))).toEqual(["BAA", "AAA", "AAA"]);
    expect(rowsAfter(["AAA", "AAA", "AAA"], (grid) => stamped(grid, piece, [0, 0]))).toEqual(["AAA", "AAA", "AAB"]);
  });

  it("tiled recur after their width and height, and the source stays", () => {
    fc.assert(
      fc.property(withRegion, ({ grid, region }) => {
        const after = tiled(grid, region, wholeOf(grid));
        const wide = region.columns[1] - region.columns[0] + 1;
        const high = region.rows[1] - region.rows[0] + 1;
        for (const [row, column] of stitchesOf(grid, wholeOf(grid))) {
          if (column + wide <= grid.width) expect(at(after, row, column + wide)).toBe(at(after, row, column));
          if (row + high <= grid.height) expect(at(after, row + high, column)).toBe(at(after, row, column));
          if (holds(grid, region, [row, column])) expect(at(after, row, column)).toBe(at(grid, row, column));
        }
      }),
      LAWS,
    );
  });

  it("as text come back the same, with the line ends of any machine", () => {
    fc.assert(
      fc.property(grids, (piece) => {
        expect(readPiece(pieceText(piece), IDS).value).toEqual(piece);
        expect(readPiece(`\r\n${pieceText(piece).replaceAll("\n", "\r\n")}\r\n`, IDS).value).toEqual(piece);
      }),
      LAWS,
    );
  });

  it("of other colours, of unequal rows and of nothing are refused with a sentence", () => {
    expect(readPiece("AQ\nAB\n", IDS).problems[0]).toMatchObject({ got: "Q" });
    expect(readPiece("AA\nA\n", IDS).problems[0]).toMatchObject({ where: "line 2", got: "1" });
    expect(readPiece(" \n", IDS).problems[0]).toMatchObject({ got: "an empty line" });
  });
});

describe("moving", () => {
  it("keeps every colour's number of stitches, lays the chosen ones where they go, and back again undoes it", () => {
    const cases = withRegion.chain(({ grid, region }) =>
      fc.record({
        grid: fc.constant(grid),
        selection: fc.constantFrom<Selection>(region, sameColour(grid, 1, region) ?? region),
        by: fc.tuple(fc.integer({ min: -10, max: 10 }), fc.integer({ min: -10, max: 10 })),
        wraps: fc.boolean(),
      }),
    );
    fc.assert(
      fc.property(cases, ({ grid, selection, by, wraps }) => {
        const after = moved(grid, selection, by, wraps);
        expect(counts(after.grid)).toEqual(counts(grid));
        const rows = after.selection.rows[0] - selection.rows[0];
        const turns = wraps && selection.columns[1] - selection.columns[0] + 1 === grid.width;
        const columns = turns ? by[1] : after.selection.columns[0] - selection.columns[0];
        const around = (column: number): number => ((((column - 1) % grid.width) + grid.width) % grid.width) + 1;
        for (const [row, column] of stitchesOf(grid, selection))
          if (holds(grid, selection, [row, column]))
            expect(at(after.grid, row + rows, around(column + columns))).toBe(at(grid, row, column));
        // What is neither where they were nor where they are has not changed.
        const [was, is] = [maskOf(grid, selection), maskOf(grid, after.selection)];
        for (let cell = 0; cell < grid.cells.length; cell++)
          if (was[cell] === 0 && is[cell] === 0) expect(after.grid.cells[cell]).toBe(grid.cells[cell]);
        expect(moved(after.grid, after.selection, [-rows, -columns], wraps).grid.cells).toEqual(grid.cells);
      }),
      LAWS,
    );
  });

  it("leaves behind what it comes to lie on, and turns in the round", () => {
    const motif = regionBetween([1, 1], [1, 2]);
    // By hand: the two stitches at the right edge go one to the left, and the ground that lay there to the edge.
    expect(rowsAfter(["AABC"], (grid) => moved(grid, motif, [0, 1], false).grid)).toEqual(["ABCA"]);
    expect(rowsAfter(["AABC"], (grid) => moved(grid, wholeOf(grid), [0, 1], true).grid)).toEqual(["ABCA"]);
    expect(rowsAfter(["AABC"], (grid) => moved(grid, wholeOf(grid), [0, 1], false).grid)).toEqual(["AABC"]);
  });
});

describe("mirroring in place", () => {
  const ways = ["across", "up", "about"] as const;
  const cases = withRegion.chain(({ grid, region }) =>
    fc.record({
      grid: fc.constant(grid),
      selection: fc.constantFrom<Selection>(region, sameColour(grid, 1, region) ?? region),
      how: fc.constantFrom(...ways),
    }),
  );
  it("of a rectangle is the piece mirrored and laid down where it was", () => {
    fc.assert(
      fc.property(withRegion, fc.constantFrom(...ways), ({ grid, region }, how) => {
        const piece = pieceOf(grid, region);
        const by = how === "across" ? mirroredAcross(piece) : how === "up" ? mirroredUp(piece) : turned(piece, "about");
        const laid = stamped(grid, by, [region.rows[0], region.columns[0]]);
        expect(mirrored(grid, region, how).grid.cells).toEqual(laid.cells);
      }),
      LAWS,
    );
  });

  it("keeps every stitch, leaves the others where they are, and twice is nothing", () => {
    fc.assert(
      fc.property(cases, ({ grid, selection, how }) => {
        const after = mirrored(grid, selection, how);
        expect(counts(after.grid)).toEqual(counts(grid));
        const [was, is] = [maskOf(grid, selection), maskOf(grid, after.selection)];
        for (let cell = 0; cell < grid.cells.length; cell++)
          if (was[cell] === 0 && is[cell] === 0) expect(after.grid.cells[cell]).toBe(grid.cells[cell]);
        expect(mirrored(after.grid, after.selection, how).grid.cells).toEqual(grid.cells);
      }),
      LAWS,
    );
  });

  it("of stitches of one colour leaves what else lies in their rectangle", () => {
    // By hand: both Bs are mirrored within stitches 1 to 4; the C that lay there takes a B's place, the outer A stays.
    const same = (grid: Grid): Selection => sameColour(grid, IDS.indexOf("B"))!;
    expect(rowsAfter(["ABCAB"], (grid) => mirrored(grid, same(grid), "across").grid)).toEqual(["ABCAB"]);
    expect(rowsAfter(["ABBCB"], (grid) => mirrored(grid, same(grid), "across").grid)).toEqual(["ABCBB"]);
    expect(rowsAfter(["ABC", "AAB"], (grid) => mirrored(grid, same(grid), "up").grid)).toEqual(["AAB", "ABC"]);
  });
});
