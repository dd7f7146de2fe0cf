/** What is being done to the photographs, how far it has come, and the way to stop it. */
import type { ReactNode } from "react";
import { WorkLine } from "../ui/WorkLine.tsx";
import type { PhotoInHand } from "./photos.ts";
import type { Progress } from "./usePhotos.ts";

interface WorkProgressProps {
  readonly photos: readonly PhotoInHand[];
  readonly progress: Progress | null;
  readonly isStopped: boolean;
  readonly onStop: () => void;
  readonly onGoOn: () => void;
}

const STAGES: Readonly<Record<Progress["stage"], string>> = {
  opening: "Opening",
  reference: "Looking for a reference in",
  outlining: "Outlining yarns in",
  measuring: "Measuring",
};

export function WorkProgress({ photos, progress, isStopped, onStop, onGoOn }: WorkProgressProps): ReactNode {
  const words = progress && wordsOf(progress, photos);
  return (
    <WorkLine
      work={progress && words && { words: words.stage, share: progress.share }}
      count={words?.count ?? ""}
      isStopped={isStopped}
      onStop={onStop}
      onGoOn={onGoOn}
    />
  );
}

/** The stage is read out; the count beside it is only shown. */
function wordsOf(
  { photo, stage, done, of }: Progress,
  photos: readonly PhotoInHand[],
): { readonly stage: string; readonly count: string } {
  const at = photos.findIndex(({ id }) => id === photo);
  const which = photos.length > 1 ? `photograph ${at + 1} of ${photos.length}` : "the photograph";
  if (stage !== "measuring") return { stage: `${STAGES[stage]} ${which}…`, count: "" };
  return { stage: "Measuring…", count: `${Math.min(of ?? 0, (done ?? 0) + 1)} of ${of}` };
}
