/** Colours from a picture of the garment: where a chart has only symbols, or to see another colourway of the same pattern. */
import { useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";
import { labOfShade } from "../../colour/shade.ts";
import { useBench } from "../shell/bench.ts";
import "../style/garmentPicture.css";
import { FileInput } from "../ui/FileInput.tsx";
import { Help } from "../ui/Help.tsx";
import type { PicturePoint } from "../ui/FramedPicture.tsx";
import { Choice } from "../wishes/controls.tsx";
import { asColourway, asPatternColours, pictureColours } from "./pictured.ts";
import { areaAt, Magnifier, PicturePlane } from "./PicturePlane.tsx";
import { usePicture, type PickedPlace } from "./usePicture.ts";
import type { PatternColour } from "../../fabric/pattern.ts";
import type { PictureColour } from "../../intake/garmentPicture.ts";

/** Parts of the picture's longer side; the first is about two stitches of a whole garment seen. Our choice. */
const SIDES = { least: 0.006, usual: 0.02, most: 0.08, step: 0.002 };
/** Pixels: fewer tell nothing of a surface. */
const FEWEST = 6;

export function GarmentPicture({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { project, commit, look, say } = useBench();
  const dialog = useRef<HTMLDialogElement>(null);
  const picker = useRef<HTMLInputElement>(null);
  const work = usePicture();
  const { picture, places, neutral } = work;
  const colours = project?.pattern.colours ?? [];
  const [chosen, setChosen] = useState(colours[0]?.id ?? "");
  const [target, setTarget] = useState<"colour" | "reference">("colour");
  const [at, setAt] = useState<PicturePoint>([0, 0]);
  const [part, setPart] = useState(SIDES.usual);
  const [name, setName] = useState("from a picture");
  const found = useMemo(() => pictureColours(places), [places]);
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  useEffect(() => {
    if (!picture) return;
    setAt([Math.round(picture.width / 2), Math.round(picture.height / 2)]);
    dialog.current?.querySelector<HTMLElement>(".garment-plane")?.focus();
  }, [picture]);
  if (!project) return null;

  const side = picture ? Math.max(FEWEST, Math.round(part * Math.max(picture.width, picture.height))) : 0;
  const pick = (point: PicturePoint): void => {
    if (!picture) return;
    const area = areaAt(point, side, picture);
    if (target === "reference" && neutral.kind !== "find") {
      work.setNeutral({ kind: neutral.kind, area });
      setTarget("colour");
      return say("The reference is picked.");
    }
    work.pick(chosen, area);
    say(`A place for ${chosen} is picked.`);
  };
  const onKey = (key: string): boolean => {
    const last = places.findLast(({ colour }) => colour === chosen);
    if (colours.some(({ id }) => id === key)) {
      setChosen(key);
      setTarget("colour");
      say(`${key} is next.`);
    } else if (key === "+" || key === "-") {
      const next = part * (key === "+" ? 1.25 : 0.8);
      setPart(Math.min(SIDES.most, Math.max(SIDES.least, next)));
    } else if (key === "Backspace" && last) work.unpick(last.key);
    else return false;
    return true;
  };
  const setPattern = (): void => {
    if (commit(asPatternColours(found), "taking the pattern’s colours from a picture")) onClose();
  };
  const keepColourway = (): void => {
    const { id, edits } = asColourway(project, found, name.trim() || "from a picture");
    if (!commit(edits, "keeping a colourway from a picture")) return;
    look({ colourway: id, stage: "bench" });
    onClose();
  };

  return (
    <dialog ref={dialog} className="garment-dialog" aria-labelledby="garment-title" onClose={onClose}>
      <div className="garment-head">
        <h2 id="garment-title">Colours from a picture</h2>
        <button type="button" className="button" onClick={() => picker.current?.click()}>
          {picture ? "Another picture" : "Choose a picture"}
        </button>
        <FileInput picker={picker} name="Picture of the garment" accept="image/*" onFile={work.open} />
        <form method="dialog" className="garment-leave">
          <button className="button">Leave</button>
        </form>
      </div>
      <p role="status" className="garment-status">
        {work.busy ?? ""}
      </p>
      {work.sentences.length > 0 && (
        <ul role="alert" className="problems">
          {work.sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {!picture ? (
        <p className="garment-words">
          A photograph or a scan of the garment itself, from your own files; it stays in this browser. For every chart
          colour you show one place or several where it lies; each is then as sure as the picture is, which is not very,
          and says so.
        </p>
      ) : (
        <div className="garment-work">
          <PicturePlane
            picture={picture}
            at={at}
            side={side}
            places={places}
            neutral={neutral.kind === "find" ? null : neutral.area}
            picking={target === "reference" ? "the reference" : chosen}
            onMove={setAt}
            onPick={pick}
            onKey={onKey}
          />
          <div className="garment-side">
            <div className="garment-tools">
              <Magnifier picture={picture} at={at} side={side} />
              <div className="garment-size">
                <label htmlFor="garment-part">Size of a place</label>
                <input
                  id="garment-part"
                  type="range"
                  {...{ min: SIDES.least, max: SIDES.most, step: SIDES.step }}
                  value={part}
                  onChange={(event) => setPart(Number(event.target.value))}
                />
                <span className="garment-quiet">
                  {side} × {side} pixels. It must lie within one colour.
                </span>
              </div>
            </div>
            <Choice
              legend="Of known colour in it"
              value={neutral.kind}
              options={[
                ["find", picture.foundChart ? "the colour chart found" : "nothing"],
                ["grey", "a grey card"],
                ["white", "white paper"],
              ]}
              onChoose={(kind) => {
                work.setNeutral(kind === "find" ? { kind } : { kind, area: null });
                setTarget(kind === "find" ? "colour" : "reference");
              }}
            />
            <p className="garment-quiet" role="status">
              {neutral.kind !== "find" && !neutral.area
                ? `Now show where the ${neutral.kind === "grey" ? "grey card" : "white paper"} lies.`
                : neutral.kind === "find" && !picture.foundChart
                  ? "Nobody knows this picture’s light, so its colours are told with a wide range."
                  : "The picture’s cast is taken away by it."}
            </p>
            <ul className="garment-colours" aria-label="Chart colours">
              {colours.map((colour) => (
                <ColourRow
                  key={colour.id}
                  colour={colour}
                  isChosen={colour.id === chosen}
                  found={found.get(colour.id) ?? null}
                  places={places.filter((place) => place.colour === colour.id)}
                  onChoose={() => {
                    setChosen(colour.id);
                    setTarget("colour");
                  }}
                  onUnpick={work.unpick}
                />
              ))}
            </ul>
            <Help summary="By keys">
              <p>
                On the picture: arrow keys move the cross, with Shift by more; Enter picks; a colour’s letter chooses
                it; + and − change the size; Backspace takes the last place of the colour back.
              </p>
            </Help>
            <div className="garment-end">
              <label className="garment-name">
                <span>Name of the colourway</span>
                <input
                  className="field"
                  maxLength={80}
                  value={name}
                  onChange={(event) => setName(event.target.value)}
                />
              </label>
              <button type="button" className="button strong" disabled={found.size === 0} onClick={keepColourway}>
                Keep as a colourway to compare with
              </button>
              <button type="button" className="button" disabled={found.size === 0} onClick={setPattern}>
                Set as the pattern’s own colours
              </button>
              <p className="garment-quiet">
                {found.size} of {colours.length} colours picked; the others stay as the pattern has them. Such a
                colourway has no yarns of yours: nothing will propose them.
              </p>
            </div>
          </div>
        </div>
      )}
    </dialog>
  );
}

interface ColourRowProps {
  readonly colour: PatternColour;
  readonly isChosen: boolean;
  readonly found: PictureColour | null;
  readonly places: readonly PickedPlace[];
  readonly onChoose: () => void;
  readonly onUnpick: (key: string) => void;
}

function ColourRow({ colour, isChosen, found, places, onChoose, onUnpick }: ColourRowProps): ReactNode {
  const { id, name, shade } = colour;
  // Of places that fail alike one sentence is enough.
  const sentence = places.findLast(({ sentences }) => sentences.length > 0)?.sentences[0];
  const isBusy = places.some(({ by }) => by === null);
  return (
    <li className="garment-colour" data-chosen={isChosen}>
      <button type="button" className="garment-choose" aria-pressed={isChosen} onClick={onChoose}>
        <b>{id}</b>
        <span className="swatch small" style={{ background: hexFromLab(labOfShade(shade)) }} />
        <span>{name ?? ""}</span>
      </button>
      <span className="garment-found">
        {found && (
          <>
            <span className="swatch" style={{ background: found.hex }} />
            <span>
              {plainName(found.lab)}, ±{Math.round(found.uncertainty)}
            </span>
          </>
        )}
        {!found && (isBusy ? "measuring…" : places.length > 0 ? "" : "not picked")}
      </span>
      {places.length > 0 && (
        <span className="garment-picks">
          {places.map(({ key, close }, at) => (
            <button
              key={key}
              type="button"
              className="garment-pick"
              aria-label={`Without place ${at + 1} of ${id}`}
              title="Take this place back"
              onClick={() => onUnpick(key)}
            >
              {close && <img src={close} alt="" />}
              <span aria-hidden="true">×</span>
            </button>
          ))}
        </span>
      )}
      {sentence && <span className="garment-doubt">{sentence}</span>}
    </li>
  );
}
