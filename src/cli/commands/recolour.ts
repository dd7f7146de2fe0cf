/** `recolour`: the best ways to put her yarns into the pattern. */
import { recolourProject } from "../../jobs.ts";
import { COLOURWAY_OPTION, type Command } from "../command.ts";
import { colourwayIn, given as only, openProject } from "../projectFile.ts";
import { recolourReport } from "../reports/recolour.ts";
import { wishOf } from "../wishFile.ts";

export const recolourCommand: Command = {
  name: "recolour",
  summary: "Finds the best ways to put her yarns into the pattern under a wish, proven or with the gap that is left.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    ...COLOURWAY_OPTION,
    wish: { value: "FILE", help: "what she wishes, as JSON; the colourway's own wish by default" },
    ways: { value: "N", help: "how many really different ways; the wish's number by default" },
    seconds: { value: "S", help: "stop after so many seconds with the best so far; 30 by default" },
  },
  details: ["Keep a way with: twostrand apply PROJECT --ways FILE --way N --out PROJECT"],
  example: "twostrand recolour vest.twostrand.json --ways 3 --json > ways.json",
  run: async (given, io) => {
    const ways = given.number("ways", { least: 1, most: 20, whole: true });
    const end = io.now() + 1000 * (given.number("seconds", { above: 0, most: 86_400 }) ?? 30);
    const { project, problems } = await openProject(given.operand(0));
    const colourway = colourwayIn(project, given).id;
    const wish = await wishOf(given.text("wish"));
    const result = recolourProject(project, { colourway, ...only({ wish, ways }), stop: () => io.now() >= end });
    return { json: result, text: () => recolourReport(project, result), problems };
  },
};
