/** The page of a number's help: what it means, what it rests on and where it is weak, in the top layer beside its button. */
import { useEffect, useId, useLayoutEffect, useRef, useState, type ReactNode } from "react";
import { NUMBER_HELP } from "./numberCatalogue.ts";
import { NUMBER_NAMES, type NumberKey } from "./numberNames.ts";
import { YARN_NUMBER_HELP, YARN_NUMBER_NAMES, type YarnNumberKey } from "./yarnNumbers.ts";

type AnyKey = NumberKey | YarnNumberKey;
const NAMES = { ...NUMBER_NAMES, ...YARN_NUMBER_NAMES };
const HELP = { ...NUMBER_HELP, ...YARN_NUMBER_HELP };

interface HelpPageProps {
  readonly keys: readonly AnyKey[];
  readonly button: { readonly current: HTMLButtonElement | null };
  readonly onClose: () => void;
  readonly onLeave: () => void;
}

export function HelpPage({ keys, button, onClose, onLeave }: HelpPageProps): ReactNode {
  const page = useRef<HTMLSpanElement>(null);
  const title = useId();
  const [unfolded, setUnfolded] = useState<AnyKey | null>(keys[0]!);
  const leave = useRef(onLeave);
  leave.current = onLeave;

  useLayoutEffect(() => {
    const element = page.current!;
    // In the top layer no part of the bench cuts it off, and it stays a child of what it explains.
    if (!element.matches(":popover-open")) {
      element.showPopover();
      element.focus();
    }
    place(element, button.current!);
  }, [button, unfolded]);

  useEffect(() => {
    const onPress = (event: PointerEvent) => {
      const inside = page.current?.contains(event.target as Node) || button.current?.contains(event.target as Node);
      if (!inside) leave.current();
    };
    const onScroll = (event: Event) => {
      if (!page.current || page.current.contains(event.target as Node)) return;
      place(page.current, button.current!);
    };
    addEventListener("pointerdown", onPress, true);
    addEventListener("scroll", onScroll, true);
    addEventListener("resize", onScroll);
    return () => {
      removeEventListener("pointerdown", onPress, true);
      removeEventListener("scroll", onScroll, true);
      removeEventListener("resize", onScroll);
    };
  }, [button]);

  return (
    <span ref={page} popover="manual" className="number-page" role="dialog" aria-labelledby={title} tabIndex={-1}>
      <span className="number-head">
        <span id={title} className="number-name">
          {keys.length > 1 ? "What these numbers mean" : NAMES[keys[0]!]}
        </span>
        <button type="button" className="tool" aria-label="Close" onClick={onClose}>
          <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
            <path d="M3 3 13 13M13 3 3 13" stroke="currentColor" strokeWidth="1.7" strokeLinecap="round" />
          </svg>
        </button>
      </span>
      {keys.map((key) =>
        keys.length === 1 ? (
          <EntryWords key={key} of={key} />
        ) : (
          <span key={key} className="number-entry">
            <button
              type="button"
              className="number-turn"
              aria-expanded={unfolded === key}
              onClick={() => setUnfolded(unfolded === key ? null : key)}
            >
              {NAMES[key]}
            </button>
            {unfolded === key && <EntryWords of={key} />}
          </span>
        ),
      )}
    </span>
  );
}

function EntryWords({ of }: { readonly of: AnyKey }): ReactNode {
  const { meaning, restsOn, weak } = HELP[of];
  return (
    <span className="number-words">
      <span>{meaning}</span>
      <span>
        <b>Rests on.</b> {restsOn}
      </span>
      <span>
        <b>Where it is weak.</b> {weak}
      </span>
    </span>
  );
}

/** CSS pixels between the page, its button and the window's edge. */
const AWAY = 6;
const EDGE = 12;

/** Below its button if there is room, else above, and never over the window's edge. */
function place(page: HTMLElement, button: HTMLElement): void {
  const box = button.getBoundingClientRect();
  const { innerWidth, innerHeight } = window;
  const below = innerHeight - box.bottom - AWAY - EDGE;
  const above = box.top - AWAY - EDGE;
  page.style.maxHeight = "";
  const wanted = page.offsetHeight;
  const under = below >= wanted || below >= above;
  page.style.maxHeight = `${Math.max(120, under ? below : above)}px`;
  const height = page.offsetHeight;
  const left = box.left + box.width / 2 - page.offsetWidth / 2;
  page.style.left = `${Math.max(EDGE, Math.min(innerWidth - page.offsetWidth - EDGE, left))}px`;
  page.style.top = `${under ? box.bottom + AWAY : box.top - AWAY - height}px`;
}
