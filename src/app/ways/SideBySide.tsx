/** The ways beside one another and beside what is, at one scale and distance, with what is knitted in what. */
import { useLayoutEffect, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { YarnSwatch } from "../findings/Findings.tsx";
import { useBench } from "../shell/bench.ts";
import { capital, metresWords } from "../shell/words.ts";
import type { Way } from "../worker/api.ts";
import { pictureJobs } from "../worker/client.ts";
import { SmallFabric } from "./SmallFabric.tsx";
import { useTryWay } from "./useTryWay.ts";

interface SideBySideProps {
  readonly project: Project;
  readonly ways: readonly Way[];
  readonly from: string;
  readonly onClose: () => void;
}

/** CSS pixels between two fabrics, and the narrowest in which a repeat can be seen. */
const GAP = 18;
const NARROWEST = 150;

export function SideBySide({ project, ways, from, onClose }: SideBySideProps): ReactNode {
  const { view, check } = useBench();
  const dialog = useRef<HTMLDialogElement>(null);
  const row = useRef<HTMLUListElement>(null);
  const [grey, setGrey] = useState(false);
  const [size, setSize] = useState<{ readonly width: number; readonly height: number } | null>(null);
  const tryWay = useTryWay(from);
  const now = project.colourways.find(({ id }) => id === from);
  const count = ways.length + 1;
  useLayoutEffect(() => {
    // Only what is open has a width.
    if (!dialog.current?.open) dialog.current?.showModal();
    const measure = () => {
      const across = row.current?.clientWidth ?? 0;
      const width = Math.max(NARROWEST, Math.floor((across - GAP * (count - 1)) / count));
      setSize({ width, height: Math.round(Math.max(200, window.innerHeight * 0.46)) });
    };
    measure();
    addEventListener("resize", measure);
    return () => removeEventListener("resize", measure);
  }, [count]);
  const colours = (check?.ladder ?? []).map(({ colour }) => colour);
  const yarnsOf = (yarns: Readonly<Record<string, string>>, marked: boolean): ReactNode => (
    <ul className="side-yarns">
      {colours.map((colour) => {
        const yarn = yarns[colour];
        const other = marked && yarn !== now?.yarns[colour];
        return (
          <li key={colour} data-other={other}>
            <YarnSwatch project={project} yarn={yarn ?? null} /> {colour} ·{" "}
            {project.yarns.find(({ id }) => id === yarn)?.name ?? (yarn ? "a shade to find" : "no yarn yet")}
            {other && <span className="unseen">, other than now</span>}
          </li>
        );
      })}
    </ul>
  );
  return (
    <dialog ref={dialog} className="message side-by-side" aria-labelledby="side-title" onClose={onClose}>
      <div className="side-head">
        <h2 id="side-title">Side by side</h2>
        <p>
          All at one scale{view.seen ? `, as seen from ${metresWords(view.distance)}` : ""}. Yarns that are not those of
          now stand in heavy type.
        </p>
        <div className="choice">
          <label>
            <input type="checkbox" role="switch" checked={grey} onChange={(event) => setGrey(event.target.checked)} />
            <span>in grey</span>
          </label>
        </div>
      </div>
      <ul ref={row} className="side-row">
        <li>
          {size && (
            <SmallFabric
              of={`now ${from}`}
              from={() => Promise.resolve({ project, colourway: from })}
              {...size}
              grey={grey}
            />
          )}
          <h3>Now: {now?.name ?? from}</h3>
          {yarnsOf(now?.yarns ?? {}, false)}
        </li>
        {ways.map((way, i) => (
          <li key={i}>
            {size && (
              <SmallFabric
                of={`way ${JSON.stringify(way.yarns)}`}
                from={() => pictureJobs().applyWay(project, way, { name: way.name, from })}
                {...size}
                grey={grey}
              />
            )}
            <h3>{capital(way.name)}</h3>
            {yarnsOf(way.yarns, true)}
            <button
              type="button"
              className="button"
              aria-label={`Try it: ${way.name}`}
              onClick={(event) => {
                const button = event.currentTarget;
                dialog.current?.close();
                void tryWay(way, button);
              }}
            >
              Try it
            </button>
          </li>
        ))}
      </ul>
      <form method="dialog" className="cloth-end">
        <button className="button strong">Done</button>
      </form>
    </dialog>
  );
}
