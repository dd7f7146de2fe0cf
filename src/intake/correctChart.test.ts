/** What she sets stays set, and every act leaves the rest as it was. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import type { CellsRead } from "./cellLooks.ts";
import { gridOfLines } from "./chartGrid.ts";
import {
  addColour,
  correctedChart,
  doubtfulCells,
  likeCells,
  mergeColours,
  setCells,
  splitColour,
  startCorrecting,
} from "./correctChart.ts";
import { regrid } from "./regridChart.ts";

/** Far apart: white, a red, a green. */
const LABS: Record<string, Lab> = { A: [95, 0, 0], B: [45, 50, 30], C: [50, -40, 30] };

/** A reading of these rows on cells of 10 pixels, every cell exactly of its colour. */
function readingOf(rows: readonly string[], uncertain: [number, number][] = []): CellsRead {
  const [height, width] = [rows.length, rows[0]!.length];
  const lines = (count: number): number[] => Array.from({ length: count + 1 }, (_, at) => at * 10);
  const ids = [...new Set(rows.join(""))].filter((id) => id !== "-");
  const grid = gridOfLines(lines(width), lines(height));
  return {
    chart: {
      rows: [...rows],
      colours: Object.fromEntries(ids.map((id) => [id, { hex: hexFromLab(LABS[id]!), lab: LABS[id]! }])),
      confidence: 1,
      box: null,
      page: 1,
      uncertain,
      sureness: rows.map((row) => "9".repeat(row.length)),
      grid,
    },
    looks: {
      columns: width,
      rows: height,
      labs: Float32Array.from(Array.from(rows.join("")).flatMap((id) => [...(LABS[id] ?? [75, 0, 0])])),
      spread: new Float32Array(width * height),
      signs: new Int16Array(width * height).fill(-1),
      evenness: new Float32Array(width * height).fill(1),
    },
  };
}

const anyRows = fc.tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 })).chain(([width, height]) =>
  fc.array(
    fc.array(fc.constantFrom("A", "B", "C"), { minLength: width, maxLength: width }).map((row) => row.join("")),
    { minLength: height, maxLength: height },
  ),
);
const settings = { seed: 7, numRuns: 100 };

describe("setting cells", () => {
  it("changes these cells alone, counted from the lower right, and remembers them", () => {
    // Row 1 is the lower one, column 1 the right one: [1, 3] is the lower left cell.
    const state = setCells(startCorrecting(readingOf(["AAB", "ABB"])), [[1, 3]], "B");
    expect(state.rows).toEqual(["AAB", "BBB"]);
    expect([...state.touched]).toEqual([3]);
  });

  it("takes no stitch, but no colour that the chart does not have, and no cell outside", () => {
    const start = startCorrecting(readingOf(["AB"]));
    expect(setCells(start, [[1, 1]], "-").rows).toEqual(["A-"]);
    expect(setCells(start, [[1, 1]], "Z")).toBe(start);
    expect(setCells(start, [[2, 1], [1, 3], [0, 0]], "B").rows).toEqual(["AB"]); // prettier-ignore
  });

  it("done twice is the same as once", () => {
    fc.assert(
      fc.property(anyRows, fc.constantFrom("A", "B", "C", "-"), (rows, id) => {
        const once = setCells(startCorrecting(readingOf(rows)), [[1, 1]], id);
        expect(setCells(once, [[1, 1]], id)).toEqual(once);
      }),
      settings,
    );
  });

  it("takes a cell off the doubtful ones, the least sure of which come first", () => {
    const read = readingOf(["ABC"], [[1, 1], [1, 3]]); // prettier-ignore
    read.chart.sureness = ["291"];
    const start = startCorrecting(read);
    expect(doubtfulCells(start)).toEqual([[1, 1], [1, 3]]); // prettier-ignore
    const after = setCells(start, [[1, 1]], "C");
    expect(doubtfulCells(after)).toEqual([[1, 3]]);
    expect(correctedChart(after, read.chart)).toMatchObject({ rows: ["ABC"], uncertain: [[1, 3]], sureness: ["299"] });
  });
});

describe("cells like this one", () => {
  it("are all of its colour, where colours stand apart", () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        const state = startCorrecting(readingOf(rows));
        const like = likeCells(state, 1, 1);
        const own = rows.at(-1)!.at(-1)!;
        const all = rows.join("").split(own).length - 1;
        expect(like).toHaveLength(all);
        expect(setCells(state, like, "-").rows.join("")).toBe(rows.join("").replaceAll(own, "-"));
      }),
      settings,
    );
  });

  it("are told apart by their signs", () => {
    const read = readingOf(["AAAA"]);
    read.looks.signs.set([-1, 2, 2, 5]);
    expect(likeCells(startCorrecting(read), 1, 3)).toEqual([[1, 3], [1, 2]]); // prettier-ignore
  });
});

describe("colours", () => {
  it("merged and split again are as they were, up to their letters", () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        const start = startCorrecting(readingOf(rows));
        if (!start.colours.A || !start.colours.B) return;
        const merged = mergeColours(start, "B", "A");
        expect(merged.colours.B).toBeUndefined();
        expect(merged.rows.join("")).toBe(rows.join("").replaceAll("B", "A"));
        const split = splitColour(merged, "A")!;
        const parts = (text: string): string => Array.from(text, (id) => text.indexOf(id)).join();
        expect(parts(split.state.rows.join(""))).toBe(parts(rows.join("")));
        // Each part has its own colour again: the means of cells that are all alike.
        expect(hexFromLab(split.state.colours[split.id]!.lab)).toMatch(
          new RegExp(`${hexFromLab(LABS.A!)}|${hexFromLab(LABS.B!)}`),
        );
      }),
      settings,
    );
  });

  it("of one look cannot be split; of several signs it is split by the sign", () => {
    const read = readingOf(["AAAA"]);
    expect(splitColour(startCorrecting(read), "A")).toBeNull();
    read.looks.signs.set([-1, -1, -1, 4]);
    expect(splitColour(startCorrecting(read), "A")!.state.rows).toEqual(["AAAB"]);
  });

  it("can be added, under the first letter that is free", () => {
    const added = addColour(startCorrecting(readingOf(["AC"])), { hex: "#000000", lab: [0, 0, 0] })!;
    expect(added.id).toBe("B");
    expect(setCells(added.state, [[1, 1]], "B").rows).toEqual(["AB"]);
  });
});

describe("another grid on the same picture", () => {
  it("the same reading changes nothing, whatever she has set", () => {
    fc.assert(
      fc.property(anyRows, fc.nat(40), (rows, where) => {
        const read = readingOf(rows);
        const start = startCorrecting(read);
        const cell: [number, number] = [1 + (where % rows.length), 1 + (where % rows[0]!.length)];
        const state = setCells(start, [cell], rows.join("").includes("C") ? "C" : "-");
        expect(regrid(state, read, "place")).toEqual(state);
        expect(regrid(state, read, { rows: 0, columns: 0 })).toEqual(state);
      }),
      settings,
    );
  });

  it("a row more at the top and a column more at the left keep what she set, by place", () => {
    const state = setCells(startCorrecting(readingOf(["AB", "BA"])), [[2, 1]], "-");
    const fresh = readingOf(["CAA", "BAB", "ABA"]);
    // The old chart's top left corner lies at 10, 10 of the new one's.
    const moved = { ...fresh, chart: { ...fresh.chart, grid: gridOfLines([-10, 0, 10, 20], [-10, 0, 10, 20]) } };
    const after = regrid(state, moved, "place");
    expect(after.rows).toEqual(["CAA", "BA-", "ABA"]);
    expect([...after.touched]).toEqual([5]);
  });

  it("rows put in below are told by numbers", () => {
    const state = setCells(startCorrecting(readingOf(["AB", "BA"])), [[1, 1]], "-");
    const after = regrid(state, readingOf(["AB", "BA", "AA"]), { rows: 1, columns: 0 });
    expect(after.rows).toEqual(["AB", "B-", "AA"]);
  });

  it("what she merged stays merged, and letters stay", () => {
    const read = readingOf(["ABC", "CBA"]);
    const merged = mergeColours(startCorrecting(read), "A", "C");
    const after = regrid(merged, read, "place");
    expect(after.rows).toEqual(["CBC", "CBC"]);
  });
});

it("everything survives a structured clone", () => {
  const state = setCells(startCorrecting(readingOf(["AB", "-A"])), [[1, 1]], "B");
  expect(structuredClone(state)).toEqual(state);
});
