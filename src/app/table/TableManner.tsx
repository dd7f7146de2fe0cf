/** How a table is written, as it was found out; each hers to put right. */
import { useId, type ReactNode } from "react";
import { ENCODINGS } from "../../intake/tableText.ts";
import type { StashAnswer } from "../worker/api.ts";
import { ENCODING_WORDS, SEPARATOR_WORDS } from "./tableWords.ts";
import type { Corrections } from "./useTable.ts";

interface TableMannerProps {
  readonly answer: StashAnswer;
  readonly corrections: Corrections;
  readonly onCorrect: (part: Corrections) => void;
}

export function TableManner({ answer, corrections, onCorrect }: TableMannerProps): ReactNode {
  const { table, encoding } = answer;
  const { separator, decimal, headings } = table;
  const separators = SEPARATOR_WORDS.some(([sign]) => sign === separator)
    ? SEPARATOR_WORDS
    : [...SEPARATOR_WORDS, [separator ?? "", separator ?? "a page’s cells"] as const];
  // The lines in which headings may stand, and the one in which they do.
  const lines = [...new Set([1, 2, 3, 4, 5, ...(headings === null ? [] : [headings])])].sort((a, b) => a - b);
  return (
    <details className="table-part table-manner">
      <summary>How it is written</summary>
      <div className="manner-fields">
        <Choice
          label="Headings"
          value={headings === null ? "" : String(headings)}
          options={[["", "none"], ...lines.map((line) => [String(line), `in line ${line}`] as const)]}
          onChoose={(value) => onCorrect({ headings: value === "" ? null : Number(value) })}
        />
        {separator !== null && (
          <Choice
            label="Between the cells"
            value={separator}
            options={separators}
            onChoose={(value) => onCorrect({ separator: value })}
          />
        )}
        <Choice
          label="Decimals with"
          value={decimal}
          options={[
            [".", "points"],
            [",", "commas"],
          ]}
          onChoose={(value) => onCorrect({ decimal: value === "," ? "," : "." })}
        />
        {encoding !== null && (
          <Choice
            label="Letters"
            value={encoding}
            options={ENCODINGS.map((one) => [one, ENCODING_WORDS[one]] as const)}
            onChoose={(value) => onCorrect({ encoding: ENCODINGS.find((one) => one === value) })}
          />
        )}
        {Object.keys(corrections).length > 0 && (
          <button
            type="button"
            className="button"
            onClick={() =>
              onCorrect({
                columns: {},
                separator: undefined,
                decimal: undefined,
                headings: undefined,
                encoding: undefined,
              })
            }
          >
            As it was found out
          </button>
        )}
      </div>
    </details>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [string, string])[];
  readonly onChoose: (value: string) => void;
}

function Choice({ label, value, options, onChoose }: ChoiceProps): ReactNode {
  const id = useId();
  return (
    <div className="manner-field">
      <label htmlFor={id}>{label}</label>
      <select id={id} className="field" value={value} onChange={(event) => onChoose(event.target.value)}>
        {options.map(([option, words]) => (
          <option key={option} value={option}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}
