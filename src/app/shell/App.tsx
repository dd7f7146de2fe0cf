/** The bench as a whole: fabric between its ladder and its findings, under one distance. */
import { useEffect, useSyncExternalStore, type ReactNode } from "react";
import { DistanceBar } from "../fabric/DistanceBar.tsx";
import { FabricPanel } from "../fabric/FabricPanel.tsx";
import { AdvicePanel } from "../findings/AdvicePanel.tsx";
import { LadderPanel } from "../ladder/LadderPanel.tsx";
import type { Kept } from "../store/keep.ts";
import type { Store } from "../store/store.ts";
import { BenchProvider, useBench, useBenchState } from "./bench.ts";
import { Header } from "./Header.tsx";
import { MessageDialog } from "./MessageDialog.tsx";
import { PanelSwitch } from "./PanelSwitch.tsx";

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
  const { project, view, said, travel, preview, dropPreview } = useBench();

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
      <div className="room" data-panel={view.panel}>
        <Header />
        {project ? (
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
        <DistanceBar />
        <PanelSwitch />
      </div>
      <p className="unseen" role="status" aria-live="polite">
        {said}
      </p>
      <MessageDialog />
    </>
  );
}

/** In a text field the keys take back typing, as they do everywhere. */
function isTyping(target: EventTarget | null): boolean {
  return (
    (target instanceof HTMLInputElement && !["range", "radio", "checkbox", "button", "file"].includes(target.type)) ||
    target instanceof HTMLTextAreaElement
  );
}
