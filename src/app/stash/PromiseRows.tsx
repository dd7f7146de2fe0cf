/** What of a yarn is promised to which project, taken back or promised here. */
import type { ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { gramsWords } from "../shell/words.ts";
import { NumberField } from "./fields.tsx";
import type { StashLine } from "./lines.ts";
import { Cross } from "./LotRows.tsx";
import { useShelf } from "./useShelf.ts";

export function PromiseRows({ line }: { readonly line: StashLine }): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const { project } = useBench();
  const { id, yarn, free } = line;
  const own = (shelf.promised ?? []).filter((promise) => promise.yarn === id);
  const isHere = own.some((promise) => promise.project === project?.name);
  const promise = (to: string, grams: number | null): void => {
    commitShelf(
      [{ kind: "promise", yarn: id, project: to, grams }],
      grams === null
        ? `${yarn.name} no longer promised to ${to}`
        : `${gramsWords(grams)} of ${yarn.name} promised to ${to}`,
    );
  };
  return (
    <>
      {own.map(({ project: to, grams }) => (
        <div key={to} className="promise">
          <span className="promise-to">{to}</span>
          <NumberField
            bare
            label={`Grams of ${yarn.name} promised to ${to}`}
            unit="g"
            least={0}
            value={grams}
            onKeep={(next) => promise(to, next)}
          />
          <button
            type="button"
            className="tool"
            aria-label={`Take back what is promised to ${to}`}
            title="Take it back"
            onClick={() => promise(to, null)}
          >
            <Cross />
          </button>
        </div>
      ))}
      {own.length > 0 && free !== null && (
        <p className={free < 0 ? "fact-strong" : ""}>
          {free < 0 ? `${gramsWords(-free)} more than there is` : `${gramsWords(free)} free`}
        </p>
      )}
      {project && !isHere && (
        <div className="promise">
          <span className="promise-to fact-quiet">
            {own.length === 0 ? "To nobody; to this project:" : project.name}
          </span>
          <NumberField
            bare
            label={`Grams of ${yarn.name} for ${project.name}`}
            unit="g"
            least={0}
            above
            value={undefined}
            onKeep={(grams) => grams !== null && promise(project.name, grams)}
          />
        </div>
      )}
    </>
  );
}
