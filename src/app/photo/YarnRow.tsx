/** One yarn of a photograph: what it looks like there, its shade as measured with its range, its name, and what it becomes on the shelf. */
import { memo, useMemo, type ClipboardEvent, type KeyboardEvent, type ReactNode } from "react";
import { problemSentence } from "../../base/problem.ts";
import { plainName } from "../../colour/names.ts";
import type { PhotographedYarn } from "../../jobs/shade.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { BoxFields } from "../ui/FramedPicture.tsx";
import { DetailFields } from "./DetailFields.tsx";
import { resized } from "./outline.ts";
import { isOld, type PhotoInHand, type PhotoYarn } from "./photos.ts";
import { mayBe, type YarnDetails } from "./shelving.ts";

interface YarnRowProps {
  readonly photo: PhotoInHand;
  readonly yarn: PhotoYarn;
  readonly number: number;
  /** What it is called where she says nothing. */
  readonly suggested: string;
  readonly isChosen: boolean;
  /** Its details are unfolded. */
  readonly isOpen: boolean;
  readonly common: YarnDetails;
  readonly shelf: readonly Yarn[];
  readonly onChoose: (photo: string, key: string | null) => void;
  readonly onOpen: (key: string | null) => void;
  readonly onChange: (photo: string, key: string, change: Partial<PhotoYarn>) => void;
  readonly onRemove: (photo: string, key: string) => void;
  /** It is no yarn but what the others are told by. */
  readonly onReference: (photo: string, key: string, kind: "grey" | "white") => void;
  /** On to the next name, or back to the one before. */
  readonly onNext: (number: number, direction: 1 | -1) => void;
  /** A list of names, from this yarn on. */
  readonly onNames: (number: number, names: readonly string[]) => void;
}

export const YarnRow = memo(function YarnRow(props: YarnRowProps): ReactNode {
  const { photo, yarn, number, suggested, isChosen, isOpen, common, shelf } = props;
  const { onChoose, onOpen, onChange, onRemove, onReference, onNext, onNames } = props;
  const change = (fields: Partial<PhotoYarn>) => onChange(photo.id, yarn.key, fields);
  const told = yarn.told?.outcome.value ?? null;
  const near = useMemo(() => (told ? mayBe(told.lab, told.uncertainty, shelf) : []), [told, shelf]);
  const anew = shelf.find(({ id }) => id === yarn.anew) ?? null;
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "Enter" || event.nativeEvent.isComposing) return;
    event.preventDefault();
    onNext(number, event.shiftKey ? -1 : 1);
  };
  const onPaste = (event: ClipboardEvent) => {
    const names = event.clipboardData
      .getData("text")
      .split(/\r?\n/)
      .map((line) => line.trim())
      .filter(Boolean);
    if (names.length < 2) return;
    event.preventDefault();
    onNames(number, names);
  };
  return (
    <li className="photo-yarn" data-chosen={isChosen} data-yarn={yarn.key}>
      <button
        type="button"
        className="photo-yarn-face"
        aria-pressed={isChosen}
        aria-label={`Yarn ${number}: choose it on the photograph`}
        onClick={() => onChoose(photo.id, isChosen ? null : yarn.key)}
      >
        <span className="photo-yarn-number">{number}</span>
        {yarn.told?.picture ? <img src={yarn.told.picture} alt="" /> : <span className="photo-yarn-blank" />}
        <span className="photo-yarn-shade" style={told ? { background: told.hex } : undefined} />
      </button>
      <div className="photo-yarn-words">
        <div className="photo-yarn-head">
          <input
            className="field photo-yarn-name"
            aria-label={`Name of yarn ${number}`}
            data-name={number}
            placeholder={suggested}
            value={anew ? anew.name : yarn.name}
            readOnly={anew !== null}
            maxLength={120}
            autoComplete="off"
            onFocus={() => !isChosen && onChoose(photo.id, yarn.key)}
            onChange={(event) => change({ name: event.target.value })}
            onKeyDown={onKeyDown}
            onPaste={onPaste}
          />
          <button
            type="button"
            className="button"
            aria-expanded={isOpen}
            aria-label={`More about yarn ${number}`}
            onClick={() => {
              onOpen(isOpen ? null : yarn.key);
              if (!isChosen) onChoose(photo.id, yarn.key);
            }}
          >
            More
          </button>
        </div>
        <YarnShade told={told} isBusy={isOld(yarn, photo)} hasReference={photo.surveyed !== null} />
        {yarn.told?.outcome.problems.map((problem) => (
          <p key={problem.got} className="photo-yarn-problem">
            {problemSentence({ ...problem, where: `yarn ${number}` })}
          </p>
        ))}
        {anew ? (
          <p className="photo-near">
            {anew.name} is measured anew.{" "}
            <button type="button" className="button" onClick={() => change({ anew: null })}>
              A yarn of its own instead
            </button>
          </p>
        ) : (
          near[0] && (
            <p className="photo-near">
              This may be {near[0].yarn.name}, ΔE00 {near[0].deltaE00.toFixed(1)}.{" "}
              <button type="button" className="button" onClick={() => change({ anew: near[0]!.yarn.id })}>
                Measure {near[0].yarn.name} anew instead
              </button>
            </p>
          )
        )}
      </div>
      {isOpen && (
        <div className="photo-yarn-more">
          <DetailFields
            legend="This one"
            details={yarn.own}
            common={common}
            onChange={(own) => change({ own: { ...yarn.own, ...own } })}
          />
          <label className="photo-line-field">
            <span>On the shelf it is</span>
            <select
              className="field"
              value={yarn.anew ?? ""}
              onChange={(event) => change({ anew: event.target.value === "" ? null : event.target.value })}
            >
              <option value="">a yarn of its own</option>
              {near.map(({ yarn: one, deltaE00 }) => (
                <option key={one.id} value={one.id}>
                  {one.name}, measured anew (ΔE00 {deltaE00.toFixed(1)})
                </option>
              ))}
              {shelf
                .filter(({ id }) => !near.some(({ yarn: one }) => one.id === id))
                .map(({ id, name }) => (
                  <option key={id} value={id}>
                    {name}, measured anew
                  </option>
                ))}
            </select>
          </label>
          <BoxFields
            legend={`Outline of yarn ${number}, in pixels of the photograph`}
            box={yarn.outline.box}
            size={photo}
            step={Math.max(1, Math.round(photo.width / 100))}
            onChange={(box) => change({ outline: resized(yarn.outline, box, photo) })}
          />
          <div className="photo-acts">
            <button type="button" className="button" onClick={() => onRemove(photo.id, yarn.key)}>
              Remove yarn {number}
            </button>
            <button type="button" className="button" onClick={() => onReference(photo.id, yarn.key, "grey")}>
              It is the grey card
            </button>
            <button type="button" className="button" onClick={() => onReference(photo.id, yarn.key, "white")}>
              It is white paper
            </button>
          </div>
        </div>
      )}
    </li>
  );
});

interface YarnShadeProps {
  readonly told: PhotographedYarn | null;
  readonly isBusy: boolean;
  readonly hasReference: boolean;
}

const YarnShade = memo(function YarnShade({ told, isBusy, hasReference }: YarnShadeProps): ReactNode {
  if (!told)
    return <p className="photo-reading">{!hasReference ? "no shade yet" : isBusy ? "measuring…" : "no shade"}</p>;
  const [lightness, a, b] = told.lab;
  const signed = (value: number) => `${Math.round(value) < 0 ? "−" : ""}${Math.abs(Math.round(value))}`;
  return (
    <>
      <p className="photo-reading" data-busy={isBusy}>
        <strong>{plainName(told.lab)}</strong> <span>± {told.uncertainty.toFixed(1)} ΔE00</span> <span>{told.hex}</span>{" "}
        <span>
          L* {Math.round(lightness)}, a* {signed(a)}, b* {signed(b)}
        </span>
      </p>
      {told.flecks.length > 0 && (
        <div className="photo-flecks">
          <span className="photo-fleck-bar" aria-hidden="true">
            {told.flecks.map(({ hex, share }, at) => (
              <span key={at} style={{ background: hex, flexGrow: share }} />
            ))}
          </span>
          <span>
            {told.flecks.map(({ lab, share }) => `${Math.round(100 * share)} % ${plainName(lab)}`).join(", ")}
          </span>
        </div>
      )}
    </>
  );
});
