/** `new`: a project from what she has, a chart and perhaps a table of yarns. */
import { writeProject } from "../../document/write.ts";
import { newProject } from "../../jobs/start.ts";
import { CHART_OPTIONS, readChartFiles } from "../chartFile.ts";
import { WRITE_OPTIONS, type Command } from "../command.ts";
import { checkWritable, writeWhole } from "../files.ts";
import { gaugeOf, namedBySigns, nameOf, oneChart, yarnsOf } from "../newParts.ts";
import { badInput } from "../projectFile.ts";
import { newReport } from "../reports/new.ts";

export const newCommand: Command = {
  name: "new",
  summary: "Makes a project from a chart and her yarns, with a first colourway.",
  operands: [],
  options: {
    chart: {
      value: "FILE",
      help: "a chart as for read; again for its other parts, with --join",
      required: true,
      many: true,
    },
    out: { value: "PROJECT", help: "where the project goes: NAME.twostrand.json", required: true },
    stash: { value: "FILE", help: "a table of yarns, as for stash" },
    number: { value: "N", help: "which chart, where there are several; the first by default" },
    ...CHART_OPTIONS,
    gauge: { value: "STxROWS", help: "stitches and rows to 10 cm; 28x30 by default, an assumption" },
    name: { value: "TEXT", help: "the project's name; from the file's name by default" },
    ...WRITE_OPTIONS,
  },
  details: ["In the first colourway the lightest colour of the chart has the lightest yarn, and so on to the darkest."],
  example: "twostrand new --chart chart.png --stash leftovers.csv --out vest.twostrand.json",
  run: async (given) => {
    const [charts, out, stash] = [given.texts("chart"), given.text("out")!, given.text("stash")];
    const chartPath = charts.join(", ");
    const writing = { force: given.flag("force"), inputs: [...charts, ...(stash === undefined ? [] : [stash])] };
    const gauge = gaugeOf(given);
    await checkWritable(out, writing);
    const read = await readChartFiles(charts, given);
    const chart = oneChart(chartPath, read, given.number("number", { least: 1, whole: true }));
    const yarns = await yarnsOf(stash);
    const made = newProject({
      name: nameOf(given.text("name"), out),
      chart: namedBySigns(chart.value),
      yarns: yarns.value,
      gauge,
    });
    if (!made.value) throw badInput(chartPath, made.problems);
    await writeWhole(out, writeProject(made.value), writing);
    const problems = [...chart.problems, ...yarns.problems, ...made.problems];
    const project = made.value;
    return { json: { file: out, project, problems }, text: () => newReport(out, project), problems };
  },
};
