/** What every part of the structure's panel is handed. */
import type { Chart } from "../../chart/chart.ts";
import type { BuiltChart } from "../worker/api.ts";

export interface PartProps {
  readonly chart: Chart;
  readonly built: BuiltChart;
  readonly nameOf: (colour: string) => string;
  readonly hexOf: ReadonlyMap<string, string>;
}
