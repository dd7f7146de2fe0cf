/** The chart room's small measures: cells, text, floats, counts, neighbours, order of working. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { problemSentence } from "../base/problem.ts";
import { cellAt, cropRows, gridOf, NO_STITCH, rowsOfGrid, type Grid } from "./chart.ts";
import { countStitches, rowColours } from "./counts.ts";
import { sameBand } from "./echoes.ts";
import { touchingPairs } from "./figures.ts";
import { floatsInRow, longestFloat, type Worked } from "./floats.ts";
import { mirrorAxes } from "./mirrors.ts";
import { horizontalPeriod } from "./repeats.ts";
import { chartText, parseChartText } from "./text.ts";
import { workingOrder } from "./working.ts";

const diamond = table.motifs.find(({ id }) => id === "diamond-8")!;

const charts = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 6 })).chain(([width, height]) =>
  fc.array(fc.string({ unit: fc.constantFrom("A", "B", "c", "#", "-"), minLength: width, maxLength: width }), {
    minLength: height,
    maxLength: height,
  }),
);
const runs = { seed: 7, numRuns: 300 };
const rowNumbers = (grid: Grid): number[] => Array.from({ length: grid.height }, (_, index) => index + 1);
/** Stitches that each colour's floats pass in a row, together. */
function carriedPositions(grid: Grid, row: number, worked: Worked = "round"): number[] {
  const carried = grid.ids.map(() => 0);
  for (const { colour, length } of floatsInRow(grid, row, worked)) carried[colour]! += length;
  return carried;
}

describe("cells", () => {
  it("row 1 is the last line, column 1 the last character", () => {
    const grid = gridOf({ rows: ["AB", "-C"] });
    expect(grid.ids[cellAt(grid, 1, 1)]).toBe("C");
    expect(cellAt(grid, 1, 2)).toBe(NO_STITCH);
    expect(grid.ids[cellAt(grid, 2, 1)]).toBe("B");
    expect(rowsOfGrid(cropRows(grid, 2, 2))).toEqual(["AB"]);
  });

  it("rows come back as they went in", () => {
    fc.assert(
      fc.property(charts, (rows) => {
        expect(rowsOfGrid(gridOf({ rows }))).toEqual(rows);
      }),
      runs,
    );
  });
});

describe("text", () => {
  it("text → chart → text and chart → text → chart are exact", () => {
    fc.assert(
      fc.property(charts, (rows) => {
        const { value, problems } = parseChartText(chartText(rows));
        expect(problems).toEqual([]);
        expect(value).toEqual({ rows });
      }),
      runs,
    );
  });

  it.each([
    ["AB\nABC\n", "Line 2: expected 2 stitches, found 3."],
    ["A B\n", 'Line 1: expected one printable character that is not a space, ", \\ or -, found " ".'],
    ['A"\n', 'Line 1: expected one printable character that is not a space, ", \\ or -, found "\\"".'],
    ["", "Line 1: expected a row of stitches, found an empty line."],
  ])("%j is refused with a sentence", (text, sentence) => {
    const { value, problems } = parseChartText(text);
    expect(value).toBeNull();
    expect(problems.map(problemSentence)).toEqual([sentence]);
  });

  it("never throws", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
        const { value, problems } = parseChartText(text);
        expect(value === null).toBe(problems.length > 0);
      }),
      runs,
    );
  });
});

describe("floats", () => {
  const describeRow = (text: string, worked?: "round" | "flat"): string[] => {
    const grid = gridOf({ rows: [text] });
    return floatsInRow(grid, 1, worked).map((f) => `${grid.ids[f.colour]} from ${f.fromColumn}: ${f.length}`);
  };

  it.each([
    // Counted by hand, right to left.
    ["ABBBA", "round", ["A from 2: 3", "B from 5: 2"]],
    ["ABBBA", "flat", ["A from 2: 3"]],
    ["BAAAA", "round", ["A from 5: 1", "B from 1: 4"]],
    ["BAAAA", "flat", []],
    ["AAAA", "round", []],
    ["AB-BA", "round", ["A from 2: 2", "B from 5: 2"]],
    ["ABCA", "round", ["A from 2: 2", "C from 3: 3", "B from 4: 3"]],
  ] as const)("%s worked %s", (text, worked, expected) => {
    expect(describeRow(text, worked)).toEqual(expected);
  });

  it("the longest of some rows", () => {
    const grid = gridOf({ rows: ["BAAAAAAA", "AAAA".repeat(2), "AABAABAA"] });
    expect(longestFloat(grid, 1, 3)).toMatchObject({ row: 3, length: 7 });
    expect(longestFloat(grid, 1, 2)).toMatchObject({ row: 1, length: 4 });
    expect(longestFloat(grid, 2, 2)).toBeNull();
  });

  it("in the round, floats and stitches of a stranded row add up to its stitches × its strands", () => {
    fc.assert(
      fc.property(charts, (rows) => {
        const grid = gridOf({ rows });
        for (const row of rowNumbers(grid)) {
          const strands = rowColours(grid, row).length;
          const stitches = countStitches(grid, row, row).reduce((a, b) => a + b, 0);
          const carried = carriedPositions(grid, row).reduce((a, b) => a + b, 0);
          expect(carried).toBe(strands < 2 ? 0 : stitches * (strands - 1));
        }
      }),
      runs,
    );
  });

  it("flat, nothing is carried farther than in the round", () => {
    fc.assert(
      fc.property(charts, (rows) => {
        const grid = gridOf({ rows });
        for (const row of rowNumbers(grid)) {
          const round = carriedPositions(grid, row, "round");
          carriedPositions(grid, row, "flat").forEach((flat, colour) =>
            expect(flat).toBeLessThanOrEqual(round[colour]!),
          );
        }
      }),
      runs,
    );
  });
});

describe("counts", () => {
  it("colours of a row in the order of their first use, right to left", () => {
    const grid = gridOf({ rows: ["CABB-A"] });
    expect(rowColours(grid, 1).map((index) => grid.ids[index])).toEqual(["A", "B", "C"]);
  });

  it("diamond-8 over 240 stitches: 690 and 990 loops, carried 990 and 690 (trade.md 1.5)", () => {
    const grid = gridOf({ rows: diamond.rows.map((row) => row.repeat(30)) });
    const pattern = grid.ids.indexOf("#");
    const ground = grid.ids.indexOf(".");
    const carried = rowNumbers(grid).map((row) => carriedPositions(grid, row));
    const sum = (colour: number): number => carried.reduce((total, row) => total + row[colour]!, 0);
    expect([countStitches(grid)[pattern], countStitches(grid)[ground]]).toEqual([690, 990]);
    expect([sum(pattern), sum(ground)]).toEqual([990, 690]);
  });
});

describe("repeats", () => {
  it("the smallest repeat recurs, and no smaller divisor of the width does (plain and slow)", () => {
    fc.assert(
      fc.property(charts, (rows) => {
        const grid = gridOf({ rows });
        const recurs = (period: number): boolean =>
          rows.every((row) => row.slice(0, period).repeat(grid.width / period) === row);
        const smallest = Array.from({ length: grid.width }, (_, index) => index + 1).find(
          (p) => grid.width % p === 0 && recurs(p),
        );
        expect(horizontalPeriod(grid, 1, grid.height)).toBe(smallest);
      }),
      runs,
    );
  });

  it("tiling changes neither the repeat nor the axes", () => {
    fc.assert(
      fc.property(charts, fc.integer({ min: 2, max: 4 }), (rows, times) => {
        const once = gridOf({ rows });
        const tiled = gridOf({ rows: rows.map((row) => row.repeat(times)) });
        expect(horizontalPeriod(tiled, 1, tiled.height)).toBe(horizontalPeriod(once, 1, once.height));
        expect(mirrorAxes(tiled, 1, tiled.height)).toEqual(mirrorAxes(once, 1, once.height));
      }),
      runs,
    );
  });

  it("a row centred on a stitch and on the line between two", () => {
    expect(mirrorAxes(gridOf({ rows: ["ABA"] }), 1, 1)).toEqual([2, 3.5]);
    expect(mirrorAxes(gridOf({ rows: ["AABB"] }), 1, 1)).toEqual([1.5, 3.5]);
    expect(mirrorAxes(gridOf({ rows: ["ABC"] }), 1, 1)).toEqual([]);
  });
});

describe("echoes", () => {
  it("a strip equals itself shifted and renamed", () => {
    fc.assert(
      fc.property(charts, fc.nat(8), (rows, by) => {
        const names: Record<string, string> = { A: "B", B: "#", c: "A", "#": "c", "-": "-" };
        const other = rows.map((row) => {
          const at = by % row.length;
          return Array.from(row.slice(at) + row.slice(0, at), (id) => names[id]!).join("");
        });
        const grid = gridOf({ rows: [...other, ...rows] });
        const height = rows.length;
        expect(sameBand(grid, { rows: [1, height] }, { rows: [height + 1, 2 * height] })).toBe(true);
      }),
      runs,
    );
  });

  it("a place without a stitch is no colour", () => {
    expect(sameBand(gridOf({ rows: ["A-", "AB"] }), { rows: [1, 1] }, { rows: [2, 2] })).toBe(false);
  });
});

describe("figures", () => {
  it("sides only, the chart tiling sideways: counted by hand", () => {
    // A A B over A A A: B meets A left, right (round the edge) and below.
    expect(touchingPairs(gridOf({ rows: ["AAB", "AAA"] }), 1, 2)).toEqual([{ a: 0, b: 1, contacts: 3 }]);
    expect(touchingPairs(gridOf({ rows: ["A-B", "AAA"] }), 2, 2)).toEqual([{ a: 0, b: 1, contacts: 1 }]);
    expect(touchingPairs(gridOf({ rows: ["BA", "CC"] }), 1, 2).map(({ contacts }) => contacts)).toEqual([2, 1, 1]);
  });

  it("a shift round the tube changes no contact, tiling multiplies them", () => {
    fc.assert(
      fc.property(charts, fc.nat(8), (rows, by) => {
        const named = (text: string[], divisor: number): string[] => {
          const grid = gridOf({ rows: text });
          return touchingPairs(grid, 1, grid.height)
            .map(({ a, b, contacts }) => `${[grid.ids[a], grid.ids[b]].sort().join("")}${contacts / divisor}`)
            .sort();
        };
        const turned = rows.map((row) => row.slice(by % row.length) + row.slice(0, by % row.length));
        expect(named(turned, 1)).toEqual(named(rows, 1));
        expect(
          named(
            rows.map((row) => row.repeat(3)),
            3,
          ),
        ).toEqual(named(rows, 1));
      }),
      runs,
    );
  });
});

describe("order of working (trade.md 6)", () => {
  it.each([
    ["round", 1, "right-to-left RS"],
    ["round", 2, "right-to-left RS"],
    ["flat", 1, "right-to-left RS"],
    ["flat", 2, "left-to-right WS"],
  ] as const)("%s, row %i: %s", (worked, row, expected) => {
    const { direction, side } = workingOrder({ worked }, row);
    expect(`${direction} ${side}`).toBe(expected);
  });
});
