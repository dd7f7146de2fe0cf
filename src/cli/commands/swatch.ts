/** `swatch`: the smallest piece of knitting that settles what a check leaves open. */
import { swatchOfProject } from "../../jobs/swatch.ts";
import { COLOURWAY_OPTION, SEEING_OPTIONS, WRITE_OPTIONS, type Command } from "../command.ts";
import type { Given } from "../args.ts";
import { checkWritable, writeWhole } from "../files.ts";
import { EXIT, Refusal } from "../io.ts";
import { colourwayIn, only, openProject, seeingOf } from "../projectFile.ts";
import { savedReport } from "../reports/saved.ts";
import { swatchReport } from "../reports/swatch.ts";

export const swatchCommand: Command = {
  name: "swatch",
  summary: "Plans the smallest swatch that settles the doubts of a colourway, within a budget.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    ...COLOURWAY_OPTION,
    stitches: { value: "N", help: "the most stitches; as many as it takes by default" },
    minutes: { value: "N", help: "or the most minutes" },
    manner: { value: "HOW", help: "round, flat or speed; round by default" },
    pace: { value: "N", help: "stitches a minute in two colours, as you have counted; about 20 by default" },
    ...SEEING_OPTIONS,
    thorough: { help: "search on for a minute or so where it is not proven that nothing smaller does as much" },
    out: { value: "FILE.txt", help: "the swatch's chart as text, for read and new" },
    ...WRITE_OPTIONS,
  },
  details: [
    "In speed manner every row is knitted from the right side, the strands are carried loosely across the back and cut.",
    "A swatch outranks the screen: say of its rows how they look, and every word and range follows your eyes.",
  ],
  example: "twostrand swatch vest.twostrand.json --colourway w2 --minutes 60 --manner flat",
  run: async (given) => {
    const question = {
      ...seeingOf(given),
      ...only({
        budget: budgetOf(given),
        manner: given.choice("manner", ["round", "flat", "speed"] as const),
        search: given.flag("thorough") ? ("thorough" as const) : undefined,
        pace: given.number("pace", { above: 0, most: 200 }),
      }),
    };
    const [path, out] = [given.operand(0), given.text("out")];
    const writing = { force: given.flag("force"), inputs: [path] };
    const { project, problems } = await openProject(path);
    const colourway = colourwayIn(project, given);
    if (out !== undefined) await checkWritable(out, writing);
    const swatch = swatchOfProject(project, { ...question, colourway: colourway.id });
    if (out !== undefined && !swatch.chart)
      throw new Refusal(EXIT.badInput, `${out}: there is no swatch to write; see why without --out.`);
    if (out !== undefined) await writeWhole(out, `${swatch.chart!.rows.join("\n")}\n`, writing);
    const saved = out === undefined ? "" : `\n\n${savedReport(out, `${swatch.chart!.rows.length} rows`)}`;
    return {
      json: { ...swatch, ...only({ file: out }) },
      text: () => swatchReport(project, colourway, swatch) + saved,
      problems: [...problems, ...swatch.problems],
    };
  },
};

function budgetOf(given: Given): { stitches: number } | { minutes: number } | undefined {
  const stitches = given.number("stitches", { least: 1, whole: true });
  const minutes = given.number("minutes", { above: 0 });
  if (stitches !== undefined && minutes !== undefined)
    throw new Refusal(EXIT.usage, "swatch: expected --stitches or --minutes, found both.");
  if (stitches !== undefined) return { stitches };
  return minutes === undefined ? undefined : { minutes };
}
