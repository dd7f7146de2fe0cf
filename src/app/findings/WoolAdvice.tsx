/** What is told of the wool rather than of the cloth: which yarn is worth measuring, and what may go wrong in the wash, on the skin, in the knitting. */
import { useMemo, type ReactNode } from "react";
import { cautionsOf, type Caution } from "../../audit/cautions.ts";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { useRested } from "../shell/following.ts";
import { deficiencyOf } from "../shell/view.ts";
import { useAnswer } from "../worker/answers.ts";
import type { LookQuestion } from "../worker/api.ts";
import { once } from "../worker/client.ts";
import "../style/ranges.css";

/** More at once is nagging. */
const WORTH_SHOWN = 3;

const KINDS: Readonly<Record<Caution["kind"], string>> = {
  bleeding: "Bleeding",
  felting: "Felting",
  thickness: "Thickness",
  lots: "Dye lots",
  skin: "Skin",
  shade: "Shades",
};

export function WoolAdvice(): ReactNode {
  const { project, colourway } = useBench();
  const cautions = useMemo(
    () => (project && colourway ? cautionsOf({ yarns: project.yarns, colourway }) : []),
    [project, colourway],
  );
  const kinds = [...new Set(cautions.map(({ kind }) => KINDS[kind].toLowerCase()))];
  return (
    <div className="wool">
      <Worth />
      {cautions.length > 0 && (
        <details className="help cautions-of-wool">
          <summary>Cautions about the wool: {kinds.join(", ")}</summary>
          <ul className="wool-list">
            {cautions.map(({ kind, about, sentence, advice }) => (
              <li key={`${kind} ${about} ${sentence}`}>
                <p>
                  <span className="wool-kind">
                    {KINDS[kind]}
                    {about === "unknown" && ", not known"}:{" "}
                  </span>
                  {sentence}
                </p>
                <p className="wool-advice">{advice}</p>
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

/** Only where it would settle something; asked of a worker of its own when the hand rests, for it is slower than a check. */
function Worth(): ReactNode {
  const { project, colourway, view } = useBench();
  const { distance, light, eye, severity } = view;
  const id = colourway?.id;
  const question = useMemo(
    () =>
      project && id !== undefined
        ? { project, asked: { colourway: id, distance, light, ...deficiencyOf({ eye, severity }) } }
        : null,
    [project, id, distance, light, eye, severity],
  );
  const rested = useRested(question);
  const { value } = useAnswer(measureNext, rested);
  if (!value || value.length === 0) return null;
  return (
    <ul className="worth" aria-label="Shades worth measuring">
      {value.slice(0, WORTH_SHOWN).map(({ yarn, sentence }) => (
        <li key={yarn}>{sentence}</li>
      ))}
    </ul>
  );
}

const measureNext = ({ project, asked }: { readonly project: Project; readonly asked: LookQuestion }) =>
  once((jobs) => jobs.measureNext(project, asked));
