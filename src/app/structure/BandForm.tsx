/** All that she can say of a band, each thing with a way back to what is found. */
import { useId, useState, type ReactNode } from "react";
import type { Edit } from "../../document/edit.ts";
import { useBench } from "../shell/bench.ts";
import { rowsWords } from "../shell/words.ts";
import type { BuiltBand } from "../worker/api.ts";
import { Switch } from "../wishes/controls.tsx";
import { Colour } from "./BandsPart.tsx";
import { joined, sayOf, splitBefore, takeBack, type SaidField } from "./bandEdits.ts";
import { RowTable } from "./RowTable.tsx";
import type { PartProps } from "./partProps.ts";
import { bandCalled, bandName } from "./structureWords.ts";

type BandFormProps = PartProps & { readonly band: BuiltBand };

export function BandForm({ chart, built, nameOf, hexOf, band }: BandFormProps): ReactNode {
  const { commit } = useBench();
  const { said, rows } = band;
  const called = bandCalled(band);
  const say = (fields: Extract<Edit, { kind: "declareBand" }>["fields"], name: string): boolean =>
    commit([sayOf(chart.id, band, fields)], name);
  const back = (field: SaidField): ReactNode =>
    said?.[field] === undefined ? null : (
      <TakeBack
        word={FIELD_WORDS[field]}
        onPress={() => commit([takeBack(chart.id, band, field)], `${called}: as found again`)}
      />
    );
  const at = built.bands.findIndex(({ id }) => id === band.id);
  const [below, above] = [built.bands[at - 1], built.bands[at + 1]];
  const join = (lower: BuiltBand, upper: BuiltBand): boolean =>
    commit([joined(chart.id, lower, upper)], `${bandCalled(lower)} and ${bandCalled(upper)} are one band`);
  const [row, setRow] = useState(rows[1]);
  const splits = row > rows[0] && row <= rows[1];
  return (
    <form className="structure-form" onSubmit={(event) => event.preventDefault()}>
      <TextField
        label="Name"
        value={said?.name ?? ""}
        onKeep={(name) =>
          name === ""
            ? commit([takeBack(chart.id, band, "name")], `${called}: without a name`)
            : say({ name }, `${rowsWords(rows)} called ${name}`)
        }
      />
      {band.kind !== "plain" && (
        <>
          <Line label="Repeat, stitches" back={back("repeat")}>
            {(id) => (
              <NumberField
                id={id}
                value={band.repeat.stitches}
                least={1}
                most={chart.rows[0]!.length}
                step={1}
                onKeep={(repeat) => say({ repeat }, `${called} repeats every ${repeat} stitches`)}
              />
            )}
          </Line>
          <AxisLine chart={chart} band={band} back={back("axis")} onSay={say} />
          <fieldset className="structure-grounds">
            <legend>Ground {back("ground")}</legend>
            {band.colours.map((colour) => {
              const on = band.ground.includes(colour);
              return (
                <label key={colour}>
                  <input
                    type="checkbox"
                    checked={on}
                    disabled={on && band.ground.length === 1}
                    onChange={() =>
                      say(
                        { ground: on ? band.ground.filter((one) => one !== colour) : [...band.ground, colour] },
                        `${nameOf(colour)} is ${on ? "no ground" : "ground"} in ${called}`,
                      )
                    }
                  />
                  <Colour id={colour} hexOf={hexOf} /> {nameOf(colour)}
                </label>
              );
            })}
          </fieldset>
          <Line label="It is seeding" back={back("seeding")}>
            {(id) => (
              <select
                id={id}
                className="field"
                value={said?.seeding === undefined ? "" : String(said.seeding)}
                onChange={({ target: { value } }) =>
                  value === ""
                    ? commit([takeBack(chart.id, band, "seeding")], `${called}: as found again`)
                    : say({ seeding: value === "true" }, `${called} is ${value === "true" ? "" : "not "}seeding`)
                }
              >
                <option value="">as found: {band.kind === "seeding" ? "yes" : "no"}</option>
                <option value="true">yes</option>
                <option value="false">no</option>
              </select>
            )}
          </Line>
        </>
      )}
      <Line label="The same as" back={back("echoOf")}>
        {(id) => (
          <select
            id={id}
            className="field"
            value={said?.echoOf === undefined ? "" : said.echoOf === null ? "none" : band.echo ? band.echo.of : "none"}
            onChange={({ target: { value } }) => {
              if (value === "") return void commit([takeBack(chart.id, band, "echoOf")], `${called}: as found again`);
              const other = built.bands.find((one) => one.id === value);
              say(
                { echoOf: other ? [...other.rows] : null },
                other ? `${called} is ${bandCalled(other)} again` : `${called} is a band of its own`,
              );
            }}
          >
            <option value="">
              {said?.echoOf === undefined && band.echo
                ? `as found: ${bandCalled(built.bands.find((one) => one.id === band.echo!.of)!)}`
                : said?.echoOf === undefined
                  ? "as found: no other"
                  : "as found"}
            </option>
            <option value="none">no other</option>
            {built.bands
              .slice(0, at)
              .flatMap((one) =>
                one.kind === "plain" ? (
                  []
                ) : (
                  <option
                    key={one.id}
                    value={one.id}
                  >{`${bandName(one)}${one.said?.name ? `, ${rowsWords(one.rows)}` : ""}`}</option>
                ),
              )}
          </select>
        )}
      </Line>
      <Switch
        name="How it lies is meant so"
        on={said?.meant === true}
        onTurn={(meant) =>
          meant
            ? say({ meant }, `${called} is meant so`)
            : commit([takeBack(chart.id, band, "meant")], `${called}: looked at again`)
        }
      />
      <div className="structure-borders" role="group" aria-label="Its borders">
        {rows[1] > rows[0] && (
          <div className="structure-split">
            <label htmlFor="structure-split-row">A new band from row</label>
            <input
              id="structure-split-row"
              className="field"
              type="number"
              min={rows[0] + 1}
              max={rows[1]}
              value={row}
              onChange={({ target }) => setRow(Number(target.value))}
            />
            <button
              type="button"
              className="button"
              disabled={!splits}
              onClick={() => commit(splitBefore(chart.id, band, row), `${called} parted before row ${row}`)}
            >
              Part it
            </button>
          </div>
        )}
        {above && (
          <button type="button" className="button" onClick={() => join(band, above)}>
            Join with {bandCalled(above)} above
          </button>
        )}
        {below && (
          <button type="button" className="button" onClick={() => join(below, band)}>
            Join with {bandCalled(below)} below
          </button>
        )}
        {said && (
          <button
            type="button"
            className="button"
            onClick={() =>
              commit([{ kind: "releaseBand", chart: chart.id, rows: [...rows] }], `${called}: all as found again`)
            }
          >
            Take back all that is said of it
          </button>
        )}
      </div>
      <RowTable rows={built.rows.slice(rows[0] - 1, rows[1])} crossed={band.crossed} nameOf={nameOf} />
    </form>
  );
}

const FIELD_WORDS: Record<SaidField, string> = {
  name: "name",
  want: "wish",
  ground: "ground",
  repeat: "repeat",
  axis: "line of mirroring",
  echoOf: "echo",
  seeding: "seeding",
  meant: "meaning",
};

const TakeBack = ({ word, onPress }: { readonly word: string; readonly onPress: () => void }): ReactNode => (
  <span className="structure-said">
    your word
    <button type="button" className="button" aria-label={`Take back your word for its ${word}`} onClick={onPress}>
      Take back
    </button>
  </span>
);

function AxisLine({
  chart,
  band,
  back,
  onSay,
}: {
  readonly chart: PartProps["chart"];
  readonly band: BuiltBand;
  readonly back: ReactNode;
  readonly onSay: (fields: { axis: number | null }, name: string) => void;
}): ReactNode {
  const called = bandCalled(band);
  const leans = band.axes.across.length === 0;
  return (
    <>
      <Line label="Mirrors about column" back={back}>
        {(id) => (
          <NumberField
            id={id}
            value={leans ? null : (band.said?.axis ?? band.middle ?? band.axes.across[0]!)}
            least={1}
            most={chart.rows[0]!.length + 0.5}
            step={0.5}
            onKeep={(axis) => onSay({ axis }, `${called} mirrors about column ${axis}`)}
          />
        )}
      </Line>
      {!leans && (
        <button type="button" className="button" onClick={() => onSay({ axis: null }, `${called} leans`)}>
          It mirrors about no line
        </button>
      )}
    </>
  );
}

interface LineProps {
  readonly label: string;
  readonly back: ReactNode;
  readonly children: (id: string) => ReactNode;
}

function Line({ label, back, children }: LineProps): ReactNode {
  const id = useId();
  return (
    <div className="structure-line">
      <label htmlFor={id}>{label}</label>
      {children(id)}
      {back}
    </div>
  );
}

interface NumberFieldProps {
  readonly id: string;
  readonly value: number | null;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly onKeep: (value: number) => void;
}

/** Kept when the hand leaves it or with Enter; what cannot be goes back to what it was. */
export function NumberField({ id, value, least, most, step, onKeep }: NumberFieldProps): ReactNode {
  const shown = value === null ? "" : String(value);
  const [draft, setDraft] = useState(shown);
  const keep = (): void => {
    const next = Number(draft);
    const can =
      draft.trim() !== "" && next >= least && next <= most && Number.isInteger(Math.round((next / step) * 1e6) / 1e6);
    if (!can) setDraft(shown);
    else if (next !== value) onKeep(next);
  };
  return (
    <input
      id={id}
      className="field"
      type="number"
      inputMode="decimal"
      min={least}
      max={most}
      step={step}
      value={draft}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={keep}
      onKeyDown={(event) => {
        if (event.key === "Enter") keep();
      }}
    />
  );
}

function TextField({
  label,
  value,
  onKeep,
}: {
  readonly label: string;
  readonly value: string;
  readonly onKeep: (value: string) => void;
}): ReactNode {
  const id = useId();
  const [draft, setDraft] = useState(value);
  const keep = (): void => {
    const next = draft.trim();
    if (next !== value) onKeep(next);
  };
  return (
    <div className="structure-line">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="field"
        maxLength={200}
        value={draft}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={keep}
        onKeyDown={(event) => {
          if (event.key === "Enter") keep();
          if (event.key === "Escape") setDraft(value);
        }}
      />
    </div>
  );
}
