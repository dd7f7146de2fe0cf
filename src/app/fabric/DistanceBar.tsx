/** From how far and in which light the fabric is looked at: it rules every picture and every word on the page. */
import type { CSSProperties, ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DISTANCES, LIGHTS, STANDS } from "../shell/view.ts";
import { luxWords, metresWords } from "../shell/words.ts";

const last = DISTANCES.length - 1;
const place = (metres: number): number => DISTANCES.indexOf(metres) / last;

function standName(metres: number): string {
  return STANDS.find((stand) => stand.metres === metres)?.name ?? "";
}

export function DistanceBar(): ReactNode {
  const { view, look, settled } = useBench();
  const stand = standName(view.distance);
  return (
    <section
      className="distance"
      aria-label="How the fabric is looked at"
      data-distance={view.distance}
      data-ahead={settled ? "all" : "some"}
    >
      <label className="distance-words" htmlFor="distance">
        <span>Looked at from</span>
        <output className="distance-metres" htmlFor="distance">
          {metresWords(view.distance)}
        </output>
      </label>
      <div className="distance-slide">
        <input
          id="distance"
          type="range"
          min={0}
          max={last}
          step={1}
          value={DISTANCES.indexOf(view.distance)}
          style={{ "--place": place(view.distance) } as CSSProperties}
          aria-valuetext={`${metresWords(view.distance)}${stand && `, ${stand}`}`}
          onChange={(event) => look({ distance: DISTANCES[Number(event.target.value)]! })}
        />
        <div className="stands">
          {STANDS.map(({ metres, name }) => (
            <button
              key={metres}
              type="button"
              className="stand"
              style={{ "--place": place(metres) } as CSSProperties}
              aria-pressed={view.distance === metres}
              onClick={() => look({ distance: metres })}
            >
              {name}
            </button>
          ))}
        </div>
      </div>
      <div className="looks">
        <fieldset className="choice">
          <legend>Light</legend>
          {LIGHTS.map(({ lux, name }) => (
            <label key={lux} title={luxWords(lux)}>
              <input type="radio" name="light" checked={view.light === lux} onChange={() => look({ light: lux })} />
              <span>{name}</span>
            </label>
          ))}
        </fieldset>
        <fieldset className="choice">
          <legend>Shown</legend>
          <label title="The fabric without the detail that is lost at this distance">
            <input
              type="checkbox"
              role="switch"
              checked={view.seen}
              onChange={(e) => look({ seen: e.target.checked })}
            />
            <span>as seen</span>
          </label>
          <label title="Light and dark alone">
            <input
              type="checkbox"
              role="switch"
              checked={view.grey}
              onChange={(e) => look({ grey: e.target.checked })}
            />
            <span>grey</span>
          </label>
        </fieldset>
      </div>
    </section>
  );
}
