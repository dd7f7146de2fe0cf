/** A new, empty chart: its name, its size, how it is worked and the colour that fills it. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { PatternColour } from "../../fabric/pattern.ts";
import { useBench } from "../shell/bench.ts";
import { freeId } from "../shell/words.ts";
import { DoorHead } from "../ui/DoorHead.tsx";
import { Choice } from "../wishes/controls.tsx";
import { Field, SelectField } from "../yarnForm/YarnFieldset.tsx";
import { swatchOf } from "./swatch.ts";
import "../style/yarnForm.css";

/** Stitches and rows: larger than any chart that is printed, and still drawn without waiting. Our choice. */
const MOST_STITCHES = 1000;

/** What fills the first chart of a pattern without colours: undyed wool, about as light as that is (from memory). */
const FIRST_COLOUR: PatternColour = { id: "A", name: "ground", shade: { hex: "#e6dfd0", from: "screen" } };

export function NewChart({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { project, commit, look } = useBench();
  const { charts, colours } = project!.pattern;
  const heading = useRef<HTMLHeadingElement>(null);
  const form = useRef<HTMLFormElement>(null);
  const choices = colours.length > 0 ? colours : [FIRST_COLOUR];
  const [name, setName] = useState("");
  const [stitches, setStitches] = useState("24");
  const [rows, setRows] = useState("24");
  const [worked, setWorked] = useState<"round" | "flat">("round");
  const [ground, setGround] = useState(choices.find(({ role }) => role === "main")?.id ?? choices[0]!.id);
  const [isJudged, setIsJudged] = useState(false);
  useEffect(() => heading.current?.focus(), []);

  const wrong = { stitches: wrongCount("Stitches", stitches), rows: wrongCount("Rows", rows) };
  const shade = choices.find(({ id }) => id === ground)!;
  const make = (): void => {
    setIsJudged(true);
    if (wrong.stitches ?? wrong.rows) {
      requestAnimationFrame(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    const id = freeId("c", charts);
    const called = name.trim();
    const chart = {
      id,
      ...(called !== "" && { name: called }),
      worked,
      rows: Array.from({ length: Number(rows) }, () => ground.repeat(Number(stitches))),
    };
    const made = commit(
      [{ kind: "addChart", chart, colours: colours.length > 0 ? [] : [FIRST_COLOUR] }],
      `${called === "" ? `chart ${id}` : called} begun`,
    );
    if (!made) return;
    look({ chart: id });
    onClose();
  };

  return (
    <section className="new-chart panel" aria-labelledby="new-chart-title">
      <DoorHead
        id="new-chart-title"
        title="A new, empty chart"
        back="Back to the pattern"
        heading={heading}
        onClose={onClose}
      />
      <form
        ref={form}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          make();
        }}
      >
        <Field name="Name" value={name} onType={setName} />
        <div className="new-chart-size">
          <Field
            name="Stitches"
            inputMode="numeric"
            value={stitches}
            wrong={isJudged ? wrong.stitches : undefined}
            onType={setStitches}
          />
          <Field
            name="Rows"
            inputMode="numeric"
            value={rows}
            wrong={isJudged ? wrong.rows : undefined}
            onType={setRows}
          />
        </div>
        <Choice
          legend="Worked"
          value={worked}
          options={[
            ["round", "in the round"],
            ["flat", "flat"],
          ]}
          onChoose={setWorked}
        />
        <div className="new-chart-ground">
          <SelectField name="Filled with" value={ground} onChoose={setGround}>
            {choices.map((colour) => (
              <option key={colour.id} value={colour.id}>
                {colour.id} {colour.name ?? ""}
              </option>
            ))}
          </SelectField>
          <span className="swatch" style={{ background: swatchOf(shade) }} />
        </div>
        <div className="new-chart-end">
          <button className="button strong">Begin the chart</button>
          <button type="button" className="button" onClick={onClose}>
            Leave it
          </button>
        </div>
      </form>
    </section>
  );
}

function wrongCount(of: string, typed: string): string | undefined {
  const count = Number(typed.trim());
  if (typed.trim() !== "" && Number.isInteger(count) && count >= 1 && count <= MOST_STITCHES) return undefined;
  return `${of}: expected a whole number from 1 to ${MOST_STITCHES}, found “${typed}”.`;
}
