/** What is amiss in a text, and how an open reading was taken: line by line, each a way to its line. */
import { useState, type ReactNode } from "react";
import { problemSentence, type Problem, type Severity } from "../../base/problem.ts";

interface TextProblemsProps {
  readonly problems: readonly Problem[];
  /** Goes to a line, from 1. */
  readonly onLine: (line: number) => void;
}

export function TextProblems({ problems, onLine }: TextProblemsProps): ReactNode {
  const [most, setMost] = useState(PAGE);
  if (problems.length === 0) return null;
  const sorted = problems.toSorted((one, other) => ORDER[one.severity] - ORDER[other.severity]);
  return (
    <section aria-labelledby="typed-problems-title">
      <h3 id="typed-problems-title">
        What to look at <span className="count">{problems.length}</span>
      </h3>
      <ul className="typed-problems">
        {sorted.slice(0, most).map((problem, index) => (
          <li key={index} data-severity={problem.severity}>
            {problem.line !== undefined && (
              <button type="button" className="button" onClick={() => onLine(problem.line!)}>
                Line {problem.line}
              </button>
            )}
            <span>{problemSentence(problem)}</span>
          </li>
        ))}
      </ul>
      {problems.length > most && (
        <button type="button" className="button" onClick={() => setMost(most + PAGE)}>
          Show more of {problems.length}
        </button>
      )}
    </section>
  );
}

const ORDER: Readonly<Record<Severity, number>> = { fault: 0, doubt: 1, note: 2 };
/** Sentences that are shown at once. Our choice. */
const PAGE = 30;
