/** The dye lots of a yarn: number, grams and whether they were on the scales, each changed where it stands. */
import type { ReactNode } from "react";
import { lotsOfYarn } from "../../yarn/lots.ts";
import type { Lot } from "../../yarn/yarn.ts";
import { freeId } from "../shell/words.ts";
import { NumberField, TextField } from "./fields.tsx";
import type { StashLine } from "./lines.ts";

interface LotRowsProps {
  readonly line: StashLine;
  readonly onLots: (lots: readonly Lot[], what: string) => void;
}

export function LotRows({ line, onLots }: LotRowsProps): ReactNode {
  const lots = lotsOfYarn(line.yarn);
  const put = (at: number, lot: Lot, what: string): void => onLots(lots.with(at, lot), what);
  return (
    <div className="lots" role="group" aria-label="Lots">
      {lots.map((lot, at) => {
        const { lot: number = "" } = lot;
        const name = number === "" ? `lot ${at + 1}` : `lot ${number}`;
        return (
          <div key={lot.id} className="lot">
            <TextField
              bare
              label={`Dye lot ${at + 1}, as printed on the band`}
              placeholder="no lot number"
              value={number}
              onKeep={(next) => {
                const { lot: _before, ...rest } = lot;
                put(at, next === "" ? rest : { ...rest, lot: next }, "lot number");
              }}
            />
            <NumberField
              bare
              label={`Grams of ${name}`}
              unit="g"
              least={0}
              value={lot.grams}
              onKeep={(grams) => {
                const { grams: _before, ...rest } = lot;
                put(at, grams === null ? rest : { ...rest, grams }, `grams of ${name}`);
              }}
            />
            <label className="tick">
              <input
                type="checkbox"
                aria-label={`${name} was weighed`}
                checked={lot.weighed === true}
                onChange={(event) => {
                  const { weighed: _before, ...rest } = lot;
                  put(at, event.target.checked ? { ...rest, weighed: true } : rest, `how ${name} is known`);
                }}
              />
              <span>weighed</span>
            </label>
            <button
              type="button"
              className="tool"
              aria-label={`Remove ${name}`}
              title={`Remove ${name}`}
              onClick={() => onLots(lots.toSpliced(at, 1), `${name} removed`)}
            >
              <Cross />
            </button>
          </div>
        );
      })}
      <button
        type="button"
        className="button quiet add-lot"
        onClick={() => onLots([...lots, { id: freeId("l", lots) }], "another lot")}
      >
        Add a lot
      </button>
    </div>
  );
}

export function Cross(): ReactNode {
  return (
    <svg width="14" height="14" viewBox="0 0 16 16" aria-hidden="true">
      <path d="M3.5 3.5 12.5 12.5M12.5 3.5 3.5 12.5" stroke="currentColor" strokeWidth="1.5" strokeLinecap="round" />
    </svg>
  );
}
