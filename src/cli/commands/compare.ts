/** `compare`: the project's colourways side by side. */
import { compareProject } from "../../jobs/compare.ts";
import { SEEING_OPTIONS, type Command } from "../command.ts";
import { openProject, seeingOf } from "../projectFile.ts";
import { compareReport } from "../reports/compare.ts";

export const compareCommand: Command = {
  name: "compare",
  summary: "Sets the project's colourways side by side: a row for each.",
  operands: [{ name: "PROJECT", required: true }],
  options: SEEING_OPTIONS,
  example: "twostrand compare vest.twostrand.json",
  run: async (given) => {
    const seeing = seeingOf(given);
    const { project, problems } = await openProject(given.operand(0));
    const result = compareProject(project, seeing);
    return { json: result, text: () => compareReport(project, result), problems };
  },
};
