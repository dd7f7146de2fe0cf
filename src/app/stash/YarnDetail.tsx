/** One yarn, all that is known of it and how; every word of it is changed in its place. */
import { useMemo, useRef, useState, type ReactNode } from "react";
import { plainName } from "../../colour/names.ts";
import { partsOfYarn } from "../../yarn/flecks.ts";
import { laidOut } from "../../yarn/shelf.ts";
import { WEIGHT_CLASS_NAMES, weightClassesOf, weightClassWords } from "../../yarn/weightClass.ts";
import type { Lot, Yarn } from "../../yarn/yarn.ts";
import { hexFromLab } from "../../colour/lab.ts";
import { useBench } from "../shell/bench.ts";
import { capital, percentWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { Fact, NumberField, SelectField, TextField } from "./fields.tsx";
import { usesOf, type StashLine } from "./lines.ts";
import { LotRows } from "./LotRows.tsx";
import { yarnPaint } from "./paintBall.ts";
import { PromiseRows } from "./PromiseRows.tsx";
import { useShelf } from "./useShelf.ts";
import { useYarnEdits } from "./useYarnEdits.ts";
import { amountWords, classesWords, shadeKnownWords } from "./yarnWords.ts";
import { YarnCautions } from "./YarnCautions.tsx";

interface YarnDetailProps {
  readonly line: StashLine | null;
  readonly isChosen: boolean;
  readonly onChoose: (id: string) => void;
  /** Its shade is measured or compared again. */
  readonly onAgain: (id: string) => void;
  readonly onNear: () => void;
  readonly onRemove: (ids: readonly string[]) => void;
}

export function YarnDetail({ line, isChosen, onChoose, onAgain, onNear, onRemove }: YarnDetailProps): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const { project } = useBench();
  const { change, onBenchToo, setOnBenchToo } = useYarnEdits();
  if (!line)
    return (
      <section className="yarn-detail" aria-labelledby="yarn-title">
        <h3 id="yarn-title" tabIndex={-1}>
          No yarn yet
        </h3>
        <p className="empty">Press a yarn, or walk there with the arrow keys: here is then all that is known of it.</p>
      </section>
    );
  const { yarn, id } = line;
  const lots = (next: readonly Lot[], what: string): void => {
    // Grams that stood on the yarn itself are those of its first lot from now on.
    change(line, { lots: [...next], grams: null }, what);
  };
  const uses = line.laidOut && project ? usesOf(project, line.laidOut.id) : [];
  return (
    <section className="yarn-detail" aria-labelledby="yarn-title" key={id}>
      <Portrait line={line} />
      <div className="detail-name">
        <h3 id="yarn-title" tabIndex={-1} className="unseen">
          {yarn.name}
        </h3>
        <TextField
          bare
          needed
          label="Name of the yarn"
          className="big-name"
          value={yarn.name}
          onKeep={(name) => change(line, { name }, "name")}
        />
        <TextField
          bare
          label="Maker"
          placeholder="maker not said"
          value={yarn.maker ?? ""}
          onKeep={(maker) => change(line, { maker: maker || null }, "maker")}
        />
      </div>

      <div className="detail-acts">
        <button type="button" className="button" aria-pressed={isChosen} onClick={() => onChoose(id)}>
          {isChosen ? "Chosen" : "Choose"}
        </button>
        <button type="button" className="button" onClick={onNear}>
          What is near
        </button>
        <button type="button" className="button" data-again onClick={() => onAgain(id)}>
          Shade again
        </button>
      </div>

      <div className="facts">
        <Fact
          label={
            <>
              Shade <NumberHelp of={["shadeRange", "classes", "lightness"]} about="shade and value" />
            </>
          }
        >
          <ShadeWords line={line} />
        </Fact>
        <Fact
          label={
            <>
              Amount <NumberHelp of={["owned", "promised"]} about="the amount" />
            </>
          }
        >
          <p className="fact-strong">{amountWords(line)}</p>
          <LotRows line={line} onLots={lots} />
        </Fact>
        <NumberField
          label="Length"
          unit="m in 100 g"
          least={0}
          above
          value={yarn.metresPer100g}
          onKeep={(metresPer100g) => change(line, { metresPer100g }, "length")}
        />
        <SelectField
          label="Weight"
          help={<NumberHelp of={["weightClass"]} about="weight class" />}
          more={disagreeingWords(yarn)}
          value={yarn.weightClass === undefined ? "" : String(yarn.weightClass)}
          options={[
            ["", unlabelledWords(yarn.metresPer100g)],
            ...WEIGHT_CLASS_NAMES.map((name, at) => [String(at), `${name}, says the label`] as const),
          ]}
          onKeep={(value) => change(line, { weightClass: value === "" ? null : Number(value) }, "weight")}
        />
        <TextField
          label="Fibre"
          placeholder="not said"
          value={yarn.fibre ?? ""}
          onKeep={(fibre) => change(line, { fibre: fibre || null }, "fibre")}
        />
        <SelectField
          label="Wash"
          value={yarn.superwash === undefined ? "" : yarn.superwash ? "superwash" : "felts"}
          options={[
            ["", "not known"],
            ["superwash", "superwash"],
            ["felts", "felts"],
          ]}
          onKeep={(value) => change(line, { superwash: value === "" ? null : value === "superwash" }, "wash")}
        />
        <SelectField
          label="Dyed"
          value={yarn.handDyed === undefined ? "" : yarn.handDyed ? "hand" : "mill"}
          options={[
            ["", "not known how"],
            ["hand", "by hand"],
            ["mill", "not by hand"],
          ]}
          onKeep={(value) => change(line, { handDyed: value === "" ? null : value === "hand" }, "dyeing")}
        />
        <NumberField
          label="Plies"
          unit=""
          least={1}
          whole
          value={yarn.plies}
          onKeep={(plies) => change(line, { plies }, "plies")}
        />
        <TextField
          label="Note"
          placeholder="nothing noted"
          value={yarn.note ?? ""}
          onKeep={(note) => change(line, { note: note || null }, "note")}
        />
        <Fact label="Promised">
          <PromiseRows line={line} />
        </Fact>
        <Fact label="Bench">
          <BenchWords line={line} uses={uses} />
          {line.laidOut ? (
            <label className="tick">
              <input type="checkbox" checked={onBenchToo} onChange={(event) => setOnBenchToo(event.target.checked)} />
              <span>What I change here changes there too</span>
            </label>
          ) : (
            project && (
              <button
                type="button"
                className="button"
                onClick={() =>
                  commitShelf([], `${yarn.name} laid out`, [
                    { kind: "addYarns", yarns: laidOut(project.yarns, shelf.yarns, [yarn]) },
                  ])
                }
              >
                Lay it out on the bench
              </button>
            )
          )}
        </Fact>
      </div>
      <YarnCautions yarns={[yarn]} />
      <button type="button" className="button" onClick={() => onRemove([id])}>
        Take it off the shelf
      </button>
    </section>
  );
}

/** The label's word counts, but she should know that its metres say another. */
function disagreeingWords({ weightClass, metresPer100g }: Yarn): string | null {
  if (weightClass === undefined || metresPer100g === undefined) return null;
  const byMetres = weightClassesOf(metresPer100g);
  return byMetres.includes(weightClass) ? null : `By its metres it would be ${weightClassWords(byMetres)}.`;
}

const unlabelledWords = (metresPer100g: number | undefined): string =>
  metresPer100g === undefined ? "not known" : `${weightClassWords(weightClassesOf(metresPer100g))}, by its metres`;

function ShadeWords({ line }: { readonly line: StashLine }): ReactNode {
  const { yarn, lab, classes } = line;
  const name = useMemo(() => plainName(lab), [lab]);
  const parts = useMemo(() => (yarn.flecks?.length ? partsOfYarn(yarn) : []), [yarn]);
  return (
    <>
      <p className="fact-strong">{capital(name)}</p>
      <p>
        {capital(classesWords(classes))}, L* {Math.round(line.L)}
      </p>
      <p className="fact-quiet">{capital(shadeKnownWords(yarn))}</p>
      {parts.length > 0 && (
        <ul className="flecks" aria-label="Flecks">
          {parts.map((part, at) => (
            <li key={at}>
              <span className="swatch small" style={{ background: hexFromLab(part.lab) }} /> {percentWords(part.share)}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

interface BenchWordsProps {
  readonly line: StashLine;
  readonly uses: ReturnType<typeof usesOf>;
}

function BenchWords({ line, uses }: BenchWordsProps): ReactNode {
  if (!line.laidOut) return <p>Not laid out.</p>;
  if (uses.length === 0) return <p>Laid out, in no colourway yet.</p>;
  return (
    <p>
      Laid out:{" "}
      {uses
        .map(({ colourway, colours }) => `${colourway}${colours.length > 0 ? ` (${colours.join(", ")})` : ""}`)
        .join("; ")}
      .
    </p>
  );
}

/** Its shade large, beside the small picture that was kept of it. */
function Portrait({ line }: { readonly line: StashLine }): ReactNode {
  const { yarn, hex } = line;
  const dialog = useRef<HTMLDialogElement>(null);
  const [enlarged, setEnlarged] = useState(false);
  return (
    <div className="portrait">
      <span className="portrait-shade" style={{ background: yarnPaint(yarn, hex) }} />
      {yarn.photo && (
        <>
          <button
            type="button"
            className="portrait-photo"
            aria-label={`Photograph of ${yarn.name}, larger`}
            onClick={() => {
              setEnlarged(true);
              dialog.current?.showModal();
            }}
          >
            <img src={yarn.photo} alt="" />
          </button>
          <dialog
            ref={dialog}
            className="message photo-large"
            aria-label={`Photograph of ${yarn.name}`}
            onClose={() => setEnlarged(false)}
          >
            {enlarged && <img src={yarn.photo} alt={`${yarn.name}, as it was photographed`} />}
            <form method="dialog">
              <button className="button strong">Close</button>
            </form>
          </dialog>
        </>
      )}
    </div>
  );
}
