/** Which colour is the main one; all others are in contrast to it. */
import { useId, type ReactNode } from "react";
import type { PatternColour } from "../../fabric/pattern.ts";
import { useBench } from "../shell/bench.ts";
import { colourName } from "./swatch.ts";

interface MainColourProps {
  /** Those that it may be. */
  readonly colours: readonly PatternColour[];
  /** The one that it is; null where nobody has said and nothing is found. */
  readonly main: string | null;
  /** The one that was found from the stitches. */
  readonly found?: string | null;
}

export function MainColour({ colours, main, found }: MainColourProps): ReactNode {
  const { commit } = useBench();
  const id = useId();
  return (
    <p className="main-colour">
      <label htmlFor={id}>Main colour</label>
      <select
        id={id}
        className="field"
        value={main ?? ""}
        onChange={({ target: { value } }) => {
          const colour = colours.find((one) => one.id === value);
          if (colour)
            commit(
              [{ kind: "setPatternColour", id: colour.id, role: "main" }],
              `${colourName(colour)} is the main colour`,
            );
        }}
      >
        {main === null && (
          <option value="" disabled>
            not said
          </option>
        )}
        {colours.map((colour) => (
          <option key={colour.id} value={colour.id}>
            {colour.id}, {colourName(colour)}
            {colour.id === found && " (as found)"}
          </option>
        ))}
      </select>
    </p>
  );
}
