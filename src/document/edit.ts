/** Named edits as plain data: what she can do to a project, each a pure step from one record to the next. */
import type { Outcome } from "../base/problem.ts";
import { chartEdited, type ChartEdit } from "./chartEdit.ts";
import { chartRefusal } from "./chartRefusals.ts";
import { isChartEdit, outcomeOf, tryPlainEdit, type PlainEdit } from "./plainEdit.ts";
import type { Project } from "./project.ts";

export type Edit = PlainEdit | ChartEdit;

/**
 * The project after an edit, sharing all that the edit does not touch; unknown fields stay. An edit that is refused
 * gives the same project back: `tryEdit` says why.
 */
export const applyEdit = (project: Project, edit: Edit): Project => tryEdit(project, edit).value ?? project;

/** The project after an edit, with its doubts; or null and why not. What comes out can be written and read again. */
export function tryEdit(project: Project, edit: Edit): Outcome<Project> {
  return isChartEdit(edit)
    ? outcomeOf(chartRefusal(project, edit), () => chartEdited(project, edit))
    : tryPlainEdit(project, edit);
}
