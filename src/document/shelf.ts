/** The shelf: what outlives a garment. A project copies from it what it uses, and stands alone. */
import * as z from "zod/mini";
import { isFault, type Outcome, type Problem } from "../base/problem.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { foundWords } from "./foundWords.ts";
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

type Shape = z.infer<typeof shelfShape>;

/** Yarn that a project will use, by the project's name. */
export interface Promised {
  yarn: string;
  project: string;
  grams?: number;
}

/** Fields that this version does not know are kept as they came. */
export interface Shelf extends Pick<
  Shape,
  "format" | "version" | "verdicts" | "theta" | "clothFactor" | "textureContrast" | "slack" | "loopLengthMm"
> {
  yarns: Yarn[];
  promised?: Promised[];
}

export function readShelf(source: string): Outcome<Shelf> {
  const { value, problems } = readJson(source);
  if (problems.length > 0) return { value: null, problems };
  const stranger = headProblem(value, SHELF_FORMAT, SHELF_VERSION);
  return stranger ? { value: null, problems: [stranger] } : judgeShelf(value);
}

/** The same judgement of a record that is already there: after an edit, or from a program. */
export function judgeShelf(record: unknown): Outcome<Shelf> {
  const wrong = checkShape(shelfShape, record);
  if (wrong.length > 0) return { value: null, problems: wrong };
  const shelf: Shelf = record as Shape;
  const problems = referenceProblems(shelf);
  return { value: problems.some(isFault) ? null : shelf, problems };
}

function referenceProblems({ yarns, promised }: Shelf): Problem[] {
  const problems: Problem[] = [];
  const known = new Set<string>();
  yarns.forEach(({ id }, index) => {
    const where = `yarns[${index}].id`;
    if (known.has(id))
      problems.push({ where, expected: "an id that no other yarn has", got: foundWords(id), severity: "fault" });
    known.add(id);
  });
  // What was promised is a memory: the yarn may be gone, and that keeps nothing else from working.
  promised?.forEach(({ yarn }, index) => {
    const where = `promised[${index}].yarn`;
    if (!known.has(yarn))
      problems.push({ where, expected: "the id of one of the yarns", got: foundWords(yarn), severity: "doubt" });
  });
  return problems;
}

export const writeShelf = (shelf: Shelf): string => writeRecord(shelf);

/** JSON Schema 2020-12 of the shelf's file. */
export const shelfSchema = (): object => z.toJSONSchema(shelfShape, { target: "draft-2020-12" });
