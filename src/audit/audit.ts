/** The audit: the list of checks, and their findings worst first. */
import type { Severity } from "../base/problem.ts";
import { alignment } from "./alignment.ts";
import { amounts } from "./amounts.ts";
import type { AuditContext, Check } from "./context.ts";
import { echoes } from "./echoes.ts";
import type { Finding } from "./finding.ts";
import { flecks } from "./flecks.ts";
import { floats } from "./floats.ts";
import { legibility } from "./legibility.ts";
import { valueOrder } from "./valueOrder.ts";
import { visualWeight } from "./visualWeight.ts";

/** To add a check: one file, one line here, three cases in its test. */
export const CHECKS: readonly Check[] = [
  legibility,
  flecks,
  visualWeight,
  valueOrder,
  floats,
  alignment,
  echoes,
  amounts,
];

/** Every finding, worst first; within a severity in the order of the checks, then from the bottom of the chart. */
export function audit(context: AuditContext, checks: readonly Check[] = CHECKS): Finding[] {
  if (context.charts.length === 0) return [];
  return checks
    .flatMap((check, order) => check(context).map((finding) => ({ finding, order })))
    .sort(
      (a, b) =>
        RANK[a.finding.severity] - RANK[b.finding.severity] ||
        a.order - b.order ||
        a.finding.where.rows[0] - b.finding.where.rows[0],
    )
    .map(({ finding }) => finding);
}

const RANK: Record<Severity, number> = { fault: 0, doubt: 1, note: 2 };

/** Whether a finding weighs at least so much. */
export const atLeast = (finding: Finding, severity: Severity): boolean => RANK[finding.severity] <= RANK[severity];
