/** From how far, in which light and by whose eyes the fabric is looked at: it rules every picture and every word on the page. */
import type { CSSProperties, ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DISTANCES, EYES, LIGHTS, SEVERITIES, STANDS, type Eye } from "../shell/view.ts";
import { luxWords, metresWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";

const last = DISTANCES.length - 1;
const place = (metres: number): number => DISTANCES.indexOf(metres) / last;

function standName(metres: number): string {
  return STANDS.find((stand) => stand.metres === metres)?.name ?? "";
}

export function DistanceBar(): ReactNode {
  const { hand, look, settled } = useBench();
  const stand = standName(hand.distance);
  return (
    <section
      className="distance"
      aria-label="How the fabric is looked at"
      data-hand-at={hand.distance}
      data-ahead={settled ? "all" : "some"}
    >
      <div className="distance-head">
        <label className="distance-words" htmlFor="distance">
          <span>Looked at from</span>
          <output className="distance-metres" htmlFor="distance">
            {metresWords(hand.distance)}
          </output>
        </label>
        <NumberHelp of={["distance", "light"]} about="distance and light" />
      </div>
      <div className="distance-slide">
        <input
          id="distance"
          type="range"
          min={0}
          max={last}
          step={1}
          value={DISTANCES.indexOf(hand.distance)}
          style={{ "--place": place(hand.distance) } as CSSProperties}
          aria-valuetext={`${metresWords(hand.distance)}${stand && `, ${stand}`}`}
          onChange={(event) => look({ distance: DISTANCES[Number(event.target.value)]! })}
        />
        <div className="stands">
          {STANDS.map(({ metres, name }) => (
            <button
              key={metres}
              type="button"
              className="stand"
              style={{ "--place": place(metres) } as CSSProperties}
              aria-pressed={hand.distance === metres}
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
              <input type="radio" name="light" checked={hand.light === lux} onChange={() => look({ light: lux })} />
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
              checked={hand.seen}
              onChange={(e) => look({ seen: e.target.checked })}
            />
            <span>as seen</span>
          </label>
          <label title="Light and dark alone">
            <input
              type="checkbox"
              role="switch"
              checked={hand.grey}
              onChange={(e) => look({ grey: e.target.checked })}
            />
            <span>grey</span>
          </label>
        </fieldset>
        <label className="picker eyes">
          <span className="picker-word">Eyes</span>
          <select
            value={hand.eye}
            aria-describedby={hand.eye === "ordinary" ? undefined : "eyes-note"}
            onChange={(event) => look({ eye: event.target.value as Eye })}
          >
            {EYES.map(({ eye, name }) => (
              <option key={eye} value={eye}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </div>
      {hand.eye !== "ordinary" && (
        <div className="eyes-note">
          <p id="eyes-note">
            {eyeWords(hand.eye)} <NumberHelp of="eye" />
          </p>
          <label className="picker">
            <span className="picker-word">How far</span>
            <select value={hand.severity} onChange={(event) => look({ severity: Number(event.target.value) })}>
              {SEVERITIES.map(({ severity, name }) => (
                <option key={severity} value={severity}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        </div>
      )}
    </section>
  );
}

const MISSING = { protan: "red", deutan: "green", tritan: "blue" } as const;

function eyeWords(eye: Exclude<Eye, "ordinary">): string {
  const caution = eye === "tritan" ? "The least sure of the three." : "People differ.";
  return `Eyes that lack, or half lack, the cones for ${MISSING[eye]} (${eye}), as a model has them: Machado and others 2009. ${caution}`;
}
