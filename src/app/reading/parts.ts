/** Charts put together taken apart again, with all that she has put right since, and one part of them read anew in its place. */
import { joinedBy } from "../../intake/joinCharts.ts";
import type { Corrected } from "../../intake/correctChart.ts";
import { joinedInHand, placesOf, readyCharts } from "./joining.ts";
import type { ChartInHand } from "./reading.ts";

/** The charts that it was put together from; itself where it was not. */
export function apart(chart: ChartInHand): readonly ChartInHand[] {
  if (!chart.joined) return [chart];
  const { charts, joints } = chart.joined;
  const places = placesOf(
    charts.map(({ state }) => state.looks),
    joints,
  )!;
  return charts.map((one, at) => ({ ...one, isTaken: chart.isTaken, state: pieceOf(chart.state, one, places[at]!) }));
}

/**
 * The chart with one of its parts changed, that part found by its place among them. Null where what comes of it no longer
 * goes together.
 */
export function withPart(chart: ChartInHand, part: number, how: (one: ChartInHand) => ChartInHand): ChartInHand | null {
  if (!chart.joined) return how(chart);
  const { joints } = chart.joined;
  const charts = [...apart(chart)];
  let within = part;
  const at = charts.findIndex(({ parts }) => {
    if (within < parts.length) return true;
    within -= parts.length;
    return false;
  });
  const changed = charts[at] && withPart(charts[at], within, how);
  if (!changed) return null;
  charts[at] = changed;
  const joined = joinedBy(
    readyCharts(charts),
    joints.map((joint) => ({ ...joint, sureness: 1 })),
  );
  if (!joined) return null;
  return { ...joinedInHand(charts, joined.chart, joints), key: chart.key, name: chart.name, isTaken: chart.isTaken };
}

/** What lies at a place of the whole, as large as the chart that came to lie there. */
function pieceOf(
  { rows, colours, symbols, looks, sureness, doubtful, touched }: Corrected,
  { state }: ChartInHand,
  { top, left }: { readonly top: number; readonly left: number },
): Corrected {
  const { columns, rows: height } = state.looks;
  const count = columns * height;
  const cut = (text: readonly string[]): string[] =>
    text.slice(top, top + height).map((row) => row.slice(left, left + columns));
  const of = (cell: number): number => (Math.floor(cell / columns) + top) * looks.columns + (cell % columns) + left;
  const cells = Array.from({ length: count }, (_, cell) => cell);
  const own = (set: ReadonlySet<number>): Set<number> => new Set(cells.filter((cell) => set.has(of(cell))));
  const labs = new Float32Array(count * 3);
  for (const cell of cells) labs.set(looks.labs.subarray(of(cell) * 3, of(cell) * 3 + 3), cell * 3);
  return {
    rows: cut(rows),
    colours,
    symbols,
    looks: {
      columns,
      rows: height,
      labs,
      spread: Float32Array.from(cells, (cell) => looks.spread[of(cell)]!),
      signs: Int16Array.from(cells, (cell) => looks.signs[of(cell)]!),
      evenness: Float32Array.from(cells, (cell) => looks.evenness[of(cell)]!),
    },
    grid: state.grid,
    sureness: cut(sureness),
    doubtful: own(doubtful),
    touched: own(touched),
  };
}
