/** What is pasted anywhere on the page while a part is there that takes it. */
import { useEffect } from "react";

/** @param take true where it took what was pasted, and nobody else gets it */
export function usePaste(take: (pasted: DataTransfer, target: EventTarget | null) => boolean): void {
  useEffect(() => {
    const onPaste = (event: ClipboardEvent) => {
      if (event.clipboardData && take(event.clipboardData, event.target)) event.preventDefault();
    };
    addEventListener("paste", onPaste);
    return () => removeEventListener("paste", onPaste);
  }, [take]);
}
