/** `sheet`: the working sheet, a PDF to knit from. */
import { sizesOf } from "../../plan/knitting.ts";
import { COLOURWAY_OPTION, WRITE_OPTIONS, type Command } from "../command.ts";
import { checkWritable, writeWhole } from "../files.ts";
import { sheetFonts } from "../fonts.ts";
import { colourwayIn, idIn, only, openProject } from "../projectFile.ts";
import { savedReport } from "../reports/saved.ts";
import { counted } from "../words.ts";

export const sheetCommand: Command = {
  name: "sheet",
  summary: "Makes the working sheet, a PDF to knit from: the chart in her colours with symbols.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    out: { value: "FILE.pdf", help: "where the sheet goes", required: true },
    ...COLOURWAY_OPTION,
    size: { value: "ID", help: "which size; the first by default" },
    paper: { value: "SIZE", help: "A4 or Letter; A4 by default" },
    mono: { help: "symbols without colours, for a printer with black only" },
    ...WRITE_OPTIONS,
  },
  example: "twostrand sheet vest.twostrand.json --out vest.pdf --paper A4",
  run: async (given) => {
    const paper = given.choice("paper", ["A4", "Letter"]);
    const [path, out] = [given.operand(0), given.text("out")!];
    const writing = { force: given.flag("force"), inputs: [path] };
    const { project, problems } = await openProject(path);
    const colourway = colourwayIn(project, given).id;
    await checkWritable(out, writing);
    const size = idIn("size", given.text("size"), sizesOf(project.pattern));
    const options = { colourway, ...only({ paper, size }), mono: given.flag("mono") };
    // Half of the program by size, for one command: loaded only here.
    const { sheetOfProject } = await import("../../jobs/sheet.ts");
    const { bytes, pages } = await sheetOfProject(project, { ...options, fonts: await sheetFonts() });
    await writeWhole(out, bytes, writing);
    return { json: { file: out, pages }, text: () => savedReport(out, counted(pages, "page")), problems };
  },
};
