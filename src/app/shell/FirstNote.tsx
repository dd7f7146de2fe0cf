/** Three sentences for somebody who has never seen the bench; closed for good by a press, and had again from the foot of the findings. */
import { useState, type ReactNode } from "react";

const KEY = "twostrand-first-note";

function wasClosed(): boolean {
  try {
    return localStorage.getItem(KEY) === "closed";
  } catch {
    return false;
  }
}

function remember(closed: boolean): void {
  try {
    if (closed) localStorage.setItem(KEY, "closed");
    else localStorage.removeItem(KEY);
  } catch {
    // Without storage the note is there again next time, and closed again by one press.
  }
}

export interface NoteState {
  readonly open: boolean;
  readonly set: (open: boolean) => void;
}

export function useFirstNote(): NoteState {
  const [open, setOpen] = useState(() => !wasClosed());
  return {
    open,
    set: (next) => {
      remember(!next);
      setOpen(next);
    },
  };
}

export function FirstNote({ note }: { readonly note: NoteState }): ReactNode {
  if (!note.open) return null;
  return (
    <aside className="first-note" aria-label="First of all">
      <p>
        On the bench lies a worked example: a vest in eleven colours, and forty leftovers to knit it from. Marks beside
        the rows say how each shows from the distance below; the ladder, Light to dark, sets the yarns beside the
        pattern’s colours. Press a letter there to try another yarn: every step can be undone, and nothing leaves this
        browser.
      </p>
      <button
        type="button"
        className="button"
        onClick={() => {
          note.set(false);
          document.querySelector<HTMLElement>(".header select")?.focus();
        }}
      >
        Close this note
      </button>
    </aside>
  );
}
