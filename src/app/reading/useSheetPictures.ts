/** The picture of a sheet as the page draws it: unpacked beside the page's own work, and once more small for looking from afar. */
import { useEffect, useState } from "react";
import type { SheetInHand } from "./reading.ts";

export interface SheetPictures {
  readonly sheet: string;
  readonly full: ImageBitmap;
  /** null where the full one is no larger than that. */
  readonly small: ImageBitmap | null;
  /** Pixels of the sheet, whatever the pictures have. */
  readonly width: number;
  readonly height: number;
}

/** Pixels, the longer side, of what is drawn when the whole sheet is in view. Our choice. */
const SMALL = 1400;

/** null as long as it is being unpacked. */
export function useSheetPictures(sheet: SheetInHand | null): SheetPictures | null {
  const [pictures, setPictures] = useState<SheetPictures | null>(null);
  const { key, preview, width = 0, height = 0 } = sheet ?? {};
  useEffect(() => {
    if (!preview || key === undefined) return setPictures(null);
    let live = true;
    const made: ImageBitmap[] = [];
    const unpack = async () => {
      const small =
        Math.max(width, height) > SMALL
          ? await createImageBitmap(preview, {
              resizeWidth: Math.max(1, Math.round((SMALL * width) / Math.max(width, height))),
              resizeQuality: "high",
            })
          : null;
      if (small) made.push(small);
      const full = await createImageBitmap(preview);
      made.push(full);
      if (live) setPictures({ sheet: key, full, small, width, height });
      else for (const bitmap of made) bitmap.close();
    };
    void unpack();
    return () => {
      live = false;
      setPictures(null);
      for (const bitmap of made) bitmap.close();
    };
  }, [key, preview, width, height]);
  return pictures?.sheet === key ? pictures : null;
}
