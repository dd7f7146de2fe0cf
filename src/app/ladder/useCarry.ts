/** Carrying by pointer: from a colour to a yarn or from a yarn to a colour; the nearest node of the other rail takes it. */
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
}

export interface Carry {
  readonly from: CarryEnd;
  readonly fromX: number;
  readonly fromY: number;
  readonly x: number;
  readonly y: number;
  readonly to: CarryNode | null;
}

/** Pixels that a press may tremble and still be a press. */
const TREMBLE = 6;
/** Pixels around a node within which it takes what is carried. */
const REACH = 44;

export function useCarry(
  frame: RefObject<HTMLElement | null>,
  nodes: readonly CarryNode[],
  onCarried: (colour: string, yarn: string) => void,
): { readonly carry: Carry | null; readonly begin: (event: ReactPointerEvent, from: CarryEnd) => void } {
  const [carry, setCarry] = useState<Carry | null>(null);
  const latest = useRef({ nodes, onCarried });
  latest.current = { nodes, onCarried };
  const end = useRef<(() => void) | null>(null);
  useEffect(() => () => end.current?.(), []);

  const begin = useCallback(
    (event: ReactPointerEvent, from: CarryEnd) => {
      if (event.button !== 0 || !frame.current) return;
      const start = { x: event.clientX, y: event.clientY };
      let now: Carry | null = null;
      const node = latest.current.nodes.find(({ side, id }) => side === from.side && id === from.id);
      if (!node) return;
      const move = (moved: PointerEvent) => {
        if (moved.pointerId !== event.pointerId) return;
        if (!now && Math.hypot(moved.clientX - start.x, moved.clientY - start.y) < TREMBLE) return;
        const box = frame.current!.getBoundingClientRect();
        const x = moved.clientX - box.left + frame.current!.scrollLeft;
        const y = moved.clientY - box.top + frame.current!.scrollTop;
        now = { from, fromX: node.x, fromY: node.y, x, y, to: nearest(latest.current.nodes, from, x, y) };
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
        if (!carried || !now.to) return;
        const [colour, yarn] = from.side === "colour" ? [from.id, now.to.id] : [now.to.id, from.id];
        latest.current.onCarried(colour, yarn);
      };
      const up = () => stop(true);
      const cancel = () => stop(false);
      const escape = (key: KeyboardEvent) => {
        if (key.key !== "Escape" || !now) return;
        key.preventDefault();
        stop(false);
      };
      end.current = cancel;
      addEventListener("pointermove", move);
      addEventListener("pointerup", up);
      addEventListener("pointercancel", cancel);
      addEventListener("keydown", escape, true);
    },
    [frame],
  );
  return { carry, begin };
}

function swallow(event: Event): void {
  event.preventDefault();
  event.stopPropagation();
}

function nearest(nodes: readonly CarryNode[], from: CarryEnd, x: number, y: number): CarryNode | null {
  let best: CarryNode | null = null;
  let least = REACH;
  for (const node of nodes) {
    if (node.side === from.side) continue;
    const distance = Math.hypot(node.x - x, (node.y - y) * 1.6);
    if (distance < least) [best, least] = [node, distance];
  }
  return best;
}
