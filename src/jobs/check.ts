/** The check, whole: what is said of a colourway, and for each finding the changes that would mend it. */
import { withMends } from "../audit/mends.ts";
import type { Finding } from "../audit/finding.ts";
import type { Project } from "../document/project.ts";
import { checkColourway, type Checked, type CheckResult } from "./checked.ts";
import type { LookedAt } from "./lookedAt.ts";
import { needsOf, suppliesOf } from "./parts.ts";

export type { BandLine, CheckResult, LadderRung, RowLine, WeightLine } from "./checked.ts";

interface Mending {
  /** Handed each finding with its mends as soon as they have been tried out, worst first. */
  readonly onMended?: ((finding: Finding) => void) | undefined;
  /** True when no more mends are wanted; those that were found by then are given. */
  readonly stop?: (() => boolean) | undefined;
}

export interface CheckOptions extends LookedAt, Mending {
  /** "without" leaves out the mends, which take longest. */
  readonly mends?: "with" | "without" | undefined;
}

export function checkProject(project: Project, options: CheckOptions = {}): CheckResult {
  const checked = checkColourway(project, options);
  return options.mends === "without" ? checked.result : mendedCheck(checked, options);
}

/** The same check with its findings mended, as far as they can be. */
export function mendedCheck({ result, project, input, memory }: Checked, options: Mending = {}): CheckResult {
  const findings = withMends(result.findings, input, memory, {
    ...options,
    needs: needsOf(project, input.colourway),
    suppliesFor: (other) => suppliesOf(project, other),
  });
  return { ...result, findings };
}
