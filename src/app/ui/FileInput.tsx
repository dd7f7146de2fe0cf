/** A hidden file field behind a button of one's own; the same file may be chosen twice. */
import type { ReactNode, RefObject } from "react";

interface FileInputProps {
  readonly picker: RefObject<HTMLInputElement | null>;
  readonly name: string;
  readonly accept: string;
  readonly onFile: (file: File) => void;
}

export function FileInput({ picker, name, accept, onFile }: FileInputProps): ReactNode {
  return (
    <input
      ref={picker}
      type="file"
      hidden
      aria-label={name}
      accept={accept}
      onChange={(event) => {
        const file = event.target.files?.[0];
        if (file) onFile(file);
        event.target.value = "";
      }}
    />
  );
}
