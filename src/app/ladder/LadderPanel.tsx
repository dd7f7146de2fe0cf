/** The two-sided ladder: the pattern's colours at their lightness, her yarns at theirs, a link for every assignment. */
import { useMemo, type ReactNode } from "react";
import { toChooseFrom } from "../../yarn/owned.ts";
import { useBench } from "../shell/bench.ts";
import { Help } from "../ui/Help.tsx";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useSeenProject } from "../ui/seenProject.ts";
import { Rails } from "./Rails.tsx";

export function LadderPanel(): ReactNode {
  const { colourway, check } = useBench();
  const seen = useSeenProject();
  const ladder = check?.ladder;
  const lines = ladder ?? [];
  const project = useMemo(
    () => seen && { ...seen, yarns: [...toChooseFrom(seen.yarns, new Set(ladder?.map(({ yarn }) => yarn)))] },
    [seen, ladder],
  );
  return (
    <section className="panel ladder" data-part="ladder" aria-labelledby="ladder-title">
      <div className="titled">
        <h2 id="ladder-title">Light to dark</h2>
        {lines.length > 0 && <NumberHelp of={["lightness", "valueClass", "deltaL"]} />}
      </div>
      {!project || !colourway ? (
        <p className="empty">The ladder stands as soon as there is a colourway.</p>
      ) : lines.length === 0 ? (
        <p className="empty" role="status">
          Working out…
        </p>
      ) : (
        <>
          <Rails project={project} lines={lines} />
          <LadderHelp />
          {project.yarns.length === 0 && (
            <p className="empty">
              There are no yarns here yet, so the fabric shows the pattern’s own colours. Open a project file that has
              some.
            </p>
          )}
        </>
      )}
    </section>
  );
}

function LadderHelp(): ReactNode {
  return (
    <Help summary="How to read the ladder">
      <p>
        Height is lightness, L*: 100 is white, 0 is black. Each letter is a chart colour; its line leads to the yarn
        that has it.
      </p>
      <p>
        A heavy line crosses another: the two have changed places from light to dark, the commonest way for a pattern to
        sink. A few steps of L* do no harm.
      </p>
      <p>
        Press a letter to see all your yarns for it, or carry a yarn to a letter: each letter then tells what would
        happen there. A yarn that is carried onto another swaps places with it. The strokes on the far right are yarns
        that no letter has.
      </p>
    </Help>
  );
}
