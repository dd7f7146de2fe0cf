/** What is said of a yarn, changed where it stands: a field that looks like its words until a hand is on it, kept when it is left. */
import { useEffect, useId, useState, type ReactNode } from "react";

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly className?: string;
  /** The label is told to screen readers and not shown. */
  readonly bare?: boolean;
  /** An empty field is put back. */
  readonly needed?: boolean;
  readonly onKeep: (value: string) => void;
}

export function TextField(props: TextFieldProps): ReactNode {
  const { label, value, placeholder, className = "", bare = false, needed = false, onKeep } = props;
  const [draft, setDraft] = useState(value);
  const id = useId();
  useEffect(() => setDraft(value), [value]);
  const keep = (): void => {
    const next = draft.trim();
    if (needed && next === "") setDraft(value);
    else if (next !== value) onKeep(next);
  };
  const field = (
    <input
      id={id}
      className={`in-place ${className}`}
      aria-label={bare ? label : undefined}
      placeholder={placeholder}
      maxLength={400}
      value={draft}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={keep}
      onKeyDown={(event) => {
        if (event.key === "Enter") event.currentTarget.blur();
        if (event.key === "Escape") setDraft(value);
      }}
    />
  );
  return bare ? field : <Fact label={<label htmlFor={id}>{label}</label>}>{field}</Fact>;
}

interface NumberFieldProps {
  readonly label: string;
  readonly value: number | undefined;
  readonly unit: string;
  /** A number below is refused with a sentence; with `above` the least itself too. */
  readonly least: number;
  readonly above?: boolean;
  readonly whole?: boolean;
  readonly bare?: boolean;
  /** null: the field was emptied. */
  readonly onKeep: (value: number | null) => void;
}

export function NumberField(props: NumberFieldProps): ReactNode {
  const { label, value, unit, least, above = false, whole = false, bare = false, onKeep } = props;
  const written = value === undefined ? "" : String(Number(value.toFixed(2)));
  const [draft, setDraft] = useState(written);
  const [wrong, setWrong] = useState<string | null>(null);
  const id = useId();
  useEffect(() => {
    setDraft(written);
    setWrong(null);
  }, [written]);
  const keep = (): void => {
    if (draft.trim() === written) return setWrong(null);
    if (draft.trim() === "") return onKeep(null);
    const next = numberIn(draft);
    const fits = next !== null && (above ? next > least : next >= least) && (!whole || Number.isInteger(next));
    if (!fits) return setWrong(`${whole ? "A whole number" : "A number"} ${above ? "above" : "from"} ${least}.`);
    setWrong(null);
    onKeep(next);
  };
  const field = (
    <>
      <span className="with-unit">
        <input
          id={id}
          className="in-place number"
          inputMode="decimal"
          autoComplete="off"
          placeholder={bare ? "" : "not known"}
          aria-label={bare ? label : undefined}
          aria-invalid={wrong !== null}
          aria-describedby={wrong ? `${id}-wrong` : undefined}
          value={draft}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={keep}
          onKeyDown={(event) => {
            if (event.key === "Enter") keep();
            if (event.key === "Escape") setDraft(written);
          }}
        />
        <span className="unit">{unit}</span>
      </span>
      {wrong && (
        <span id={`${id}-wrong`} className="field-wrong" role="alert">
          {wrong}
        </span>
      )}
    </>
  );
  return bare ? field : <Fact label={<label htmlFor={id}>{label}</label>}>{field}</Fact>;
}

/** A decimal comma is one. */
export function numberIn(typed: string): number | null {
  const value = Number(typed.trim().replace(",", "."));
  return typed.trim() === "" || !Number.isFinite(value) ? null : value;
}

interface SelectFieldProps {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [string, string])[];
  readonly help?: ReactNode;
  /** A word more, under the choice. */
  readonly more?: string | null;
  readonly onKeep: (value: string) => void;
}

export function SelectField({ label, value, options, help, more, onKeep }: SelectFieldProps): ReactNode {
  const id = useId();
  return (
    <Fact
      label={
        <>
          <label htmlFor={id}>{label}</label> {help}
        </>
      }
    >
      <select id={id} className="in-place" value={value} onChange={(event) => onKeep(event.target.value)}>
        {options.map(([option, words]) => (
          <option key={option} value={option}>
            {words}
          </option>
        ))}
      </select>
      {more && <p className="fact-quiet">{more}</p>}
    </Fact>
  );
}

/** One line: what it is, and what is known of it. */
export function Fact({ label, children }: { readonly label: ReactNode; readonly children: ReactNode }): ReactNode {
  return (
    <div className="fact">
      <div className="fact-label">{label}</div>
      <div className="fact-value">{children}</div>
    </div>
  );
}
