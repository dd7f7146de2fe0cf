/** From how far two shades are looked at: the same distance as on the bench, set here too. */
import { useId, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DISTANCES, STANDS } from "../shell/view.ts";
import { luxWords, metresWords } from "../shell/words.ts";

export function StandChoice(): ReactNode {
  const { hand, look } = useBench();
  const id = useId();
  const offered = DISTANCES.filter(
    (metres) => metres === hand.distance || STANDS.some((stand) => stand.metres === metres),
  );
  return (
    <p className="stand-choice">
      <label htmlFor={id}>Looked at from</label>
      <select
        id={id}
        className="field"
        value={hand.distance}
        onChange={(event) => look({ distance: Number(event.target.value) })}
      >
        {offered.map((metres) => {
          const stand = STANDS.find((one) => one.metres === metres);
          return (
            <option key={metres} value={metres}>
              {metresWords(metres)}
              {stand && `, ${stand.name}`}
            </option>
          );
        })}
      </select>
      <span>in {luxWords(hand.light)}</span>
    </p>
  );
}
