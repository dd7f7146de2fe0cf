/** Every wish there is, grouped as she thinks of them; each change is kept at once and can be undone. */
import { useEffect, useRef, type ReactNode } from "react";
import type { Wish } from "../../recolour/wish.ts";
import { useBench } from "../shell/bench.ts";
import { BandWishes } from "./BandWishes.tsx";
import { ColourWishes } from "./ColourWishes.tsx";
import { Choice, Switch } from "./controls.tsx";
import { PlaceWishes } from "./PlaceWishes.tsx";
import { YarnWishes } from "./YarnWishes.tsx";
import {
  changedWish,
  CHARACTER_WORDS,
  LADDER_WORDS,
  TERM_NAMES,
  TOGETHER_WORDS,
  type Names,
  type WishParts,
} from "./wishList.ts";

export interface WishGroupProps {
  readonly wish: Wish;
  /** Sets some parts and says what was done, for undo. */
  readonly set: (parts: WishParts, name: string) => void;
}

interface WishFormProps {
  readonly wish: Wish;
  readonly names: Names;
  readonly onSet: (wish: Wish, name: string) => void;
  readonly onClose: () => void;
}

/** What a term may count for against its usual weight. */
const FACTORS = [
  [0, "not at all"],
  [0.5, "half"],
  [1, "as usual"],
  [2, "double"],
  [4, "four times"],
] as const;

export function WishForm({ wish, names, onSet, onClose }: WishFormProps): ReactNode {
  const { project, colourway } = useBench();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  if (!project || !colourway) return null;
  const set = (parts: WishParts, name: string) => onSet(changedWish(wish, parts), name);
  const group = { wish, set };
  return (
    <dialog ref={dialog} className="message wish-form" aria-labelledby="wish-form-title" onClose={onClose}>
      <h2 id="wish-form-title">Wishes for “{colourway.name ?? colourway.id}”</h2>
      <p className="wish-note">The search keeps to all of them, and says so where they cannot be met together.</p>
      <section aria-label="The whole">
        <h3>The whole</h3>
        <Choice
          legend="Light and dark"
          value={wish.ladder ?? "same"}
          options={[
            ["same", "as in the pattern"],
            ["reversed", "turned over"],
            ["free", "as it comes"],
          ]}
          onChoose={(ladder) =>
            set({ ladder: ladder === "same" ? undefined : ladder }, LADDER_WORDS[ladder].toLowerCase())
          }
        />
        <Choice
          legend="The pattern’s character"
          value={wish.character ?? "usual"}
          options={[
            ["close", "closely"],
            ["usual", "as usual"],
            ["free", "loosely"],
          ]}
          onChoose={(character) =>
            set({ character: character === "usual" ? undefined : character }, CHARACTER_WORDS[character].toLowerCase())
          }
        />
        <Choice
          legend="The fabric against the pattern"
          value={wish.fabric ?? "as it is"}
          options={[
            ["quieter", "quieter"],
            ["as it is", "as loud"],
            ["louder", "louder"],
          ]}
          onChoose={(fabric) =>
            set(
              { fabric: fabric === "as it is" ? undefined : fabric },
              `the fabric ${fabric === "as it is" ? "as loud as the pattern" : fabric}`,
            )
          }
        />
        <Choice
          legend="Ways to be found"
          value={String(wish.ways ?? 3)}
          options={[
            ["1", "one"],
            ["2", "two"],
            ["3", "three"],
            ["5", "five"],
          ]}
          onChoose={(count) => set({ ways: count === "3" ? undefined : Number(count) }, `${count} to be found`)}
        />
        <Switch
          name="Bands that echo one another stay recognisably alike"
          on={wish.echoes === "alike"}
          onTurn={(on) => set({ echoes: on ? "alike" : undefined }, on ? "echoes alike" : "echoes as they come")}
        />
      </section>
      <ColourWishes {...group} />
      <PlaceWishes {...group} names={names} />
      <BandWishes {...group} />
      <YarnWishes {...group} />
      <section aria-label="Together">
        <h3>What goes together</h3>
        {TOGETHER_WORDS.map(([key, words]) => (
          <Switch
            key={key}
            name={words}
            on={wish.together?.[key] === true}
            onTurn={(on) =>
              set(
                { together: { ...wish.together, [key]: on ? true : undefined } as Wish["together"] },
                words.toLowerCase(),
              )
            }
          />
        ))}
        <p className="wish-note">
          Only where your yarns say how thick they are, what they are made of and which lot they are from; what is not
          known is let through and told.
        </p>
        <Choice
          legend="Colours that may be bought"
          value={String(wish.buy ?? 0)}
          options={[
            ["0", "none"],
            ["1", "one"],
            ["2", "two"],
            ["3", "three"],
          ]}
          onChoose={(count) =>
            set({ buy: count === "0" ? undefined : Number(count) }, `${count === "0" ? "nothing" : count} to be bought`)
          }
        />
      </section>
      <section aria-label="What counts">
        <h3>What counts, and how much</h3>
        <div className="wish-grid">
          {TERM_NAMES.map(([term, name]) => (
            <label key={term} className="cloth-field">
              <span>{name}</span>
              <select
                className="field"
                value={wish.weights?.[term] ?? 1}
                onChange={(event) => {
                  const factor = Number(event.target.value);
                  set(
                    { weights: { ...wish.weights, [term]: factor === 1 ? undefined : factor } as Wish["weights"] },
                    `weighing ${name.toLowerCase()}`,
                  );
                }}
              >
                {FACTORS.map(([factor, words]) => (
                  <option key={factor} value={factor}>
                    {words}
                  </option>
                ))}
              </select>
            </label>
          ))}
        </div>
      </section>
      <form method="dialog" className="cloth-end">
        <button className="button strong">Done</button>
      </form>
    </dialog>
  );
}
