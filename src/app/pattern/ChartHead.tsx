/** What a chart is called, how large it is, whether it is worked round or flat, and its way out. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { Chart } from "../../chart/chart.ts";
import { useBench } from "../shell/bench.ts";
import { Choice } from "../wishes/controls.tsx";
import { chartName, sizeWords, workedWords } from "./ChartList.tsx";

export function ChartHead({ chart }: { readonly chart: Chart }): ReactNode {
  return (
    <header className="chart-head">
      <ChartNameField chart={chart} />
      <p className="chart-head-size">
        {sizeWords(chart)}, {workedWords(chart)}
      </p>
      <ChartMenu chart={chart} />
    </header>
  );
}

function ChartMenu({ chart }: { readonly chart: Chart }): ReactNode {
  const { commit, look, project } = useBench();
  const menu = useRef<HTMLDetailsElement>(null);
  const remove = (): void => {
    const charts = project?.pattern.charts ?? [];
    const at = charts.findIndex(({ id }) => id === chart.id);
    if (!commit([{ kind: "removeChart", chart: chart.id }], `${chartName(chart)} removed`)) return;
    look({ chart: (charts[at + 1] ?? charts[at - 1])?.id ?? null });
    requestAnimationFrame(() => document.getElementById("chart-title")?.focus());
  };
  return (
    <details
      ref={menu}
      className="more"
      onKeyDown={(event) => {
        if (event.key !== "Escape" || !menu.current?.open) return;
        menu.current.open = false;
        menu.current.querySelector("summary")?.focus();
      }}
      onBlur={(event) => {
        if (menu.current && event.relatedTarget && !menu.current.contains(event.relatedTarget))
          menu.current.open = false;
      }}
    >
      <summary className="button">This chart</summary>
      <div className="more-list chart-menu">
        <Choice
          legend="Worked"
          value={chart.worked ?? "round"}
          options={[
            ["round", "in the round"],
            ["flat", "flat"],
          ]}
          onChoose={(worked) =>
            commit(
              [{ kind: "setWorked", chart: chart.id, worked }],
              `${chartName(chart)} worked ${worked === "round" ? "in the round" : "flat"}`,
            )
          }
        />
        <button type="button" className="button" onClick={remove}>
          Remove the chart
        </button>
      </div>
    </details>
  );
}

/** A heading that becomes a field under the hand. */
function ChartNameField({ chart }: { readonly chart: Chart }): ReactNode {
  const { commit } = useBench();
  const name = chartName(chart);
  const [draft, setDraft] = useState(name);
  useEffect(() => setDraft(name), [name]);
  const keep = (): void => {
    const next = draft.trim();
    if (next === "") setDraft(name);
    else if (next !== name)
      commit([{ kind: "renameChart", chart: chart.id, name: next }], `the chart is called ${next}`);
  };
  return (
    <h2 className="chart-title">
      <span className="unseen" id="chart-title" tabIndex={-1}>
        {name}
      </span>
      <input
        aria-label="Name of the chart"
        maxLength={200}
        size={Math.max(8, draft.length)}
        value={draft}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={keep}
        onKeyDown={(event) => {
          if (event.key === "Enter") event.currentTarget.blur();
          if (event.key === "Escape") setDraft(name);
        }}
      />
    </h2>
  );
}
