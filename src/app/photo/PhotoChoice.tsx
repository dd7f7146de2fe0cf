/** The door to photographs: how to take one that tells shades, and three ways to bring it in. */
import type { ReactNode } from "react";
import { FilesChoice, type FileKinds } from "../ui/FilesChoice.tsx";

export const PHOTOGRAPHS: FileKinds = {
  name: "Photographs of yarns",
  accept: "image/*,.heic,.heif,.tif,.tiff,.dng,.pdf",
};

export function PhotoChoice({ onFiles }: { readonly onFiles: (files: readonly File[]) => void }): ReactNode {
  return (
    <FilesChoice
      {...PHOTOGRAPHS}
      words="Choose photographs"
      otherWays="Or drop them here, or paste them. They stay on this computer."
      onFiles={onFiles}
    >
      <li>By a window in daylight, out of the sun, without flash.</li>
      <li>Yarns side by side on plain cloth or a plain table, with a little room between them.</li>
      <li>Paper bands off, or turned underneath: a band that is seen is measured with its yarn.</li>
      <li>
        Something neutral among them: a colour chart of 24 patches is best, a grey card is good, white paper helps.
      </li>
      <li>Nothing burnt out: rather a little too dark than too light.</li>
    </FilesChoice>
  );
}
