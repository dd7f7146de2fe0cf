/** A question mark beside a number: it opens what the number means, what it rests on and where it is weak. */
import { lazy, Suspense, useRef, useState, type ReactNode } from "react";
import { NUMBER_NAMES, type NumberKey } from "./numberNames.ts";
import type { YarnNumberKey } from "./yarnNumbers.ts";

// Its sentences are longer than all that is shown at first: they come when one is asked for.
const HelpPage = lazy(() => import("./HelpPage.tsx").then((module) => ({ default: module.HelpPage })));

type NumberHelpProps =
  | {
      /** One number, or those that stand together in a line. */
      readonly of: NumberKey | readonly NumberKey[];
      /** What the button is called where the first number's own name does not tell enough. */
      readonly about?: string;
    }
  /** Numbers of the page of yarns, whose names come with their help. */
  | { readonly of: readonly (NumberKey | YarnNumberKey)[]; readonly about: string };

/** May stand anywhere in running text, but neither in a heading nor in a label, whose names it would become part of. */
export function NumberHelp({ of, about }: NumberHelpProps): ReactNode {
  const keys = typeof of === "string" ? [of] : of;
  const [open, setOpen] = useState(false);
  const wrapper = useRef<HTMLSpanElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const close = () => {
    setOpen(false);
    button.current?.focus();
  };
  return (
    <span
      ref={wrapper}
      className="number-help"
      onKeyDown={(event) => {
        if (!open || event.key !== "Escape") return;
        // What lies under the help keeps its own Escape for the next press.
        event.preventDefault();
        event.stopPropagation();
        close();
      }}
      onBlur={(event) => {
        if (open && !wrapper.current?.contains(event.relatedTarget)) setOpen(false);
      }}
    >
      <button
        ref={button}
        type="button"
        className="number-help-button"
        aria-label={`What is meant: ${about ?? NUMBER_NAMES[keys[0] as NumberKey]}`}
        aria-expanded={open}
        aria-haspopup="dialog"
        onClick={() => setOpen(!open)}
      >
        <span aria-hidden="true">?</span>
      </button>
      {open && (
        <Suspense>
          <HelpPage keys={keys} button={button} onClose={close} onLeave={() => setOpen(false)} />
        </Suspense>
      )}
    </span>
  );
}
