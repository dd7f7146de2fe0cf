/** The project in the colours that the chosen eye has of it, so that every swatch on the page is of one world with the fabric. */
import { useMemo } from "react";
import type { Project } from "../../document/project.ts";
import { asSeenBy } from "../../jobs/deficient.ts";
import { useBench } from "../shell/bench.ts";

export function useSeenProject(): Project | null {
  const { project, view } = useBench();
  const { eye, severity } = view;
  return useMemo(
    () => (project && eye !== "ordinary" ? asSeenBy(project, eye, severity) : project),
    [project, eye, severity],
  );
}
