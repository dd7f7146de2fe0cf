/** Carrying by pointer: a colour to a yarn, a yarn to a colour, or a yarn to another yarn's place; the nearest node takes it. */
import {
  useCallback,
  useEffect,
  useRef,
  useState,
  type PointerEvent as ReactPointerEvent,
  type RefObject,
} from "react";

export interface CarryEnd {
  readonly side: "colour" | "yarn";
  readonly id: string;
}

export interface CarryNode extends CarryEnd {
  readonly x: number;
  readonly y: number;
  /** Where a node is a whole line of words, how far that goes. */
  readonly till?: number;
  /** Another yarn that is let go here changes places with this one. */
  readonly swaps?: boolean;
}

export interface Carry {
  readonly from: CarryEnd;
  readonly x: number;
  readonly y: number;
  readonly to: CarryEnd | null;
}

/** Pixels that a press may tremble and still be a press. */
const TREMBLE = 6;
/** Pixels around a node within which it takes what is carried. */
const REACH = 44;

export function useCarry(
  frame: RefObject<HTMLElement | null>,
  nodes: RefObject<readonly CarryNode[]>,
  onCarried: (from: CarryEnd, to: CarryEnd) => void,
): { readonly carry: Carry | null; readonly begin: (event: ReactPointerEvent, from: CarryEnd) => void } {
  const [carry, setCarry] = useState<Carry | null>(null);
  const latest = useRef(onCarried);
  latest.current = onCarried;
  const end = useRef<(() => void) | null>(null);
  useEffect(() => () => end.current?.(), []);

  const begin = useCallback(
    (event: ReactPointerEvent, from: CarryEnd) => {
      if (event.button !== 0 || !frame.current) return;
      const start = { x: event.clientX, y: event.clientY };
      let now: Carry | null = null;
      const move = (moved: PointerEvent) => {
        if (moved.pointerId !== event.pointerId) return;
        if (!now && Math.hypot(moved.clientX - start.x, moved.clientY - start.y) < TREMBLE) return;
        const box = frame.current!.getBoundingClientRect();
        const x = moved.clientX - box.left + frame.current!.scrollLeft;
        const y = moved.clientY - box.top + frame.current!.scrollTop;
        now = { from, x, y, to: nearest(nodes.current, from, x, y) };
        setCarry(now);
      };
      const stop = (carried: boolean) => {
        removeEventListener("pointermove", move);
        removeEventListener("pointerup", up);
        removeEventListener("pointercancel", cancel);
        removeEventListener("keydown", escape, true);
        end.current = null;
        setCarry(null);
        if (!now) return;
        // A carry that ends on the node it began at would otherwise count as a press of it.
        addEventListener("click", swallow, { capture: true, once: true });
        setTimeout(() => removeEventListener("click", swallow, { capture: true }), 0);
        if (carried && now.to) latest.current(from, now.to);
      };
      const up = () => stop(true);
      const cancel = () => stop(false);
      const escape = (key: KeyboardEvent) => {
        if (key.key !== "Escape" || !now) return;
        key.preventDefault();
        stop(false);
      };
      end.current?.();
      end.current = cancel;
      addEventListener("pointermove", move);
      addEventListener("pointerup", up);
      addEventListener("pointercancel", cancel);
      addEventListener("keydown", escape, true);
    },
    [frame, nodes],
  );
  return { carry, begin };
}

function swallow(event: Event): void {
  event.preventDefault();
  event.stopPropagation();
}

const takes = (node: CarryNode, from: CarryEnd): boolean =>
  node.side !== from.side || (node.side === "yarn" && node.swaps === true && node.id !== from.id);

function nearest(nodes: readonly CarryNode[], from: CarryEnd, x: number, y: number): CarryNode | null {
  let best: CarryNode | null = null;
  let least = REACH;
  for (const node of nodes) {
    if (!takes(node, from)) continue;
    const aside = x < node.x ? node.x - x : Math.max(0, x - (node.till ?? node.x));
    const distance = Math.hypot(aside, (node.y - y) * 1.6);
    if (distance < least) [best, least] = [node, distance];
  }
  return best;
}
