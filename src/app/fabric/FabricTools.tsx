/** Which chart, and how large: above the fabric. */
import type { ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { Icon, type IconName } from "../ui/Icon.tsx";
import type { Zoom } from "./geometry.ts";

interface FabricToolsProps {
  readonly zoom: Zoom;
  readonly onZoom: (zoom: Zoom) => void;
  readonly onStep: (grow: boolean) => void;
}

export function FabricTools({ zoom, onZoom, onStep }: FabricToolsProps): ReactNode {
  const { project, chart, look, check } = useBench();
  const charts = project?.pattern.charts ?? [];
  const rows = check?.rows.filter((row) => row.chart === chart?.id && row.section === null) ?? [];
  const lost = rows.filter(({ shows }) => shows === "lost").length;
  const faint = rows.filter(({ shows }) => shows === "faint").length;
  const tool = (icon: IconName, label: string, press: () => void, pressed?: boolean) => (
    <button type="button" className="tool" aria-label={label} title={label} aria-pressed={pressed} onClick={press}>
      <Icon name={icon} />
    </button>
  );
  return (
    <div className="fabric-tools">
      {charts.length > 1 ? (
        <label className="picker">
          <span className="picker-word">Chart</span>
          <select value={chart?.id ?? ""} onChange={(event) => look({ chart: event.target.value })}>
            {charts.map(({ id, name }) => (
              <option key={id} value={id}>
                {name ?? id}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <h2 className="fabric-title" data-twice={chart?.name?.toLowerCase() === project?.name.toLowerCase()}>
          {chart?.name ?? "Fabric"}
        </h2>
      )}
      {check && <p className="fabric-count">{countWords(lost, faint)}</p>}
      <div className="tool-group" role="group" aria-label="Size of the fabric">
        {tool("smaller", "Smaller stitches", () => onStep(false))}
        {tool("bigger", "Larger stitches", () => onStep(true))}
        {tool("width", "Fit the width", () => onZoom("width"), zoom === "width")}
        {tool("whole", "See all rows", () => onZoom("whole"), zoom === "whole")}
      </div>
    </div>
  );
}

function countWords(lost: number, faint: number): string {
  if (lost + faint === 0) return "no row is lost or faint";
  const rows = (count: number) => `${count} ${count === 1 ? "row" : "rows"}`;
  return [lost > 0 ? `${rows(lost)} lost` : "", faint > 0 ? `${lost > 0 ? faint : rows(faint)} faint` : ""]
    .filter(Boolean)
    .join(", ");
}
