/** Everything of a yarn but its shade, as a label has it. */
import { useId, type InputHTMLAttributes, type ReactNode } from "react";
import { weightClassesOf, weightClassWords, WEIGHT_CLASS_NAMES } from "../../yarn/weightClass.ts";
import { capital, freeId } from "../shell/words.ts";
import { readDraft, type DraftField, type LotDraft, type YarnDraft, type YesNo } from "./yarnDraft.ts";

interface YarnFieldsetProps {
  readonly draft: YarnDraft;
  readonly wrong: Readonly<Partial<Record<DraftField, string>>>;
  readonly onChange: (draft: YarnDraft) => void;
}

export function YarnFieldset({ draft, wrong, onChange }: YarnFieldsetProps): ReactNode {
  const set = (part: Partial<YarnDraft>): void => onChange({ ...draft, ...part });
  const metres = readDraft(draft).fields.metresPer100g;
  return (
    <section className="yarn-facts" aria-labelledby="yarn-facts-title">
      <h3 id="yarn-facts-title">What is known of it</h3>
      <div className="yarn-grid">
        <Field name="Name" value={draft.name} wrong={wrong.name} required onType={(name) => set({ name })} />
        <Field name="Maker" value={draft.maker} onType={(maker) => set({ maker })} />
        <Field name="Fibre" value={draft.fibre} placeholder="Shetland wool" onType={(fibre) => set({ fibre })} />
        <Field
          name="Length"
          value={draft.length}
          wrong={wrong.length}
          placeholder="105 m in 25 g"
          hint={metres && !/100/.test(draft.length) ? `${Math.round(metres)} m in 100 g` : undefined}
          onType={(length) => set({ length })}
        />
        <SelectField
          name="Weight on the label"
          value={draft.weightClass}
          onChoose={(weightClass) => set({ weightClass })}
        >
          <option value="">
            {metres ? `not said; by its length ${weightClassWords(weightClassesOf(metres))}` : "not said"}
          </option>
          {WEIGHT_CLASS_NAMES.map((name, at) => (
            <option key={name} value={String(at)}>
              {capital(name)}
            </option>
          ))}
        </SelectField>
        <Field
          name="Plies"
          value={draft.plies}
          wrong={wrong.plies}
          inputMode="numeric"
          onType={(plies) => set({ plies })}
        />
        <YesNoField
          name="In the machine"
          value={draft.superwash}
          words={["not known", "does not felt (superwash)", "felts"]}
          onChoose={(superwash) => set({ superwash })}
        />
        <YesNoField
          name="Dyed"
          value={draft.handDyed}
          words={["not known how", "by hand", "not by hand"]}
          onChoose={(handDyed) => set({ handDyed })}
        />
      </div>
      <LotFields lots={draft.lots} wrong={wrong} onChange={(lots) => set({ lots })} />
      <Field name="Note" value={draft.note} onType={(note) => set({ note })} />
    </section>
  );
}

interface LotFieldsProps {
  readonly lots: readonly LotDraft[];
  readonly wrong: Readonly<Partial<Record<DraftField, string>>>;
  readonly onChange: (lots: readonly LotDraft[]) => void;
}

function LotFields({ lots, wrong, onChange }: LotFieldsProps): ReactNode {
  const set = (id: string, part: Partial<LotDraft>): void =>
    onChange(lots.map((lot) => (lot.id === id ? { ...lot, ...part } : lot)));
  return (
    <fieldset className="yarn-lots">
      <legend>What there is of it</legend>
      {lots.map(({ id, lot, grams, weighed }, at) => (
        <div key={id} className="yarn-lot">
          <Field
            name={lots.length > 1 ? `Grams of lot ${at + 1}` : "Grams"}
            value={grams}
            wrong={wrong[`grams ${id}`]}
            placeholder="43 g, 2 x 50 g"
            onType={(next) => set(id, { grams: next })}
          />
          <Field
            name={lots.length > 1 ? `Dye lot ${at + 1}` : "Dye lot"}
            value={lot}
            onType={(next) => set(id, { lot: next })}
          />
          <div className="choice">
            <label>
              <input
                type="checkbox"
                checked={weighed}
                onChange={(event) => set(id, { weighed: event.target.checked })}
              />
              <span>on the scales</span>
            </label>
          </div>
          {lots.length > 1 && (
            <button
              type="button"
              className="button"
              aria-label={`Without lot ${at + 1}`}
              onClick={() => onChange(lots.filter((other) => other.id !== id))}
            >
              Remove
            </button>
          )}
        </div>
      ))}
      <button
        type="button"
        className="button"
        onClick={() => onChange([...lots, { id: freeId("l", lots), lot: "", grams: "", weighed: false }])}
      >
        Another lot
      </button>
    </fieldset>
  );
}

interface FieldProps extends Pick<InputHTMLAttributes<HTMLInputElement>, "placeholder" | "inputMode" | "required"> {
  readonly name: string;
  readonly value: string;
  readonly wrong?: string | undefined;
  readonly hint?: string | undefined;
  readonly onType: (value: string) => void;
}

/** A field, what is expected in it, and why not where it is something else. */
export function Field({ name, value, wrong, hint, onType, ...input }: FieldProps): ReactNode {
  const id = useId();
  const told = wrong ?? hint;
  return (
    <div className="yarn-field">
      <label htmlFor={id}>{name}</label>
      <input
        {...input}
        id={id}
        className="field"
        autoComplete="off"
        maxLength={400}
        value={value}
        aria-invalid={wrong !== undefined}
        aria-describedby={told ? `${id}-told` : undefined}
        onChange={(event) => onType(event.target.value)}
      />
      {told && (
        <span id={`${id}-told`} className={wrong ? "yarn-wrong" : "yarn-hint"} role={wrong ? "alert" : undefined}>
          {told}
        </span>
      )}
    </div>
  );
}

interface SelectFieldProps {
  readonly name: string;
  readonly value: string;
  readonly onChoose: (value: string) => void;
  /** Its options. */
  readonly children: ReactNode;
}

export function SelectField({ name, value, onChoose, children }: SelectFieldProps): ReactNode {
  const id = useId();
  return (
    <div className="yarn-field">
      <label htmlFor={id}>{name}</label>
      <select id={id} className="field" value={value} onChange={(event) => onChoose(event.target.value)}>
        {children}
      </select>
    </div>
  );
}

interface YesNoFieldProps {
  readonly name: string;
  readonly value: YesNo;
  /** For not known, yes and no. */
  readonly words: readonly [string, string, string];
  readonly onChoose: (value: YesNo) => void;
}

function YesNoField({ name, value, words, onChoose }: YesNoFieldProps): ReactNode {
  return (
    <SelectField name={name} value={value} onChoose={(chosen) => onChoose(chosen as YesNo)}>
      {(["", "yes", "no"] as const).map((option, at) => (
        <option key={option} value={option}>
          {words[at]}
        </option>
      ))}
    </SelectField>
  );
}
