/** `apply`: a way of recolouring becomes a colourway; the project that it came from stays as it is. */
import { judgeProject } from "../../document/judgeProject.ts";
import { writeProject } from "../../document/write.ts";
import { applyWay } from "../../jobs/recolour.ts";
import { WRITE_OPTIONS, type Command } from "../command.ts";
import { writeWhole } from "../files.ts";
import { badInput, only, openProject } from "../projectFile.ts";
import { savedReport } from "../reports/saved.ts";
import { wayOf } from "../waysFile.ts";

export const applyCommand: Command = {
  name: "apply",
  summary: "Adds a way that recolour found to the project as a new colourway.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    ways: { value: "FILE", help: "what recolour --json wrote", required: true },
    way: { value: "N", help: "which way, from 1", required: true },
    out: { value: "PROJECT", help: "where the project with the new colourway goes", required: true },
    name: { value: "TEXT", help: "the new colourway's name; the way's by default" },
    ...WRITE_OPTIONS,
  },
  example: "twostrand apply vest.twostrand.json --ways ways.json --way 1 --out vest-2.twostrand.json",
  run: async (given) => {
    const number = given.number("way", { least: 1, whole: true })!;
    const [path, waysPath, out] = [given.operand(0), given.text("ways")!, given.text("out")!];
    const { project } = await openProject(path);
    const way = await wayOf(waysPath, number);
    const { project: applied, colourway } = applyWay(project, way, only({ name: given.text("name") }));
    const { value, problems } = judgeProject(applied);
    if (!value) throw badInput(waysPath, problems);
    await writeWhole(out, writeProject(value), { force: given.flag("force"), inputs: [path, waysPath] });
    return { json: { file: out, colourway }, text: () => savedReport(out, `colourway ${colourway} is new`), problems };
  },
};
