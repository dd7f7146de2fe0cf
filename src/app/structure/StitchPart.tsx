/** What if this stitch were another colour: asked before it is knitted so. */
import { useMemo, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { useAnswer } from "../worker/answers.ts";
import { quickJobs } from "../worker/client.ts";
import type { ChangedStitch } from "../worker/api.ts";
import { NumberField } from "./BandForm.tsx";
import { Colour } from "./BandsPart.tsx";
import type { PartProps } from "./partProps.ts";
import { changedSentences } from "./structureWords.ts";

export interface ChosenStitch {
  readonly row: number;
  readonly column: number;
  /** The colour that it might have. */
  readonly colour: string | null;
}

interface StitchPartProps extends PartProps {
  readonly stitch: ChosenStitch | null;
  readonly onChoose: (stitch: ChosenStitch) => void;
}

export function StitchPart({ chart, nameOf, hexOf, stitch, onChoose }: StitchPartProps): ReactNode {
  const { project, colourway, commit } = useBench();
  const [height, width] = [chart.rows.length, chart.rows[0]!.length];
  const at = stitch ?? { row: 1, column: 1, colour: null };
  const text = chart.rows[height - at.row]!;
  const own = text[width - at.column]!;
  const colours = project?.pattern.colours.map(({ id }) => id) ?? [];
  const colour = at.colour ?? colours.find((id) => id !== own) ?? own;
  const question = useMemo(
    () =>
      project && colourway && own !== "-" && colour !== own
        ? { project, asked: { chart: chart.id, colourway: colourway.id, row: at.row, column: at.column, colour } }
        : null,
    [project, colourway?.id, chart.id, at.row, at.column, colour, own],
  );
  const { value, busy } = useAnswer(askChanged, question);
  const place = `row ${at.row}, column ${at.column}`;
  return (
    <>
      <p>Press a stitch on the chart, or say which; then see what another colour would do behind its row.</p>
      <div className="structure-stitch">
        <div className="structure-line">
          <label htmlFor="structure-row">Row</label>
          <NumberField
            key={`row ${at.row}`}
            id="structure-row"
            value={at.row}
            least={1}
            most={height}
            step={1}
            onKeep={(row) => onChoose({ ...at, row })}
          />
        </div>
        <div className="structure-line">
          <label htmlFor="structure-column">Column</label>
          <NumberField
            key={`column ${at.column}`}
            id="structure-column"
            value={at.column}
            least={1}
            most={width}
            step={1}
            onKeep={(column) => onChoose({ ...at, column })}
          />
        </div>
        <div className="structure-line">
          <label htmlFor="structure-colour">In</label>
          <select
            id="structure-colour"
            className="field"
            value={colour}
            onChange={({ target }) => onChoose({ ...at, colour: target.value })}
          >
            {colours.map((id) => (
              <option key={id} value={id}>
                {nameOf(id)}
              </option>
            ))}
          </select>
        </div>
      </div>
      <p>
        {own === "-" ? (
          "There is no stitch."
        ) : (
          <>
            <Colour id={own} hexOf={hexOf} /> It is {nameOf(own)} now
            {colour === own ? "." : "; "}
            {colour !== own && (
              <>
                <Colour id={colour} hexOf={hexOf} /> {nameOf(colour)} would come.
              </>
            )}
          </>
        )}
      </p>
      <div role="status" aria-busy={busy}>
        {question && value && changedSentences(value).map((sentence) => <p key={sentence}>{sentence}</p>)}
      </div>
      {question && (
        <button
          type="button"
          className="button"
          onClick={() => {
            const changed = text.slice(0, width - at.column) + colour + text.slice(width - at.column + 1);
            const rows = chart.rows.with(height - at.row, changed);
            if (commit([{ kind: "setStitches", chart: chart.id, rows }], `${place} knitted in ${nameOf(colour)}`))
              onChoose({ ...at, colour });
          }}
        >
          Knit {place} so
        </button>
      )}
    </>
  );
}

interface ChangedQuestion {
  readonly project: Project;
  readonly asked: {
    readonly chart: string;
    readonly colourway: string;
    readonly row: number;
    readonly column: number;
    readonly colour: string;
  };
}

const askChanged = async ({ project, asked }: ChangedQuestion): Promise<ChangedStitch | null> =>
  quickJobs().changedStitch(project, asked);
