/** What the colourway on the bench takes of each yarn, in a size. */
import { useMemo } from "react";
import type { Project } from "../../document/project.ts";
import type { Amounts } from "../../plan/amounts.ts";
import { useBench } from "../shell/bench.ts";
import { useAnswer, type Answer } from "../worker/answers.ts";
import { quickJobs } from "../worker/client.ts";

interface Question {
  readonly project: Project;
  readonly colourway: string;
  readonly size: string | null;
}

const ask = ({ project, colourway, size }: Question): Promise<Amounts> =>
  quickJobs().amounts(project, { colourway, ...(size !== null && { size }) });

/** @param size null: the project's first, or one use of each chart */
export function useAmounts(size: string | null): Answer<Amounts> {
  const { project, colourway } = useBench();
  const question = useMemo(
    () => (project && colourway ? { project, colourway: colourway.id, size } : null),
    [project, colourway, size],
  );
  return useAnswer(ask, question);
}
