/** A colour of the pattern, new or changed: what it is called, whether it is the main one, and its shade picked or typed. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";
import type { PatternColour } from "../../fabric/pattern.ts";
import { freeIds } from "../../intake/readChart.ts";
import { colourName } from "../pattern/swatch.ts";
import { useBench } from "../shell/bench.ts";
import { BY_EYE, shadeDraftOf, shadeOf, shownHex, type ShadeDraft } from "../yarnForm/shadeDraft.ts";
import { ShadePicker } from "../yarnForm/ShadePicker.tsx";
import { TypedShade } from "../yarnForm/TypedShade.tsx";
import { Choice } from "../wishes/controls.tsx";
import { Field } from "../yarnForm/YarnFieldset.tsx";
import "../style/yarnForm.css";

interface ColourFormProps {
  /** The colour that is changed; without it a new one is made. */
  readonly colour?: PatternColour;
  /** The id of a new colour. */
  readonly onTaken: (id: string) => void;
  readonly onClose: () => void;
}

/** Where a new colour begins: the middle of everything, as the picker has it. */
const MIDDLE: ShadeDraft = { lab: [55, 10, 17], uncertainty: BY_EYE, from: "eye" };

export function ColourForm({ colour, onTaken, onClose }: ColourFormProps): ReactNode {
  const { project, commit } = useBench();
  const { colours, charts } = project!.pattern;
  const form = useRef<HTMLFormElement>(null);
  const [name, setName] = useState(colour?.name ?? "");
  const [role, setRole] = useState<NonNullable<PatternColour["role"]>>(colour?.role ?? "contrast");
  const [shade, setShade] = useState<ShadeDraft>(() => shadeDraftOf(colour?.shade) ?? MIDDLE);
  const [isNewShade, setIsNewShade] = useState(!colour);
  useEffect(() => form.current?.querySelector("input")?.focus(), []);

  const isStitched = colour !== undefined && charts.some(({ rows }) => rows.some((row) => row.includes(colour.id)));
  const keep = (): void => {
    const called = name.trim();
    if (colour) {
      const changed = {
        kind: "setPatternColour" as const,
        id: colour.id,
        ...(called !== (colour.name ?? "") && { name: called }),
        ...(isNewShade && { shade: shadeOf(shade) }),
        ...(role !== (colour.role ?? "contrast") && { role }),
      };
      if (Object.keys(changed).length === 2 || commit([changed], `${called || colourName(colour)} changed`)) onClose();
      return;
    }
    const [id] = freeIds(new Set(colours.map((one) => one.id)));
    if (id === undefined) return;
    const word = called || plainName(shade.lab);
    const added: PatternColour = { id, name: word, role, shade: shadeOf(shade) };
    if (!commit([{ kind: "addPatternColour", colour: added }], `${word} added to the colours`)) return;
    onTaken(id);
    onClose();
  };
  const remove = (): void => {
    if (!colour) return;
    if (commit([{ kind: "removePatternColour", id: colour.id }], `${colourName(colour)} taken off the colours`))
      onClose();
  };
  return (
    <form
      ref={form}
      className="colour-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        onClose();
      }}
    >
      <div className="colour-form-head">
        <span className="colour-patch" style={{ background: shownHex(shade) }} />
        <p>
          {plainName(shade.lab)}, {hexFromLab(shade.lab)}
        </p>
      </div>
      <Field name="Name" value={name} onType={setName} />
      <Choice
        legend="As"
        value={role}
        options={[
          ["main", "main colour"],
          ["contrast", "contrast colour"],
        ]}
        onChoose={setRole}
      />
      <TypedShade
        shade={shade}
        onShade={(next) => {
          setShade(next);
          setIsNewShade(true);
        }}
      />
      <ShadePicker
        shade={shade}
        onShade={(next) => {
          setShade(next);
          setIsNewShade(true);
        }}
      />
      <div className="desk-acts">
        <button className="button strong">{colour ? "Keep the changes" : "Add it"}</button>
        <button type="button" className="button" onClick={onClose}>
          Leave it
        </button>
        {colour && !isStitched && (
          <button type="button" className="button" onClick={remove}>
            Take it off the colours
          </button>
        )}
      </div>
    </form>
  );
}
