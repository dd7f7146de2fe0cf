/** The strands at the back: how far one may travel, which travel farther, and where they are caught. */
import { useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import type { BuiltRow } from "../worker/api.ts";
import { NumberField } from "./BandForm.tsx";
import { RowTable } from "./RowTable.tsx";
import type { PartProps } from "./partProps.ts";
import { stitchesWords, strandWords } from "./structureWords.ts";

interface StrandsPartProps extends PartProps {
  readonly row: number | null;
  readonly onChoose: (row: number) => void;
}

/** As many as one looks through; the rest on demand. */
const SHOWN_FIRST = 8;

export function StrandsPart({ chart, built, nameOf, row, onChoose }: StrandsPartProps): ReactNode {
  const { commit, project, say } = useBench();
  const [all, setAll] = useState(false);
  const { limit, rows } = built;
  const farthest = (one: BuiltRow): number => one.floats[0]?.longest ?? 0;
  const long = rows
    .filter((one) => farthest(one) > limit.stitches)
    .toSorted((a, b) => farthest(b) - farthest(a) || a.row - b.row);
  const longest = rows.reduce<BuiltRow | null>(
    (best, one) => (farthest(one) > (best ? farthest(best) : 0) ? one : best),
    null,
  );
  const shown = all ? long : long.slice(0, SHOWN_FIRST);
  const gauge = project?.pattern.gauge.stitches;
  return (
    <>
      <div className="structure-line">
        <label htmlFor="structure-limit">A strand may travel, cm</label>
        <NumberField
          key={limit.cm}
          id="structure-limit"
          value={limit.cm}
          least={0.5}
          most={20}
          step={0.1}
          onKeep={(cm) => commit([{ kind: "setFloatLimit", cm }], `a strand may travel ${cm} cm`)}
        />
        {project?.knitting?.floatCm !== undefined && (
          <span className="structure-said">
            your word
            <button
              type="button"
              className="button"
              aria-label="Take back your word for how far a strand may travel"
              onClick={() => commit([{ kind: "setFloatLimit", cm: null }], "a strand may travel as is usual")}
            >
              Take back
            </button>
          </span>
        )}
      </div>
      <p>
        At {gauge} stitches to 10 cm that is {stitchesWords(limit.stitches)}; {limit.usualCm} cm is common practice.
        {chart.worked === "flat"
          ? " Worked flat, no strand travels round the end."
          : " Strands are followed round the end of the round."}
      </p>
      {longest && (
        <p>
          The longest: {nameOf(longest.floats[0]!.colour)} in row {longest.row}, {stitchesWords(farthest(longest))}.
        </p>
      )}
      {long.length === 0 ? (
        <p>No strand travels farther than that.</p>
      ) : (
        <>
          <p>
            {long.length === 1 ? "One row has" : `${long.length} rows have`} a longer one. Circles on the chart are
            where to catch it, so that no catch stands above another; double lines are ladders, for what is too long to
            catch.
          </p>
          <ul className="structure-strands" aria-label="Rows with long strands, the longest first">
            {shown.map((one) => (
              <li key={one.row}>
                <button
                  type="button"
                  className="structure-pair"
                  aria-pressed={one.row === row}
                  onClick={() => {
                    onChoose(one.row);
                    say(`The chart shows row ${one.row}.`);
                  }}
                >
                  <span className="structure-name">Row {one.row}</span>
                  <span className="structure-short">{strandWords(one, nameOf, limit.stitches)}</span>
                </button>
              </li>
            ))}
          </ul>
          {long.length > SHOWN_FIRST && (
            <button type="button" className="button quiet" aria-expanded={all} onClick={() => setAll(!all)}>
              {all ? "Only the longest" : moreRows(long.length - SHOWN_FIRST)}
            </button>
          )}
        </>
      )}
      <RowTable rows={rows} crossed={built.bands.flatMap(({ crossed }) => crossed)} nameOf={nameOf} />
    </>
  );
}

const moreRows = (count: number): string => (count === 1 ? "1 more row" : `${count} more rows`);
