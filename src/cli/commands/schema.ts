/** `schema`: what a file must look like, for other programs. */
import { projectSchema } from "../../document/schema.ts";
import { shelfSchema } from "../../document/shelf.ts";
import type { Command } from "../command.ts";
import { EXIT, Refusal } from "../io.ts";
import { nearestWord } from "../nearest.ts";

const SCHEMAS: Readonly<Record<string, () => object>> = { project: projectSchema, shelf: shelfSchema };

export const schemaCommand: Command = {
  name: "schema",
  summary: "Prints the JSON Schema (2020-12) of the project file, or of the shelf's.",
  operands: [{ name: "project|shelf", required: false }],
  options: {},
  example: "twostrand schema > project.schema.json",
  run: (given) => {
    const kind = given.optionalOperand(0) ?? "project";
    const schema = Object.hasOwn(SCHEMAS, kind) ? SCHEMAS[kind]!() : null;
    if (schema) return { json: schema, text: () => JSON.stringify(schema, null, 2) };
    const near = nearestWord(kind, Object.keys(SCHEMAS));
    const hint = near ? ` Did you mean ${near}?` : "";
    throw new Refusal(EXIT.usage, `schema: expected project or shelf, found ${JSON.stringify(kind)}.${hint}`);
  },
};
