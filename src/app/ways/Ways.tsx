/** Best under these wishes: colours she holds fast, a search that can be stopped, and each way as a small true fabric. */
import { lazy, Suspense, useEffect, useRef, useState, type ReactNode } from "react";
import { problemSentence } from "../../base/problem.ts";
import type { Project } from "../../document/project.ts";
import type { Wish } from "../../recolour/wish.ts";
import { YarnSwatch } from "../findings/Findings.tsx";
import { useBench } from "../shell/bench.ts";
import { Icon } from "../ui/Icon.tsx";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useSeenProject } from "../ui/seenProject.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { RecolourResult, Way } from "../worker/api.ts";
import { findWays, Stopped, type Search } from "../worker/client.ts";
import { changedWish } from "../wishes/wishList.ts";
import { Wishes } from "../wishes/Wishes.tsx";

// What a search brings comes after the search.
const WayCard = lazy(() => import("./WayCard.tsx").then((module) => ({ default: module.WayCard })));
const ClashCard = lazy(() => import("./ClashCard.tsx").then((module) => ({ default: module.ClashCard })));
const StepByStep = lazy(() => import("./StepByStep.tsx").then((module) => ({ default: module.StepByStep })));
const SideBySide = lazy(() => import("./SideBySide.tsx").then((module) => ({ default: module.SideBySide })));

/** What a search has brought so far, and what it was asked about. */
interface Found {
  readonly from: Project;
  readonly colourway: string;
  readonly ways: readonly Way[];
  readonly result: RecolourResult | null;
}

/** As many as can be told apart at a glance. */
const WAYS = 3;
/** A search that has not ended by then gives what it has: longer than most take, shorter than patience. */
const SECONDS = 60;

export function Ways(): ReactNode {
  const { project, colourway, check, commit, say, view } = useBench();
  const seen = useSeenProject();
  const [search, setSearch] = useState<Search | null>(null);
  const [found, setFound] = useState<Found | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [stepping, setStepping] = useState(false);
  const running = useRef<Search | null>(null);
  useEffect(() => () => running.current?.stop(), []);
  if (!project || !colourway) return null;

  const wish = (colourway.wish ?? {}) as Wish;
  const kept = (wish.keep ?? []).filter(({ at }) => !at);
  const toggle = (colour: string, yarn: string) => {
    const held = kept.some((one) => one.colour === colour);
    const others = (wish.keep ?? []).filter((one) => one.colour !== colour || one.at);
    const next = changedWish(wish, { keep: held ? others : [...others, { colour, yarn }] });
    commit(
      [{ kind: "setWish", colourway: colourway.id, wish: Object.keys(next).length > 0 ? next : null }],
      held ? `letting ${colour} go` : `holding ${colour} fast`,
    );
  };

  const start = () => {
    const asked: Found = { from: project, colourway: colourway.id, ways: [], result: null };
    setTrouble(null);
    setFound(asked);
    say("Searching for ways.");
    const { distance, light } = view;
    const question = { colourway: colourway.id, wish, ways: wish.ways ?? WAYS, distance, light, seconds: SECONDS };
    const next = findWays(project, question, (way) => {
      setFound((now) => (now?.from === project ? { ...now, ways: [...now.ways, way] } : now));
    });
    running.current = next;
    setSearch(next);
    next.result
      .then(
        (result) => {
          setFound({ ...asked, ways: result.ways, result });
          say(result.clash ? result.clash.sentence : `${waysWords(result.ways.length)} found.`);
        },
        (reason: unknown) => {
          if (reason instanceof Stopped) say("Search stopped.");
          else setTrouble(brokenSentence(reason));
        },
      )
      .finally(() => {
        if (running.current !== next) return;
        running.current = null;
        setSearch(null);
      });
  };

  return (
    <section aria-labelledby="ways-title" className="ways">
      <div className="titled">
        <h2 id="ways-title" tabIndex={-1}>
          Best under these wishes
        </h2>
        <NumberHelp of={["gap", "differs"]} />
      </div>
      {project.yarns.length === 0 ? (
        <p className="empty">Ways are made of your yarns, and there are none yet.</p>
      ) : (
        <>
          <Wishes />
          <fieldset className="locks">
            <legend>
              Your yarns are tried for the best colourway. A colour that you press is held fast: every way keeps its
              yarn.
            </legend>
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
                  <YarnSwatch project={seen ?? project} yarn={what} />
                  {colour}
                  {held && <Icon name="bound" size={14} />}
                </button>
              );
            })}
          </fieldset>
          <div className="search" aria-busy={search !== null}>
            {search ? (
              <>
                <progress
                  aria-label="Search for ways"
                  max={wish.ways ?? WAYS}
                  {...(found?.ways.length ? { value: found.ways.length } : {})}
                />
                <p role="status">
                  {found?.ways.length
                    ? `${waysWords(found.ways.length)} so far; looking for another…`
                    : "Trying yarn after yarn, for a minute at most…"}
                </p>
                <button type="button" className="button" onClick={() => search.stop()}>
                  Stop
                </button>
              </>
            ) : (
              <>
                <button type="button" className="button strong" onClick={start}>
                  {found ? "Find ways again" : "Find ways"}
                </button>
                <button type="button" className="button" aria-haspopup="dialog" onClick={() => setStepping(true)}>
                  Decide step by step
                </button>
              </>
            )}
          </div>
          {stepping && (
            <Suspense>
              <StepByStep project={project} from={colourway.id} wish={wish} onClose={() => setStepping(false)} />
            </Suspense>
          )}
          {trouble && <p role="alert">{trouble}</p>}
          {found && (
            <Suspense>
              <FoundWays found={found} />
            </Suspense>
          )}
        </>
      )}
    </section>
  );
}

const waysWords = (count: number): string => `${count} ${count === 1 ? "way" : "ways"}`;

function FoundWays({ found }: { readonly found: Found }): ReactNode {
  const { project } = useBench();
  const [beside, setBeside] = useState(false);
  const { ways, result, from, colourway } = found;
  return (
    <div className="found">
      {result?.clash && <ClashCard clash={result.clash} from={colourway} />}
      {result && result.problems.length > 0 && (
        <ul className="problems">
          {result.problems.map((problem, i) => (
            <li key={i}>{problemSentence(problem)}</li>
          ))}
        </ul>
      )}
      {project !== from && ways.length > 0 && (
        <p className="empty">
          As found for “{from.colourways.find(({ id }) => id === colourway)?.name ?? colourway}”; the bench has moved on
          since.
        </p>
      )}
      {result?.note && <p className="empty">{result.note}</p>}
      {result && result.binds.length > 0 && (
        <div className="binds">
          <p className="way-head">Wishes that bind the first way</p>
          <ul className="way-places">
            {result.binds.map(({ wish, sentence }) => (
              <li key={`${wish} ${sentence}`}>{sentence}</li>
            ))}
          </ul>
        </div>
      )}
      {ways.length > 1 && (
        <button type="button" className="button" aria-haspopup="dialog" onClick={() => setBeside(true)}>
          See them side by side
        </button>
      )}
      {beside && (
        <Suspense>
          <SideBySide project={from} ways={ways} from={colourway} onClose={() => setBeside(false)} />
        </Suspense>
      )}
      <ol className="way-list">
        {ways.map((way, i) => (
          <WayCard key={i} way={way} from={colourway} number={i + 1} />
        ))}
      </ol>
    </div>
  );
}
