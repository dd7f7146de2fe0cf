/** The charts that a text is read as, small, each with its size and key; of several, those that are wanted. */
import type { ReactNode } from "react";
import type { ReadChart, ReadColour } from "../../intake/readChart.ts";
import { ChartThumb } from "../reading/ChartThumb.tsx";
import { colourWords, sizeWords } from "../reading/words.ts";

interface TypedChartsProps {
  readonly charts: readonly ReadChart[];
  /** Those that are not wanted, by their place. */
  readonly left: ReadonlySet<number>;
  readonly onTake: (at: number, isTaken: boolean) => void;
}

export function TypedCharts({ charts, left, onTake }: TypedChartsProps): ReactNode {
  return (
    <ul className="typed-charts">
      {charts.map((chart, at) => {
        const { rows, colours, symbols, firstRow } = chart;
        const name = chart.name ?? (charts.length > 1 ? `chart ${at + 1}` : "the chart");
        const numbers = firstRow === undefined ? "" : `, rows ${firstRow} to ${firstRow + rows.length - 1}`;
        const words = `${sizeWords(rows[0]!.length, rows.length)}${numbers}`;
        return (
          <li key={at} className="typed-chart">
            <ChartThumb rows={rows} colours={colours} side={PICTURE} />
            <div className="typed-chart-words">
              {charts.length > 1 ? (
                <label>
                  <input
                    type="checkbox"
                    checked={!left.has(at)}
                    onChange={(event) => onTake(at, event.target.checked)}
                  />
                  <span>
                    <b>{name}</b>, {words}
                  </span>
                </label>
              ) : (
                <p>
                  <b>{name}</b>, {words}
                </p>
              )}
              <ul className="typed-key" aria-label={`Key of ${name}`}>
                {Object.entries(colours).map(([id, colour]) => (
                  <li key={id}>
                    <span className="swatch small" style={{ background: colour.hex }} />
                    <span>{keyWords(id, colour, symbols?.[id]?.text ?? null)}</span>
                  </li>
                ))}
              </ul>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

function keyWords(id: string, colour: ReadColour, sign: string | null): string {
  const called = colourWords(id, colour);
  const code = sign ?? id;
  const name = called === code || called === `colour ${id}` ? code : `${code}: ${called}`;
  if (!colour.assumed) return name;
  return colour.uncertainty === undefined ? `${name}, no shade yet` : `${name}, a shade by its name`;
}

/** CSS pixels, the longer side. */
const PICTURE = 220;
