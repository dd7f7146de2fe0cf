/** On a narrow screen the three parts of the bench take turns. */
import { useSyncExternalStore, type ReactNode } from "react";
import { useBench } from "./bench.ts";
import type { Panel } from "./view.ts";

const PANELS: readonly { readonly panel: Panel; readonly name: string }[] = [
  { panel: "fabric", name: "Fabric" },
  { panel: "ladder", name: "Light to dark" },
  { panel: "findings", name: "Findings" },
];

export function PanelSwitch(): ReactNode {
  const { view, look, check } = useBench();
  const narrow = useSyncExternalStore(onNarrow, isNarrow);
  // With more room the fabric always stands, and the findings beside it unless the ladder does.
  const shown = !narrow && view.panel === "fabric" ? "findings" : view.panel;
  return (
    <nav className="panel-switch" aria-label="Part of the bench">
      {PANELS.map(({ panel, name }) => (
        <button
          key={panel}
          type="button"
          data-panel={panel}
          aria-pressed={shown === panel}
          onClick={() => look({ panel })}
        >
          {name}
          {panel === "findings" && check && <span className="count"> {check.findings.length}</span>}
        </button>
      ))}
    </nav>
  );
}

/** The width in narrow.css below which one part is shown at a time. */
const NARROW = "(max-width: 699px)";
const isNarrow = (): boolean => matchMedia(NARROW).matches;
function onNarrow(listener: () => void): () => void {
  const query = matchMedia(NARROW);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}
