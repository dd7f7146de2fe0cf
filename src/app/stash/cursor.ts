/** One yarn of many under her keys: the arrows walk, Space chooses, Enter opens, in every picture of the shelf alike. */
import { useCallback, useRef, type KeyboardEvent } from "react";
import type { StashLine } from "./lines.ts";

export interface Cursor {
  /** In the order in which the arrows walk. */
  readonly lines: readonly StashLine[];
  readonly active: string | null;
  readonly chosen: ReadonlySet<string>;
  readonly onActive: (id: string) => void;
  readonly onChoose: (id: string) => void;
  /** Pressed: its details are shown. */
  readonly onOpen: (id: string) => void;
  /** Entered by key: the hand goes to its details. */
  readonly onEnter: (id: string) => void;
}

/** Yarns that a press of Page Up or Page Down goes past. Our choice. */
const PAGE = 10;

export function useCursorKeys(cursor: Cursor): (event: KeyboardEvent) => void {
  const latest = useRef(cursor);
  latest.current = cursor;
  return useCallback((event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target !== event.currentTarget) return;
    const { lines, active, onActive, onChoose, onEnter } = latest.current;
    const at = lines.findIndex(({ id }) => id === active);
    const last = lines.length - 1;
    const goTo = (index: number): void => {
      const line = lines[Math.max(0, Math.min(last, index))];
      if (line) onActive(line.id);
    };
    const acts: Readonly<Record<string, () => void>> = {
      ArrowDown: () => goTo(at + 1),
      ArrowRight: () => goTo(at + 1),
      ArrowUp: () => goTo(at < 0 ? last : at - 1),
      ArrowLeft: () => goTo(at < 0 ? last : at - 1),
      Home: () => goTo(0),
      End: () => goTo(last),
      PageDown: () => goTo(at + PAGE),
      PageUp: () => goTo(at - PAGE),
      " ": () => at >= 0 && onChoose(active!),
      Enter: () => at >= 0 && onEnter(active!),
    };
    const act = acts[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }, []);
}
