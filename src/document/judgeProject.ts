/** The judgement of a record that is there: one that was read, after an edit, or from a program. */
import type * as z from "zod/mini";
import { isFault, type Outcome } from "../base/problem.ts";
import type { Project } from "./project.ts";
import { checkReferences } from "./references.ts";
import { projectShape } from "./schema.ts";
import { checkShape } from "./structure.ts";

/** The project with its doubts; null where a problem is a fault. */
export function judgeProject(record: unknown): Outcome<Project> {
  const wrong = checkShape(projectShape, record);
  if (wrong.length > 0) return { value: null, problems: wrong };
  // The record itself goes on, and not zod's copy of it, which would leave out a field named __proto__.
  // Its type is the shape's, so that a shape that promises less than the record needs does not compile.
  const project: Project = record as z.infer<typeof projectShape>;
  const problems = checkReferences(project);
  return { value: problems.some(isFault) ? null : project, problems };
}
