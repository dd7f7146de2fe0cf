/** The chart's colours: called by their names, shaded, two made one, one made two; and the chart read again with as many as she says. */
import { useMemo, useState, type ReactNode } from "react";
import { mergeColours, splitColour, type Corrected } from "../../intake/correctChart.ts";
import { ColourRow } from "./ColourRow.tsx";
import type { ChartInHand } from "./reading.ts";
import { colourWords } from "./words.ts";

interface ColoursPanelProps {
  readonly chart: ChartInHand;
  readonly isBusy: boolean;
  readonly onAct: (name: string, how: (state: Corrected) => Corrected) => void;
  readonly onSay: (sentence: string) => void;
  /** null where there is no picture to look at again. */
  readonly onAgain: ((colours: number) => void) | null;
}

export function ColoursPanel({ chart, isBusy, onAct, onSay, onAgain }: ColoursPanelProps): ReactNode {
  const { state } = chart;
  const ids = Object.keys(state.colours);
  const counts = useMemo(() => stitchCounts(state.rows), [state.rows]);
  const [wanted, setWanted] = useState<string | null>(null);
  const shown = wanted ?? String(ids.length);
  const count = Number(shown);
  const isCount = Number.isInteger(count) && count >= 2 && count <= 60;
  return (
    <div className="reading-panel">
      <h3 id="colours-title" tabIndex={-1}>
        {Object.keys(state.symbols).length > 0 ? "Signs and colours" : "Colours"}{" "}
        <span className="count">{ids.length}</span>
      </h3>
      <p className="reading-hint">
        Enter goes on to the next name. A colour that has only a name gets the shade that its words mean, as an
        estimate.
      </p>
      <ul className="read-colours">
        {ids.map((id) => (
          <ColourRow
            key={id}
            id={id}
            colour={state.colours[id]!}
            symbol={state.symbols[id]}
            count={counts.get(id) ?? 0}
            onChange={(colour, said) => onAct(said, (now) => ({ ...now, colours: { ...now.colours, [id]: colour } }))}
            more={() => (
              <>
                <label>
                  <span>Is the same as</span>
                  <select
                    className="field"
                    aria-label={`${colourWords(id, state.colours[id])} is the same as`}
                    value=""
                    onChange={(event) => {
                      const into = event.target.value;
                      onAct(
                        `${colourWords(id, state.colours[id])} made one with ${colourWords(into, state.colours[into])}`,
                        (now) => mergeColours(now, id, into),
                      );
                    }}
                  >
                    <option value="" disabled>
                      another colour
                    </option>
                    {ids
                      .filter((other) => other !== id)
                      .map((other) => (
                        <option key={other} value={other}>
                          {other}, {colourWords(other, state.colours[other])}
                        </option>
                      ))}
                  </select>
                </label>
                <button
                  type="button"
                  className="button"
                  onClick={() => {
                    const split = splitColour(state, id);
                    if (!split) return onSay(`All stitches of ${colourWords(id, state.colours[id])} look the same.`);
                    onAct(`${colourWords(id, state.colours[id])} made two colours`, () => split.state);
                  }}
                >
                  These are two colours
                </button>
              </>
            )}
          />
        ))}
      </ul>
      {onAgain && (
        <form
          className="colour-again"
          onSubmit={(event) => {
            event.preventDefault();
            if (isCount) onAgain(count);
          }}
        >
          <label>
            <span>The chart has</span>
            <input
              className="field"
              inputMode="numeric"
              value={shown}
              aria-label="How many colours the chart has"
              onChange={(event) => setWanted(event.target.value)}
            />
            <span>colours</span>
          </label>
          <button type="submit" className="button" disabled={!isCount || isBusy}>
            Look again
          </button>
        </form>
      )}
    </div>
  );
}

function stitchCounts(rows: readonly string[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const row of rows) for (const id of row) counts.set(id, (counts.get(id) ?? 0) + 1);
  return counts;
}
