/** Her yarns as they stand on the ladder. */
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import type { Project } from "../../document/project.ts";
import { labOfYarn } from "../../yarn/yarn.ts";

export interface YarnDot {
  readonly id: string;
  readonly name: string;
  readonly L: number;
  readonly lab: Lab;
  readonly hex: string;
}

export function yarnDots(project: Project): YarnDot[] {
  return project.yarns.map((yarn) => {
    const lab = labOfYarn(yarn);
    return { id: yarn.id, name: yarn.name, L: lab[0], lab, hex: hexFromLab(lab) };
  });
}
