/** The nearest of her yarns to a colour: by their shades, and by how different the two would look side by side from where she looks. */
import { useDeferredValue, useMemo, useState, type ReactNode } from "react";
import { hexFromLab, labFromHex, type Lab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";
import { labOfShade } from "../../colour/shade.ts";
import { seenApart } from "../../fabric/sideBySide.ts";
import { nearestByShade } from "../../yarn/stash.ts";
import { useBench } from "../shell/bench.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { Choice } from "../wishes/controls.tsx";
import type { StashLine } from "./lines.ts";
import { StandChoice } from "./StandChoice.tsx";
import { nearnessWords, shortAmountWords } from "./yarnWords.ts";

/** So many are looked at as the eye does, and so many are shown. Our choice. */
const TRIED = 40;
const SHOWN = 12;

interface NearPanelProps {
  readonly lines: readonly StashLine[];
  /** The yarn she is at. */
  readonly line: StashLine | null;
  readonly onOpen: (id: string) => void;
}

type To = "yarn" | "pattern" | "code";

export function NearPanel({ lines, line, onOpen }: NearPanelProps): ReactNode {
  const { project } = useBench();
  const colours = project?.pattern.colours ?? [];
  const [to, setTo] = useState<To>("yarn");
  const [letter, setLetter] = useState<string | null>(null);
  const [code, setCode] = useState("");
  const colour = colours.find(({ id }) => id === letter) ?? colours[0];
  const typed = useDeferredValue(code);
  const lab = useMemo((): Lab | null => {
    if (to === "yarn") return line?.lab ?? null;
    if (to === "pattern") return colour ? labOfShade(colour.shade) : null;
    return labFromHex(typed.trim().startsWith("#") ? typed.trim() : `#${typed.trim()}`);
  }, [to, line, colour, typed]);
  return (
    <section className="side-part" aria-labelledby="near-title">
      <div className="titled">
        <h3 id="near-title" tabIndex={-1}>
          Nearest of your yarns
        </h3>
        <NumberHelp of={["near", "seenApart", "distance", "light"]} about="how near two shades are" />
      </div>
      <Choice
        legend="To"
        value={to}
        options={[
          ["yarn", "a yarn"],
          ["pattern", "a pattern colour"],
          ["code", "a colour code"],
        ]}
        onChoose={setTo}
      />
      {to === "yarn" && (
        <p>{line ? <strong>{line.yarn.name}</strong> : "Press a yarn on the shelf: the others are held against it."}</p>
      )}
      {to === "pattern" && (
        <fieldset className="colour-row">
          <legend className="unseen">Colour of the pattern</legend>
          {colours.map(({ id, name, shade }) => (
            <label key={id} title={name ? `${id}, ${name}` : id}>
              <input
                type="radio"
                name="near-colour"
                aria-label={name ? `${id}, ${name}` : id}
                checked={colour?.id === id}
                onChange={() => setLetter(id)}
              />
              <span style={{ background: hexFromLab(labOfShade(shade)) }} />
              {id}
            </label>
          ))}
        </fieldset>
      )}
      {to === "code" && (
        <label className="filter-field">
          <span>Code</span>
          <input
            className="field code-field"
            placeholder="#7a8c5e"
            spellCheck={false}
            autoComplete="off"
            aria-invalid={code.trim() !== "" && lab === null}
            value={code}
            onChange={(event) => setCode(event.target.value)}
          />
          {lab ? <span>{plainName(lab)}</span> : code.trim() !== "" && <span>a code is # and 3 or 6 of 0–9, a–f</span>}
        </label>
      )}
      <StandChoice />
      {lab && <NearList lab={lab} lines={lines} without={to === "yarn" ? (line?.id ?? null) : null} onOpen={onOpen} />}
    </section>
  );
}

interface NearListProps {
  readonly lab: Lab;
  readonly lines: readonly StashLine[];
  readonly without: string | null;
  readonly onOpen: (id: string) => void;
}

function NearList({ lab, lines, without, onOpen }: NearListProps): ReactNode {
  const { project, hand } = useBench();
  const [by, setBy] = useState<"shade" | "seen">("shade");
  const gauge = project?.pattern.gauge;
  const near = useMemo(() => {
    const byYarn = new Map(lines.map((line) => [line.yarn, line]));
    const others = lines.filter(({ id }) => id !== without).map(({ yarn }) => yarn);
    const found = nearestByShade(others, lab, TRIED).map(({ yarn, deltaE00 }) => ({
      line: byYarn.get(yarn)!,
      deltaE00,
    }));
    const labs = found.map(({ line }) => line.lab);
    const seen = gauge ? seenApart(lab, labs, { gauge, distance: hand.distance, light: hand.light }) : [];
    const all = found.map((one, at) => ({ ...one, seen: seen[at] ?? null }));
    if (by === "seen") all.sort((one, other) => (one.seen?.V ?? 0) - (other.seen?.V ?? 0));
    return all.slice(0, SHOWN);
  }, [lab, lines, without, gauge, hand.distance, hand.light, by]);
  const hex = hexFromLab(lab);
  return (
    <>
      <Choice
        legend="First the one"
        value={by}
        options={[
          ["shade", "nearest in shade"],
          ["seen", "least told apart"],
        ]}
        onChoose={setBy}
      />
      <ol className="near-list" aria-label="Nearest yarns">
        {near.map(({ line, deltaE00, seen }) => (
          <li key={line.id}>
            <button type="button" className="near" onClick={() => onOpen(line.id)}>
              <span className="near-pair" aria-hidden="true">
                <span style={{ background: hex }} />
                <span style={{ background: line.hex }} />
              </span>
              <span className="near-name">{line.yarn.name}</span>
              <span className="near-amount">{shortAmountWords(line)}</span>
              <span className="near-words">
                {nearnessWords(deltaE00)}, ΔE00 {deltaE00.toFixed(1)}
                {seen && `; ${SEEN[seen.shows]}`}
              </span>
            </button>
          </li>
        ))}
      </ol>
      <p className="caution">
        Two plain fields of cloth, edge to edge. A model of ordinary eyesight, not tested on knitting.
      </p>
    </>
  );
}

/** What the four words mean of two fields that lie beside each other. */
const SEEN = {
  lost: "not told apart",
  faint: "hardly told apart",
  clear: "told apart",
  strong: "plainly two",
} as const;
