/** A small field for a row, a stitch or a number of them. */
import { useId, type ReactNode } from "react";

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
