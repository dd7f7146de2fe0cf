/** Colour by colour: the yarn it keeps, how it should look, and which colours may share a yarn. */
import { useState, type ReactNode } from "react";
import { isOwned } from "../../yarn/owned.ts";
import { useBench } from "../shell/bench.ts";
import { HUES } from "./hues.ts";
import type { WishGroupProps } from "./WishForm.tsx";
import { beWords } from "./wishList.ts";

const LOOKS = ["like-original", "quieter", "louder", "light", "dark"] as const;

export function ColourWishes({ wish, set }: WishGroupProps): ReactNode {
  const { project, check } = useBench();
  const [first, setFirst] = useState("");
  const [second, setSecond] = useState("");
  const lines = check?.ladder ?? [];
  const kept = wish.keep ?? [];
  const looks = wish.look ?? [];
  const allow = wish.share?.allow;
  const pairs: readonly (readonly [string, string])[] = Array.isArray(allow) ? allow : [];
  return (
    <section aria-label="Colour by colour">
      <h3>Colour by colour</h3>
      <ul className="wish-rows">
        {lines.map(({ colour, name, was }) => {
          const held = kept.find((one) => one.colour === colour && !one.at)?.yarn ?? "";
          const be = looks.find((one) => one.colour === colour)?.be ?? "";
          return (
            <li key={colour}>
              <span className="wish-what">
                <span className="swatch small" style={{ background: was.hex }} /> {colour}, {name}
              </span>
              <select
                className="field"
                aria-label={`Yarn that ${colour} keeps`}
                value={held}
                onChange={(event) => {
                  const yarn = event.target.value;
                  const others = kept.filter((one) => one.colour !== colour || one.at);
                  set(
                    { keep: yarn ? [...others, { colour, yarn }] : others },
                    yarn ? `holding ${colour} fast` : `letting ${colour} go`,
                  );
                }}
              >
                <option value="">any yarn</option>
                {project?.yarns.filter(isOwned).map((yarn) => (
                  <option key={yarn.id} value={yarn.id}>
                    keeps {yarn.name}
                  </option>
                ))}
              </select>
              <select
                className="field"
                aria-label={`How ${colour} should look`}
                value={be}
                onChange={(event) => {
                  const next = event.target.value;
                  const others = looks.filter((one) => one.colour !== colour);
                  set(
                    { look: next ? [...others, { colour, be: next }] : others },
                    next ? `${colour} ${beWords(next)}` : `${colour} as it comes`,
                  );
                }}
              >
                <option value="">as it comes</option>
                {LOOKS.map((look) => (
                  <option key={look} value={look}>
                    {beWords(look)}
                  </option>
                ))}
                {HUES.map((hue) => (
                  <option key={hue} value={`hue:${hue}`}>
                    in {hue}
                  </option>
                ))}
              </select>
            </li>
          );
        })}
      </ul>
      <div className="choice">
        <label>
          <input
            type="checkbox"
            role="switch"
            checked={allow === true}
            onChange={(event) =>
              set(
                { share: event.target.checked ? { allow: true } : undefined },
                event.target.checked ? "yarns may serve twice" : "each yarn once",
              )
            }
          />
          <span>Any two colours may be one yarn</span>
        </label>
      </div>
      {allow !== true && (
        <div className="wish-line">
          <span>May be one yarn:</span>
          {(
            [
              ["The first colour", first, setFirst],
              ["The second colour", second, setSecond],
            ] as const
          ).map(([label, value, choose]) => (
            <select
              key={label}
              className="field"
              aria-label={`${label} of two that may be one yarn`}
              value={value}
              onChange={(event) => choose(event.target.value)}
            >
              <option value="">…</option>
              {lines.map(({ colour }) => (
                <option key={colour}>{colour}</option>
              ))}
            </select>
          ))}
          <button
            type="button"
            className="button"
            disabled={!first || !second || first === second}
            onClick={() => {
              const others = pairs.filter(([a, b]) => !(a === first && b === second) && !(a === second && b === first));
              set({ share: { allow: [...others, [first, second]] } }, `${first} and ${second} may be one yarn`);
              setFirst("");
              setSecond("");
            }}
          >
            Add
          </button>
        </div>
      )}
    </section>
  );
}
