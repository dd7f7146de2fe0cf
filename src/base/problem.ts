/** The shape of a problem with what somebody gave us: where, what was expected, what was found. */

export type Severity = "note" | "doubt" | "fault";

export interface Problem {
  /** A place she can find: "row 12", "yarns[3].shade.hex", "line 7". */
  readonly where: string;
  readonly expected: string;
  readonly got: string;
  readonly severity: Severity;
  /** Line of a text file, counted from 1, where there is one. */
  readonly line?: number;
}

/** What reading gives: a value where one could be had, and what was wrong on the way. */
export interface Outcome<T> {
  readonly value: T | null;
  readonly problems: Problem[];
}

export function problemSentence(problem: Problem): string {
  const where = problem.where.charAt(0).toUpperCase() + problem.where.slice(1);
  return `${where}: expected ${problem.expected}, found ${problem.got}.`;
}

export const isFault = (problem: Problem): boolean => problem.severity === "fault";
