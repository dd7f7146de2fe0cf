/** Reads a project file: the text is judged at the door, so that every other room may trust the record. */
import type { Outcome, Problem } from "../base/problem.ts";
import { foundWords } from "./foundWords.ts";
import { readJson } from "./json.ts";
import { judgeProject } from "./judgeProject.ts";
import { migrate, type FileRecord } from "./migrations.ts";
import { PROJECT_FORMAT, PROJECT_VERSION, type Project } from "./project.ts";

/** The project as it stands in the file, unknown fields and their order included; null where a problem is a fault. */
export function readProject(text: string): Outcome<Project> {
  const { value, problems } = readJson(text);
  if (problems.length > 0) return { value: null, problems };
  const stranger = headProblem(value, PROJECT_FORMAT, PROJECT_VERSION);
  if (stranger) return { value: null, problems: [stranger] };
  const file = value as FileRecord;
  return judgeProject(migrate(file, file["version"] as number));
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
