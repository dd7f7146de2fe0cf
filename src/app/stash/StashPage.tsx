/** The page of her yarns: everything on her shelf, and the ways in which more comes onto it. */
import { useCallback, useMemo, useRef, useState, type ReactNode } from "react";
import "../style/stash.css";
import { useBench } from "../shell/bench.ts";
import { AmountView } from "./AmountView.tsx";
import { ChosenBar } from "./ChosenBar.tsx";
import type { Cursor } from "./cursor.ts";
import { HueView } from "./HueView.tsx";
import { LadderView } from "./LadderView.tsx";
import { stashLines } from "./lines.ts";
import { seenLines, useShelfLook } from "./look.ts";
import { StashHead, type Door } from "./StashHead.tsx";
import { StashTools } from "./StashTools.tsx";
import { TableView } from "./TableView.tsx";
import { useShelf } from "./useShelf.ts";
import { YarnDetail } from "./YarnDetail.tsx";

export type Part = "shelf" | "yarn";

const PARTS: readonly { readonly part: Part; readonly name: string }[] = [
  { part: "shelf", name: "Shelf" },
  { part: "yarn", name: "Yarn" },
];

export function StashPage(): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const { project } = useBench();
  const [look, changeLook] = useShelfLook();
  const [part, setPart] = useState<Part>("shelf");
  const [active, setActive] = useState<string | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const page = useRef<HTMLElement>(null);

  const lines = useMemo(() => stashLines(shelf, project), [shelf, project]);
  const seen = useMemo(() => seenLines(lines, look), [lines, look]);
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
  const onOpen = useCallback((id: string) => {
    setActive(id);
    setPart("yarn");
  }, []);
  const cursor = useMemo(
    (): Cursor => ({ lines: seen, active, chosen: still, onActive: setActive, onChoose, onOpen }),
    [seen, active, still, onChoose, onOpen],
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

  const doors: Door[] = [];
  return (
    <main ref={page} className="stash" data-part={part}>
      <section className="stash-shelf" aria-label="Your shelf">
        <StashHead lines={lines} doors={doors} />
        {lines.length === 0 ? (
          <EmptyShelf />
        ) : (
          <>
            <StashTools look={look} onLook={changeLook} found={seen.length} of={lines.length} />
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
              onTwist={() => undefined}
            />
          </>
        )}
      </section>
      <nav className="stash-parts" aria-label="Part of your yarns">
        {PARTS.map(({ part: one, name }) => (
          <button key={one} type="button" data-part={one} aria-pressed={part === one} onClick={() => setPart(one)}>
            {name}
          </button>
        ))}
      </nav>
      <aside className="panel stash-side" aria-label="About your yarns">
        <YarnDetail
          line={line}
          isChosen={active !== null && still.has(active)}
          onChoose={onChoose}
          onAgain={null}
          onNear={() => undefined}
          onRemove={onRemove}
        />
      </aside>
    </main>
  );
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
