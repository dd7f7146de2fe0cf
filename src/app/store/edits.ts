/** Edits on the page: those of charts are long, so they are brought once there is time for them, and before the first is made. */
import { assert } from "../../base/assert.ts";
import type { Outcome } from "../../base/problem.ts";
import type * as Edits from "../../document/edit.ts";
import type { Edit } from "../../document/edit.ts";
import { isChartEdit, tryPlainEdit } from "../../document/plainEdit.ts";
import type { Project } from "../../document/project.ts";

let all: typeof Edits | null = null;

/** To be waited for before an edit of a chart is tried. */
export async function bringChartEdits(): Promise<void> {
  all ??= await import("../../document/edit.ts");
}

/** As the document's own. */
export function tryEdit(project: Project, edit: Edit): Outcome<Project> {
  if (all) return all.tryEdit(project, edit);
  assert(!isChartEdit(edit), `edits of charts were brought before ${edit.kind}`);
  return tryPlainEdit(project, edit);
}

/** As the document's own. */
export const applyEdit = (project: Project, edit: Edit): Project => tryEdit(project, edit).value ?? project;

/** Does something with edits as soon as they can be applied: at once, but for a chart's that are yet to be brought. */
export function withEdits(edits: readonly Edit[], act: () => void, onFailure: (reason: unknown) => void): void {
  if (all || !edits.some(isChartEdit)) act();
  else bringChartEdits().then(act).catch(onFailure);
}
