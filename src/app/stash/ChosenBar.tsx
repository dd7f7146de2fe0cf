/** What can be done with the yarns she has chosen, all at once. */
import type { ReactNode } from "react";
import { laidOut } from "../../yarn/shelf.ts";
import { useBench } from "../shell/bench.ts";
import type { StashLine } from "./lines.ts";
import { useShelf } from "./useShelf.ts";

interface ChosenBarProps {
  readonly lines: readonly StashLine[];
  readonly chosen: ReadonlySet<string>;
  readonly onNone: () => void;
  readonly onRemove: (ids: readonly string[]) => void;
  readonly onTwist: () => void;
}

export function ChosenBar({ lines, chosen, onNone, onRemove, onTwist }: ChosenBarProps): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const { project } = useBench();
  if (chosen.size === 0) return null;
  const yarns = lines.filter(({ id }) => chosen.has(id));
  const waiting = yarns.filter(({ laidOut: copy }) => copy === null).map(({ yarn }) => yarn);
  const names = yarns.length <= 3 ? yarns.map(({ yarn }) => yarn.name).join(", ") : `${yarns.length} yarns`;
  return (
    <div className="chosen-bar" role="group" aria-label="Chosen yarns">
      <p>
        <strong>{names}</strong> chosen
      </p>
      {project && (
        <button
          type="button"
          className="button"
          disabled={waiting.length === 0}
          onClick={() =>
            commitShelf([], `${waiting.length === 1 ? waiting[0]!.name : `${waiting.length} yarns`} laid out`, [
              { kind: "addYarns", yarns: laidOut(project.yarns, shelf.yarns, waiting) },
            ])
          }
        >
          {waiting.length === 0 ? "All on the bench" : "Lay out on the bench"}
        </button>
      )}
      <button type="button" className="button" disabled={chosen.size < 2} onClick={onTwist}>
        Twist together
      </button>
      <button type="button" className="button" onClick={() => onRemove([...chosen])}>
        Take off the shelf
      </button>
      <button type="button" className="button" onClick={onNone}>
        Choose none
      </button>
    </div>
  );
}
