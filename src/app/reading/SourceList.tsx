/** The files in hand: their names, their other pages, more of them, and each taken away again. */
import type { ReactNode } from "react";
import { FilesButton } from "../ui/FilesChoice.tsx";
import { TakeAway } from "../ui/TakeAway.tsx";
import { CHART_FILES } from "./ReadChoice.tsx";
import type { Reading } from "./useReading.ts";

interface SourceListProps {
  readonly reading: Reading;
  readonly onFiles: (files: readonly File[]) => void;
}

export function SourceList({ reading, onFiles }: SourceListProps): ReactNode {
  return (
    <ul className="source-list" aria-label="Files">
      {reading.sources.map(({ id, file, pages, state }) => (
        <li key={id}>
          <span className="source-name" title={file.name}>
            {file.name}
          </span>
          {pages > 1 && state === "opened" && (
            <button type="button" className="button" onClick={() => reading.choosePages(id)}>
              Other pages
            </button>
          )}
          <TakeAway name={file.name} onPress={() => reading.remove(id)} />
        </li>
      ))}
      <li>
        <FilesButton {...CHART_FILES} words="More files" onFiles={onFiles} />
      </li>
    </ul>
  );
}
