/** `shape`: a garment from a body's measures, its stitches fitted to the charts' repeats, put into a project if she wants. */
import { tryEdit } from "../../document/edit.ts";
import { writeProject } from "../../document/write.ts";
import { shapeProject } from "../../jobs/shape.ts";
import { WRITE_OPTIONS, type Command } from "../command.ts";
import { checkWritable, writeWhole } from "../files.ts";
import { badInput, openProject } from "../projectFile.ts";
import { savedReport } from "../reports/saved.ts";
import { shapeReport } from "../reports/shape.ts";
import { SHAPE_OPTIONS, shapeQuestion } from "../shapeOptions.ts";
import { counted } from "../words.ts";

export const shapeCommand: Command = {
  name: "shape",
  summary: "Shapes a garment for a body: stitches that take the repeats, steeks, yoke decreases, a schematic.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    ...SHAPE_OPTIONS,
    out: { value: "PROJECT", help: "where the project with these sections goes" },
    ...WRITE_OPTIONS,
  },
  details: [
    "A part for which no chart is named is knitted plainly in the main colour. Standard sizes are a beginning: measure, and say what you found by --body.",
    "With --out the sections replace those of the project; exceptions in sections that are no longer knitted go with them, and that is told.",
  ],
  example:
    "twostrand shape vest.twostrand.json --garment vest --size women/M --chart body=c1 --out mine.twostrand.json",
  run: async (given) => {
    const [path, out] = [given.operand(0), given.text("out")];
    const question = shapeQuestion(given);
    const writing = { force: given.flag("force"), inputs: [path] };
    const { project, problems } = await openProject(path);
    if (out !== undefined) await checkWritable(out, writing);
    const answer = shapeProject(project, question);
    if (!answer.edit) throw badInput("The garment", answer.problems);
    const { value, problems: after } = tryEdit(project, answer.edit);
    if (!value) throw badInput("The garment", after);
    if (out !== undefined) await writeWhole(out, writeProject(value), writing);
    const { edit: _edit, ...told } = answer;
    const report = (): string => shapeReport(answer, project);
    return {
      json: { ...told, ...(out !== undefined && { file: out }) },
      text: () =>
        out === undefined ? report() : `${report()}\n\n${savedReport(out, counted(answer.sections.length, "section"))}`,
      problems: [...problems, ...answer.problems],
    };
  },
};
