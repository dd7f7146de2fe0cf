/** Holds a record against a shape and says in a sentence with a path what does not fit. */
import type * as z from "zod/mini";
import type { Problem } from "../base/problem.ts";
import { foundWords } from "./foundWords.ts";

/** Faults only, one a place, in the order of the file; none where the record fits. */
export function checkShape(shape: z.ZodMiniType, record: unknown): Problem[] {
  const result = shape.safeParse(record);
  if (result.success) return [];
  const first = new Map<string, Problem>();
  for (const issue of result.error.issues) {
    const where = pathWords(issue.path);
    const got = foundWords(valueAt(record, issue.path));
    if (!first.has(where)) first.set(where, { where, expected: issue.message, got, severity: "fault" });
  }
  return [...first.values()];
}

/** "colourways[1].yarns.C" */
function pathWords(path: readonly PropertyKey[]): string {
  const words = path.map((step) => (typeof step === "number" ? `[${step}]` : `.${String(step)}`)).join("");
  return words.replace(/^\./, "") || "the file";
}

const valueAt = (record: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, step) =>
      typeof value === "object" && value !== null && Object.hasOwn(value, step)
        ? (value as Record<PropertyKey, unknown>)[step]
        : undefined,
    record,
  );
