/** The bench as a whole: fabric between its ladder and its findings, under one distance. */
import { lazy, Suspense, useEffect, useSyncExternalStore, type ReactNode } from "react";
import { DistanceBar } from "../fabric/DistanceBar.tsx";
import { FabricPanel } from "../fabric/FabricPanel.tsx";
import { AdvicePanel } from "../findings/AdvicePanel.tsx";
import { LadderPanel } from "../ladder/LadderPanel.tsx";
import { bringChartEdits } from "../store/edits.ts";
import type { Kept } from "../store/keep.ts";
import type { Store } from "../store/store.ts";
import { BenchProvider, useBench } from "./bench.ts";
import { useBenchState } from "./benchState.ts";
import { FirstNote } from "./FirstNote.tsx";
import { Header } from "./Header.tsx";
import { MessageDialog } from "./MessageDialog.tsx";
import { PanelSwitch } from "./PanelSwitch.tsx";
import { useCalm } from "./useCalm.ts";
import { EYES, type Eye } from "./view.ts";
import { luxWords, metresWords } from "./words.ts";

const StashPage = lazy(() => import("../stash/StashPage.tsx").then((module) => ({ default: module.StashPage })));
const PatternPage = lazy(async () => {
  const [{ PatternPage: page }] = await Promise.all([import("../pattern/PatternPage.tsx"), bringChartEdits()]);
  return { default: page };
});

interface AppProps {
  readonly store: Store;
  readonly kept: { readonly subscribe: (listener: () => void) => () => void; readonly state: () => Kept };
}

export function App({ store, kept }: AppProps): ReactNode {
  const bench = useBenchState(store, useSyncExternalStore(kept.subscribe, kept.state));
  return (
    <BenchProvider value={bench}>
      <BenchRoom />
    </BenchProvider>
  );
}

function BenchRoom(): ReactNode {
  const { project, view, said, travel, preview, dropPreview, note } = useBench();
  const calm = useCalm();
  useEffect(() => {
    // Where this fails, whoever needs them asks again and says so.
    if (calm) bringChartEdits().catch(() => undefined);
  }, [calm]);

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === "Escape" && preview && !event.defaultPrevented) return dropPreview();
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && !(key === "y" && !event.shiftKey)) return;
      event.preventDefault();
      travel(key === "y" || event.shiftKey ? "redo" : "undo");
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [travel, preview, dropPreview]);

  return (
    <>
      <div className="room" data-panel={view.panel} data-stage={view.stage}>
        <div>
          <PaperHead />
          <Header />
          {view.stage === "bench" && <FirstNote note={note} />}
        </div>
        {project && view.stage !== "bench" ? (
          <Suspense fallback={<main className="bench opening" />}>
            {view.stage === "yarns" ? <StashPage /> : <PatternPage />}
          </Suspense>
        ) : project ? (
          <main className="bench">
            <LadderPanel />
            <FabricPanel />
            <AdvicePanel />
          </main>
        ) : (
          <main className="bench opening">
            <p role="status">Opening your bench…</p>
          </main>
        )}
        {view.stage === "bench" && (
          <>
            <DistanceBar />
            <PanelSwitch />
          </>
        )}
      </div>
      <p className="unseen" role="status" aria-live="polite">
        {said}
      </p>
      <MessageDialog />
    </>
  );
}

/** On paper a heading stands for the controls that are left out. */
function PaperHead(): ReactNode {
  const { project, colourway, view } = useBench();
  if (!project) return null;
  return (
    <div className="paper-head" aria-hidden="true">
      <p className="paper-name">{project.name}</p>
      <p>
        {colourway ? `Colourway “${colourway.name ?? colourway.id}”, l` : "L"}ooked at from {metresWords(view.distance)}{" "}
        in {luxWords(view.light)}
        {view.eye === "ordinary" ? "" : `, by eyes that are ${eyeName(view.eye)} (a model)`}.
      </p>
    </div>
  );
}

const eyeName = (wanted: Eye): string => EYES.find(({ eye }) => eye === wanted)!.name;

/** In a text field the keys take back typing, as they do everywhere. */
function isTyping(target: EventTarget | null): boolean {
  return (
    (target instanceof HTMLInputElement && !["range", "radio", "checkbox", "button", "file"].includes(target.type)) ||
    target instanceof HTMLTextAreaElement
  );
}
