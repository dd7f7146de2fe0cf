/** `shade`: the shades of yarns in a photograph, each with how far it may be off. */
import { PAPER_TINTS, shadesFromPhoto, type PaperTint, type PhotoReference } from "../../jobs.ts";
import type { Box } from "../../raster/raster.ts";
import type { Given } from "../args.ts";
import type { Command } from "../command.ts";
import { readBytes } from "../files.ts";
import { EXIT, Refusal } from "../io.ts";
import { decodePicture, kindOfFile } from "../pictures.ts";
import { badInput } from "../projectFile.ts";
import { shadeReport } from "../reports/shade.ts";

export const shadeCommand: Command = {
  name: "shade",
  summary: "Tells the shades of yarns in a photograph, and how far each may be off.",
  operands: [{ name: "PHOTO", required: true }],
  options: {
    yarn: {
      value: "x,y,w,h",
      help: "a yarn and nothing else, in pixels; may be given again; looked for where none is given",
      many: true,
    },
    grey: { value: "x,y,w,h", help: "a grey card (18 %) in the same light" },
    white: { value: "x,y,w,h", help: "plain white paper in the same light" },
    reflectance: { value: "0.18", help: "of the grey card, where it is another than 18 %" },
    tint: {
      value: "bright|cream|recycled|unknown",
      help: "of the white paper; unknown, with a wider range, if not told",
    },
    patches: { value: "x1,y1,…,x4,y4", help: "corners of a 24-patch colour chart, clockwise from its first patch" },
  },
  details: [
    "Without a reference a 24-patch chart is looked for in the photograph; where there is none, the camera is believed.",
    "A table or cloth of one colour under everything tells how the light falls off, and makes all of it surer.",
    "Yarns that are looked for come in rows from the top left, each with its box: a first proposal, to be checked against the picture.",
    "Photograph by a window, out of the sun, with the reference beside the yarns and nothing of them burnt out.",
    "The range is a ΔE00 that should hold the truth in four cases of five.",
  ],
  example: "twostrand shade balls.jpg --yarn 400,300,200,200 --yarn 700,300,200,200 --grey 100,300,150,150",
  run: async (given) => {
    const path = given.operand(0);
    const boxes = given.texts("yarn").map((text) => boxIn("yarn", text));
    const yarns = boxes.length > 0 ? boxes : "find";
    const reference = referenceIn(given);
    const bytes = await readBytes(path);
    if (kindOfFile(bytes) !== "picture")
      throw new Refusal(
        EXIT.badInput,
        `${path} is not a picture in PNG, JPEG, WebP or AVIF. Export it as JPEG (a phone's HEIC too) and try that.`,
      );
    const { value, problems } = shadesFromPhoto(await decodePicture(path, bytes), { yarns, reference });
    if (!value) throw badInput(path, problems);
    return { json: { ...value, problems }, text: () => shadeReport(value), problems };
  },
};

function referenceIn(given: Given): PhotoReference {
  const told = ["grey", "white", "patches"].filter((name) => given.text(name) !== undefined);
  if (told.length > 1) throw new Refusal(EXIT.usage, `shade: expected one reference, found --${told.join(" and --")}.`);
  const [grey, white, patches] = [given.text("grey"), given.text("white"), given.text("patches")];
  if (grey !== undefined) return { kind: "grey", area: boxIn("grey", grey), ...reflectanceIn(given) };
  if (white !== undefined) return { kind: "white", area: boxIn("white", white), ...tintIn(given) };
  if (patches === undefined) return { kind: "find" };
  const numbers = /^-?\d{1,6}(\.\d+)?(,-?\d{1,6}(\.\d+)?){7}$/.test(patches) ? patches.split(",").map(Number) : null;
  if (!numbers)
    throw new Refusal(
      EXIT.usage,
      `--patches: expected x1,y1,x2,y2,x3,y3,x4,y4 in pixels, found ${JSON.stringify(patches)}.`,
    );
  return { kind: "patches", corners: [0, 2, 4, 6].map((at) => [numbers[at]!, numbers[at + 1]!] as const) };
}

function reflectanceIn(given: Given): { reflectance?: number } {
  const text = given.text("reflectance");
  if (text === undefined) return {};
  if (/^0?\.\d{1,4}$/.test(text)) return { reflectance: Number(text) };
  throw new Refusal(EXIT.usage, `--reflectance: expected a part of light such as 0.18, found ${JSON.stringify(text)}.`);
}

function tintIn(given: Given): { tint?: PaperTint } {
  const text = given.text("tint");
  if (text === undefined) return {};
  const tint = PAPER_TINTS.find((one) => one === text);
  if (tint) return { tint };
  throw new Refusal(EXIT.usage, `--tint: expected ${PAPER_TINTS.join(", ")}, found ${JSON.stringify(text)}.`);
}

function boxIn(option: string, text: string): Box {
  const numbers = /^\d{1,6}(,\d{1,6}){3}$/.test(text) ? text.split(",").map(Number) : [];
  const [x, y, width, height] = numbers;
  if (x === undefined || y === undefined || !width || !height)
    throw new Refusal(
      EXIT.usage,
      `--${option}: expected x,y,width,height in whole pixels, found ${JSON.stringify(text)}.`,
    );
  return { x, y, width, height };
}
