/** Reads a project file: the text is judged at the door, so that every other room may trust the record. */
import type * as z from "zod/mini";
import { isFault, type Outcome, type Problem } from "../base/problem.ts";
import { foundWords, readJson } from "./json.ts";
import { migrate, type FileRecord } from "./migrations.ts";
import { PROJECT_FORMAT, PROJECT_VERSION, type Project } from "./project.ts";
import { checkReferences } from "./references.ts";
import { projectShape } from "./schema.ts";
import { checkShape } from "./structure.ts";

/** The project as it stands in the file, unknown fields and their order included; null where a problem is a fault. */
export function readProject(text: string): Outcome<Project> {
  const { value, problems } = readJson(text);
  if (problems.length > 0) return { value: null, problems };
  const stranger = headProblem(value, PROJECT_FORMAT, PROJECT_VERSION);
  if (stranger) return { value: null, problems: [stranger] };
  const file = value as FileRecord;
  return judgeProject(migrate(file, file["version"] as number));
}

/** The same judgement of a record that is already there: after an edit, or from a program. */
export function judgeProject(record: unknown): Outcome<Project> {
  const wrong = checkShape(projectShape, record);
  if (wrong.length > 0) return { value: null, problems: wrong };
  // The record itself goes on, and not zod's copy of it, which would leave out a field named __proto__.
  // Its type is the shape's, so that a shape that promises less than the record needs does not compile.
  const project: Project = record as z.infer<typeof projectShape>;
  const problems = checkReferences(project);
  return { value: problems.some(isFault) ? null : project, problems };
}

/** Whether a file is one of ours at all, and not from a later time. */
export function headProblem(value: unknown, format: string, newest: number): Problem | null {
  const fault = (where: string, expected: string, got: string): Problem => ({
    where,
    expected,
    got,
    severity: "fault",
  });
  if (typeof value !== "object" || value === null || Array.isArray(value))
    return fault("the file", `an object with "format": "${format}"`, foundWords(value));
  const { format: foundFormat, version } = value as FileRecord;
  if (foundFormat !== format) return fault("format", `"${format}"`, foundWords(foundFormat));
  if (typeof version !== "number" || !Number.isSafeInteger(version) || version < 1)
    return fault("version", "a whole number from 1", foundWords(version));
  if (version > newest)
    return fault(
      "version",
      `at most ${newest}`,
      `${version}: a newer Twostrand wrote this file, open it there; it has been left as it was`,
    );
  return null;
}
