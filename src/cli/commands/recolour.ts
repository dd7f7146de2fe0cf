/** `recolour`: the best ways to put her yarns into the pattern. */
import { isFault } from "../../base/problem.ts";
import { recolourProject } from "../../jobs/recolour.ts";
import { COLOURWAY_OPTION, type Command } from "../command.ts";
import { badInput, colourwayIn, only, openProject } from "../projectFile.ts";
import { recolourReport } from "../reports/recolour.ts";
import { wishOf } from "../wishFile.ts";
import { plain } from "../words.ts";

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
    const wishPath = given.text("wish");
    const { wish, problems: doubts } = await wishOf(wishPath);
    const result = recolourProject(project, {
      colourway,
      ...only({ wish, ways }),
      stop: () => io.now() >= end,
      onWay: (way, index) => io.err(`Way ${index + 1}: ${plain(way.name)}\n`),
    });
    if (result.problems.some(isFault)) throw badInput(wishPath ?? given.operand(0), result.problems);
    return {
      json: result,
      text: () => recolourReport(project, result),
      problems: [...problems, ...doubts, ...result.problems],
    };
  },
};
