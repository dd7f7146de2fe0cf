/** A number for every project that was looked at: projects are never changed, so equal numbers have equal answers. */
import type { Project } from "../../document/project.ts";

const serials = new WeakMap<Project, number>();
let last = 0;

export function serialOf(project: Project): number {
  let serial = serials.get(project);
  if (serial === undefined) serials.set(project, (serial = ++last));
  return serial;
}
