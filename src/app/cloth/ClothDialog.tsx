/** Her own knitting: how strong its texture is and how much darker than its yarn, as usual, as she sets it, or as a photograph tells. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { ClothMeasure } from "../../document/project.ts";
import { KNITTED_WOOL } from "../../vision/masking.ts";
import { useBench } from "../shell/bench.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { SwatchPhoto } from "./SwatchPhoto.tsx";

interface ClothNumbers {
  readonly stitch: number;
  readonly floor: number;
  readonly factor: number;
}

const USUAL: ClothNumbers = { stitch: KNITTED_WOOL.stitch, floor: KNITTED_WOOL.floor, factor: 1 };

const numbersOf = (cloth: ClothMeasure | undefined): ClothNumbers => ({
  stitch: cloth?.texture?.stitch ?? USUAL.stitch,
  floor: cloth?.texture?.floor ?? USUAL.floor,
  factor: cloth?.factor ?? USUAL.factor,
});

/** What may be typed; the file allows as much. */
const FIELDS = [
  { key: "stitch", name: "Contrast of the stitch", least: 0, most: 1 },
  { key: "floor", name: "Contrast of the rest", least: 0, most: 1 },
  { key: "factor", name: "Cloth’s light over the yarn’s", least: 0.2, most: 1.5 },
] as const;

export function ClothDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { project, commit } = useBench();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  const now = numbersOf(project?.cloth);
  const keep = (next: ClothNumbers, name: string): boolean => {
    const { factor, texture: _, ...kept } = project?.cloth ?? {};
    const texture = { stitch: next.stitch, floor: next.floor };
    const cloth = { ...kept, texture, ...(factor !== undefined || next.factor !== 1 ? { factor: next.factor } : {}) };
    return commit([{ kind: "setCloth", cloth }], name);
  };
  return (
    <dialog ref={dialog} className="message cloth-dialog" aria-labelledby="cloth-title" onClose={onClose}>
      <h2 id="cloth-title">Your cloth</h2>
      <p>
        Knitting has a texture of its own, and it hides fine patterns. These numbers are what is usual for hand-knit
        wool; they are our choice, for none are published. A photograph of your own plain swatch replaces them.
      </p>
      <p className="cloth-words">
        What these numbers mean <NumberHelp of={["texture", "clothFactor"]} about="the numbers of your cloth" />
      </p>
      <div className="cloth-fields">
        {FIELDS.map(({ key, name, least, most }) => (
          <NumberField
            key={`${key} ${now[key]}`}
            name={name}
            value={now[key]}
            usual={USUAL[key]}
            limits={{ least, most }}
            onKeep={(value) => keep({ ...now, [key]: value }, `setting ${name.toLowerCase()}`)}
          />
        ))}
      </div>
      <p className="cloth-words">
        A stronger texture hides more. The cloth’s light over the yarn’s is 1 where a knitted piece looks as light as
        its ball; many look a little darker, for there are shadows between the stitches.
      </p>
      <SwatchPhoto
        onMeasured={({ texture, factor }) =>
          keep({ ...texture, factor: factor?.value ?? now.factor }, "taking the swatch’s numbers")
        }
      />
      <form method="dialog" className="cloth-end">
        <button
          type="button"
          className="button"
          disabled={!project?.cloth}
          onClick={() => commit([{ kind: "setCloth", cloth: null }], "going by usual wool again")}
        >
          Go by usual wool
        </button>
        <button className="button strong">Done</button>
      </form>
    </dialog>
  );
}

interface NumberFieldProps {
  readonly name: string;
  readonly value: number;
  readonly usual: number;
  readonly limits: { readonly least: number; readonly most: number };
  readonly onKeep: (value: number) => boolean;
}

function NumberField({ name, value, usual, limits, onKeep }: NumberFieldProps): ReactNode {
  const shown = String(Number(value.toFixed(4)));
  const [draft, setDraft] = useState(shown);
  const typed = Number(draft.replace(",", "."));
  const wrong = draft.trim() === "" || !(typed >= limits.least && typed <= limits.most);
  const keep = () => {
    if (wrong || draft === shown) return;
    if (!onKeep(typed)) setDraft(shown);
  };
  return (
    <label className="cloth-field">
      <span>{name}</span>
      <input
        className="field"
        inputMode="decimal"
        value={draft}
        aria-invalid={wrong}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={keep}
        onKeyDown={(event) => {
          if (event.key !== "Enter") return;
          event.preventDefault();
          keep();
        }}
      />
      {wrong ? (
        <span role="alert" className="cloth-wrong">
          a number between {limits.least} and {limits.most}
        </span>
      ) : (
        <span className="cloth-words">usual: {usual}</span>
      )}
    </label>
  );
}
