/** What a table would do to her shelf: yarns that are new, changed with before and after, the same, and those without a shade. */
import { useState, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { FIELD_NAMES, fieldWords } from "../../yarn/fieldWords.ts";
import { gramsOwned } from "../../yarn/lots.ts";
import type { StashMerge } from "../../yarn/mergeStash.ts";
import { labOfYarn, type Yarn } from "../../yarn/yarn.ts";
import { hasShade } from "../../yarn/stash.ts";
import { gramsWords } from "../shell/words.ts";
import type { StashAnswer, StashChange, StashQuestion } from "../worker/api.ts";
import { counted, keptWords } from "./tableWords.ts";

interface UnshadedProps {
  readonly answer: StashAnswer;
  readonly named: StashQuestion["named"];
  readonly onNamed: (named: "estimated" | "left out") => void;
}

/** Yarns whose colour is only named may come in by an estimate, which is called one. */
export function UnshadedYarns({ answer, named, onNamed }: UnshadedProps): ReactNode {
  const { byName } = answer.table;
  const { unshaded } = answer.merge;
  if (unshaded.length === 0) return null;
  const known = unshaded.filter(({ id }) => byName[id]);
  return (
    <section className="table-part" aria-labelledby="table-unshaded-title">
      <h3 id="table-unshaded-title">
        Without a shade <span className="count">{unshaded.length}</span>
      </h3>
      <p className="table-hint">
        A yarn without a shade cannot be laid on the ladder.{" "}
        {known.length > 0
          ? `The colour’s name tells something of ${known.length}: an estimate, as wide as what people call so. A photograph or a comparison on the screen settles it later.`
          : "They are left out; enter them by hand, or by a photograph."}
      </p>
      {known.length > 0 && (
        <>
          <div className="choice">
            <label>
              <input
                type="checkbox"
                checked={named === "estimated"}
                onChange={(event) => onNamed(event.target.checked ? "estimated" : "left out")}
              />
              <span>Bring in {counted(known.length, "yarn")} by the colour’s name</span>
            </label>
          </div>
          <YarnLines
            yarns={known}
            words={({ id }) => `taken as ${byName[id]!.name}, ± ${byName[id]!.uncertainty} (ΔE00), an estimate`}
            colour={({ id }) => hexFromLab(byName[id]!.lab)}
          />
        </>
      )}
      {known.length > 0 && known.length < unshaded.length && (
        <p className="table-hint">
          Left out, for nothing tells their colour:{" "}
          {unshaded
            .filter(({ id }) => !byName[id])
            .slice(0, SOME)
            .map(({ name }) => name)
            .join(", ")}
          {unshaded.length - known.length > SOME ? " and others" : ""}.
        </p>
      )}
    </section>
  );
}

export function NewYarns({ added }: { readonly added: readonly Yarn[] }): ReactNode {
  if (added.length === 0) return null;
  return (
    <section className="table-part" aria-labelledby="table-new-title">
      <h3 id="table-new-title">
        New <span className="count">{added.length}</span>
      </h3>
      <YarnLines
        yarns={added}
        words={(yarn) => {
          const grams = gramsOwned(yarn);
          const lots = yarn.lots && yarn.lots.length > 1 ? ` in ${yarn.lots.length} lots` : "";
          return [yarn.maker, grams === null ? "amount not known" : `${gramsWords(grams)}${lots}`]
            .filter(Boolean)
            .join(", ");
        }}
        colour={(yarn) => (hasShade(yarn) ? hexFromLab(labOfYarn(yarn)) : null)}
      />
    </section>
  );
}

interface ChangedProps {
  readonly changed: readonly StashChange[];
  /** Ids of those that stay as they are. */
  readonly left: ReadonlySet<string>;
  readonly onLeft: (id: string) => void;
}

export function ChangedYarns({ changed, left, onLeft }: ChangedProps): ReactNode {
  const [most, setMost] = useState(SOME);
  if (changed.length === 0) return null;
  return (
    <section className="table-part" aria-labelledby="table-changed-title">
      <h3 id="table-changed-title">
        Changed <span className="count">{changed.length}</span>
      </h3>
      <ul className="table-changes">
        {changed.slice(0, most).map(({ before, after, fields }) => (
          <li key={before.id}>
            <div className="choice">
              <label>
                <input type="checkbox" checked={!left.has(before.id)} onChange={() => onLeft(before.id)} />
                <span>{before.name}</span>
              </label>
            </div>
            <dl>
              {fields.map((field) => (
                <div key={field}>
                  <dt>{FIELD_NAMES[field] ?? field}</dt>
                  <dd>
                    <del>
                      <span className="unseen">before: </span>
                      {fieldWords(before, field) ?? "not known"}
                    </del>{" "}
                    <span aria-hidden="true">→</span>{" "}
                    <ins>
                      <span className="unseen">after: </span>
                      {fieldWords(after, field) ?? (field === "grams" ? "with the lots" : "taken away")}
                    </ins>
                  </dd>
                </div>
              ))}
            </dl>
          </li>
        ))}
      </ul>
      <MoreButton of={changed.length} most={most} onMore={setMost} />
    </section>
  );
}

/** What stays as she has it, and why. */
export function OthersTold({ merge }: { readonly merge: StashMerge }): ReactNode {
  const { same, doubts } = merge;
  if (same.length + doubts.length === 0) return null;
  return (
    <section className="table-part" aria-labelledby="table-same-title">
      <h3 id="table-same-title">
        As you have it <span className="count">{same.length}</span>
      </h3>
      {same.length > 0 && (
        <p className="table-hint">
          {same
            .slice(0, SOME)
            .map(({ name }) => name)
            .join(", ")}
          {same.length > SOME ? ` and ${same.length - SOME} more` : ""}.
        </p>
      )}
      {doubts.length > 0 && (
        <ol className="table-problems">
          {doubts.slice(0, SOME).map((problem, index) => (
            <li key={index} data-severity={problem.severity}>
              {keptWords(problem)}
            </li>
          ))}
          {doubts.length > SOME && <li>And {doubts.length - SOME} more that were kept so.</li>}
        </ol>
      )}
    </section>
  );
}

interface YarnLinesProps {
  readonly yarns: readonly Yarn[];
  readonly words: (yarn: Yarn) => string;
  readonly colour: (yarn: Yarn) => string | null;
}

function YarnLines({ yarns, words, colour }: YarnLinesProps): ReactNode {
  const [most, setMost] = useState(SOME);
  return (
    <>
      <ul className="table-lines">
        {yarns.slice(0, most).map((yarn) => (
          <li key={yarn.id}>
            <span className="swatch round" style={{ background: colour(yarn) ?? undefined }} aria-hidden="true" />
            <span>
              <strong>{yarn.name}</strong>
              <span className="table-words">{words(yarn)}</span>
            </span>
          </li>
        ))}
      </ul>
      <MoreButton of={yarns.length} most={most} onMore={setMost} />
    </>
  );
}

interface MoreButtonProps {
  readonly of: number;
  readonly most: number;
  readonly onMore: (most: number) => void;
}

function MoreButton({ of, most, onMore }: MoreButtonProps): ReactNode {
  if (of <= most) return null;
  return (
    <button type="button" className="button" onClick={() => onMore(most + 5 * SOME)}>
      Show {Math.min(5 * SOME, of - most)} more of {of}
    </button>
  );
}

/** Lines that are shown before the rest is asked for. Our choice. */
const SOME = 24;
