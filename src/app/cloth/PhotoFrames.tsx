/** What is framed on a photograph of a swatch: the cloth, and the yarn it was knitted of. */
import type { ReactNode } from "react";
import type { Box } from "../../raster/raster.ts";
import { boxBetween, FramedPicture, placeOn } from "../ui/FramedPicture.tsx";

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

export const FRAMED_WORDS: Readonly<Record<Framing, string>> = { area: "cloth", yarn: "yarn" };

/** Pixels of the photograph: a smaller box is a slip of the hand. */
const LEAST = 5;

interface PhotoFramesProps {
  readonly photo: Photo;
  readonly boxes: Framed;
  readonly onDraw: (box: Box) => void;
}

export function PhotoFrames({ photo, boxes, onDraw }: PhotoFramesProps): ReactNode {
  return (
    <FramedPicture
      address={photo.address}
      alt="The photograph of the swatch"
      size={photo}
      isDrawn
      onPress={(from) => ({
        to: (at) => {
          const box = boxBetween(from, at);
          if (box.width >= LEAST && box.height >= LEAST) onDraw(box);
        },
      })}
    >
      {(["area", "yarn"] as const).map((which) => {
        const box = boxes[which];
        return (
          box && (
            <span key={which} className="picture-frame" style={placeOn(photo, box)}>
              {FRAMED_WORDS[which]}
            </span>
          )
        );
      })}
    </FramedPicture>
  );
}
