/** A shade by its plain name: wide, but better than nothing, and a place to begin. */
import { useState, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { shadeOfName } from "../../colour/namedShade.ts";
import { capital } from "../shell/words.ts";
import type { ShadeWayProps } from "./shadeDraft.ts";
import { Field } from "./YarnFieldset.tsx";

export function NamedShade({ onShade }: ShadeWayProps): ReactNode {
  const [text, setText] = useState("");
  const words = text.toLowerCase().match(/\p{L}+/gu) ?? [];
  const named = shadeOfName(words);
  const take = (): void => {
    if (named) onShade({ lab: named.lab, uncertainty: named.uncertainty, from: "eye" });
  };
  return (
    <div
      className="named-shade"
      onKeyDown={(event) => {
        if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
        event.preventDefault();
        take();
      }}
    >
      <Field
        name="What you would call it"
        value={text}
        placeholder="dark greyish blue"
        wrong={
          words.length > 0 && !named
            ? `The name: expected a hue, such as red, blue, brown or grey, and how light or strong, found “${text.trim()}”.`
            : undefined
        }
        hint="As “light brown”, “deep purplish red”, “olive green”."
        onType={setText}
      />
      {named && (
        <div className="named-found">
          <span className="swatch" style={{ background: hexFromLab(named.lab) }} />
          <p>
            {capital(named.name)}, give or take {named.uncertainty} ΔE00: people call many shades so.
          </p>
          <button type="button" className="button" onClick={take}>
            Take this shade
          </button>
        </div>
      )}
    </div>
  );
}
