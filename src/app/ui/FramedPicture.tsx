/** A picture on which places are shown and pulled about by a hand: it turns the hand's places into pixels of the picture. */
import { useRef, type CSSProperties, type PointerEvent as ReactPointerEvent, type ReactNode } from "react";
import type { Box } from "../../raster/raster.ts";
import "../style/framed.css";

export type PicturePoint = readonly [number, number];

export interface PictureSize {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

export interface Pull {
  /** Where the hand is now, pixels of the picture, within it. */
  readonly to: (at: PicturePoint) => void;
  readonly end?: () => void;
}

interface FramedPictureProps {
  readonly address: string;
  readonly alt: string;
  readonly size: PictureSize;
  /** What a hand does that comes down there; null where it does nothing, and the page may scroll. */
  readonly onPress: (at: PicturePoint, target: Element) => Pull | null;
  readonly isDrawn?: boolean;
  readonly children: ReactNode;
}

export function FramedPicture({ address, alt, size, onPress, isDrawn, children }: FramedPictureProps): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const pull = useRef<Pull | null>(null);
  const at = (event: ReactPointerEvent): PicturePoint => {
    const { left, top, width, height } = frame.current!.getBoundingClientRect();
    const within = (part: number, most: number) => Math.round(Math.min(1, Math.max(0, part)) * most);
    return [within((event.clientX - left) / width, size.width), within((event.clientY - top) / height, size.height)];
  };
  const end = () => {
    pull.current?.end?.();
    pull.current = null;
  };
  return (
    <div
      ref={frame}
      className="framed-picture"
      data-drawn={isDrawn}
      onPointerDown={(event) => {
        if (event.button !== 0 || !event.isPrimary) return;
        pull.current = onPress(at(event), event.target as Element);
        if (pull.current) event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => pull.current?.to(at(event))}
      onPointerUp={end}
      onPointerCancel={end}
    >
      <img src={address} alt={alt} draggable={false} decoding="async" width={size.width} height={size.height} />
      {children}
    </div>
  );
}

/** Where something lies on the picture, whatever size that is shown in. */
export function placeOn({ width, height }: PictureSize, box: Box): CSSProperties {
  const part = (pixels: number, whole: number) => `${(pixels / whole) * 100}%`;
  return {
    left: part(box.x, width),
    top: part(box.y, height),
    width: part(box.width, width),
    height: part(box.height, height),
  };
}

export function boxBetween([x1, y1]: PicturePoint, [x2, y2]: PicturePoint): Box {
  const [x, y] = [Math.min(x1, x2), Math.min(y1, y2)];
  return { x, y, width: Math.abs(x2 - x1), height: Math.abs(y2 - y1) };
}

interface BoxFieldsProps {
  readonly legend: string;
  readonly box: Box;
  readonly size: PictureSize;
  /** Pixels by which a press on its buttons changes a number; without it there are none. */
  readonly step?: number;
  readonly onChange: (box: Box) => void;
}

/** The frame in numbers: another way than drawing, by keys alone or by single presses. */
export function BoxFields({ legend, box, size, step, onChange }: BoxFieldsProps): ReactNode {
  const parts = [
    ["x", "from the left", size.width],
    ["y", "from the top", size.height],
    ["width", "wide", size.width],
    ["height", "high", size.height],
  ] as const;
  return (
    <fieldset className="box-fields">
      <legend>{legend}</legend>
      {parts.map(([key, name, most]) => {
        const change = (pixels: number) => onChange({ ...box, [key]: Math.max(0, Math.min(most, Math.round(pixels))) });
        return (
          <div key={key} className="box-field">
            <label>
              <span>{name}</span>
              <input
                className="field"
                type="number"
                min={0}
                max={most}
                step={1}
                value={box[key]}
                onChange={(event) => change(Number(event.target.value))}
              />
            </label>
            {step !== undefined && (
              <span className="box-steps">
                <button
                  type="button"
                  className="tool"
                  aria-label={`less ${name}`}
                  onClick={() => change(box[key] - step)}
                >
                  −
                </button>
                <button
                  type="button"
                  className="tool"
                  aria-label={`more ${name}`}
                  onClick={() => change(box[key] + step)}
                >
                  +
                </button>
              </span>
            )}
          </div>
        );
      })}
    </fieldset>
  );
}
