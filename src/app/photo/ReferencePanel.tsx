/** What in the photograph is neutral, as found or as she says: everything that is told of the yarns rests on it. */
import type { ReactNode } from "react";
import { PAPER_TINTS, type PaperTint } from "../../jobs/shade.ts";
import { BoxFields } from "../ui/FramedPicture.tsx";
import type { Tool } from "./PhotoPane.tsx";
import type { PhotoInHand, ReferenceChoice } from "./photos.ts";
import { boxCorners, boxPut, middleOf, REFERENCE, referenceArea, shownCorners, type PlaceChange } from "./places.ts";

const KINDS: readonly { readonly kind: ReferenceChoice["kind"]; readonly name: string }[] = [
  { kind: "find", name: "a chart of 24 patches, if there is one" },
  { kind: "patches", name: "a chart of 24 patches, by its corners" },
  { kind: "grey", name: "a grey card" },
  { kind: "white", name: "white paper" },
  { kind: "none", name: "nothing" },
];

const TINT_NAMES: Readonly<Record<PaperTint, string>> = {
  bright: "bright white, as copy paper",
  cream: "natural or cream",
  recycled: "greyish, recycled",
  unknown: "not known",
};

/** Per cent of light that a grey card reflects, unless hers says otherwise: the trade's usage. */
const CARD_PERCENT = 18;

interface ReferencePanelProps {
  readonly photo: PhotoInHand;
  /** All that are in hand: the card and the paper are likely the same on all of them. */
  readonly photos: readonly PhotoInHand[];
  readonly onTool: (tool: Tool) => void;
  readonly onChange: (how: (photo: PhotoInHand) => PlaceChange) => void;
}

export function ReferencePanel({ photo, photos, onTool, onChange }: ReferencePanelProps): ReactNode {
  const { reference } = photo;
  const area = referenceArea(photo);
  const choose = (kind: ReferenceChoice["kind"]) => {
    onChange((now) => ({ reference: firstChoice(kind, now, photos) }));
    onTool(kind === "grey" || kind === "white" ? "frame" : "correct");
  };
  return (
    <section className="photo-reference" aria-label="The reference">
      <label className="photo-line-field">
        <span>Neutral in this photograph</span>
        <select
          className="field"
          value={reference.kind}
          onChange={(event) => choose(event.target.value as ReferenceChoice["kind"])}
        >
          {KINDS.map(({ kind, name }) => (
            <option key={kind} value={kind}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {reference.kind === "white" && (
        <label className="photo-line-field">
          <span>The paper is</span>
          <select
            className="field"
            value={reference.tint}
            onChange={(event) => {
              const tint = event.target.value as PaperTint;
              onChange((now) => (now.reference.kind === "white" ? { reference: { ...now.reference, tint } } : {}));
            }}
          >
            {PAPER_TINTS.map((tint) => (
              <option key={tint} value={tint}>
                {TINT_NAMES[tint]}
              </option>
            ))}
          </select>
        </label>
      )}
      {reference.kind === "grey" && (
        <label className="photo-line-field">
          <span>The card reflects, per cent</span>
          <input
            className="field"
            type="number"
            min={3}
            max={95}
            value={reference.percent}
            onChange={(event) => {
              const percent = Math.max(3, Math.min(95, Number(event.target.value)));
              onChange((now) => (now.reference.kind === "grey" ? { reference: { ...now.reference, percent } } : {}));
            }}
          />
        </label>
      )}
      {(reference.kind === "grey" || reference.kind === "white") &&
        (area ? (
          <details className="photo-common">
            <summary>Its frame in numbers</summary>
            <BoxFields
              legend="Its frame, in pixels of the photograph"
              box={area}
              size={photo}
              step={Math.max(1, Math.round(photo.width / 100))}
              onChange={(box) => onChange((now) => boxPut(now, REFERENCE, box))}
            />
          </details>
        ) : (
          <p className="photo-now">
            Frame it on the photograph, well inside its edges, or press it where it was outlined.{" "}
            <button
              type="button"
              className="button"
              onClick={() => {
                onChange((now) => boxPut(now, REFERENCE, middleOf(now)));
                onTool("correct");
              }}
            >
              Put a frame in the middle
            </button>
          </p>
        ))}
      <p className="photo-told" role="status">
        {toldOf(photo)}
      </p>
      {photo.told.length > 0 && (
        <ul className="photo-problems">
          {photo.told.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** A choice to begin with; card and paper are what she said of them on another photograph. */
export function firstChoice(
  kind: ReferenceChoice["kind"],
  photo: PhotoInHand,
  photos: readonly PhotoInHand[],
  area = referenceArea(photo),
): ReferenceChoice {
  const said = photos.map(({ reference }) => reference);
  switch (kind) {
    case "find":
    case "none":
      return { kind };
    case "patches":
      return { kind, corners: shownCorners(photo) ?? boxCorners(middleOf(photo)) };
    case "grey":
      return { kind, area, percent: said.find((one) => one.kind === kind)?.percent ?? CARD_PERCENT };
    case "white":
      return { kind, area, tint: said.find((one) => one.kind === kind)?.tint ?? "unknown" };
  }
}

function toldOf({ surveyed, surveyedBy, reference }: PhotoInHand): string {
  if (surveyedBy !== reference || !surveyed) return "";
  const { told } = surveyed;
  if (told.kind === "grey" || told.kind === "white")
    return "Cast and brightness are taken from it; how the camera bends light is assumed, so the ranges are wide.";
  if (told.kind === "none")
    return `The ranges are wide: a grey card or a sheet of paper beside the yarns would narrow them.${
      reference.kind === "find" ? " If one lies there, choose it here above." : ""
    }`;
  const { median, most } = told.leaveOneOut ?? { median: NaN, most: NaN };
  const found = told.found ? "A chart was found. Pull its corners if they are not on the outer patches. " : "";
  return `${found}Each of its colours told by the others is off by ${median.toFixed(1)} ΔE00 in the middle, by ${most.toFixed(1)} at most.`;
}
