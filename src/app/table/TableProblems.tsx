/** What is amiss in a table, line by line: all of it, or only what was left out or doubted. */
import { useState, type ReactNode } from "react";
import { problemSentence, type Problem, type Severity } from "../../base/problem.ts";
import { counted } from "./tableWords.ts";

const KINDS: readonly { readonly kind: Severity | "all"; readonly words: string }[] = [
  { kind: "all", words: "all" },
  { kind: "fault", words: "not read" },
  { kind: "doubt", words: "doubtful" },
  { kind: "note", words: "by the way" },
];

export function TableProblems({ problems }: { readonly problems: readonly Problem[] }): ReactNode {
  const [kind, setKind] = useState<Severity | "all">("all");
  const [most, setMost] = useState(PAGE);
  if (problems.length === 0) return null;
  const of = (one: Severity | "all"): readonly Problem[] =>
    one === "all" ? problems : problems.filter(({ severity }) => severity === one);
  const kinds = KINDS.filter((one) => one.kind === "all" || of(one.kind).length > 0);
  const chosen = kinds.some((one) => one.kind === kind) ? kind : "all";
  const shown = of(chosen);
  return (
    <section className="table-part" aria-labelledby="table-problems-title">
      <h3 id="table-problems-title">
        What to look at <span className="count">{problems.length}</span>
      </h3>
      {kinds.length > 2 && (
        <fieldset className="choice">
          <legend>Show</legend>
          {kinds.map((one) => (
            <label key={one.kind}>
              <input
                type="radio"
                name="table-problems"
                checked={chosen === one.kind}
                onChange={() => setKind(one.kind)}
              />
              <span>
                {one.words} {of(one.kind).length}
              </span>
            </label>
          ))}
        </fieldset>
      )}
      <ol className="table-problems" tabIndex={0} aria-labelledby="table-problems-title">
        {shown.slice(0, most).map((problem, index) => (
          <li key={index} data-severity={problem.severity}>
            {problemSentence(problem)}
          </li>
        ))}
      </ol>
      {shown.length > most && (
        <button type="button" className="button" onClick={() => setMost(most + PAGE)}>
          Show {counted(Math.min(PAGE, shown.length - most), "more", "more")} of {shown.length}
        </button>
      )}
    </section>
  );
}

/** Sentences that are shown at once. Our choice. */
const PAGE = 100;
