/** That saving loses nothing: not a value, not an unknown field, not the order of fields. */
import { readFileSync } from "node:fs";
import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Project } from "./project.ts";
import { readProject } from "./read.ts";
import { writeProject, writeRecord } from "./write.ts";

const everyField = readFileSync("test/files/v1/every-field.twostrand.json", "utf8");

type Json = Record<string, unknown>;
/** Every object of a record, the record itself first. */
function objectsIn(value: unknown): Json[] {
  if (typeof value !== "object" || value === null) return [];
  const inner = Object.values(value).flatMap(objectsIn);
  return Array.isArray(value) ? inner : [value as Json, ...inner];
}

/** Objects whose keys are free: there an unknown field would be an id. */
const keyedByIds = (file: Json): Set<unknown> => {
  const { pattern, colourways } = file as unknown as Project;
  const sections = pattern.sections!.flatMap(({ rounds, stitches, startColumn, decreases }) => [
    rounds,
    stitches,
    startColumn,
    decreases,
  ]);
  return new Set<unknown>([...sections, ...colourways.map(({ yarns }) => yarns)]);
};

/** Values as a JSON text may hold them: signed zero and numbers too large to hold among them. */
const anyJson = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom<unknown>(-0, Infinity, -Infinity, 1e308, 5e-324, "\u2028", "\u0000"),
);
const fieldName = fc.oneof(
  fc.string({ minLength: 1 }).map((name) => `x-${name}`),
  fc.constantFrom("__proto__", "constructor", "toString", "12", "-1"),
);

describe("laws of writing", () => {
  it("open, save and open again is identity, with unknown fields at every level and in their order", () => {
    const extras = fc.array(fc.tuple(fc.nat(), fieldName, anyJson), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(extras, (fields) => {
        const file = JSON.parse(everyField) as Json;
        const byIds = keyedByIds(file);
        const objects = objectsIn(file).filter((object) => !byIds.has(object));
        for (const [place, name, value] of fields)
          Object.defineProperty(objects[place % objects.length], name, {
            value,
            enumerable: true,
            configurable: true,
            writable: true,
          });
        const text = writeRecord(file);
        const { value, problems } = readProject(text);
        expect(problems).toEqual([]);
        // Node's own comparison, because a field named constructor or __proto__ confuses the runner's.
        expect(isDeepStrictEqual(value, file)).toBe(true);
        // The same bytes mean the same order of fields, which a comparison does not look at.
        expect(writeProject(value!)).toBe(text);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("agrees with JSON.stringify on every value that it can hold", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        // JSON.stringify writes 0 for -0; toEqual would tell them apart.
        const text = JSON.stringify({ value });
        expect(JSON.stringify(JSON.parse(writeRecord({ value })))).toBe(text);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

it("puts chart rows below each other, numbers and small objects on a line, and ends in a line end", () => {
  const record = {
    rows: ["AB", "BA"],
    range: [1, 7],
    cells: [[3, 7]],
    gauge: { stitches: 28, rows: 30 },
    none: [],
    left: {},
  };
  expect(writeRecord(record)).toBe(`{
  "rows": [
    "AB",
    "BA"
  ],
  "range": [1, 7],
  "cells": [[3, 7]],
  "gauge": { "stitches": 28, "rows": 30 },
  "none": [],
  "left": {}
}
`);
});
