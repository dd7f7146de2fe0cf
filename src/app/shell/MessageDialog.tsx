/** Sentences that must be read before going on: a file that could not be opened, an edit that was refused. */
import { useEffect, useRef, type ReactNode } from "react";
import { useBench } from "./bench.ts";

export function MessageDialog(): ReactNode {
  const { message, tell } = useBench();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (message && !dialog.current?.open) dialog.current?.showModal();
  }, [message]);
  return (
    <dialog ref={dialog} className="message" aria-labelledby="message-title" onClose={() => tell(null)}>
      {message && (
        <>
          <h2 id="message-title">{message.title}</h2>
          <ul>
            {message.sentences.map((sentence, i) => (
              <li key={i}>{sentence}</li>
            ))}
          </ul>
          <form method="dialog">
            <button className="button strong" autoFocus>
              Go on
            </button>
          </form>
        </>
      )}
    </dialog>
  );
}
