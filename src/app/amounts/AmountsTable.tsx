/** How much of each yarn this colourway takes, against what she has. */
import { useEffect, useState, type ReactNode } from "react";
import { problemSentence } from "../../base/problem.ts";
import type { Project } from "../../document/project.ts";
import { amountsSentence, type Amounts } from "../../plan/amounts.ts";
import { YarnSwatch } from "../findings/Findings.tsx";
import { useBench } from "../shell/bench.ts";
import { wholeWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useSeenProject } from "../ui/seenProject.ts";
import { useAmounts } from "./useAmounts.ts";

export function AmountsTable(): ReactNode {
  const { project } = useBench();
  const seen = useSeenProject();
  const [size, setSize] = useState<string | null>(null);
  const sizes = project?.pattern.sizes ?? [];
  const chosen = sizes.some(({ id }) => id === size) ? size : null;
  useEffect(() => setSize(null), [project?.name]);
  const { value, failed } = useAmounts(chosen);
  if (!project) return null;
  return (
    <section aria-labelledby="amounts-title" className="amounts">
      <div className="titled">
        <h2 id="amounts-title" tabIndex={-1}>
          Yarn it takes
        </h2>
        <NumberHelp of={["metres", "grams", "have"]} />
      </div>
      {sizes.length > 0 && (
        <fieldset className="choice">
          <legend className="unseen">Size</legend>
          {sizes.map(({ id, name }) => (
            <label key={id}>
              <input
                type="radio"
                name="size"
                checked={(value?.size ?? sizes[0]!.id) === id}
                onChange={() => setSize(id)}
              />
              <span>{name ?? id}</span>
            </label>
          ))}
        </fieldset>
      )}
      {failed && <p role="alert">{failed}</p>}
      {value && <Table amounts={value} project={seen ?? project} />}
    </section>
  );
}

function Table({ amounts, project }: { readonly amounts: Amounts; readonly project: Project }): ReactNode {
  const { yarns, unassigned, problems, assumptions } = amounts;
  if (yarns.length === 0 && unassigned.length === 0) return <p className="empty">No colour has a yarn yet.</p>;
  return (
    <>
      <p>{amountsSentence(amounts)}</p>
      <table>
        <thead>
          <tr>
            <th scope="col">yarn</th>
            <th scope="col">metres</th>
            <th scope="col">grams</th>
            <th scope="col">have, m</th>
          </tr>
        </thead>
        <tbody>
          {yarns.map((line) => (
            <tr key={line.yarn} data-short={(line.short ?? 0) > 0}>
              <th scope="row">
                <YarnSwatch project={project} yarn={line.yarn} /> {line.name}
              </th>
              <td>{wholeWords(line.metres)}</td>
              <td>{line.grams === null ? "–" : wholeWords(line.grams)}</td>
              <td>
                {line.have === null ? "?" : wholeWords(line.have)}
                {(line.short ?? 0) > 0 && <span className="short">short by {wholeWords(line.short!)} m</span>}
              </td>
            </tr>
          ))}
          {unassigned.map(({ colour, metres }) => (
            <tr key={`none ${colour}`} data-short="true">
              <th scope="row">{colour}: no yarn yet</th>
              <td>{wholeWords(metres)}</td>
              <td>–</td>
              <td>–</td>
            </tr>
          ))}
        </tbody>
      </table>
      {problems.length > 0 && (
        <ul className="problems">
          {problems.map((problem, i) => (
            <li key={i}>{problemSentence(problem)}</li>
          ))}
        </ul>
      )}
      {assumptions.length > 0 && (
        <details className="assumptions">
          <summary>What this takes for granted</summary>
          <ul>
            {assumptions.map((sentence, i) => (
              <li key={i}>{sentence}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
