/** The charts that were found, each with a small picture: which one is looked at, and which go on. */
import { useEffect, useMemo, useRef, type ReactNode } from "react";
import type { ChartInHand, SheetInHand } from "./reading.ts";
import { doubtsOf, sheetName } from "./reading.ts";
import { cellsTexture } from "./sheetDraw.ts";
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
              <ChartThumb chart={chart} />
              <span className="found-thumb-words">
                <span>{sizeWords(columns, rows)}</span>
                <span>{doubts === 0 ? "none in doubt" : `${countWords(doubts, "cell")} in doubt`}</span>
                <span>{on.length > 1 ? `of ${on.length} parts` : on[0]}</span>
              </span>
            </button>
            <div className="found-acts">
              <TextField label={`Name of ${name}`} bare needed value={name} onKeep={(next) => onName(key, next)} />
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
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** CSS pixels. */
const THUMB = 44;

export function ChartThumb({ chart }: { readonly chart: Pick<ChartInHand, "state"> }): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { rows, colours } = chart.state;
  const texture = useMemo(() => cellsTexture({ rows, colours }), [rows, colours]);
  const scale = THUMB / Math.max(texture.width, texture.height);
  const [width, height] = [Math.max(2, texture.width * scale), Math.max(2, texture.height * scale)];
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context) return;
    context.imageSmoothingEnabled = texture.width > context.canvas.width;
    context.clearRect(0, 0, context.canvas.width, context.canvas.height);
    context.drawImage(texture, 0, 0, context.canvas.width, context.canvas.height);
  }, [texture]);
  return (
    <span className="found-thumb-picture" aria-hidden="true">
      <canvas ref={canvas} width={Math.round(width * 2)} height={Math.round(height * 2)} style={{ width, height }} />
    </span>
  );
}
