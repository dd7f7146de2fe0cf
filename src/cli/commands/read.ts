/** `read`: a chart out of a picture or a text. */
import { isFault } from "../../base/problem.ts";
import { chartStructure } from "../../jobs/chartStructure.ts";
import { readChartFile } from "../chartFile.ts";
import type { Command } from "../command.ts";
import { badInput } from "../projectFile.ts";
import { readReport } from "../reports/read.ts";

export const readCommand: Command = {
  name: "read",
  summary: "Reads the charts of a picture (PNG, JPEG, WebP, AVIF) or of a text with a letter for each stitch.",
  operands: [{ name: "FILE", required: true }],
  options: { colours: { value: "N", help: "how many colours a picture's chart has; found out by default" } },
  details: [
    "A text has one row a line, the top row first; - is no stitch; lines such as A = #e8e2d2 name the colours.",
    "Cells to look at again are told by row, from 1 at the bottom, and column, from 1 at the right.",
  ],
  example: "twostrand read chart.png --json > chart.json",
  run: async (given) => {
    const path = given.operand(0);
    const result = await readChartFile(path, given.number("colours", { least: 2, most: 60, whole: true }));
    if (result.charts.length === 0 && result.problems.some(isFault)) throw badInput(path, result.problems);
    // A chart that was read is known to be one: rows of one length, at most 255 colours.
    const charts = result.charts.map((chart) => ({ ...chart, ...chartStructure(chart) }));
    return { json: { ...result, charts }, text: () => readReport(result), problems: result.problems };
  },
};
