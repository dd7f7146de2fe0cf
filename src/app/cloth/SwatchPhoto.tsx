/** A photograph of a plain swatch, with the area of cloth framed on it: measured off the main thread and taken over by one act. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import { problemSentence } from "../../base/problem.ts";
import { FileInput } from "../ui/FileInput.tsx";
import { BoxFields } from "../ui/FramedPicture.tsx";
import { brokenSentence } from "../worker/answers.ts";
import type { PlainSwatch } from "../worker/api.ts";
import { once } from "../worker/client.ts";
import { FRAMED_WORDS, PhotoFrames, type Framed, type Framing, type Photo } from "./PhotoFrames.tsx";

interface SwatchPhotoProps {
  readonly onMeasured: (measured: PlainSwatch) => boolean;
}

const FRAMINGS: readonly (readonly [Framing, string])[] = [
  ["area", "plain cloth"],
  ["yarn", "the same yarn, wound"],
];
const COUNTS = [
  ["stitches", "Stitches across the frame"],
  ["rows", "Rows up the frame"],
] as const;

export function SwatchPhoto({ onMeasured }: SwatchPhotoProps): ReactNode {
  const picker = useRef<HTMLInputElement>(null);
  const [photo, setPhoto] = useState<Photo | null>(null);
  const [boxes, setBoxes] = useState<Framed>({ area: null, yarn: null });
  const [drawing, setDrawing] = useState<Framing>("area");
  const [count, setCount] = useState({ stitches: "", rows: "" });
  const [busy, setBusy] = useState(false);
  const [told, setTold] = useState<readonly string[]>([]);
  const [measured, setMeasured] = useState<PlainSwatch | null>(null);
  useEffect(() => () => void (photo && URL.revokeObjectURL(photo.address)), [photo]);

  const choose = async (file: File) => {
    const address = URL.createObjectURL(file);
    const image = new Image();
    image.src = address;
    setMeasured(null);
    try {
      await image.decode();
      const { naturalWidth: width, naturalHeight: height } = image;
      setPhoto({ file, address, width, height });
      // The middle of the picture, to begin with.
      const [across, up] = [Math.round(width / 4), Math.round(height / 4)];
      setBoxes({ area: { x: across, y: up, width: 2 * across, height: 2 * up }, yarn: null });
      setTold([]);
    } catch {
      URL.revokeObjectURL(address);
      setTold([`${file.name} cannot be opened as a picture here. Save it as PNG or JPEG and try that.`]);
    }
  };
  const [stitches, rows] = [Number(count.stitches.replace(",", ".")), Number(count.rows.replace(",", "."))];
  const { area, yarn } = boxes;
  const measure = async () => {
    if (!photo || !area) return;
    setBusy(true);
    setMeasured(null);
    try {
      const question = { area, stitches, rows, ...(yarn ? { yarn } : {}) };
      const { value, problems } = await once((jobs) => jobs.plainSwatch(photo.file, question));
      setTold(problems.map(problemSentence));
      setMeasured(value);
    } catch (reason) {
      setTold([brokenSentence(reason)]);
    }
    setBusy(false);
  };
  const frame = (box: NonNullable<Framed["area"]>) => {
    setMeasured(null);
    setBoxes((before) => ({ ...before, [drawing]: box }));
  };

  return (
    <section className="swatch-photo" aria-labelledby="swatch-photo-title">
      <h3 id="swatch-photo-title">From a photograph</h3>
      <p className="cloth-words">
        A washed swatch in one colour, square on, in even light from a window, at least 16 stitches and 16 rows in the
        frame.
      </p>
      <button type="button" className="button" onClick={() => picker.current?.click()}>
        {photo ? "Another photograph" : "Choose a photograph"}
      </button>
      <FileInput
        picker={picker}
        name="Photograph of a plain swatch"
        accept="image/*"
        onFile={(file) => void choose(file)}
      />
      {photo && (
        <>
          <fieldset className="choice">
            <legend>Frame</legend>
            {FRAMINGS.map(([which, name]) => (
              <label key={which}>
                <input type="radio" name="framing" checked={drawing === which} onChange={() => setDrawing(which)} />
                <span>{name}</span>
              </label>
            ))}
          </fieldset>
          <PhotoFrames photo={photo} boxes={boxes} onDraw={frame} />
          <BoxFields
            legend={`Frame of the ${FRAMED_WORDS[drawing]}, in pixels`}
            box={boxes[drawing] ?? { x: 0, y: 0, width: 0, height: 0 }}
            size={photo}
            onChange={frame}
          />
          <div className="cloth-fields">
            {COUNTS.map(([key, name]) => (
              <label key={key} className="cloth-field">
                <span>{name}</span>
                <input
                  className="field"
                  inputMode="decimal"
                  value={count[key]}
                  onChange={(event) => {
                    setMeasured(null);
                    setCount((before) => ({ ...before, [key]: event.target.value }));
                  }}
                />
              </label>
            ))}
          </div>
          <button
            type="button"
            className="button"
            disabled={busy || !area || !(stitches > 0 && rows > 0)}
            onClick={() => void measure()}
          >
            {busy ? "Measuring…" : "Measure"}
          </button>
        </>
      )}
      {told.length > 0 && (
        <ul role="alert" className="problems">
          {told.map((sentence, i) => (
            <li key={i}>{sentence}</li>
          ))}
        </ul>
      )}
      {measured && (
        <div role="status" className="cloth-found">
          <p>{measuredSentence(measured)}</p>
          <button
            type="button"
            className="button strong"
            onClick={() => {
              if (onMeasured(measured)) setMeasured(null);
            }}
          >
            Go by these numbers
          </button>
        </div>
      )}
    </section>
  );
}

function measuredSentence({ texture, factor }: PlainSwatch): string {
  const contrasts = `Contrast of the stitch ${texture.stitch.toFixed(3)}, of the rest ${texture.floor.toFixed(3)}`;
  if (!factor) return `${contrasts}.`;
  const [value, low, high] = [factor.value, factor.low, factor.high].map((number) => number.toFixed(2));
  return `${contrasts}; the cloth has about ${value} of the yarn’s light (${low} to ${high}, for what a camera may do).`;
}
