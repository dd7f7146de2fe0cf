/** On a narrow screen the three parts of the bench take turns. */
import type { ReactNode } from "react";
import { useBench } from "./bench.ts";
import type { Panel } from "./view.ts";

const PANELS: readonly { readonly panel: Panel; readonly name: string }[] = [
  { panel: "fabric", name: "Fabric" },
  { panel: "ladder", name: "Light to dark" },
  { panel: "findings", name: "Findings" },
];

export function PanelSwitch(): ReactNode {
  const { view, look, check } = useBench();
  return (
    <nav className="panel-switch" aria-label="Part of the bench">
      {PANELS.map(({ panel, name }) => (
        <button
          key={panel}
          type="button"
          data-panel={panel}
          aria-pressed={view.panel === panel}
          onClick={() => look({ panel })}
        >
          {name}
          {panel === "findings" && check && <span className="count"> {check.findings.length}</span>}
        </button>
      ))}
    </nav>
  );
}
