/** `amounts`: how much of each yarn a colourway takes. */
import { amountsOfProject } from "../../jobs/amounts.ts";
import { sizesOf } from "../../plan/knitting.ts";
import { COLOURWAY_OPTION, type Command } from "../command.ts";
import { colourwayIn, only, idIn, openProject } from "../projectFile.ts";
import { amountsReport } from "../reports/amounts.ts";

export const amountsCommand: Command = {
  name: "amounts",
  summary: "Tells how much of each yarn a colourway takes, against what there is.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    ...COLOURWAY_OPTION,
    size: { value: "ID", help: "which size; the first by default" },
    swatch: { help: "count a swatch that is still to be knitted" },
    ball: { value: "G", help: "grams of the balls in which yarn is bought" },
  },
  example: "twostrand amounts vest.twostrand.json --size M",
  run: async (given) => {
    const { project, problems } = await openProject(given.operand(0));
    const colourway = colourwayIn(project, given).id;
    const size = idIn("size", given.text("size"), sizesOf(project.pattern));
    const ballGrams = given.number("ball", { above: 0, most: 10_000 });
    const result = amountsOfProject(project, {
      colourway,
      swatch: given.flag("swatch"),
      ...only({ size, ballGrams }),
    });
    return { json: result, text: () => amountsReport(project, result), problems: [...problems, ...result.problems] };
  },
};
