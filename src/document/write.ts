/** Writes a project as text that people and version control can read: the same record always gives the same bytes. */
import type { Project } from "./project.ts";

/** Fields keep their order, two spaces a level, chart rows one to a line, a line end at the end. */
export const writeProject = (project: Project): string => writeRecord(project);

/** The longest list of numbers or small object that stays on one line, in characters. Our choice: a wide editor with its indent. */
const LONGEST_LINE = 100;

export const writeRecord = (record: object): string => `${written(record, "", "lines")}\n`;

function written(value: unknown, indent: string, form: "line if short" | "lines"): string {
  if (typeof value !== "object" || value === null) return writtenScalar(value);
  const line = form === "lines" ? null : oneLine(value);
  if (line !== null && line.length <= LONGEST_LINE) return line;
  const inner = `${indent}  `;
  const items = Array.isArray(value)
    ? value.map((item) => inner + written(item, inner, "line if short"))
    : fieldsOf(value).map(
        ([name, field]) => `${inner}${JSON.stringify(name)}: ${written(field, inner, "line if short")}`,
      );
  const [open, close] = Array.isArray(value) ? ["[", "]"] : ["{", "}"];
  return items.length === 0 ? `${open}${close}` : `${open}\n${items.join(",\n")}\n${indent}${close}`;
}

/** Null for lists of anything but numbers: chart rows, yarns and the like stand below each other. */
function oneLine(value: unknown): string | null {
  if (typeof value !== "object" || value === null) return writtenScalar(value);
  if (Array.isArray(value)) return onlyNumbers(value) ? `[${value.map(oneLine).join(", ")}]` : null;
  const fields = fieldsOf(value).map(([name, field]) => [JSON.stringify(name), oneLine(field)] as const);
  if (fields.length === 0 || fields.some(([, field]) => field === null)) return null;
  return `{ ${fields.map(([name, field]) => `${name}: ${field}`).join(", ")} }`;
}

const onlyNumbers = (value: unknown): boolean =>
  typeof value === "number" || (Array.isArray(value) && value.length > 0 && value.every(onlyNumbers));

const fieldsOf = (value: object): [string, unknown][] =>
  Object.entries(value).filter(([, field]) => field !== undefined);

/** JSON.stringify would lose the sign of zero and numbers too large to hold; unknown fields may have both. */
function writtenScalar(value: unknown): string {
  if (Object.is(value, -0)) return "-0";
  if (value === Infinity || value === -Infinity) return value > 0 ? "1e999" : "-1e999";
  return JSON.stringify(value) ?? "null";
}
