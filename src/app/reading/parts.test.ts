/** Charts put together, taken apart and changed in one of their parts, by hand. */
import { describe, expect, it } from "vitest";
import { gridOfLines } from "../../intake/chartGrid.ts";
import { setCells } from "../../intake/correctChart.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import { joinedBy } from "../../intake/joinCharts.ts";
import { regrid } from "../../intake/regridChart.ts";
import { drawnLooks } from "../worker/drawnLooks.ts";
import { joinedInHand, readyCharts } from "./joining.ts";
import { apart, withPart } from "./parts.ts";
import { chartInHand, type ChartInHand, type Joint } from "./reading.ts";

const black = { hex: "#000000", lab: [0, 0, 0] as [number, number, number] };
const white = { hex: "#ffffff", lab: [100, 0, 0] as [number, number, number] };
const chart = (rows: string[], from = 0): ReadChart => ({
  rows,
  colours: { A: white, B: black },
  confidence: 1,
  box: null,
  page: 1,
  uncertain: [],
  grid: gridOfLines(
    [0, 10, 20, 30],
    Array.from({ length: rows.length + 1 }, (_, at) => from + 10 * at),
  ),
});
const read = (rows: string[], from = 0) => ({ chart: chart(rows, from), looks: drawnLooks(chart(rows, from)) });
const hand = (rows: string[], sheet: string): ChartInHand => chartInHand(`${sheet} 1`, sheet, read(rows), sheet, false);

const BELOW: readonly Joint[] = [{ first: 0, second: 1, side: "below", overlap: 1 }];
function together(): ChartInHand {
  const charts = [hand(["AAA", "ABA"], "upper"), hand(["ABA", "BBB", "AAB"], "lower")];
  return joinedInHand(charts, joinedBy(readyCharts(charts), [{ ...BELOW[0]!, sureness: 1 }])!.chart, BELOW);
}

describe("a chart put together", () => {
  it("comes apart with what she has put right since, each part on its own sheet", () => {
    const whole = together();
    expect(whole.state.rows).toEqual(["AAA", "ABA", "BBB", "AAB"]);
    // Row 1, stitch 1 is in the lower part alone; row 3, stitch 3 in both.
    const righted = { ...whole, state: setCells(whole.state, [[1, 1], [3, 3]], "A") }; // prettier-ignore
    const [upper, lower] = apart({ ...righted, state: setCells(righted.state, [[3, 3]], "B") }) as [ChartInHand, ChartInHand]; // prettier-ignore
    expect(upper.state.rows).toEqual(["AAA", "BBA"]);
    expect(lower.state.rows).toEqual(["BBA", "BBB", "AAA"]);
    expect([...upper.state.touched]).toEqual([3]);
    expect([...lower.state.touched]).toEqual([0, 8]);
    expect([upper.parts[0]!.sheet, lower.parts[0]!.sheet]).toEqual(["upper", "lower"]);
    expect(apart(upper)).toEqual([upper]);
  });

  it("has one part read anew, also with a row more, and what was said elsewhere stays", () => {
    const whole = together();
    const righted = { ...whole, name: "cuff", state: setCells(whole.state, [[4, 1]], "B") };
    const more = withPart(righted, 1, (one) => ({
      ...one,
      state: regrid(one.state, read(["ABA", "BBB", "AAB", "BAB"]), "place"),
      parts: [{ ...one.parts[0]!, grid: chart(["ABA", "BBB", "AAB", "BAB"]).grid! }],
    }))!;
    expect(more.state.rows).toEqual(["AAB", "ABA", "BBB", "AAB", "BAB"]);
    expect([...more.state.touched]).toEqual([2]);
    expect([more.key, more.name]).toEqual([whole.key, "cuff"]);
    expect(more.parts.map(({ top, grid }) => [top, grid.rows])).toEqual([
      [0, 2],
      [1, 4],
    ]);
  });

  it("of charts put together is changed in the part of a part", () => {
    const lowest = hand(["AAB", "BAA"], "lowest");
    const charts = [together(), lowest];
    const all = joinedInHand(charts, joinedBy(readyCharts(charts), [{ ...BELOW[0]!, sureness: 1 }])!.chart, BELOW);
    expect(all.state.rows).toEqual(["AAA", "ABA", "BBB", "AAB", "BAA"]);
    const sheets: string[] = [];
    for (const part of [0, 1, 2])
      withPart(all, part, (one) => {
        sheets.push(one.parts[0]!.sheet);
        return one;
      });
    expect(sheets).toEqual(["upper", "lower", "lowest"]);
    expect(withPart(all, 3, (one) => one)).toBeNull();
  });
});
