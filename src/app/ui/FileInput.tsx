/** A hidden file field behind a button of one's own; the same file may be chosen again. */
import type { ReactNode, RefObject } from "react";

interface FileInputProps {
  readonly picker: RefObject<HTMLInputElement | null>;
  readonly name: string;
  readonly accept: string;
  /** One file at a time. */
  readonly onFile?: (file: File) => void;
  /** As many at once as she chooses. */
  readonly onFiles?: (files: readonly File[]) => void;
}

export function FileInput({ picker, name, accept, onFile, onFiles }: FileInputProps): ReactNode {
  return (
    <input
      ref={picker}
      type="file"
      multiple={onFiles !== undefined}
      hidden
      aria-label={name}
      accept={accept}
      onChange={(event) => {
        const files = [...(event.target.files ?? [])];
        if (files[0]) onFile?.(files[0]);
        if (files.length > 0) onFiles?.(files);
        event.target.value = "";
      }}
    />
  );
}
