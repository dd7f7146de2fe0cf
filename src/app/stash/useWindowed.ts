/** A list of which only what is in view is there: rows of one height in a box that scrolls. */
import { useCallback, useEffect, useLayoutEffect, useRef, useState, type RefObject } from "react";

export interface Windowed {
  readonly box: RefObject<HTMLDivElement | null>;
  /** The first row that is there, and the first after them. */
  readonly from: number;
  readonly to: number;
  readonly onScroll: () => void;
}

/** Rows above and below the view that are there already when the hand scrolls. Our choice. */
const BEYOND = 8;

/**
 * @param above CSS pixels of what stands over the rows in the same box, and stays in view
 * @param show the row that must be seen, where there is one; the box scrolls no farther than it takes
 */
export function useWindowed(
  count: number,
  rowHeight: number,
  { above, show }: { readonly above: number; readonly show: number },
): Windowed {
  const box = useRef<HTMLDivElement>(null);
  const [seen, setSeen] = useState({ from: 0, to: 30 });
  const measure = useCallback(() => {
    const element = box.current;
    if (!element) return;
    const from = Math.max(0, Math.floor(element.scrollTop / rowHeight) - BEYOND);
    const to = Math.ceil((element.scrollTop + element.clientHeight - above) / rowHeight) + BEYOND;
    setSeen((now) => (now.from === from && now.to === to ? now : { from, to }));
  }, [rowHeight, above]);

  useEffect(() => {
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(box.current!);
    return () => observer.disconnect();
  }, [measure]);

  useLayoutEffect(() => {
    const element = box.current;
    if (show < 0 || !element) return;
    const top = show * rowHeight;
    const room = element.clientHeight - above - rowHeight;
    if (top < element.scrollTop) element.scrollTop = top;
    else if (top > element.scrollTop + room) element.scrollTop = top - room;
    measure();
  }, [show, rowHeight, above, measure]);

  return { box, from: Math.min(seen.from, count), to: Math.min(seen.to, count), onScroll: measure };
}
