/** A choice among a few, and a switch, as the wishes' form has them. */
import { useId, type ReactNode } from "react";

interface ChoiceProps<Value extends string> {
  readonly legend: string;
  readonly value: Value;
  readonly options: readonly (readonly [Value, string])[];
  readonly onChoose: (value: Value) => void;
}

export function Choice<Value extends string>({ legend, value, options, onChoose }: ChoiceProps<Value>): ReactNode {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend>{legend}</legend>
      {options.map(([option, words]) => (
        <label key={option}>
          <input type="radio" name={name} checked={value === option} onChange={() => onChoose(option)} />
          <span>{words}</span>
        </label>
      ))}
    </fieldset>
  );
}

interface SwitchProps {
  readonly name: string;
  readonly on: boolean;
  readonly onTurn: (on: boolean) => void;
}

export function Switch({ name, on, onTurn }: SwitchProps): ReactNode {
  return (
    <div className="choice">
      <label>
        <input type="checkbox" role="switch" checked={on} onChange={(event) => onTurn(event.target.checked)} />
        <span>{name}</span>
      </label>
    </div>
  );
}
