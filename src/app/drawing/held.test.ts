import { describe, expect, it } from "vitest";
import { rowsOfGrid } from "../../chart/chart.ts";
import { gridOver, regionBetween, wholeOf } from "../../chart/draw.ts";
import { heldBy, pieceAt, regionOfPiece, withHeld, type Held } from "./held.ts";

const grid = gridOver(["AAAA", "AAAA", "ABBA"], ["A", "B"]);
const piece = gridOver(["BB"], ["A", "B"]);

describe("what is in the hand", () => {
  it("a piece is laid first where the keys are, as far on the chart as it goes", () => {
    expect(pieceAt(grid, piece, [3, 4])).toEqual({ kind: "piece", piece, at: [3, 3] });
    const { grid: after, selection } = withHeld(grid, pieceAt(grid, piece, [3, 4]), true);
    expect(rowsOfGrid(after)).toEqual(["BBAA", "AAAA", "ABBA"]);
    expect(selection).toEqual(regionOfPiece(piece, [3, 3]));
  });

  it("a piece may hang over the edge by all but a stitch", () => {
    const held = pieceAt(grid, piece, [1, 1]);
    expect(heldBy(grid, held, [0, -9], true)).toMatchObject({ at: [1, 0] });
    expect(heldBy(grid, held, [-9, 0], true)).toMatchObject({ at: [1, 1] });
    expect(heldBy(grid, held, [9, 9], true)).toMatchObject({ at: [3, 4] });
  });

  it("chosen stitches stay on the chart; all the way round they turn", () => {
    const motif: Held = { kind: "stitches", selection: regionBetween([1, 2], [1, 3]), by: [0, 0] };
    expect(heldBy(grid, motif, [9, 9], true)).toMatchObject({ by: [2, 1] });
    expect(rowsOfGrid(withHeld(grid, heldBy(grid, motif, [1, 0], true), true).grid)).toEqual(["AAAA", "ABBA", "AAAA"]);
    const all: Held = { kind: "stitches", selection: wholeOf(grid), by: [0, 0] };
    expect(rowsOfGrid(withHeld(grid, heldBy(grid, all, [0, 1], true), true).grid)).toEqual(["AAAA", "AAAA", "BBAA"]);
    expect(heldBy(grid, all, [0, 1], false)).toMatchObject({ by: [0, 0] });
  });
});
