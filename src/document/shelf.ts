/** The shelf: what outlives a garment. A project copies from it what it uses, and stands alone. */
import * as z from "zod/mini";
import type { Outcome } from "../base/problem.ts";
import { readJson } from "./json.ts";
import { headProblem } from "./read.ts";
import * as part from "./shapes.ts";
import { checkShape } from "./structure.ts";
import { writeRecord } from "./write.ts";

export const SHELF_FORMAT = "twostrand-shelf";
export const SHELF_VERSION = 1;

const { object, list, optional, id, text } = part;

const describe = (description: string) => z.meta({ description });

const shelfShape = object({
  format: z.literal("twostrand-shelf"),
  version: z.literal(1),
  yarns: list(part.yarn, "yarns"),
  promised: optional(
    list(object({ yarn: id, project: text, grams: optional(part.from0) }), "promises").check(
      describe("Yarn that a project will use, by the project's name."),
    ),
  ),
  verdicts: optional(
    list(
      object({
        background: part.lab,
        foreground: part.lab,
        motif: list(text, "rows, one text a row"),
        gauge: part.gauge,
        distanceM: part.above0,
        lux: optional(part.above0),
        verdict: part.verdict,
        date: optional(text),
        project: optional(text),
        note: optional(text),
      }),
      "verdicts",
    ).check(
      describe(
        "What she saw on a swatch: two shades (CIELAB, D65), the motif (0 background, 1 foreground, top row first) and how it showed.",
      ),
    ),
  ),
  theta: optional(part.anyNumber.check(describe("Her threshold against the ordinary one, in natural logarithms."))),
  clothFactor: optional(part.above0.check(describe("Cloth over yarn in linear light."))),
  textureContrast: optional(part.from0.check(describe("Contrast of the cloth's own texture."))),
  slack: optional(part.from0.check(describe("Share of a float's length that is added, so that it lies loose."))),
  loopLengthMm: optional(part.above0.check(describe("Yarn in one stitch, measured."))),
}).check(
  z.meta({
    title: "Twostrand shelf, version 1",
    description: "Her yarns and what she learned. Unknown fields are allowed everywhere and are kept.",
  }),
);

export type Shelf = z.infer<typeof shelfShape>;

export function readShelf(source: string): Outcome<Shelf> {
  const { value, problems } = readJson(source);
  if (problems.length > 0) return { value: null, problems };
  const stranger = headProblem(value, SHELF_FORMAT, SHELF_VERSION);
  const wrong = stranger ? [stranger] : checkShape(shelfShape, value);
  return wrong.length > 0 ? { value: null, problems: wrong } : { value: value as Shelf, problems: [] };
}

export const writeShelf = (shelf: Shelf): string => writeRecord(shelf);

/** JSON Schema 2020-12 of the shelf's file. */
export const shelfSchema = (): object => z.toJSONSchema(shelfShape, { target: "draft-2020-12" });
