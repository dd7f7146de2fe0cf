/** What every panel of the bench shares: the project, how it is looked at, the check of it, and a change that is only tried. */
import {
  createContext,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from "react";
import { applyEdit, tryEdit, type Edit } from "../../document/edit.ts";
import { isFault, problemSentence, type Problem } from "../../base/problem.ts";
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import type { Kept } from "../store/keep.ts";
import type { Store, Step, StoreState } from "../store/store.ts";
import type { CheckResult } from "../worker/api.ts";
import { useChecks } from "../worker/answers.ts";
import { useFirstNote, type NoteState } from "./FirstNote.tsx";
import { keepView, recallView, type Panel, type View } from "./view.ts";

/** Rows that are framed on the fabric. */
export interface Spot {
  readonly chart: string;
  readonly rows: readonly [number, number];
}

/** A change that is shown beside what is, and kept or dropped. */
export interface Preview {
  readonly title: string;
  readonly sentence: string;
  readonly from: Project;
  readonly project: Project;
  readonly colourway: string;
  readonly step: Step;
  /** What brings the hand back to where the change was chosen. */
  readonly returnTo: HTMLElement | null;
  /** The part that was in view where parts take turns. */
  readonly panel: Panel;
}

export interface Message {
  readonly title: string;
  readonly sentences: readonly string[];
}

export interface Bench extends StoreState {
  readonly store: Store;
  readonly kept: Kept;
  readonly view: View;
  readonly look: (part: Partial<View>) => void;
  readonly colourway: Colourway | null;
  readonly chart: Chart | null;
  readonly check: CheckResult | null;
  readonly checking: boolean;
  readonly mending: boolean;
  readonly checkFailed: string | null;
  readonly previewCheck: CheckResult | null;
  readonly preview: Preview | null;
  readonly tryChange: (preview: Omit<Preview, "from" | "panel">) => void;
  readonly keepPreview: () => void;
  readonly dropPreview: () => void;
  /** What the fabric, the gutter and the ladder show: the project, or what it would be with the yarn she has her eye on. */
  readonly shown: Project | null;
  /** A glimpse of some edits while she chooses; null puts the eye back. */
  readonly glimpse: (edits: readonly Edit[] | null) => void;
  readonly spot: Spot | null;
  readonly showSpot: (spot: Spot | null) => void;
  readonly commit: (edits: readonly Edit[], name: string) => boolean;
  readonly travel: (direction: "undo" | "redo") => void;
  readonly said: string;
  readonly say: (sentence: string) => void;
  readonly message: Message | null;
  readonly tell: (message: Message | null) => void;
  readonly note: NoteState;
}

const BenchContext = createContext<Bench | null>(null);
export const BenchProvider = BenchContext.Provider;

export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (!bench) throw new Error("a panel stands outside the bench");
  return bench;
}

export function useBenchState(store: Store, kept: Kept): Bench {
  const state = useSyncExternalStore(store.subscribe, store.state);
  const [view, setView] = useState(recallView);
  const [tried, setTried] = useState<Preview | null>(null);
  const [spot, setSpot] = useState<Spot | null>(null);
  const [said, say] = useState("");
  const [message, tell] = useState<Message | null>(null);
  const note = useFirstNote();
  const { project } = state;

  // A tried change belongs to the project it was tried on; when that has moved on, so has the question.
  const preview = tried && tried.from === project ? tried : null;
  const colourway = project?.colourways.find(({ id }) => id === view.colourway) ?? project?.colourways[0] ?? null;
  const chart = project?.pattern.charts.find(({ id }) => id === view.chart) ?? project?.pattern.charts[0] ?? null;

  const look = useCallback((part: Partial<View>) => setView((now) => ({ ...now, ...part })), []);
  useEffect(() => keepView(view), [view]);

  const looking = useMemo(
    () => ({ distance: view.distance, light: view.light, colourway: colourway?.id ?? null }),
    [view.distance, view.light, colourway?.id],
  );
  const here = useRef({ project, colourway, preview, panel: view.panel });
  here.current = { project, colourway, preview, panel: view.panel };

  const [glimpsed, setGlimpsed] = useState<{ readonly from: Project; readonly project: Project } | null>(null);
  const shown = glimpsed && glimpsed.from === project ? glimpsed.project : project;
  const glimpse = useCallback((edits: readonly Edit[] | null) => {
    const from = here.current.project;
    setGlimpsed(from && edits ? { from, project: edits.reduce(applyEdit, from) } : null);
  }, []);
  const now = useChecks(shown, looking, "mends");
  const then = useChecks(
    preview?.project ?? null,
    useMemo(() => ({ ...looking, colourway: preview?.colourway ?? null }), [looking, preview?.colourway]),
    "words",
  );

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
    look,
    colourway,
    chart,
    check: now.value,
    checking: now.busy,
    mending: now.mending,
    checkFailed: now.failed,
    previewCheck: preview ? then.value : null,
    preview,
    tryChange,
    keepPreview,
    dropPreview,
    shown,
    glimpse,
    spot,
    showSpot,
    commit,
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
