/** A chart of 24 × 190 in 12 colours for the benches: the vest's own bands once more on top of it, one colour of them in a twelfth. */
import type { ChartBand } from "../src/chart/chart.ts";
import type { Pattern } from "../src/fabric/pattern.ts";

export function stacked({ colours, charts, ...pattern }: Pattern): Pattern {
  const [chart] = charts;
  const again = chart!.rows.slice(-70).map((row) => row.replaceAll("E", "L"));
  const twelfth = { id: "L", name: "bracken", shade: { hex: "#9c6b4a" } };
  const bands = chart!.bands!.filter(({ rows }) => rows[1] <= 70).map((band) => shifted(band, chart!.rows.length));
  return {
    ...pattern,
    colours: [...colours, twelfth],
    charts: [{ ...chart!, rows: [...again, ...chart!.rows], bands: [...chart!.bands!, ...bands] }],
    sections: [],
  };
}

const shifted = (band: ChartBand, by: number): ChartBand => ({
  ...band,
  rows: [band.rows[0] + by, band.rows[1] + by],
});
