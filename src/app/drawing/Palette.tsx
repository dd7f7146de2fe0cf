/** The pattern's colours to draw with, and the ways to add one and to change one. */
import { useId, useState, type ReactNode } from "react";
import { NO_STITCH } from "../../chart/chart.ts";
import { colourName, swatchOf } from "../pattern/swatch.ts";
import { ColourForm } from "./ColourForm.tsx";
import type { Desk } from "./useDesk.ts";

export function Palette({ desk }: { readonly desk: Desk }): ReactNode {
  const { colours, value, takeValue } = desk;
  const [form, setForm] = useState<"new" | "change" | null>(null);
  const name = useId();
  const current = colours[value];
  const close = (): void => {
    setForm(null);
    requestAnimationFrame(() =>
      (document.getElementById(`${name}-${form}`) ?? document.getElementById(`${name}-new`))?.focus(),
    );
  };
  return (
    <section className="desk-part" aria-labelledby={`${name}-title`}>
      <h3 id={`${name}-title`}>Colours</h3>
      <fieldset className="desk-palette">
        <legend className="unseen">Draw with</legend>
        {colours.map((colour, at) => (
          <label key={colour.id} title={colourName(colour)}>
            <input type="radio" name={name} checked={value === at} onChange={() => takeValue(at)} />
            <span className="palette-item">
              <span className="palette-swatch" style={{ background: swatchOf(colour) }} />
              <span className="palette-id">{colour.id}</span>
              <span className="palette-name">{colour.name ?? ""}</span>
              {colour.role === "main" && (
                <abbr className="palette-role" title="main colour">
                  MC
                </abbr>
              )}
            </span>
          </label>
        ))}
        <label>
          <input type="radio" name={name} checked={value === NO_STITCH} onChange={() => takeValue(NO_STITCH)} />
          <span className="palette-item">
            <span className="palette-swatch no-stitch" />
            <span className="palette-name">no stitch</span>
          </span>
        </label>
      </fieldset>
      <div className="desk-acts">
        <button
          type="button"
          id={`${name}-new`}
          className="button"
          aria-expanded={form === "new"}
          onClick={() => setForm(form === "new" ? null : "new")}
        >
          Add a colour
        </button>
        {current && (
          <button
            type="button"
            id={`${name}-change`}
            className="button"
            aria-expanded={form === "change"}
            onClick={() => setForm(form === "change" ? null : "change")}
          >
            Change {colourName(current)}
          </button>
        )}
      </div>
      {form === "new" && <ColourForm key="new" onTaken={desk.takeColour} onClose={close} />}
      {form === "change" && current && (
        <ColourForm key={current.id} colour={current} onTaken={desk.takeColour} onClose={close} />
      )}
    </section>
  );
}
