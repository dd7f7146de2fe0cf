/** Search, the choice of picture, and the filters over her shelf. */
import { useState, type ReactNode } from "react";
import type { ValueClass } from "../../colour/value.ts";
import { WEIGHT_CLASS_NAMES } from "../../yarn/weightClass.ts";
import { gramsWords } from "../shell/words.ts";
import { Choice } from "../wishes/controls.tsx";
import { numberIn } from "./fields.tsx";
import { filtersOn, FIRST_LOOK, type ShelfLook } from "./look.ts";

interface StashToolsProps {
  readonly look: ShelfLook;
  readonly onLook: (part: Partial<ShelfLook>) => void;
  /** How many yarns pass, and how many there are. */
  readonly found: number;
  readonly of: number;
  /** Whether any is promised, so that its hatching is explained. */
  readonly hasPromises: boolean;
}

const VALUE_CLASSES: readonly ValueClass[] = ["light", "light-medium", "medium-dark", "dark"];

export function StashTools({ look, onLook, found, of, hasPromises }: StashToolsProps): ReactNode {
  const [open, setOpen] = useState(false);
  const on = filtersOn(look);
  return (
    <div className="stash-tools" role="search" aria-label="Your yarns">
      <input
        type="search"
        className="field stash-search"
        aria-label="Search your yarns"
        placeholder="name, colour, maker, fibre, lot, note"
        value={look.words}
        onChange={(event) => onLook({ words: event.target.value })}
      />
      <button
        type="button"
        className="button"
        aria-expanded={open}
        aria-controls="stash-filters"
        onClick={() => setOpen(!open)}
      >
        Filters{on > 0 && <span className="count"> {on}</span>}
      </button>
      <Choice
        legend="Shown by"
        value={look.picture}
        options={[
          ["value", "value"],
          ["hue", "hue"],
          ["amount", "amount"],
          ["list", "list"],
        ]}
        onChoose={(picture) => onLook({ picture })}
      />
      {look.picture === "amount" && (
        <Choice
          legend="In"
          value={look.measure}
          options={[
            ["grams", "grams"],
            ["metres", "metres"],
          ]}
          onChoose={(measure) => onLook({ measure })}
        />
      )}
      {look.picture === "amount" && hasPromises && (
        <p className="bar-legend">
          <span aria-hidden="true" /> promised
        </p>
      )}
      <div id="stash-filters" className="stash-filters" hidden={!open}>
        <Ticks
          legend="Value"
          options={VALUE_CLASSES.map((name) => [name, name] as const)}
          on={look.classes}
          onTurn={(classes) => onLook({ classes })}
        />
        <Ticks
          legend="Weight"
          options={WEIGHT_CLASS_NAMES.map((name, at) => [at, name] as const)}
          on={look.weightClasses}
          onTurn={(weightClasses) => onLook({ weightClasses })}
        />
        <div className="filter-line">
          <LeastGrams grams={look.grams} onGrams={(grams) => onLook({ grams })} />
          <label className="filter-field">
            <span>Maker or fibre</span>
            <input className="field" value={look.make} onChange={(event) => onLook({ make: event.target.value })} />
          </label>
          <Tick name="not promised" on={look.unpromised} onTurn={(unpromised) => onLook({ unpromised })} />
          <Tick name="without a measured shade" on={look.unmeasured} onTurn={(unmeasured) => onLook({ unmeasured })} />
        </div>
      </div>
      {(on > 0 || look.words !== "") && (
        <p className="stash-found">
          <span role="status">
            {found} of {of} yarns
          </span>
          <button
            type="button"
            className="button quiet"
            onClick={() => onLook({ ...FIRST_LOOK, picture: look.picture, measure: look.measure, order: look.order })}
          >
            Show all
          </button>
        </p>
      )}
    </div>
  );
}

interface LeastGramsProps {
  readonly grams: number | null;
  readonly onGrams: (grams: number | null) => void;
}

function LeastGrams({ grams, onGrams }: LeastGramsProps): ReactNode {
  const [draft, setDraft] = useState(grams === null ? "" : String(grams));
  const typed = draft.trim() === "" ? null : numberIn(draft);
  const isWrong = draft.trim() !== "" && (typed === null || typed < 0);
  return (
    <label className="filter-field">
      <span>At least, in grams</span>
      <input
        className="field short-field"
        inputMode="decimal"
        aria-invalid={isWrong}
        title={grams === null ? "Any amount" : `From ${gramsWords(grams)}`}
        value={draft}
        onChange={(event) => {
          setDraft(event.target.value);
          const next = numberIn(event.target.value);
          onGrams(next !== null && next >= 0 ? next : null);
        }}
      />
    </label>
  );
}

interface TicksProps<Value extends string | number> {
  readonly legend: string;
  readonly options: readonly (readonly [Value, string])[];
  readonly on: readonly Value[];
  readonly onTurn: (on: readonly Value[]) => void;
}

/** None ticked is all of them. */
function Ticks<Value extends string | number>({ legend, options, on, onTurn }: TicksProps<Value>): ReactNode {
  return (
    <fieldset className="choice">
      <legend>{legend}</legend>
      {options.map(([value, name]) => (
        <label key={value}>
          <input
            type="checkbox"
            checked={on.includes(value)}
            onChange={(event) => onTurn(event.target.checked ? [...on, value] : on.filter((one) => one !== value))}
          />
          <span>{name}</span>
        </label>
      ))}
    </fieldset>
  );
}

interface TickProps {
  readonly name: string;
  readonly on: boolean;
  readonly onTurn: (on: boolean) => void;
}

function Tick({ name, on, onTurn }: TickProps): ReactNode {
  return (
    <div className="choice">
      <label>
        <input type="checkbox" checked={on} onChange={(event) => onTurn(event.target.checked)} />
        <span>{name}</span>
      </label>
    </div>
  );
}
