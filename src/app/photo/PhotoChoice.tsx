/** The door to photographs: how to take one that tells shades, and three ways to bring it in. */
import { useRef, type ReactNode } from "react";

interface PhotoChoiceProps {
  readonly onFiles: (files: readonly File[]) => void;
}

export function PhotoChoice({ onFiles }: PhotoChoiceProps): ReactNode {
  return (
    <div className="photo-choice">
      <FilesButton words="Choose photographs" strong onFiles={onFiles} />
      <p className="photo-hint">Or drop them here, or paste them. They stay on this computer.</p>
      <ul className="photo-advice">
        <li>By a window in daylight, out of the sun, without flash.</li>
        <li>Yarns side by side on plain cloth or a plain table, with a little room between them.</li>
        <li>Paper bands off, or turned underneath: a band that is seen is measured with its yarn.</li>
        <li>
          Something neutral among them: a colour chart of 24 patches is best, a grey card is good, white paper helps.
        </li>
        <li>Nothing burnt out: rather a little too dark than too light.</li>
      </ul>
    </div>
  );
}

interface FilesButtonProps extends PhotoChoiceProps {
  readonly words: string;
  readonly strong?: boolean;
}

/** Several files at once; the same may be chosen again. */
export function FilesButton({ words, strong, onFiles }: FilesButtonProps): ReactNode {
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={strong ? "button strong" : "button"} onClick={() => picker.current?.click()}>
        {words}
      </button>
      <input
        ref={picker}
        type="file"
        multiple
        hidden
        aria-label="Photographs of yarns"
        accept="image/*,.heic,.heif,.tif,.tiff,.dng,.pdf"
        onChange={(event) => {
          onFiles([...(event.target.files ?? [])]);
          event.target.value = "";
        }}
      />
    </>
  );
}
