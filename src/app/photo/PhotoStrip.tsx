/** The photographs in hand, one beside the other; which of them is shown, and more of them. */
import type { ReactNode } from "react";
import { FilesButton } from "../ui/FilesChoice.tsx";
import { TakeAway } from "../ui/TakeAway.tsx";
import { PHOTOGRAPHS } from "./PhotoChoice.tsx";
import type { PhotoInHand } from "./photos.ts";
import type { Progress } from "./usePhotos.ts";

interface PhotoStripProps {
  readonly photos: readonly PhotoInHand[];
  readonly shown: string | null;
  readonly progress: Progress | null;
  readonly onShow: (id: string) => void;
  readonly onRemove: (id: string) => void;
  readonly onFiles: (files: readonly File[]) => void;
}

export function PhotoStrip({ photos, shown, progress, onShow, onRemove, onFiles }: PhotoStripProps): ReactNode {
  return (
    <div className="photo-strip">
      <ul aria-label="Photographs">
        {photos.map((photo) => (
          <li key={photo.id} data-shown={photo.id === shown}>
            <button
              type="button"
              className="photo-thumb"
              aria-pressed={photo.id === shown}
              onClick={() => onShow(photo.id)}
            >
              {photo.preview ? (
                <img src={photo.preview} alt="" decoding="async" />
              ) : (
                <span className="photo-thumb-blank" />
              )}
              <span className="photo-thumb-words">
                <span>{photo.file.name}</span>
                <span>{stateWords(photo, progress?.photo === photo.id)}</span>
              </span>
            </button>
            <TakeAway name={photo.file.name} onPress={() => onRemove(photo.id)} />
          </li>
        ))}
      </ul>
      <FilesButton {...PHOTOGRAPHS} words="More photographs" onFiles={onFiles} />
    </div>
  );
}

function stateWords({ state, yarns }: PhotoInHand, isWorking: boolean): string {
  if (state === "refused") return "not opened";
  if (state === "waiting") return isWorking ? "being looked at…" : "waits";
  return yarns.length === 1 ? "1 yarn" : `${yarns.length} yarns`;
}
