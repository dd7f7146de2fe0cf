/** Makes what the panels of the bench share, and keeps it in step with the project, the view and the workers. */
import { useCallback, useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import { isFault, problemSentence, type Problem } from "../../base/problem.ts";
import type { Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import type { Shelf } from "../../document/shelf.ts";
import { applyEdit, tryEdit } from "../store/edits.ts";
import type { Kept } from "../store/keep.ts";
import type { Store } from "../store/store.ts";
import type { Bench, Message, Preview, Spot } from "./bench.ts";
import { useFirstNote } from "./FirstNote.tsx";
import { createSmalls, sameLook, useFollowing, useRested } from "./following.ts";
import { keepView, recallView, type View } from "./view.ts";

export function useBenchState(store: Store, kept: Kept): Bench {
  const state = useSyncExternalStore(store.subscribe, store.state);
  const [hand, setHand] = useState(recallView);
  const [tried, setTried] = useState<Preview | null>(null);
  const [spot, setSpot] = useState<Spot | null>(null);
  const [said, say] = useState("");
  const [message, tell] = useState<Message | null>(null);
  const note = useFirstNote();
  const { project } = state;

  // A tried change belongs to the project it was tried on; when that has moved on, so has the question.
  const preview = tried && tried.from === project ? tried : null;
  const colourway = project?.colourways.find(({ id }) => id === hand.colourway) ?? project?.colourways[0] ?? null;
  const chart = project?.pattern.charts.find(({ id }) => id === hand.chart) ?? project?.pattern.charts[0] ?? null;

  const look = useCallback((part: Partial<View>) => setHand((now) => ({ ...now, ...part })), []);
  useKeptView(hand);

  const here = useRef({ project, colourway, preview, panel: hand.panel });
  here.current = { project, colourway, preview, panel: hand.panel };

  const [glimpsed, setGlimpsed] = useState<{ readonly from: Project; readonly project: Project } | null>(null);
  const shown = glimpsed && glimpsed.from === project ? glimpsed.project : project;
  const glimpse = useCallback((edits: readonly Edit[] | null) => {
    const from = here.current.project;
    setGlimpsed(from && edits ? { from, project: edits.reduce(applyEdit, from) } : null);
  }, []);
  const [smalls] = useState(createSmalls);
  const worn = shown && colourway && { project: shown, colourway: colourway.id };
  const { seenFrom, ...following } = useFollowing(worn, preview, hand, smalls);
  const view = useMemo(() => (sameLook(seenFrom, hand) ? hand : { ...hand, ...seenFrom }), [seenFrom, hand]);

  const commit = useCallback(
    (edits: readonly Edit[], name: string): boolean => {
      let after = here.current.project;
      const problems: Problem[] = [];
      for (const edit of edits) {
        if (!after) return false;
        const outcome = tryEdit(after, edit);
        problems.push(...outcome.problems.filter(isFault));
        after = outcome.value;
      }
      if (!after || problems.length > 0) {
        tell({ title: "That cannot be done", sentences: problems.map(problemSentence) });
        return false;
      }
      store.commit(edits, { name, colourway: here.current.colourway?.id ?? null });
      say(`${name}.`);
      return true;
    },
    [store],
  );

  const putShelf = useCallback(
    (shelf: Shelf, edits: readonly Edit[], name: string) => {
      store.putShelf(shelf, edits, { name, colourway: here.current.colourway?.id ?? null });
      say(`${name}.`);
    },
    [store],
  );

  const travel = useCallback(
    (direction: "undo" | "redo") => {
      const step = store[direction]();
      if (!step) return say(direction === "undo" ? "Nothing to undo." : "Nothing to redo.");
      setTried(null);
      if (step.colourway) look({ colourway: step.colourway });
      say(`${direction === "undo" ? "Undone" : "Done again"}: ${step.name}.`);
    },
    [store, look],
  );

  const tryChange = useCallback(
    (change: Omit<Preview, "from" | "panel">) => {
      const { project: from, panel } = here.current;
      if (!from) return;
      setTried({ ...change, from, panel });
      look({ panel: "fabric" });
      say(`Tried, not kept: ${change.title}. The fabric shows before and after.`);
    },
    [look],
  );

  const dropPreview = useCallback(() => {
    const { preview: dropped } = here.current;
    setTried(null);
    if (!dropped) return;
    look({ panel: dropped.panel });
    say("Dropped; nothing has changed.");
    requestAnimationFrame(() => focusFirstSeen(dropped.returnTo));
  }, [look]);

  const keepPreview = useCallback(() => {
    const { preview: kept } = here.current;
    if (!kept) return;
    setTried(null);
    store.replace(kept.project, kept.step);
    look({ colourway: kept.colourway });
    say(`Kept: ${kept.title}.`);
    requestAnimationFrame(() => focusFirstSeen(document.getElementById("findings-title")));
  }, [store, look]);

  const showSpot = useCallback(
    (next: Spot | null) => {
      setSpot(next);
      if (!next) return;
      look({ chart: next.chart, panel: "fabric" });
      // Where parts take turns, the button that was pressed is now out of sight.
      requestAnimationFrame(() => focusFirstSeen(document.activeElement));
    },
    [look],
  );

  return {
    ...state,
    store,
    kept,
    view,
    hand,
    look,
    colourway,
    chart,
    ...following,
    smalls,
    preview,
    tryChange,
    keepPreview,
    dropPreview,
    shown,
    glimpse,
    spot,
    showSpot,
    commit,
    putShelf,
    travel,
    said,
    say,
    message,
    tell,
    note,
  };
}

/** The hand goes to `wanted`, or where that is not to be seen to the fabric: never to nowhere. */
function focusFirstSeen(wanted: Element | null): void {
  const seen = wanted instanceof HTMLElement && wanted !== document.body && wanted.checkVisibility();
  (seen ? wanted : document.querySelector<HTMLElement>(".fabric-scroll"))?.focus();
}

/** Kept when the hand rests, and when the page is left before that. */
function useKeptView(view: View): void {
  const rested = useRested(view);
  useEffect(() => keepView(rested), [rested]);
  const latest = useRef(view);
  latest.current = view;
  useEffect(() => {
    const keep = () => keepView(latest.current);
    addEventListener("pagehide", keep);
    return () => removeEventListener("pagehide", keep);
  }, []);
}
