/** `read`: charts out of pictures, pages, drawings and texts. */
import { chartStructure } from "../../jobs/chartStructure.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import { CHART_OPTIONS, readChartFiles } from "../chartFile.ts";
import type { Command } from "../command.ts";
import { readReport } from "../reports/read.ts";

export const readCommand: Command = {
  name: "read",
  summary:
    "Reads charts: pictures (PNG, JPEG, WebP, AVIF), pages of a PDF, an SVG drawing, or a text in any form it is pasted in.",
  operands: [{ name: "FILE", required: true, many: true }],
  options: CHART_OPTIONS,
  details: [
    "A text may have a sign or a code for each stitch, top row first, or be a table with commas, semicolons or tabs, or have rows in words such as Rnd 3: *k3 MC, k1 CC1; rep from * to end. - is no stitch; lines such as A = #e8e2d2 or MC: cream name the colours.",
    "A chart that goes over several pages or pictures is put together with --join: by row numbers beside it, else by the rows that two parts show, else in the order given. How sure that is, is told.",
    "Cells to look at again are told by row, from 1 at the bottom, and column, from 1 at the right. A box is in pixels of the picture, or in points of the page.",
  ],
  example: "twostrand read pattern.pdf --page 3-6 --join --json > chart.json",
  run: async (given) => {
    const { charts, problems, joints } = await readChartFiles(given.operands(), given);
    const told = given.flag("join") ? { joints } : {};
    return {
      json: { charts: charts.map(asJson), ...told, problems },
      text: () => readReport(charts, joints),
      problems,
    };
  },
};

/** Where its cells lie in the picture is left to the corners: a mesh of all crossings is for the page. */
function asJson({ grid: _grid, ...chart }: ReadChart): object {
  // A chart that was read is known to be one: rows of one length, at most 255 colours.
  return { ...chart, ...chartStructure(chart) };
}
