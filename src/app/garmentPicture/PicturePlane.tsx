/** The picture with a cross on it: moved by hand or by arrow keys, with what lies under it magnified. */
import { useEffect, useRef, type KeyboardEvent, type ReactNode } from "react";
import type { Box } from "../../raster/raster.ts";
import { FramedPicture, placeOn, type PicturePoint } from "../ui/FramedPicture.tsx";
import type { OpenedPicture, PickedPlace } from "./usePicture.ts";

interface PicturePlaneProps {
  readonly picture: OpenedPicture;
  readonly at: PicturePoint;
  /** Pixels of the picture: the side of what is picked. */
  readonly side: number;
  readonly places: readonly PickedPlace[];
  readonly neutral: Box | null;
  /** What the next press picks: a chart colour, or the grey or white thing. */
  readonly picking: string;
  readonly onMove: (at: PicturePoint) => void;
  readonly onPick: (at: PicturePoint) => void;
  /** Other keys: a chart colour's letter, more or less, back. */
  readonly onKey: (key: string) => boolean;
}

/** Parts of the longer side by which an arrow key moves the cross, alone and with shift; our choice. */
const STEP = 1 / 400;
const LARGE_STEP = 1 / 40;

const ARROWS: Readonly<Record<string, PicturePoint>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

export const areaAt = ([x, y]: PicturePoint, side: number, { width, height }: OpenedPicture): Box => {
  const within = (middle: number, most: number): number =>
    Math.round(Math.min(most - side, Math.max(0, middle - side / 2)));
  return { x: within(x, width), y: within(y, height), width: side, height: side };
};

export function PicturePlane(props: PicturePlaneProps): ReactNode {
  const { picture, at, side, places, neutral, picking, onMove, onPick, onKey } = props;
  const { width, height } = picture;
  const move = (across: number, down: number): void => {
    const within = (value: number, most: number): number => Math.round(Math.min(most, Math.max(0, value)));
    onMove([within(at[0] + across, width), within(at[1] + down, height)]);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const arrow = ARROWS[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (arrow) {
      const by = Math.max(1, Math.max(width, height) * (event.shiftKey ? LARGE_STEP : STEP));
      move(arrow[0] * by, arrow[1] * by);
    } else if (event.key === "Enter" || event.key === " ") onPick(at);
    else if (!onKey(event.key)) return;
    event.preventDefault();
  };
  return (
    <div
      className="garment-plane"
      role="application"
      tabIndex={0}
      aria-label={`The picture: arrow keys move the cross, Enter picks ${picking}`}
      aria-describedby="garment-place"
      onKeyDown={onKeyDown}
    >
      <FramedPicture
        address={picture.address}
        alt="The picture of the garment"
        size={picture}
        isDrawn
        onPress={(from) => {
          onMove(from);
          let last = from;
          return {
            to: (next) => {
              last = next;
              onMove(next);
            },
            end: () => onPick(last),
          };
        }}
      >
        {places.map(({ key, colour, area, told, by }) => (
          <span key={key} className="garment-place" data-untold={by !== null && !told} style={placeOn(picture, area)}>
            <span>{colour}</span>
          </span>
        ))}
        {neutral && (
          <span className="garment-place" style={placeOn(picture, neutral)}>
            <span>ref.</span>
          </span>
        )}
        <span className="garment-cross" style={placeOn(picture, areaAt(at, side, picture))} />
      </FramedPicture>
      <p id="garment-place" className="unseen">
        {Math.round((100 * at[0]) / width)} % from the left, {Math.round((100 * at[1]) / height)} % from the top
      </p>
    </div>
  );
}

/** CSS pixels, and how many times the picked square's side it shows. */
const GLASS = { size: 168, sides: 3 };

/** The pixels about the cross, large and unsmoothed. */
export function Magnifier({ picture, at, side }: Pick<PicturePlaneProps, "picture" | "at" | "side">): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const image = useRef<HTMLImageElement | null>(null);
  useEffect(() => {
    const draw = (): void => {
      const context = canvas.current?.getContext("2d");
      const source = image.current;
      if (!context || !source?.naturalWidth) return;
      const scale = source.naturalWidth / picture.width;
      const seen = side * GLASS.sides * scale;
      context.imageSmoothingEnabled = false;
      context.fillStyle = "#919191";
      context.fillRect(0, 0, GLASS.size, GLASS.size);
      context.drawImage(
        source,
        at[0] * scale - seen / 2,
        at[1] * scale - seen / 2,
        seen,
        seen,
        0,
        0,
        GLASS.size,
        GLASS.size,
      );
    };
    if (image.current?.src === picture.address) return draw();
    image.current = new Image();
    image.current.onload = draw;
    image.current.src = picture.address;
  }, [picture, at, side]);
  return (
    <div className="garment-glass" aria-hidden="true">
      <canvas ref={canvas} width={GLASS.size} height={GLASS.size} />
      <span style={{ width: GLASS.size / GLASS.sides, height: GLASS.size / GLASS.sides }} />
    </div>
  );
}
