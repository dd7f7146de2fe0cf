/** Files that come in by the hand: dropped onto a part of the page, or pasted while it is there. */
import { useCallback } from "react";
import { useDrop } from "./useDrop.ts";
import { usePaste } from "./usePaste.ts";

/** @returns what is spread over the element that files are dropped onto */
export function useFilesIn(take: (files: readonly File[]) => void): ReturnType<typeof useDrop> {
  usePaste(
    useCallback(
      ({ files }) => {
        if (files.length > 0) take([...files]);
        return files.length > 0;
      },
      [take],
    ),
  );
  return useDrop((dropped) => take([...dropped.files]));
}
