/** The pattern's charts, each with its picture and size, and the ways in which another comes in. */
import type { ReactNode } from "react";
import type { Chart } from "../../chart/chart.ts";
import type { Pattern } from "../../fabric/pattern.ts";
import { ChartThumb } from "./ChartThumb.tsx";
import { PatternColours } from "./PatternColours.tsx";

export interface ChartDoor {
  readonly key: string;
  readonly name: string;
  readonly open: () => void;
}

interface ChartListProps {
  readonly pattern: Pattern;
  /** Id of the chart that is shown beside. */
  readonly chosen: string | null;
  readonly doors: readonly ChartDoor[];
  readonly onChoose: (chart: string) => void;
}

/** CSS pixels of a chart's picture; of few charts it may be larger. Our choice. */
const SMALL = { width: 64, height: 64 };
const LARGE = { width: 200, height: 168 };

export function ChartList({ pattern, chosen, doors, onChoose }: ChartListProps): ReactNode {
  const { charts, colours } = pattern;
  return (
    <aside className="panel pattern-list" aria-labelledby="pattern-title">
      <header className="pattern-title">
        <h2 id="pattern-title" tabIndex={-1}>
          {pattern.name ?? "Pattern"}
        </h2>
        <p>
          {countWords(charts.length, "chart")}, {countWords(colours.length, "colour")}
        </p>
      </header>
      {charts.length === 0 ? (
        <p className="empty">There is no chart yet. Bring one in below, or begin with an empty one.</p>
      ) : (
        <ul className="chart-items" data-large={charts.length <= 3}>
          {charts.map((chart) => (
            <li key={chart.id}>
              <button
                type="button"
                className="chart-item"
                aria-pressed={chart.id === chosen}
                onClick={() => onChoose(chart.id)}
              >
                <ChartThumb chart={chart} pattern={pattern} most={charts.length > 3 ? SMALL : LARGE} />
                <span className="chart-words">
                  <span className="chart-name">{chartName(chart)}</span>
                  <span className="chart-size">{sizeWords(chart)}</span>
                  <span className="chart-size">{workedWords(chart)}</span>
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <section className="pattern-doors" aria-labelledby="pattern-doors-title">
        <h3 id="pattern-doors-title">Another chart</h3>
        {doors.map(({ key, name, open }) => (
          <button key={key} type="button" className="button" data-door={key} onClick={open}>
            {name}
          </button>
        ))}
      </section>
      <PatternColours pattern={pattern} />
    </aside>
  );
}

export const chartName = (chart: Pick<Chart, "id" | "name">): string => chart.name ?? `Chart ${chart.id}`;

/** "24 × 36 stitches and rows": width first, as charts are spoken of. */
export const sizeWords = ({ rows }: Pick<Chart, "rows">): string =>
  `${countWords(rows[0]?.length ?? 0, "stitch", "stitches")} × ${countWords(rows.length, "row")}`;

export const workedWords = ({ worked }: Pick<Chart, "worked">): string => (worked === "flat" ? "flat" : "in the round");

const countWords = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
