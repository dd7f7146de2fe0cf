/** The charts that were found, each with a small picture: which one is looked at, and which go on. */
import type { ReactNode } from "react";
import type { ChartInHand, SheetInHand } from "./reading.ts";
import { doubtsOf, sheetName } from "./reading.ts";
import { ChartThumb } from "./ChartThumb.tsx";
import { TextField } from "../stash/fields.tsx";
import { countWords, sizeWords } from "./words.ts";

interface ChartListProps {
  readonly charts: readonly ChartInHand[];
  readonly sheets: readonly SheetInHand[];
  readonly shown: string | null;
  readonly onShow: (key: string) => void;
  readonly onTake: (key: string, isTaken: boolean) => void;
  readonly onName: (key: string, name: string) => void;
}

/** CSS pixels. */
const THUMB = 58;

export function ChartList({ charts, sheets, shown, onShow, onTake, onName }: ChartListProps): ReactNode {
  return (
    <ul className="found-charts" aria-label="Charts found">
      {charts.map((chart) => {
        const { key, name, isTaken, parts } = chart;
        const { columns, rows } = chart.state.looks;
        const doubts = doubtsOf(chart);
        const on = parts.flatMap((part) => sheets.filter((sheet) => sheet.key === part.sheet).map(sheetName));
        return (
          <li key={key} data-shown={key === shown} data-left={!isTaken}>
            <button
              type="button"
              className="found-thumb"
              aria-pressed={key === shown}
              aria-label={`${name}: ${sizeWords(columns, rows)}, ${doubts === 0 ? "no cell in doubt" : `${countWords(doubts, "cell")} in doubt`}`}
              onClick={() => onShow(key)}
            >
              <ChartThumb rows={chart.state.rows} colours={chart.state.colours} side={THUMB} />
            </button>
            <div className="found-words">
              <TextField label={`Name of ${name}`} bare needed value={name} onKeep={(next) => onName(key, next)} />
              <p>
                {sizeWords(columns, rows)}, {doubts === 0 ? "none in doubt" : `${doubts} in doubt`}
              </p>
              <p>{on.length > 1 ? `of ${on.length} parts` : on[0]}</p>
            </div>
            {charts.length > 1 && (
              <label className="found-take">
                <input
                  type="checkbox"
                  checked={isTaken}
                  aria-label={`Take ${name}`}
                  onChange={() => onTake(key, !isTaken)}
                />
                <span>take</span>
              </label>
            )}
          </li>
        );
      })}
    </ul>
  );
}
