import { describe, expect, it } from "vitest";
import { NO_STITCH, rowsOfGrid } from "../../chart/chart.ts";
import { gridOver, regionBetween, type Stitch } from "../../chart/draw.ts";
import { PLAIN_MANNER } from "../../chart/draw/stroke.ts";
import { actName, changedCells, regionWords, stitchWords } from "./deskWords.ts";
import { beginGesture, drawnWith, goOn, selectionBy, type Way } from "./gesture.ts";

const grid = gridOver(["AAAAA", "AAAAA", "AAAAA"], ["A", "B"]);
const way: Way = { tool: "pencil", value: 1, isFilled: true, manner: PLAIN_MANNER, wraps: true, mask: null };

const drawn = (how: Way, ...path: Stitch[]): string[] => {
  const [first, ...rest] = path;
  const gesture = rest.reduce((now, to) => goOn(now, to, how), beginGesture(grid, first!, how)!);
  return rowsOfGrid(drawnWith(grid, gesture, how));
};

describe("a hand on the desk", () => {
  it("draws along its way with the pencil, and from end to end with line and rectangle", () => {
    const path: Stitch[] = [
      [1, 1],
      [3, 1],
      [3, 5],
    ];
    expect(drawn(way, ...path)).toEqual(["BBBBB", "AAAAB", "AAAAB"]);
    expect(drawn({ ...way, tool: "line" }, ...path, [1, 5])).toEqual(["AAAAA", "AAAAA", "BBBBB"]);
    expect(drawn({ ...way, tool: "rectangle", isFilled: false }, ...path)).toEqual(["BBBBB", "BAAAB", "BBBBB"]);
    expect(drawn({ ...way, tool: "rectangle" }, ...path)).toEqual(["BBBBB", "BBBBB", "BBBBB"]);
    expect(drawn({ ...way, tool: "select" }, ...path)).toEqual(rowsOfGrid(grid));
  });

  it("may leave the chart and come back", () => {
    // By hand: five steps back for one row up, which is taken in their middle, beside the chart.
    expect(drawn(way, [1, 1], [1, -3], [2, 2])).toEqual(["AAAAA", "AAABB", "AAAAB"]);
    expect(selectionBy(grid, [2, 2], [9, -4])).toEqual(regionBetween([2, 2], [3, 1]));
  });
});

describe("what is said of drawing", () => {
  it("names stitch, colour and size as she would", () => {
    const colours = [
      { id: "A", name: "oat", shade: { hex: "#eee" } },
      { id: "B", shade: { hex: "#333" } },
    ];
    expect(stitchWords(gridOver(["BA-"], ["A", "B"]), [1, 2], colours)).toBe("Row 1, stitch 2, oat");
    expect(stitchWords(gridOver(["BA-"], ["A", "B"]), [1, 3], colours)).toBe("Row 1, stitch 3, colour B");
    expect(stitchWords(gridOver(["BA-"], ["A", "B"]), [1, 1], colours)).toBe("Row 1, stitch 1, no stitch");
    expect(stitchWords(grid, [4, 1], colours)).toBe("beside the chart");
    expect(regionWords(regionBetween([3, 6], [3, 1]))).toBe("6 stitches × 1 row, row 3, stitches 1–6");
  });

  it("names an act by what it changed", () => {
    expect(actName("pencil", 1, "rust")).toBe("1 stitch drawn in rust");
    expect(actName("pencil", 2, "no stitch")).toBe("2 stitches taken out");
    expect(actName("line", 12, "rust")).toBe("a line, 12 stitches in rust");
    const after = { ...grid, cells: grid.cells.map((cell, at) => (at < 2 ? NO_STITCH : cell)) };
    expect(changedCells(grid, after)).toBe(2);
  });
});
