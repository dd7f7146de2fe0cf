/** The bands that a wish has a word on, declared in the pattern: in a file of its own, for a check needs no more of a wish. */
import { findBands } from "../chart/bands.ts";
import { gridOf } from "../chart/chart.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Wish } from "./wish.ts";

/** The pattern with the wish's bands wanted as it says. */
export function withWantedBands(pattern: Pattern, wish: Wish): Pattern {
  if (!wish.bands?.length) return pattern;
  return {
    ...pattern,
    charts: pattern.charts.map((chart) => {
      const bands = findBands(chart, gridOf(chart)).map(({ id, name, rows, want: own }) => {
        const want = wish.bands!.findLast(({ band }) => band === id || band === name)?.want ?? own;
        return {
          rows: [rows[0], rows[1]] as [number, number],
          ...(name === undefined ? {} : { name }),
          ...(want ? { want } : {}),
        };
      });
      return { ...chart, bands };
    }),
  };
}
