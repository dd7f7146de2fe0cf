/** What may go wrong with a yarn, or with several together, and what to try first. */
import { useMemo, type ReactNode } from "react";
import { cautionsOfYarn, cautionsTogether } from "../../audit/cautions.ts";
import type { Yarn } from "../../yarn/yarn.ts";

export function YarnCautions({ yarns }: { readonly yarns: readonly Yarn[] }): ReactNode {
  const cautions = useMemo(() => (yarns.length === 1 ? cautionsOfYarn(yarns[0]!) : cautionsTogether(yarns)), [yarns]);
  if (cautions.length === 0) return null;
  return (
    <div className="cautions">
      <h4>{yarns.length === 1 ? "To know before it is knitted" : "To know before they are knitted together"}</h4>
      <ul>
        {cautions.map(({ kind, about, sentence, advice }, at) => (
          <li key={`${kind} ${at}`} data-about={about}>
            <p>{sentence}</p>
            <p className="fact-quiet">{advice}</p>
          </li>
        ))}
      </ul>
    </div>
  );
}
