/** Frames on a photograph: drawn by hand, or typed in pixels. */
import { useRef, type PointerEvent as ReactPointerEvent, type ReactNode } from "react";
import type { Box } from "../../raster/raster.ts";

export interface Photo {
  readonly file: File;
  readonly address: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

/** What a frame is of. */
export type Framing = "area" | "yarn";
export type Framed = Readonly<Record<Framing, Box | null>>;

const WORDS: Readonly<Record<Framing, string>> = { area: "cloth", yarn: "yarn" };

/** Pixels of the photograph: a smaller box is a slip of the hand. */
const LEAST = 5;

interface PhotoFramesProps {
  readonly photo: Photo;
  readonly boxes: Framed;
  readonly onDraw: (box: Box) => void;
}

export function PhotoFrames({ photo, boxes, onDraw }: PhotoFramesProps): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const from = useRef<{ readonly x: number; readonly y: number } | null>(null);
  const at = (event: ReactPointerEvent): { x: number; y: number } => {
    const { left, top, width, height } = frame.current!.getBoundingClientRect();
    const within = (part: number, most: number) => Math.round(Math.min(1, Math.max(0, part)) * most);
    return {
      x: within((event.clientX - left) / width, photo.width),
      y: within((event.clientY - top) / height, photo.height),
    };
  };
  return (
    <div
      ref={frame}
      className="swatch-frames"
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = at(event);
      }}
      onPointerMove={(event) => {
        if (!from.current) return;
        const to = at(event);
        const box = {
          x: Math.min(from.current.x, to.x),
          y: Math.min(from.current.y, to.y),
          width: Math.abs(to.x - from.current.x),
          height: Math.abs(to.y - from.current.y),
        };
        if (box.width >= LEAST && box.height >= LEAST) onDraw(box);
      }}
      onPointerUp={() => (from.current = null)}
      onPointerCancel={() => (from.current = null)}
    >
      <img src={photo.address} alt="The photograph of the swatch" draggable={false} />
      {(["area", "yarn"] as const).map((which) => {
        const box = boxes[which];
        const part = (pixels: number, whole: number) => `${(pixels / whole) * 100}%`;
        return (
          box && (
            <span
              key={which}
              className="swatch-frame"
              style={{
                left: part(box.x, photo.width),
                top: part(box.y, photo.height),
                width: part(box.width, photo.width),
                height: part(box.height, photo.height),
              }}
            >
              {WORDS[which]}
            </span>
          )
        );
      })}
    </div>
  );
}

interface BoxFieldsProps {
  readonly which: Framing;
  readonly box: Box | null;
  readonly photo: Photo;
  readonly onChange: (box: Box) => void;
}

/** The frame in numbers: another way than drawing, by keys alone. */
export function BoxFields({ which, box, photo, onChange }: BoxFieldsProps): ReactNode {
  const now = box ?? { x: 0, y: 0, width: 0, height: 0 };
  const parts = [
    ["x", "from the left", photo.width],
    ["y", "from the top", photo.height],
    ["width", "wide", photo.width],
    ["height", "high", photo.height],
  ] as const;
  return (
    <fieldset className="box-fields">
      <legend>Frame of the {WORDS[which]}, in pixels</legend>
      {parts.map(([key, name, most]) => (
        <label key={key}>
          <span>{name}</span>
          <input
            className="field"
            type="number"
            min={0}
            max={most}
            value={now[key]}
            onChange={(event) => {
              const pixels = Math.round(Number(event.target.value));
              onChange({ ...now, [key]: Math.max(0, Math.min(most, pixels)) });
            }}
          />
        </label>
      ))}
    </fieldset>
  );
}
