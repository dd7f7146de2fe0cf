/** A chart colour with what can be said of it: what it is called, and its shade by a code, by words, or like a yarn she has. */
import { useEffect, useId, useState, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import type { ReadColour, ReadSymbol } from "../../intake/readChart.ts";
import { hasShade, sortByLightness } from "../../yarn/stash.ts";
import { labOfYarn, uncertaintyOfYarn } from "../../yarn/yarn.ts";
import { Icon } from "../ui/Icon.tsx";
import { useShelf } from "../stash/useShelf.ts";
import { namedColour, typedColour } from "./colourSaid.ts";
import { ColourMark } from "./ColourMark.tsx";
import { colourWords, countWords } from "./words.ts";

interface ColourRowProps {
  readonly id: string;
  readonly colour: ReadColour;
  readonly symbol?: ReadSymbol | undefined;
  /** Stitches of it. */
  readonly count: number;
  readonly onChange: (colour: ReadColour, said: string) => void;
  /** What else can be done with it; made when it is asked for. */
  readonly more?: () => ReactNode;
  /** What else is said of it, always in view. */
  readonly aside?: ReactNode;
}

export function ColourRow({ id, colour, symbol, count, onChange, more, aside }: ColourRowProps): ReactNode {
  const [isOpen, setOpen] = useState(false);
  const called = colourWords(id, colour);
  return (
    <li className="read-colour" data-colour={id}>
      <ColourMark colour={colour} symbol={symbol} />
      <Kept
        label={symbol ? `What the key says of sign ${id}` : `Name of colour ${id}`}
        value={colour.name ?? ""}
        placeholder={called}
        onKeep={(name) => onChange(namedColour(colour, name), `${id} is called ${name || called}`)}
      />
      <ShadeField colour={colour} called={called} onChange={onChange} />
      <button
        type="button"
        className="tool"
        aria-expanded={isOpen}
        aria-label={`More about ${called}`}
        title="More"
        onClick={() => setOpen(!isOpen)}
      >
        <Icon name="more" />
      </button>
      <span className="colour-count">
        {countWords(count, "stitch", "stitches")}
        {colour.assumed &&
          (colour.uncertainty === undefined ? ", shade not known yet" : ", shade by its name, an estimate")}
      </span>
      {aside}
      {isOpen && (
        <div className="colour-acts">
          <LikeYarn called={called} colour={colour} onChange={onChange} />
          {more?.()}
        </div>
      )}
    </li>
  );
}

interface ShadeFieldProps {
  readonly colour: ReadColour;
  readonly called: string;
  readonly onChange: ColourRowProps["onChange"];
}

function ShadeField({ colour, called, onChange }: ShadeFieldProps): ReactNode {
  const [wrong, setWrong] = useState<string | null>(null);
  const note = useId();
  useEffect(() => setWrong(null), [colour]);
  return (
    <>
      <Kept
        label={`Shade of ${called}`}
        value={colour.hex}
        note={wrong ? note : undefined}
        onKeep={(text) => {
          const next = typedColour(colour, text);
          setWrong(next ? null : `Expected a code such as #8f7a55 or words such as dark red, found “${text}”.`);
          if (next) onChange(next, `the shade of ${called}`);
        }}
      />
      {wrong && (
        <span id={note} role="alert" className="reading-wrong">
          {wrong}
        </span>
      )}
    </>
  );
}

interface KeptProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly note?: string | undefined;
  readonly onKeep: (value: string) => void;
}

/** Kept when it is left, and by Enter, which goes on to the next field; Escape puts it back. */
function Kept({ label, value, placeholder, note, onKeep }: KeptProps): ReactNode {
  const [draft, setDraft] = useState(value);
  useEffect(() => setDraft(value), [value]);
  const keep = (): void => {
    const next = draft.trim();
    if (next !== value) onKeep(next);
  };
  return (
    <input
      className="field"
      aria-label={label}
      aria-describedby={note}
      aria-invalid={note !== undefined}
      placeholder={placeholder}
      maxLength={120}
      value={draft}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={keep}
      onKeyDown={(event) => {
        if (event.key === "Escape") setDraft(value);
        if (event.key !== "Enter") return;
        event.preventDefault();
        const fields = [
          ...(event.currentTarget.closest("ul")?.querySelectorAll<HTMLInputElement>("input.field") ?? []),
        ];
        const step = fields.length > 0 && event.currentTarget.closest("li")?.querySelectorAll("input.field").length;
        const next = fields[fields.indexOf(event.currentTarget) + (step || 1)];
        if (next) next.select();
        else keep();
        next?.focus();
      }}
    />
  );
}

interface LikeYarnProps {
  readonly called: string;
  readonly colour: ReadColour;
  readonly onChange: ColourRowProps["onChange"];
}

function LikeYarn({ called, colour, onChange }: LikeYarnProps): ReactNode {
  const { shelf } = useShelf();
  const yarns = sortByLightness(shelf.yarns.filter(hasShade));
  if (yarns.length === 0) return null;
  return (
    <label>
      <span>Like a yarn</span>
      <select
        className="field"
        aria-label={`Shade of ${called}, like a yarn`}
        value=""
        onChange={(event) => {
          const yarn = yarns.find(({ id }) => id === event.target.value);
          if (!yarn) return;
          const lab = labOfYarn(yarn);
          const { assumed: _assumed, ...rest } = colour;
          onChange(
            { ...rest, lab, hex: hexFromLab(lab), uncertainty: uncertaintyOfYarn(yarn) },
            `${called} as ${yarn.name}`,
          );
        }}
      >
        <option value="" disabled>
          of your shelf
        </option>
        {yarns.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
