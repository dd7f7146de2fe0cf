/** Charts off a page that is drawn, not photographed: what its shapes and letters say is taken exactly. */
import type { PagePrimitives } from "./pagePrimitives.ts";
import type { ReadCharts } from "./readChart.ts";

export interface ChartPageOptions {
  /** How many colours a chart has, where she knows. */
  readonly colours?: number | undefined;
}

/** Every chart on the page from the top left on; null where nothing drawn makes a chart, and the picture is to be read. */
export function readChartPage(page: PagePrimitives, _options: ChartPageOptions = {}): ReadCharts | null {
  if (page.shapes.length === 0) return null;
  return null;
}
