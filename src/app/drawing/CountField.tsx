/** A small field for a row, a stitch or a number of them. */
import { useId, useState, type ReactNode } from "react";

interface CountFieldProps {
  readonly name: string;
  readonly value: string;
  readonly least: number;
  readonly most: number;
  readonly onType: (value: string) => void;
}

export function CountField({ name, value, least, most, onType }: CountFieldProps): ReactNode {
  const id = useId();
  return (
    <span className="count-field">
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        className="field"
        type="number"
        min={least}
        max={most}
        step={1}
        value={value}
        aria-invalid={countIn(value, least, most) === null}
        onChange={(event) => onType(event.target.value)}
      />
    </span>
  );
}

/** The whole number typed, or null where it is none or out of range. */
export function countIn(typed: string, least: number, most: number): number | null {
  const count = Number(typed);
  return typed.trim() !== "" && Number.isInteger(count) && count >= least && count <= most ? count : null;
}

interface Counted {
  readonly key: string;
  readonly name: string;
  readonly most: number;
  /** What stands there until something else is typed. */
  readonly first: number;
}

/** Several counts from 1 that belong together, as fields; null where one of them is none. */
export function useCounts(fields: readonly Counted[]): {
  readonly counts: readonly number[] | null;
  readonly grid: ReactNode;
} {
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const counts = fields.map(({ key, most, first }) => countIn(typed[key] ?? String(first), 1, most));
  const grid = (
    <div className="count-grid">
      {fields.map(({ key, name, most, first }) => (
        <CountField
          key={key}
          name={name}
          value={typed[key] ?? String(first)}
          least={1}
          most={most}
          onType={(next) => setTyped((now) => ({ ...now, [key]: next }))}
        />
      ))}
    </div>
  );
  return { counts: counts.includes(null) ? null : (counts as number[]), grid };
}
