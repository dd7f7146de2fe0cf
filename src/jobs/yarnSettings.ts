/** What she has measured and settled, as the settings of an estimate of yarn. */
import type { Project } from "../document/project.ts";
import { JOIN_M, type AmountSettings } from "../plan/settings.ts";

export function yarnSettings({ knitting = {} }: Pick<Project, "knitting">): Partial<AmountSettings> {
  const { loop, slack, reserve, joins } = knitting;
  return {
    ...(loop && { measured: loop }),
    ...(slack !== undefined && { slack }),
    ...(reserve !== undefined && { reserve }),
    ...(joins && { tailsM: JOIN_M[joins] }),
  };
}
