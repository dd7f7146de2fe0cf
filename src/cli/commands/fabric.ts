/** `fabric`: the colourway as cloth, in a picture of true size. */
import { fabricOfProject, type ClothPicture } from "../../jobs/picture.ts";
import { COLOURWAY_OPTION, DEFICIENCY_OPTIONS, SEEING_OPTIONS, WRITE_OPTIONS, type Command } from "../command.ts";
import { checkWritable, writeWhole } from "../files.ts";
import { encodePng } from "../pictures.ts";
import { colourwayIn, deficiencyOf, only, idIn, idsOf, openProject, seeingOf } from "../projectFile.ts";
import { savedReport } from "../reports/saved.ts";

export const fabricCommand: Command = {
  name: "fabric",
  summary: "Draws a colourway as knitted cloth into a PNG file, as it is or as it is seen from afar.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    out: { value: "FILE.png", help: "where the picture goes", required: true },
    ...COLOURWAY_OPTION,
    chart: { value: "ID", help: "which chart; the first by default" },
    distance: { value: "M", help: "take away what is not seen from so many metres; nothing by default" },
    light: SEEING_OPTIONS.light,
    grey: { help: "in greys, by lightness alone" },
    ...DEFICIENCY_OPTIONS,
    ...WRITE_OPTIONS,
  },
  example: "twostrand fabric vest.twostrand.json --out vest.png --distance 3",
  run: async (given) => {
    const seeing = {
      ...seeingOf(given),
      ...deficiencyOf(given),
      colours: given.flag("grey") ? ("grey" as const) : ("full" as const),
    };
    const [path, out] = [given.operand(0), given.text("out")!];
    const writing = { force: given.flag("force"), inputs: [path] };
    const { project, problems } = await openProject(path);
    const chart = idIn("chart", given.text("chart"), idsOf(project.pattern.charts));
    await checkWritable(out, writing);
    const picture = fabricOfProject(project, {
      colourway: colourwayIn(project, given).id,
      ...only({ chart }),
      ...seeing,
    });
    await writeWhole(out, await encodePng(picture), writing);
    const { rgba: _, ...size } = picture;
    return { json: { file: out, ...size }, text: () => savedReport(out, sizeWords(size)), problems };
  },
};

const sizeWords = ({ width, height, millimetresPerPixel }: Omit<ClothPicture, "rgba">): string =>
  `${width} by ${height} pixels of ${millimetresPerPixel.toFixed(2)} mm`;
