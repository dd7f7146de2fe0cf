/** Colourways side by side: a line for each, at one distance and light. */
import { judgeMemory, type JudgeMemory } from "../audit/judge.ts";
import type { Project } from "../document/project.ts";
import { checkProject } from "./check.ts";

export interface ComparedColourway {
  readonly colourway: string;
  readonly name: string;
  /** Rows that show so. */
  readonly lost: number;
  readonly faint: number;
  readonly clear: number;
  readonly strong: number;
  readonly faults: number;
  readonly doubts: number;
  readonly orderChanged: number;
  /** The ladder as a whole is turned over, and `orderChanged` counts what does not go with it. */
  readonly turnedOver: boolean;
  readonly worstRow: { readonly chart: string; readonly row: number; readonly V: number } | null;
  /** The colour with most visual weight, an estimate. */
  readonly leads: {
    readonly colour: string;
    readonly yarn: string | null;
    readonly share: number;
    readonly was: number;
  } | null;
  /** Yarns of which there is not enough. */
  readonly short: number;
}

export function compareProject(
  project: Project,
  options: {
    readonly distance?: number | undefined;
    readonly light?: number | undefined;
    readonly memory?: JudgeMemory;
  } = {},
): { distance: number; light: number; rows: ComparedColourway[] } {
  const memory = options.memory ?? judgeMemory();
  const checks = project.colourways.map(({ id }) =>
    checkProject(project, { ...options, colourway: id, memory, mends: "without" }),
  );
  return {
    distance: checks[0]?.distance ?? 0,
    light: checks[0]?.light ?? 0,
    rows: checks.map((check, index) => {
      const shown = check.rows.filter(({ V }) => V !== null);
      const worst = shown.toSorted((a, b) => a.V! - b.V!)[0];
      const heaviest = check.weights.filter(({ band }) => band === null).toSorted((a, b) => b.share - a.share)[0];
      const count = (word: string): number => shown.filter(({ shows }) => shows === word).length;
      return {
        colourway: check.colourway,
        name: project.colourways[index]!.name ?? check.colourway,
        lost: count("lost"),
        faint: count("faint"),
        clear: count("clear"),
        strong: count("strong"),
        faults: check.findings.filter(({ severity }) => severity === "fault").length,
        doubts: check.findings.filter(({ severity }) => severity === "doubt").length,
        orderChanged: check.ladder.reduce((sum, { crosses }) => sum + crosses.length, 0) / 2,
        turnedOver: check.turnedOver,
        worstRow: worst ? { chart: worst.chart, row: worst.row, V: worst.V! } : null,
        leads: heaviest
          ? { colour: heaviest.colour, yarn: heaviest.yarn, share: heaviest.share, was: heaviest.was.share }
          : null,
        short: check.findings.filter(({ id }) => id.startsWith("amounts/")).length,
      };
    }),
  };
}
