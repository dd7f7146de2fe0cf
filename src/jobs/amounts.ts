/** How much of every yarn a project takes. */
import type { Project } from "../document/project.ts";
import { amountsOf, type Amounts } from "../plan/amounts.ts";
import { colourwayOf } from "./parts.ts";

export function amountsOfProject(
  project: Project,
  options: { readonly colourway?: string | undefined; readonly size?: string | undefined } = {},
): Amounts {
  const { pattern, yarns } = project;
  return amountsOf({ pattern, yarns, colourway: colourwayOf(project, options.colourway), size: options.size });
}
