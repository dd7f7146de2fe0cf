/** The chart under the hand: pointers of every kind and all keys, on a canvas that is told in words. */
import { useEffect, useRef, type KeyboardEvent, type PointerEvent, type RefObject } from "react";
import type { ReactNode } from "react";
import type { Stitch } from "../../chart/draw.ts";
import { createDeskPainter, type DeskPainter } from "./deskPainter.ts";
import { cellUnder } from "../pattern/laidChart.ts";
import { stitchWords } from "./deskWords.ts";
import type { Desk } from "./useDesk.ts";
import type { ChartPoint, DeskView } from "./useDeskView.ts";

interface DeskSurfaceProps {
  readonly desk: Desk;
  readonly view: DeskView;
  readonly painter: RefObject<DeskPainter | null>;
  /** A thick line after so many stitches and rows; 0: none. */
  readonly thick: number;
  readonly name: string;
  /** Words under the pointer; "" when it has gone. */
  readonly onHover: (words: string) => void;
}

/** One press of a zoom key, as on the buttons. */
export const ZOOM_STEP = 1.25;
/** Rows that a page key passes. */
const PAGE = 10;

export function DeskSurface({ desk, view, painter, thick, name, onHover }: DeskSurfaceProps): ReactNode {
  const base = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLCanvasElement>(null);
  const { scroller, geometry, size, density } = view;

  useEffect(() => {
    painter.current = createDeskPainter(base.current!, over.current!);
    return () => {
      painter.current?.close();
      painter.current = null;
    };
  }, [painter]);
  const look = (): void => {
    const { current: element } = scroller;
    if (geometry && size && element)
      painter.current?.look({
        geometry,
        scroll: { x: element.scrollLeft, y: element.scrollTop },
        view: size,
        density,
        thick,
        worked: desk.chart.worked,
      });
  };
  useEffect(look, [geometry, size, density, thick, desk.chart.worked]);

  const { zoomBy } = view;
  useEffect(() => {
    const element = scroller.current!;
    // React listens to the wheel passively; only a listener of our own may keep the page from zooming.
    const onWheel = (event: WheelEvent): void => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      zoomBy(Math.exp(-event.deltaY / 200), { x: event.clientX, y: event.clientY });
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, [scroller, zoomBy]);

  const pointers = usePointers(desk, view, onHover);
  const keys = useKeys(desk, view);
  useClipboard(desk, scroller);
  const { grid } = desk;
  return (
    <div
      ref={scroller}
      className="desk-scroll"
      data-tool={desk.held ? "held" : desk.tool}
      tabIndex={0}
      role="application"
      aria-roledescription="chart to draw in"
      aria-label={`${name}: ${grid.height} rows of ${grid.width} stitches`}
      aria-describedby="desk-keys"
      onScroll={look}
      {...keys}
      {...pointers}
    >
      <div className="desk-size" style={geometry ? { width: geometry.width, height: geometry.height } : {}}>
        <div className="desk-window" style={size ?? {}}>
          {[base, over].map((canvas, at) => (
            <canvas
              key={at}
              ref={canvas}
              width={Math.round((size?.width ?? 1) * density)}
              height={Math.round((size?.height ?? 1) * density)}
            />
          ))}
        </div>
      </div>
    </div>
  );
}

interface Pinch {
  readonly place: ChartPoint;
  readonly apart: number;
  readonly stitch: number;
}

function usePointers(desk: Desk, view: DeskView, onHover: (words: string) => void) {
  const latest = useRef({ desk, view });
  latest.current = { desk, view };
  const down = useRef(new Map<number, { x: number; y: number }>());
  const pinch = useRef<Pinch | null>(null);
  const pan = useRef<{ readonly id: number; readonly place: ChartPoint } | null>(null);
  /** The pointer that draws, and the stitch it was last over. */
  const drawing = useRef<{ readonly id: number; last: Stitch } | null>(null);

  const stitchUnder = (event: { readonly clientX: number; readonly clientY: number }): Stitch | null => {
    const { geometry, scroller } = latest.current.view;
    if (!geometry || !scroller.current) return null;
    const box = scroller.current.getBoundingClientRect();
    const { scrollLeft, scrollTop } = scroller.current;
    return cellUnder(geometry, event.clientX - box.left + scrollLeft, event.clientY - box.top + scrollTop);
  };
  const twoPoints = (): { readonly x: number; readonly y: number; readonly apart: number } | null => {
    const [one, other] = [...down.current.values()];
    if (!one || !other) return null;
    return { x: (one.x + other.x) / 2, y: (one.y + other.y) / 2, apart: Math.hypot(one.x - other.x, one.y - other.y) };
  };
  const drop = (event: PointerEvent): void => {
    down.current.delete(event.pointerId);
    if (down.current.size < 2) pinch.current = null;
    if (pan.current?.id === event.pointerId) pan.current = null;
    if (drawing.current?.id === event.pointerId) drawing.current = null;
  };

  return {
    onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
      const { desk, view } = latest.current;
      if (event.pointerType === "mouse" && event.target === event.currentTarget) return;
      event.currentTarget.focus({ preventScroll: true });
      down.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
      event.currentTarget.setPointerCapture(event.pointerId);
      const two = twoPoints();
      if (two && view.geometry) {
        // Two fingers look, they never draw: what the first began is called off.
        if (drawing.current) desk.callOff();
        drawing.current = null;
        pan.current = null;
        pinch.current = { place: view.placeUnder(two)!, apart: two.apart, stitch: view.geometry.stitch };
        return;
      }
      const at = stitchUnder(event);
      if (!at) return;
      if (event.button === 1 || desk.tool === "hand") {
        pan.current = { id: event.pointerId, place: view.placeUnder({ x: event.clientX, y: event.clientY })! };
        event.preventDefault();
        return;
      }
      if (event.button !== 0 || drawing.current) return;
      event.preventDefault();
      drawing.current = { id: event.pointerId, last: at };
      desk.begin(at);
    },
    onPointerMove: (event: PointerEvent<HTMLDivElement>) => {
      const { desk, view } = latest.current;
      if (down.current.has(event.pointerId)) down.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
      const two = pinch.current && twoPoints();
      if (two && pinch.current) {
        const { place, stitch, apart } = pinch.current;
        return view.hold(place, stitch * (two.apart / Math.max(1, apart)), two);
      }
      if (pan.current?.id === event.pointerId)
        return view.hold(pan.current.place, view.geometry!.stitch, { x: event.clientX, y: event.clientY });
      const { current: hand } = drawing;
      if (hand?.id === event.pointerId) {
        // What the hand passed between two frames belongs to the stroke too.
        const passed = event.nativeEvent.getCoalescedEvents?.() ?? [];
        for (const one of passed.length > 0 ? passed : [event.nativeEvent]) {
          const at = stitchUnder(one);
          if (!at || (at[0] === hand.last[0] && at[1] === hand.last[1])) continue;
          hand.last = at;
          desk.go(at);
        }
      }
      const at = event.pointerType === "touch" ? null : stitchUnder(event);
      onHover(at ? stitchWords(desk.grid, at, desk.colours) : "");
    },
    onPointerUp: (event: PointerEvent<HTMLDivElement>) => {
      const { current: hand } = drawing;
      const isDrawing = hand?.id === event.pointerId;
      const { desk } = latest.current;
      drop(event);
      if (!isDrawing || !hand) return;
      desk.moveCursor(hand.last, "point");
      desk.end();
    },
    onPointerCancel: (event: PointerEvent<HTMLDivElement>) => {
      if (drawing.current?.id === event.pointerId) latest.current.desk.callOff();
      drop(event);
    },
    onPointerLeave: () => onHover(""),
  };
}

const STEPS: Readonly<Record<string, Stitch>> = {
  ArrowUp: [1, 0],
  ArrowDown: [-1, 0],
  ArrowLeft: [0, 1],
  ArrowRight: [0, -1],
  PageUp: [PAGE, 0],
  PageDown: [-PAGE, 0],
};

function useKeys(desk: Desk, view: DeskView) {
  const penDown = useRef(false);
  const goTo = (to: Stitch, extend: boolean): void => {
    desk.moveCursor(to, extend ? "extend" : "go");
    view.bringIntoView(to);
  };
  const lift = (): void => {
    if (!penDown.current) return;
    penDown.current = false;
    desk.end();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const { key } = event;
    const isCommand = event.ctrlKey || event.metaKey;
    if (event.altKey) return;
    const [row, column] = desk.cursor;
    const step = STEPS[key];
    const { width, height } = desk.grid;
    if (isCommand) {
      if (key.toLowerCase() === "a") desk.chooseAll();
      else if (key === "Home") goTo([height, width], event.shiftKey);
      else if (key === "End") goTo([1, 1], event.shiftKey);
      else return;
    } else if (step && desk.held) desk.moveHeld(...step);
    else if (step) goTo([row + step[0], column + step[1]], event.shiftKey);
    else if (key === "Home") goTo([row, width], event.shiftKey);
    else if (key === "End") goTo([row, 1], event.shiftKey);
    else if (key === " ") {
      if (!event.repeat) {
        penDown.current = desk.tool === "pencil" && !desk.held;
        desk.press(true);
      }
    } else if (key === "Enter") desk.press(false);
    else if (key === "Delete" || key === "Backspace") desk.takeOut();
    else if (key === "Escape") {
      penDown.current = false;
      if (!desk.stepBack()) return;
    } else if (valueOf(desk.grid.ids, key) >= 0) desk.takeValue(valueOf(desk.grid.ids, key));
    else if (key === "+" || key === "=") view.zoomBy(ZOOM_STEP);
    else if (key === "-") view.zoomBy(1 / ZOOM_STEP);
    else return;
    event.preventDefault();
  };
  return {
    onKeyDown,
    onKeyUp: (event: KeyboardEvent) => {
      if (event.key === " ") lift();
    },
    onBlur: lift,
  };
}

/** A colour's letter takes it up; the other case will do where only one of them is a colour. @returns -1 for none */
function valueOf(ids: readonly string[], key: string): number {
  if (key.length !== 1 || ids.includes(key)) return ids.indexOf(key);
  return ids.findIndex((id) => id.toLowerCase() === key.toLowerCase());
}

/** Where the keys go back to when a button has done what it does and is gone. */
export const toChart = (): void => document.querySelector<HTMLElement>(".desk-scroll")?.focus({ preventScroll: true });

/** The platform's own copy, cut and paste, while the keys are on the chart. */
function useClipboard(desk: Desk, surface: RefObject<HTMLElement | null>): void {
  const latest = useRef(desk);
  latest.current = desk;
  useEffect(() => {
    const isHere = (): boolean => document.activeElement === surface.current;
    const onCopy = (event: ClipboardEvent): void => {
      const text = isHere() ? latest.current.copyText() : null;
      if (text === null) return;
      event.clipboardData?.setData("text/plain", text);
      event.preventDefault();
      if (event.type === "cut") latest.current.takeOut();
      else latest.current.tell("Copied.");
    };
    const onPaste = (event: ClipboardEvent): void => {
      const text = isHere() ? event.clipboardData?.getData("text/plain") : undefined;
      if (text === undefined) return;
      event.preventDefault();
      latest.current.paste(text);
    };
    document.addEventListener("copy", onCopy);
    document.addEventListener("cut", onCopy);
    document.addEventListener("paste", onPaste);
    return () => {
      document.removeEventListener("copy", onCopy);
      document.removeEventListener("cut", onCopy);
      document.removeEventListener("paste", onPaste);
    };
  }, [surface]);
}
