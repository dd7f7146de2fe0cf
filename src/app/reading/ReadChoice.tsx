/** The door to charts: what can be brought in, and three ways to bring it. */
import { useRef, type ReactNode } from "react";

interface ReadChoiceProps {
  readonly onFiles: (files: readonly File[]) => void;
}

export function ReadChoice({ onFiles }: ReadChoiceProps): ReactNode {
  return (
    <div className="photo-choice">
      <ChartFilesButton words="Choose pictures, PDFs or drawings" strong onFiles={onFiles} />
      <p className="reading-hint">Or drop them here, or paste a picture. They stay on this computer.</p>
      <ul className="photo-advice">
        <li>A PDF, an SVG or a picture made by a program is read exactly; a PDF asks which of its pages.</li>
        <li>A scan or a screen shot: the whole chart with its key, as large as it comes.</li>
        <li>A photograph: from straight above, in even light, the page as flat as it lies, the whole chart in it.</li>
        <li>A chart over several pages: all of them at once; they are put together.</li>
      </ul>
    </div>
  );
}

interface ChartFilesButtonProps extends ReadChoiceProps {
  readonly words: string;
  readonly strong?: boolean;
}

/** Several files at once; the same may be chosen again. */
export function ChartFilesButton({ words, strong, onFiles }: ChartFilesButtonProps): ReactNode {
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <button
        type="button"
        className={strong ? "button strong" : "button"}
        data-files
        onClick={() => picker.current?.click()}
      >
        {words}
      </button>
      <input
        ref={picker}
        type="file"
        multiple
        hidden
        aria-label="Pictures, PDFs or drawings of charts"
        accept="image/*,.heic,.heif,.svg,.pdf,application/pdf"
        onChange={(event) => {
          onFiles([...(event.target.files ?? [])]);
          event.target.value = "";
        }}
      />
    </>
  );
}
