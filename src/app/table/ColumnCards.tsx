/** The columns of a table with their first cells, and what each is taken for: hers to put right. */
import { useId, type ReactNode } from "react";
import { MEANINGS, type ChosenColumns, type Meaning } from "../../intake/tableHeaders.ts";
import type { ColumnPreview } from "../worker/api.ts";
import { MEANING_WORDS, SURE_WORDS } from "./tableWords.ts";

interface ColumnCardsProps {
  readonly preview: readonly ColumnPreview[];
  readonly columns: ChosenColumns | undefined;
  readonly onColumns: (columns: ChosenColumns) => void;
}

export function ColumnCards({ preview, columns = {}, onColumns }: ColumnCardsProps): ReactNode {
  // A meaning belongs to one column: given to another it is taken away here.
  const choose = (column: ColumnPreview, meaning: Meaning): void => {
    const others = Object.entries(columns).filter(
      ([, taken]) => taken !== meaning || meaning === "note" || meaning === "not used",
    );
    onColumns({ ...Object.fromEntries(others), [column.header]: meaning });
  };
  return (
    <section className="table-part" aria-labelledby="table-columns-title">
      <h3 id="table-columns-title">What the columns mean</h3>
      <ul className="column-cards">
        {preview.map((column) => (
          <ColumnCard key={column.header} column={column} onChoose={(meaning) => choose(column, meaning)} />
        ))}
      </ul>
    </section>
  );
}

interface ColumnCardProps {
  readonly column: ColumnPreview;
  readonly onChoose: (meaning: Meaning) => void;
}

function ColumnCard({ column, onChoose }: ColumnCardProps): ReactNode {
  const { header, meaning, samples, sure, unit } = column;
  const id = useId();
  return (
    <li className="column-card" data-used={meaning !== "not used"}>
      <label htmlFor={id}>{header}</label>
      <select
        id={id}
        className="field"
        aria-describedby={`${id}-cells`}
        value={meaning}
        onChange={(event) => onChoose(event.target.value as Meaning)}
      >
        {MEANINGS.map((one) => (
          <option key={one} value={one}>
            {MEANING_WORDS[one]}
          </option>
        ))}
      </select>
      <div id={`${id}-cells`} className="column-cells">
        {sure !== "known" && meaning !== "not used" && <p className="column-sure">{SURE_WORDS[sure]}</p>}
        {samples.length === 0 && <p className="column-sure">empty</p>}
        <ul aria-label={`First cells of ${header}`}>
          {samples.map((sample, index) => (
            <li key={index}>
              {sample}
              {unit && /^[\d.,\s]+$/.test(sample) ? <span className="column-unit"> {unit}</span> : null}
            </li>
          ))}
        </ul>
      </div>
    </li>
  );
}
