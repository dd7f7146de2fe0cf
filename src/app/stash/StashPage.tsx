/** The page of her yarns: everything on her shelf, and the ways in which more comes onto it. */
import { lazy, Suspense, useCallback, useMemo, useRef, useState, useSyncExternalStore, type ReactNode } from "react";
import "../style/stash.css";
import { useBench } from "../shell/bench.ts";
import { AmountView } from "./AmountView.tsx";
import { ChosenBar } from "./ChosenBar.tsx";
import { useColourNames } from "./colourNames.ts";
import type { Cursor } from "./cursor.ts";
import { HueView } from "./HueView.tsx";
import { LadderView } from "./LadderView.tsx";
import { stashLines } from "./lines.ts";
import { seenLines, useShelfLook } from "./look.ts";
import { NearPanel } from "./NearPanel.tsx";
import { ProjectPanel } from "./ProjectPanel.tsx";
import { StashHead, type Door } from "./StashHead.tsx";
import { StashTools } from "./StashTools.tsx";
import { TableView } from "./TableView.tsx";
import { TwistPanel } from "./TwistPanel.tsx";
import { useShelf } from "./useShelf.ts";
import { YarnDetail } from "./YarnDetail.tsx";

type Part = "shelf" | "yarn" | "near" | "twist" | "project";

const PARTS: readonly { readonly part: Part; readonly name: string }[] = [
  { part: "shelf", name: "Shelf" },
  { part: "yarn", name: "Yarn" },
  { part: "near", name: "Nearest" },
  { part: "twist", name: "Twist" },
  { part: "project", name: "Project" },
];

/** What takes the page's place while more yarns come in; each is loaded when it is asked for. */
type InDoor = { readonly to: "photo" } | { readonly to: "table" } | { readonly to: "hand"; readonly yarn?: string };

const PhotoYarns = lazy(() => import("../photo/PhotoYarns.tsx").then((module) => ({ default: module.PhotoYarns })));
const TableYarns = lazy(() => import("../table/TableYarns.tsx").then((module) => ({ default: module.TableYarns })));
const YarnForm = lazy(() => import("../yarnForm/YarnForm.tsx").then((module) => ({ default: module.YarnForm })));

export function StashPage(): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const { project } = useBench();
  const [look, changeLook] = useShelfLook();
  const [part, setPart] = useState<Part>("shelf");
  const [active, setActive] = useState<string | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const page = useRef<HTMLElement>(null);
  const isNarrow = useSyncExternalStore(onNarrow, isNarrowNow);

  const lines = useMemo(() => stashLines(shelf, project), [shelf, project]);
  const names = useColourNames(lines);
  const seen = useMemo(() => seenLines(lines, look, names), [lines, look, names]);
  const line = lines.find(({ id }) => id === active) ?? null;
  const still = useMemo(() => {
    const there = new Set(lines.map(({ id }) => id));
    return new Set([...chosen].filter((id) => there.has(id)));
  }, [lines, chosen]);

  const onChoose = useCallback((id: string) => {
    setChosen((now) => {
      const next = new Set(now);
      if (!next.delete(id)) next.add(id);
      return next;
    });
  }, []);
  const turnTo = useCallback((next: Part, focus?: string) => {
    setPart(next);
    if (focus) requestAnimationFrame(() => document.getElementById(focus)?.focus());
  }, []);
  const onEnter = useCallback(
    (id: string) => {
      setActive(id);
      turnTo("yarn", "yarn-title");
    },
    [turnTo],
  );
  const onOpen = useCallback(
    (id: string) => {
      // Where parts take turns, what was pressed is now out of sight.
      if (isNarrowNow()) return onEnter(id);
      setActive(id);
      setPart("yarn");
    },
    [onEnter],
  );
  const cursor = useMemo(
    (): Cursor => ({ lines: seen, active, chosen: still, onActive: setActive, onChoose, onOpen, onEnter }),
    [seen, active, still, onChoose, onOpen, onEnter],
  );
  const onRemove = (ids: readonly string[]): void => {
    const names =
      ids.length === 1 ? (lines.find(({ id }) => id === ids[0])?.yarn.name ?? "1 yarn") : `${ids.length} yarns`;
    const at = seen.findIndex(({ id }) => id === ids[0]);
    if (!commitShelf([{ kind: "removeYarns", yarns: ids }], `${names} taken off the shelf`)) return;
    setActive((seen[at + 1] ?? seen[at - 1])?.id ?? null);
    setPart("shelf");
    requestAnimationFrame(() => page.current?.querySelector<HTMLElement>("[data-view] > [tabindex='0']")?.focus());
  };

  const [door, setDoor] = useState<InDoor | null>(null);
  const closeDoor = (): void => {
    const from = door?.to === "hand" && door.yarn !== undefined ? "[data-again]" : `[data-door="${door?.to}"]`;
    setDoor(null);
    requestAnimationFrame(() => page.current?.querySelector<HTMLElement>(from)?.focus());
  };
  const doors: readonly Door[] = [
    { key: "photo", name: "From a photograph", open: () => setDoor({ to: "photo" }) },
    { key: "table", name: "From a table", open: () => setDoor({ to: "table" }) },
    { key: "hand", name: "By hand", open: () => setDoor({ to: "hand" }) },
  ];
  const strands = useMemo(() => {
    const byId = new Map(lines.map((one) => [one.id, one]));
    return [...still].flatMap((id) => byId.get(id) ?? []);
  }, [lines, still]);

  if (door)
    return (
      <main ref={page} className="stash-door">
        <Suspense fallback={<p role="status">One moment…</p>}>
          {door.to === "photo" ? (
            <PhotoYarns onClose={closeDoor} />
          ) : door.to === "table" ? (
            <TableYarns onClose={closeDoor} />
          ) : (
            <YarnForm onClose={closeDoor} {...(door.yarn !== undefined && { yarn: door.yarn })} />
          )}
        </Suspense>
      </main>
    );
  return (
    <main ref={page} className="stash" data-part={part}>
      <section className="stash-shelf" aria-label="Your shelf">
        <StashHead lines={lines} doors={doors} />
        {lines.length === 0 ? (
          <EmptyShelf />
        ) : (
          <>
            <StashTools
              look={look}
              onLook={changeLook}
              found={seen.length}
              of={lines.length}
              hasPromises={lines.some(({ isPromised }) => isPromised)}
            />
            <div className="stash-view" data-view={look.picture}>
              {seen.length === 0 ? (
                <p className="nothing">No yarn is like that. Fewer words or filters find more.</p>
              ) : look.picture === "value" ? (
                <LadderView cursor={cursor} all={lines} />
              ) : look.picture === "hue" ? (
                <HueView cursor={cursor} all={lines} />
              ) : look.picture === "amount" ? (
                <AmountView cursor={cursor} all={lines} measure={look.measure} />
              ) : (
                <TableView cursor={cursor} order={look.order} onOrder={(order) => changeLook({ order })} />
              )}
            </div>
            <ChosenBar
              lines={lines}
              chosen={still}
              onNone={() => setChosen(new Set())}
              onRemove={onRemove}
              onTwist={() => turnTo("twist", "twist-title")}
            />
          </>
        )}
      </section>
      <nav className="stash-parts" aria-label="Part of your yarns">
        {PARTS.map(({ part: one, name }) => (
          <button
            key={one}
            type="button"
            data-part={one}
            aria-pressed={part === one || (one === "yarn" && part === "shelf" && !isNarrow)}
            onClick={() => setPart(one)}
          >
            {name}
          </button>
        ))}
      </nav>
      <aside className="panel stash-side" aria-label="About your yarns">
        {part === "near" ? (
          <NearPanel lines={lines} line={line} onOpen={onEnter} />
        ) : part === "twist" ? (
          <TwistPanel chosen={strands} onChoose={onChoose} />
        ) : part === "project" ? (
          <ProjectPanel lines={lines} onOpen={onEnter} />
        ) : (
          <YarnDetail
            line={line}
            isChosen={active !== null && still.has(active)}
            onChoose={onChoose}
            onAgain={(yarn) => setDoor({ to: "hand", yarn })}
            onNear={() => turnTo("near", "near-title")}
            onRemove={onRemove}
          />
        )}
      </aside>
    </main>
  );
}

/** The width in stash.css below which one part is shown at a time. */
const NARROW = "(max-width: 699px)";
const isNarrowNow = (): boolean => matchMedia(NARROW).matches;
function onNarrow(listener: () => void): () => void {
  const query = matchMedia(NARROW);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}

function EmptyShelf(): ReactNode {
  return (
    <div className="nothing">
      <p>Your shelf is empty.</p>
      <p>
        Photograph your yarns beside a sheet of white paper, open the table you keep of them, or write down the first by
        hand.
      </p>
    </div>
  );
}
