/** The project on the bench and her shelf: what it takes is promised, what was left of it comes back. */
import { useState, type ReactNode } from "react";
import type { Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import type { ShelfEdit } from "../../document/shelfEdit.ts";
import { onShelf, shelved } from "../../yarn/shelf.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { useBench } from "../shell/bench.ts";
import { gramsWords, percentWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import type { StashLine } from "./lines.ts";
import { LeftOver } from "./LeftOver.tsx";
import { useShelf } from "./useShelf.ts";
import { useTaken, type TakenYarn } from "./useTaken.ts";
import { DEFAULT_SETTINGS } from "../../plan/settings.ts";

interface ProjectPanelProps {
  readonly lines: readonly StashLine[];
  readonly onOpen: (id: string) => void;
}

export function ProjectPanel({ lines, onOpen }: ProjectPanelProps): ReactNode {
  const { project, colourway, look } = useBench();
  const [size, setSize] = useState<string | null>(null);
  const sizes = project?.pattern.sizes ?? [];
  const chosen = sizes.some(({ id }) => id === size) ? size : null;
  const { taken, amounts, failed } = useTaken(lines, chosen);
  if (!project || !colourway) return null;
  return (
    <section className="side-part" aria-labelledby="project-title">
      <div className="titled">
        <h3 id="project-title" tabIndex={-1}>
          {project.name}
        </h3>
        <NumberHelp of={["promised", "grams", "owned"]} about="what the project takes" />
      </div>
      <p className="stand-choice">
        <label htmlFor="stash-colourway">Colourway</label>
        <select
          id="stash-colourway"
          className="field"
          value={colourway.id}
          onChange={(event) => look({ colourway: event.target.value })}
        >
          {project.colourways.map(({ id, name }) => (
            <option key={id} value={id}>
              {name ?? id}
            </option>
          ))}
        </select>
      </p>
      <p className="fact-quiet">
        What it takes has {percentWords(DEFAULT_SETTINGS.reserve)} in reserve, and is an estimate until your swatch is
        measured.
      </p>
      {sizes.length > 1 && (
        <fieldset className="choice">
          <legend>Size</legend>
          {sizes.map(({ id, name }) => (
            <label key={id}>
              <input
                type="radio"
                name="stash-size"
                checked={(amounts?.size ?? sizes[0]!.id) === id}
                onChange={() => setSize(id)}
              />
              <span>{name ?? id}</span>
            </label>
          ))}
        </fieldset>
      )}
      <Strangers project={project} />
      {failed && <p role="alert">{failed}</p>}
      {taken && taken.length === 0 && <p className="empty">No colour has a yarn yet.</p>}
      {taken && taken.length > 0 && (
        <>
          <TakenTable taken={taken} onOpen={onOpen} />
          <PromiseAll project={project} taken={taken} />
          <LeftOver key={project.name} project={project} taken={taken} />
        </>
      )}
    </section>
  );
}

interface TakenTableProps {
  readonly taken: readonly TakenYarn[];
  readonly onOpen: (id: string) => void;
}

function TakenTable({ taken, onOpen }: TakenTableProps): ReactNode {
  return (
    <table className="taken">
      <thead>
        <tr>
          <th scope="col">yarn</th>
          <th scope="col">takes</th>
          <th scope="col">free</th>
          <th scope="col">promised</th>
        </tr>
      </thead>
      <tbody>
        {taken.map(({ id, name, hex, line, withReserve, free, promised }) => {
          const short = withReserve !== null && free !== null ? withReserve - free : 0;
          return (
            <tr key={id} data-short={short > 0}>
              <th scope="row">
                {line ? (
                  <button type="button" className="button quiet row-name" onClick={() => onOpen(line.id)}>
                    <span className="swatch round small" style={hex ? { background: hex } : {}} /> {name}
                  </button>
                ) : (
                  <>
                    {name} <span className="short">not on the shelf</span>
                  </>
                )}
              </th>
              <td>{withReserve === null ? "?" : gramsWords(withReserve)}</td>
              <td>
                {free === null ? "?" : gramsWords(free)}
                {short > 0 && <span className="short">short by {gramsWords(Math.ceil(short))}</span>}
              </td>
              <td>{promised === null ? "–" : gramsWords(promised)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

interface PromiseAllProps {
  readonly project: Project;
  readonly taken: readonly TakenYarn[];
}

function PromiseAll({ project, taken }: PromiseAllProps): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const wanted = taken.flatMap(({ line, withReserve }) =>
    line && withReserve !== null ? [{ yarn: line.id, grams: Math.ceil(withReserve) }] : [],
  );
  const own = (shelf.promised ?? []).filter((promise) => promise.project === project.name);
  const isDone =
    own.length === wanted.length &&
    wanted.every(({ yarn, grams }) => own.some((promise) => promise.yarn === yarn && promise.grams === grams));
  const takeBack = (which: typeof own): ShelfEdit[] =>
    which.map(({ yarn }) => ({ kind: "promise", yarn, project: project.name, grams: null }));
  return (
    <div className="detail-acts">
      <button
        type="button"
        className="button strong"
        disabled={isDone || wanted.length === 0}
        onClick={() =>
          commitShelf(
            [
              ...takeBack(own.filter(({ yarn }) => !wanted.some((one) => one.yarn === yarn))),
              ...wanted.map(({ yarn, grams }): ShelfEdit => ({ kind: "promise", yarn, project: project.name, grams })),
            ],
            `what ${project.name} takes is promised`,
          )
        }
      >
        {isDone ? "All of it is promised" : "Promise what this project takes"}
      </button>
      {own.length > 0 && (
        <button
          type="button"
          className="button"
          onClick={() => commitShelf(takeBack(own), `nothing promised to ${project.name}`)}
        >
          Take all of it back
        </button>
      )}
    </div>
  );
}

/** A project opened from a file may have yarns that her shelf does not know. */
function Strangers({ project }: { readonly project: Project }): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const strangers = project.yarns.filter((yarn) => !onShelf(shelf.yarns, yarn));
  if (strangers.length === 0) return null;
  const take = (): void => {
    const yarns = shelved(shelf.yarns, strangers);
    const links = strangers.map(({ id }, at): Edit => ({
      kind: "changeYarn",
      yarn: id,
      fields: { shelf: yarns[at]!.id },
    }));
    commitShelf([{ kind: "addYarns", yarns }], `${countWords(yarns)} of ${project.name} on the shelf`, links);
  };
  return (
    <p className="stash-note">
      {countWords(strangers)} of this project {strangers.length === 1 ? "is" : "are"} not on your shelf.{" "}
      <button type="button" className="button quiet" onClick={take}>
        Take the project’s yarns onto the shelf
      </button>
    </p>
  );
}

const countWords = (yarns: readonly Yarn[]): string => `${yarns.length} ${yarns.length === 1 ? "yarn" : "yarns"}`;
