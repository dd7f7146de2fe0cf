import { describe, expect, it } from "vitest";
import { gridOfLines } from "../../intake/chartGrid.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import type { SheetRead } from "../worker/chartApi.ts";
import { drawnLooks } from "../worker/drawnLooks.ts";
import { chartsOf, sheetOf } from "./reading.ts";
import { cellUnder } from "./sheetDraw.ts";

const source = { id: "file 1", file: new File([], "winter-vest.pdf"), state: "opened", pages: 3, told: [] } as const;
const found = (columns: number, rows: number, confidence: number, name?: string) => {
  const chart: ReadChart = {
    rows: Array.from({ length: rows }, () => "A".repeat(columns)),
    colours: { A: { hex: "#ffffff", lab: [100, 0, 0] } },
    confidence,
    box: null,
    page: 1,
    uncertain: [],
    ...(name === undefined ? {} : { name }),
  };
  return { chart, looks: drawnLooks(chart) };
};
const read = (isDrawn: boolean, charts: SheetRead["charts"]): SheetRead => ({
  width: 100,
  height: 100,
  preview: new Blob(),
  isDrawn,
  charts,
  problems: [],
});

describe("the charts of a sheet", () => {
  it("the surest and largest first; a key read as a chart, and what is hardly one, are left", () => {
    // 14, 220 and 1,517 stitches: the first is under a tenth of the last, the second is over it but hardly sure.
    const charts = chartsOf(
      sheetOf(source, 2),
      read(false, [found(7, 2, 0.9), found(11, 20, 0.3), found(41, 37, 0.97)]),
    );
    expect(charts.map(({ state, isTaken }) => [state.looks.columns, isTaken])).toEqual([
      [41, true],
      [11, false],
      [7, false],
    ]);
    expect(charts[0]!.name).toBe("winter vest, page 2 1");
  });
  it("charts of a drawing stay in their order and have their titles; a single doubtful one is taken all the same", () => {
    const drawn = chartsOf(sheetOf(source, 1), read(true, [found(8, 8, 1, "Cuff"), found(20, 20, 1)]));
    expect(drawn.map(({ name, isTaken }) => [name, isTaken])).toEqual([
      ["Cuff", true],
      ["winter vest, page 1 2", true],
    ]);
    expect(chartsOf(sheetOf(source, 1), read(false, [found(9, 9, 0.2)]))[0]!.isTaken).toBe(true);
    expect(chartsOf(sheetOf(source, 1), read(false, []))).toEqual([]);
  });
});

describe("the cell under a finger", () => {
  it("is found in a grid that lies askew, and none beside it", () => {
    // Ten pixels a cell; every line down leans three to the right for each row: by hand.
    const grid = gridOfLines([0, 10, 20, 30], [0, 10, 20]);
    for (let at = 0; at < grid.corners.length; at += 2) grid.corners[at]! += 0.3 * grid.corners[at + 1]!;
    expect(cellUnder(grid, [5, 5])).toEqual([0, 0]);
    expect(cellUnder(grid, [28, 15])).toEqual([1, 2]);
    expect(cellUnder(grid, [2, 15])).toBeNull();
    expect(cellUnder(grid, [15, 25])).toBeNull();
  });
});
