/** The door to charts: what can be brought in, and three ways to bring it. */
import type { ReactNode } from "react";
import { FilesChoice, type FileKinds } from "../ui/FilesChoice.tsx";

export const CHART_FILES: FileKinds = {
  name: "Pictures, PDFs or drawings of charts",
  accept: "image/*,.heic,.heif,.svg,.pdf,application/pdf",
};

export function ReadChoice({ onFiles }: { readonly onFiles: (files: readonly File[]) => void }): ReactNode {
  return (
    <FilesChoice
      {...CHART_FILES}
      words="Choose pictures, PDFs or drawings"
      otherWays="Or drop them here, or paste a picture. They stay on this computer."
      onFiles={onFiles}
    >
      <li>A PDF, an SVG or a picture made by a program is read exactly; a PDF asks which of its pages.</li>
      <li>A scan or a screen shot: the whole chart with its key, as large as it comes.</li>
      <li>A photograph: from straight above, in even light, the page as flat as it lies, the whole chart in it.</li>
      <li>A chart over several pages: all of them at once; they are put together.</li>
    </FilesChoice>
  );
}
