/** That the published schema says what the reader does: it knows every field of the frozen file and closes no object to unknown ones. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { projectSchema } from "./schema.ts";

type Schema = {
  $ref?: string;
  $defs?: Record<string, Schema>;
  type?: string;
  properties?: Record<string, Schema>;
  additionalProperties?: Schema | boolean;
  items?: Schema | false;
  prefixItems?: Schema[];
  anyOf?: Schema[];
};
const schema = projectSchema() as Schema & { $schema: string };
const resolved = (part: Schema): Schema => (part.$ref ? schema.$defs![part.$ref.replace("#/$defs/", "")]! : part);

/** Fields of the frozen file that are there to be unknown. */
const UNKNOWN = new Set(["keptBy", "needleMm", "printed", "box", "mood"]);

function unknownFields(value: unknown, part: Schema, path: string): string[] {
  const { properties, additionalProperties, items, prefixItems, anyOf } = resolved(part);
  if (Array.isArray(value))
    return value.flatMap((item, index) =>
      unknownFields(item, prefixItems?.[index] ?? (items || {}), `${path}[${index}]`),
    );
  if (typeof value !== "object" || value === null) return [];
  const object = properties || !anyOf ? { properties, additionalProperties } : resolved(anyOf[0]!);
  return Object.entries(value).flatMap(([name, inner]) => {
    const known = object.properties?.[name] ?? (object.properties ? undefined : object.additionalProperties);
    if (UNKNOWN.has(name)) return known ? [`${path}.${name} is known`] : [];
    return known ? unknownFields(inner, known as Schema, `${path}.${name}`) : [`${path}.${name}`];
  });
}

it("is JSON Schema 2020-12 and survives JSON", () => {
  expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
  expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
});

it("knows every field of the frozen file", () => {
  const file: unknown = JSON.parse(readFileSync("test/files/v1/every-field.twostrand.json", "utf8"));
  expect(unknownFields(file, schema, "project")).toEqual([]);
});

it("closes no object to unknown fields", () => {
  expect(JSON.stringify(schema)).not.toContain('"additionalProperties":false');
  expect(JSON.stringify(schema)).not.toContain("unevaluatedProperties");
});
