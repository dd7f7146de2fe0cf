/** After the last round: what should be left of each lot by the plan, corrected by her scales, and put back on the shelf in one step. */
import { useMemo, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import type { ShelfEdit } from "../../document/shelfEdit.ts";
import { lotsAfter, lotsOfYarn } from "../../yarn/lots.ts";
import type { Lot } from "../../yarn/yarn.ts";
import { gramsWords } from "../shell/words.ts";
import { numberIn } from "./fields.tsx";
import type { StashLine } from "./lines.ts";
import { useShelf } from "./useShelf.ts";
import type { TakenYarn } from "./useTaken.ts";

interface LeftOverProps {
  readonly project: Project;
  readonly taken: readonly TakenYarn[];
}

interface Proposal {
  readonly line: StashLine;
  /** Grams by the plan; null where they cannot be told. */
  readonly used: number | null;
  readonly lots: readonly Lot[];
}

/** What she typed over a proposal, by yarn and lot. */
interface Correction {
  readonly grams?: string;
  readonly weighed?: boolean;
}

export function LeftOver({ project, taken }: LeftOverProps): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const part = useRef<HTMLDetailsElement>(null);
  const [corrections, setCorrections] = useState<Readonly<Record<string, Correction>>>({});
  const proposals = useMemo(
    () =>
      taken.flatMap(({ line, grams }): Proposal[] => {
        if (!line) return [];
        const lots = lotsOfYarn(line.yarn);
        // A yarn of which nobody has said how much there was can still be weighed now.
        const before: readonly Lot[] = lots.length > 0 ? lots : [{ id: "l1" }];
        return [{ line, used: grams, lots: grams === null ? before : lotsAfter(before, grams) }];
      }),
    [taken],
  );
  const left = (line: StashLine, lot: Lot): Lot | null => {
    const correction = corrections[keyOf(line, lot)];
    // A lot that was not knitted from is what it was.
    if (!correction && lotsOfYarn(line.yarn).includes(lot)) return lot;
    const { grams: typed, weighed } = correction ?? {};
    const grams = typed === undefined ? (lot.grams ?? null) : typed.trim() === "" ? null : numberIn(typed);
    if (typed !== undefined && typed.trim() !== "" && (grams === null || grams < 0)) return null;
    const { grams: _grams, weighed: _weighed, ...rest } = lot;
    return {
      ...rest,
      ...(grams !== null && { grams: Math.round(grams * 10) / 10 }),
      ...((weighed ?? lot.weighed) && { weighed: true }),
    };
  };
  const isWrong = proposals.some(({ line, lots }) => lots.some((lot) => left(line, lot) === null));
  const keep = (): void => {
    const own = (shelf.promised ?? []).filter((promise) => promise.project === project.name);
    const edits: ShelfEdit[] = [
      ...proposals.flatMap(({ line, lots }): ShelfEdit[] => {
        const kept = lots.map((lot) => left(line, lot)!);
        const isNothing = kept.every(({ grams, lot }) => grams === undefined && lot === undefined);
        return isNothing ? [] : [{ kind: "changeYarn", yarn: line.id, fields: { lots: kept, grams: null } }];
      }),
      ...own.map(({ yarn }): ShelfEdit => ({ kind: "promise", yarn, project: project.name, grams: null })),
    ];
    if (!commitShelf(edits, `what ${project.name} left is back on the shelf`)) return;
    setCorrections({});
    // Pressed twice it would be taken off twice.
    if (part.current) part.current.open = false;
    part.current?.querySelector("summary")?.focus();
  };
  const correct = (line: StashLine, lot: Lot, part: Correction): void =>
    setCorrections((now) => ({ ...now, [keyOf(line, lot)]: { ...now[keyOf(line, lot)], ...part } }));
  if (proposals.length === 0) return null;
  return (
    <details ref={part} className="left-over">
      <summary>When it is knitted: what is left goes back</summary>
      <p className="fact-quiet">
        By the plan, without its reserve. Put what you weigh in its place; a kitchen scale will do.
      </p>
      <ul>
        {proposals.map(({ line, used, lots }) => (
          <li key={line.id}>
            <p className="left-name">
              <span className="swatch round small" style={{ background: line.hex }} /> {line.yarn.name}
              <span className="fact-quiet">
                {" "}
                {line.grams === null ? "not known how much" : gramsWords(line.grams)}
                {used === null ? ", how much it took is not known" : ` − ${gramsWords(used)}`}
              </span>
            </p>
            {lots.map((lot) => {
              const key = keyOf(line, lot);
              const written = lot.grams === undefined ? "" : String(Math.round(lot.grams * 10) / 10);
              const name = `${line.yarn.name}${lots.length > 1 ? `, lot ${lot.lot ?? lot.id}` : ""}`;
              return (
                <div key={lot.id} className="left-lot">
                  {lots.length > 1 && <span className="fact-quiet">lot {lot.lot ?? lot.id}</span>}
                  <label className="with-unit">
                    <span className="unseen">Grams left of {name}</span>
                    <input
                      className="field"
                      inputMode="decimal"
                      autoComplete="off"
                      aria-invalid={left(line, lot) === null}
                      value={corrections[key]?.grams ?? written}
                      onChange={(event) => correct(line, lot, { grams: event.target.value, weighed: true })}
                    />
                    <span className="unit"> g</span>
                  </label>
                  <label className="tick">
                    <input
                      type="checkbox"
                      aria-label={`${name} was weighed`}
                      checked={corrections[key]?.weighed ?? lot.weighed === true}
                      onChange={(event) => correct(line, lot, { weighed: event.target.checked })}
                    />
                    <span>weighed</span>
                  </label>
                </div>
              );
            })}
          </li>
        ))}
      </ul>
      {isWrong && (
        <p className="field-wrong" role="alert">
          Grams are a number from 0.
        </p>
      )}
      <button type="button" className="button strong" disabled={isWrong} onClick={keep}>
        Put it back on the shelf
      </button>
    </details>
  );
}

const keyOf = (line: StashLine, lot: Lot): string => `${line.id} ${lot.id}`;
