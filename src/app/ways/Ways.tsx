/** Best under these wishes: colours she holds fast, a search that can be stopped, and each way as a small true fabric. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { Icon } from "../ui/Icon.tsx";
import { YarnSwatch } from "../findings/Findings.tsx";
import type { RecolourProgress, RecolourResult, Way } from "../worker/api.ts";
import { brokenSentence } from "../worker/answers.ts";
import { findWays, quickJobs, Stopped, type Search } from "../worker/client.ts";
import { WayThumb } from "./WayThumb.tsx";

interface Keep {
  readonly colour: string;
  readonly yarn: string;
}

type Wish = Record<string, unknown> & { readonly keep?: readonly Keep[] };

export function Ways(): ReactNode {
  const { project, colourway, check, commit, say } = useBench();
  const [search, setSearch] = useState<Search | null>(null);
  const [progress, setProgress] = useState<RecolourProgress | null>(null);
  const [found, setFound] = useState<{ result: RecolourResult; project: Project; colourway: string } | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const running = useRef<Search | null>(null);
  useEffect(() => () => running.current?.stop(), []);
  useEffect(() => {
    running.current?.stop();
    setFound(null);
    setTrouble(null);
  }, [colourway?.id]);
  if (!project || !colourway) return null;

  const wish = (colourway.wish ?? {}) as Wish;
  const kept = wish.keep ?? [];
  const toggle = (colour: string, yarn: string) => {
    const held = kept.some((one) => one.colour === colour);
    const keep = held ? kept.filter((one) => one.colour !== colour) : [...kept, { colour, yarn }];
    const { keep: _keep, ...others } = wish;
    const next = keep.length > 0 ? { ...others, keep } : others;
    commit(
      [{ kind: "setWish", colourway: colourway.id, wish: Object.keys(next).length > 0 ? next : null }],
      held ? `letting ${colour} go` : `holding ${colour} fast`,
    );
  };

  const start = () => {
    setTrouble(null);
    setProgress(null);
    const options = { colourway: colourway.id, wish: { ...wish, keep: kept }, ways: WAYS };
    const next = findWays(project, options, setProgress);
    running.current = next;
    setSearch(next);
    say("Searching for ways.");
    next.result
      .then(
        (result) => {
          setFound({ result, project, colourway: colourway.id });
          const { ways, clash } = result;
          say(clash ? clash.sentence : `${ways.length} ${ways.length === 1 ? "way" : "ways"} found.`);
        },
        (reason: unknown) => {
          if (reason instanceof Stopped) say("Search stopped.");
          else setTrouble(brokenSentence(reason));
        },
      )
      .finally(() => {
        running.current = null;
        setSearch(null);
        setProgress(null);
      });
  };

  return (
    <section aria-labelledby="ways-title" className="ways">
      <h2 id="ways-title">Best under these wishes</h2>
      {project.yarns.length === 0 ? (
        <p className="empty">Ways are made of your yarns, and there are none yet.</p>
      ) : (
        <>
          <fieldset className="locks">
            <legend>Held fast</legend>
            {(check?.ladder ?? []).map(({ colour, name, yarn, yarnName }) => {
              const held = kept.find((one) => one.colour === colour);
              const what = held?.yarn ?? yarn;
              return (
                <button
                  key={colour}
                  type="button"
                  className="lock"
                  disabled={!what}
                  aria-pressed={Boolean(held)}
                  aria-label={`Hold ${colour}, ${name}, in ${yarnName ?? "no yarn yet"}`}
                  title={`${colour}: ${yarnName ?? "no yarn yet"}`}
                  onClick={() => what && toggle(colour, what)}
                >
                  <YarnSwatch project={project} yarn={what} />
                  {colour}
                  {held && <Icon name="bound" size={14} />}
                </button>
              );
            })}
          </fieldset>
          <div className="search">
            {search ? (
              <>
                <progress aria-label="Search" {...(progress ? { value: progress.done, max: 1 } : {})} />
                <p role="status">{progress?.sentence ?? "Trying yarn after yarn…"}</p>
                <button type="button" className="button" onClick={() => search.stop()}>
                  Stop
                </button>
              </>
            ) : (
              <button type="button" className="button strong" onClick={start}>
                {found ? "Find ways again" : "Find ways"}
              </button>
            )}
          </div>
          {trouble && <p role="alert">{trouble}</p>}
          {found && <FoundWays {...found} />}
        </>
      )}
    </section>
  );
}

/** As many as can be told apart at a glance. */
const WAYS = 3;

function FoundWays({
  result,
  project: from,
  colourway,
}: {
  result: RecolourResult;
  project: Project;
  colourway: string;
}): ReactNode {
  const { project } = useBench();
  const { ways, clash } = result;
  return (
    <div aria-live="polite">
      {clash && (
        <div className="clash">
          <p>{clash.sentence}</p>
          <ul>
            {clash.parts.map(({ sentence }, i) => (
              <li key={i}>{sentence}</li>
            ))}
          </ul>
        </div>
      )}
      {project !== from && ways.length > 0 && (
        <p className="empty">The bench has changed since this search; each way below is as it was found then.</p>
      )}
      <ol className="way-list">
        {ways.map((way, i) => (
          <WayCard key={i} way={way} from={colourway} number={i + 1} />
        ))}
      </ol>
    </div>
  );
}

function WayCard({
  way,
  from,
  number,
}: {
  readonly way: Way;
  readonly from: string;
  readonly number: number;
}): ReactNode {
  const { project, tryChange, tell } = useBench();
  if (!project) return null;
  const press = async (button: HTMLElement) => {
    try {
      const { project: after, colourway } = await quickJobs().applyWay(project, way, { name: way.name });
      tryChange({
        title: way.name,
        sentence: way.because[0] ?? "",
        project: after,
        colourway,
        step: { name: `the colourway “${way.name}”`, colourway: from },
        returnTo: button,
      });
    } catch (reason) {
      tell({ title: "That way could not be shown", sentences: [brokenSentence(reason)] });
    }
  };
  return (
    <li className="way">
      <WayThumb project={project} way={way} />
      <h3>
        <span className="unseen">Way {number}: </span>
        {way.name}
      </h3>
      <p className="way-proof">
        {way.proven ? "none better under these wishes" : `within ${Math.ceil(way.gap * 100)} % of the best`}
      </p>
      <ul className="way-because">
        {way.because.slice(0, 3).map((sentence, i) => (
          <li key={i}>{sentence}</li>
        ))}
      </ul>
      <button type="button" className="button" onClick={(event) => void press(event.currentTarget)}>
        Try “{way.name}”
      </button>
    </li>
  );
}
