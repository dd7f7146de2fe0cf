/** Reads what `recolour --json` wrote. */
import * as z from "zod/mini";
import { readJson } from "../document/json.ts";
import * as part from "../document/shapes.ts";
import { wishShape } from "../document/wish.ts";
import { checkShape } from "../document/structure.ts";
import type { applyWay } from "../jobs.ts";
import { readText } from "./files.ts";
import { EXIT, Refusal } from "./io.ts";
import { badInput } from "./projectFile.ts";

const { object, list, optional } = part;

/** What is kept of a way; its numbers were for choosing it. */
const waysShape = object({
  ways: list(
    object({
      name: optional(part.text),
      because: optional(list(part.text, "sentences")),
      yarns: z.record(z.string(), part.id, "an object with a yarn id for each chart colour"),
      changes: optional(part.changes),
      overStitched: optional(part.overStitched),
      wish: optional(wishShape),
      toFind: optional(list(object({ yarn: part.yarn }), "shades to look for")),
    }),
    "ways",
  ),
});

/** The way with a number, from 1. Refuses with 66, 65 or 64. */
export async function wayOf(path: string, number: number): Promise<Parameters<typeof applyWay>[1]> {
  const { value, problems } = readJson(await readText(path));
  const wrong = problems.length > 0 ? problems : checkShape(waysShape, value);
  if (wrong.length > 0) throw badInput(path, wrong);
  const { ways } = value as z.infer<typeof waysShape>;
  const way = ways[number - 1];
  if (way) return { name: `way ${number}`, changes: [], overStitched: [], ...way };
  const expected = ways.length > 0 ? `a number between 1 and ${ways.length}` : "a file with ways; this one has none";
  throw new Refusal(EXIT.usage, `--way: expected ${expected}, found ${number}.`);
}
