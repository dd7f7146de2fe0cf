/** `cloth`: what a photograph of a plain swatch tells of her own knitting, kept in a project if she wants. */
import type { Box } from "../../raster/raster.ts";
import { tryEdit } from "../../document/edit.ts";
import { writeProject } from "../../document/write.ts";
import { plainSwatch } from "../../jobs/plainSwatch.ts";
import type { Given } from "../args.ts";
import { WRITE_OPTIONS, type Command } from "../command.ts";
import { readBytes, writeWhole } from "../files.ts";
import { EXIT, Refusal } from "../io.ts";
import { decodePicture, kindOfFile } from "../pictures.ts";
import { badInput, only, openProject } from "../projectFile.ts";
import { clothReport } from "../reports/cloth.ts";
import { savedReport } from "../reports/saved.ts";

export const clothCommand: Command = {
  name: "cloth",
  summary: "Measures a photograph of a plain swatch: how strong its texture is, how much darker than its yarn.",
  operands: [{ name: "PHOTO", required: true }],
  options: {
    stitches: { value: "N", help: "stitches across the area", required: true },
    rows: { value: "N", help: "rows up the area", required: true },
    area: { value: "x,y,w,h", help: "plain cloth and nothing else, in pixels; all of the photo by default" },
    yarn: { value: "x,y,w,h", help: "the same yarn, wound, in the same photo and light" },
    project: { value: "PROJECT", help: "a project that is to go by these numbers" },
    out: { value: "PROJECT", help: "where the project that goes by them is written" },
    ...WRITE_OPTIONS,
  },
  details: [
    "Photograph a washed swatch in one colour square on, in even light from a window, at least 16 stitches and rows.",
    "The texture decides how soon fine patterns are hidden; without a measure hand-knit wool's usual one is taken.",
  ],
  example: "twostrand cloth swatch.jpg --area 400,300,800,750 --stitches 28 --rows 30",
  run: async (given) => {
    const path = given.operand(0);
    const [projectPath, out] = [given.text("project"), given.text("out")];
    if ((projectPath === undefined) !== (out === undefined))
      throw new Refusal(EXIT.usage, "cloth: expected --project and --out together, found one of them.");
    const bytes = await readBytes(path);
    if (kindOfFile(bytes) !== "picture")
      throw new Refusal(EXIT.badInput, `${path} is not a picture in PNG, JPEG, WebP or AVIF.`);
    const { value, problems } = plainSwatch(await decodePicture(path, bytes), {
      stitches: given.number("stitches", { above: 0, most: 10_000 })!,
      rows: given.number("rows", { above: 0, most: 10_000 })!,
      ...only({ area: boxOf(given, "area"), yarn: boxOf(given, "yarn") }),
    });
    if (!value) throw badInput(path, problems);
    const saved = projectPath !== undefined && out !== undefined ? { projectPath, out } : null;
    if (saved) {
      const { project } = await openProject(saved.projectPath);
      const cloth = { texture: value.texture, ...only({ factor: value.factor?.value }) };
      const kept = tryEdit(project, { kind: "setCloth", cloth: { ...project.cloth, ...cloth } });
      if (!kept.value) throw badInput(path, kept.problems);
      await writeWhole(saved.out, writeProject(kept.value), {
        force: given.flag("force"),
        inputs: [saved.projectPath, path],
      });
    }
    const words = clothReport(value);
    return {
      json: { ...value, ...(saved && { file: saved.out }) },
      text: () => (saved ? `${words}\n\n${savedReport(saved.out, "it goes by this cloth from now on")}` : words),
      problems,
    };
  },
};

function boxOf(given: Given, option: string): Box | undefined {
  const text = given.text(option);
  if (text === undefined) return undefined;
  const numbers = /^\d{1,6}(,\d{1,6}){3}$/.test(text) ? text.split(",").map(Number) : [];
  const [x, y, width, height] = numbers;
  if (x === undefined || y === undefined || !width || !height)
    throw new Refusal(
      EXIT.usage,
      `--${option}: expected x,y,width,height in whole pixels, found ${JSON.stringify(text)}.`,
    );
  return { x, y, width, height };
}
