/** The beginning of a door that takes files: the button, the other ways, and what to mind before one is chosen. */
import { useRef, type ReactNode } from "react";
import "../style/files.css";
import { FileInput } from "./FileInput.tsx";

/** What a door takes. */
export interface FileKinds {
  /** "Photographs of yarns": what the field is called to who does not see it. */
  readonly name: string;
  readonly accept: string;
}

interface FilesChoiceProps extends FileKinds {
  readonly words: string;
  readonly otherWays: string;
  readonly onFiles: (files: readonly File[]) => void;
  /** A list of sentences. */
  readonly children: ReactNode;
}

export function FilesChoice({ otherWays, children, ...button }: FilesChoiceProps): ReactNode {
  return (
    <div className="files-choice">
      <FilesButton {...button} strong />
      <p className="files-hint">{otherWays}</p>
      <ul className="files-advice">{children}</ul>
    </div>
  );
}

interface FilesButtonProps extends FileKinds {
  readonly words: string;
  readonly strong?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
}

export function FilesButton({ words, strong, name, accept, onFiles }: FilesButtonProps): ReactNode {
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
      <FileInput picker={picker} name={name} accept={accept} onFiles={onFiles} />
    </>
  );
}
