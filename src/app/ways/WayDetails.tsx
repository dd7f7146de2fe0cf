/** Why each yarn of a way: the next best in its place and what it would cost, and what the score is made of. */
import { Fragment, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { YarnSwatch } from "../findings/Findings.tsx";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import type { Way } from "../worker/api.ts";
import { TERM_NAMES } from "../wishes/wishList.ts";

interface WayDetailsProps {
  readonly way: Way;
  readonly project: Project;
}

export function WayDetails({ way, project }: WayDetailsProps): ReactNode {
  const yarnName = (id: string): string => project.yarns.find((yarn) => yarn.id === id)?.name ?? id;
  const scored = TERM_NAMES.filter(([term]) => way.weighted[term] > 0);
  return (
    <details className="way-details">
      <summary>Why each yarn</summary>
      <ul className="way-places">
        {way.places.map(({ colour, yarn, sentence }) => (
          <li key={colour}>
            <span className="way-place">
              <YarnSwatch project={project} yarn={yarn} /> {colour} · {yarnName(yarn)}
            </span>
            <span>{sentence}</span>
          </li>
        ))}
      </ul>
      <p className="way-head">
        Its score, {way.score.toFixed(1)} <NumberHelp of="score" />
      </p>
      <dl className="way-terms">
        {scored.map(([term, name]) => (
          <Fragment key={term}>
            <dt>{name}</dt>
            <dd>{way.weighted[term].toFixed(1)}</dd>
          </Fragment>
        ))}
      </dl>
    </details>
  );
}
