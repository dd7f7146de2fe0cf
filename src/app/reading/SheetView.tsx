/** The sheet as it is, with the read cells laid over it as faintly or as thickly as she wants; looked at closely or from afar. */
import {
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
} from "react";
import type { ChartGrid, Point } from "../../intake/chartGrid.ts";
import { crossing } from "../../intake/chartGrid.ts";
import { Icon } from "../ui/Icon.tsx";
import {
  cellSize,
  cellsTexture,
  cellUnder,
  drawCells,
  drawFrames,
  drawGrid,
  drawPicture,
  type Look,
  type ShownCells,
  type ViewSize,
} from "./sheetDraw.ts";
import { useSigns } from "./useSigns.ts";
import type { SheetPictures } from "./useSheetPictures.ts";

/** A cell of the part that is shown, from the top left, from 0. */
export type ShownPlace = readonly [row: number, column: number];

interface SheetViewProps {
  readonly pictures: SheetPictures;
  readonly name: string;
  /** null where nothing was read, or while the grid is being laid. */
  readonly cells: ShownCells | null;
  /** 0: the picture alone; 1: the cells alone. */
  readonly cover: number;
  readonly chosen: ShownPlace | null;
  readonly doubtful: readonly ShownPlace[];
  readonly alike: readonly ShownPlace[];
  /** The grid that is being laid. */
  readonly draft: ChartGrid | null;
  readonly label: string;
  readonly onChoose: (place: ShownPlace) => void;
  /** Keys that mean something to whoever shows the sheet; true where it was one. */
  readonly onKey: (event: KeyboardEvent) => boolean;
  /** What stands beneath the sheet, beside how closely it is looked at. */
  readonly tools?: ReactNode;
  /** What lies over the sheet, such as handles; handed the look. */
  readonly children?: (look: Look) => ReactNode;
}

/** Times by which a key, a button or a notch of the wheel comes nearer. Our choice. */
const NEARER = 1.25;
const MOST_SCALE = 60;
/** CSS pixels of a cell that is visited. */
const VISITED = 22;
/** CSS pixels below which a press was no pull. */
const STILL = 5;

export function SheetView(props: SheetViewProps): ReactNode {
  const { pictures, name, cells, cover, chosen, doubtful, alike, draft, label, onChoose, onKey, tools, children } =
    props;
  const frame = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const layer = useRef<HTMLCanvasElement | null>(null);
  const [view, setView] = useState<ViewSize>({ width: 0, height: 0, ratio: 1 });
  const [look, setLook] = useState<Look | null>(null);

  useLayoutEffect(() => {
    const element = frame.current!;
    const measure = () =>
      setView({ width: element.clientWidth, height: element.clientHeight, ratio: Math.min(2, devicePixelRatio || 1) });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  /** What is fitted into the view as long as she has not moved it. */
  const fitted = useRef<"chart" | "whole" | null>(null);
  const grid = draft ?? cells?.grid ?? null;
  const whole = useCallback((): Look => wholeLook(pictures, view), [pictures, view]);
  const onChart = useCallback((): Look => (grid ? boxLook(grid, view) : whole()), [grid, view, whole]);
  const fit = useCallback(
    (what: "chart" | "whole") => {
      fitted.current = what;
      setLook(what === "chart" ? onChart() : whole());
    },
    [onChart, whole],
  );
  // Another sheet is first seen with its chart large; a change of the grid moves nothing.
  const hasCells = cells !== null;
  const seen = useRef<string | null>(null);
  const fittedFor = useRef(view);
  useLayoutEffect(() => {
    if (view.width === 0) return;
    const isNew = seen.current !== pictures.sheet || !look;
    const isOtherSize = fittedFor.current !== view;
    fittedFor.current = view;
    seen.current = pictures.sheet;
    // Where nothing was read, all of it has to be seen to say where the chart is.
    if (isNew) fit(hasCells ? "chart" : "whole");
    else if (isOtherSize && fitted.current) fit(fitted.current);
  }, [pictures.sheet, view, look, hasCells, fit]);

  // All corners of a grid are seen before one of them is pulled.
  const isLaying = draft !== null;
  const laying = useRef(isLaying);
  useEffect(() => {
    // Where parts take turns the sheet may have no room yet.
    if (view.width === 0) return;
    if (isLaying && !laying.current) fit("chart");
    laying.current = isLaying;
  }, [isLaying, fit, view.width]);

  // A cell that is visited is brought into view, large enough to be seen.
  const lastChosen = useRef<string>("");
  useEffect(() => {
    if (!chosen || !cells || view.width === 0) return;
    const which = `${pictures.sheet} ${chosen.join(" ")}`;
    if (which === lastChosen.current) return;
    lastChosen.current = which;
    fitted.current = null;
    setLook((now) => now && visiting(now, cells.grid, chosen, view));
  }, [chosen, cells, view, pictures.sheet]);

  const rows = cells?.rows;
  const colours = cells?.colours;
  const texture = useMemo(() => (rows && colours ? cellsTexture({ rows, colours }) : null), [rows, colours]);
  const signs = useSigns(cells?.symbols, colours);

  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context || !look || view.width === 0) return;
    const drawn = requestAnimationFrame(() => {
      context.setTransform(view.ratio, 0, 0, view.ratio, 0, 0);
      drawPicture(context, pictures, look, view);
      if (cells && texture && cover > 0 && !draft) {
        const own = (layer.current ??= document.createElement("canvas"));
        own.width = context.canvas.width;
        own.height = context.canvas.height;
        drawCells(own.getContext("2d")!, cells, texture, signs, look, view);
        context.save();
        context.globalAlpha = cover;
        context.setTransform(1, 0, 0, 1, 0, 0);
        context.drawImage(own, 0, 0);
        context.restore();
      }
      if (draft) drawGrid(context, draft, look);
      else if (cells) {
        const weight = Math.max(1, Math.min(3, cellSize(cells.grid, look) / 8));
        drawFrames(context, cells.grid, doubtful, look, weight);
        drawFrames(context, cells.grid, alike, look, weight);
        if (chosen) drawFrames(context, cells.grid, [chosen], look, 3.5);
      }
    });
    return () => cancelAnimationFrame(drawn);
  }, [pictures, cells, texture, signs, cover, chosen, doubtful, alike, draft, look, view]);

  const near = useCallback(
    (by: number, at?: Point) => {
      fitted.current = null;
      setLook(
        (now) => now && nearer(now, by, at ?? [view.width / 2, view.height / 2], wholeLook(pictures, view).scale),
      );
    },
    [view, pictures],
  );
  const pan = (x: number, y: number) => {
    fitted.current = null;
    setLook((now) => now && { ...now, x: now.x + x / now.scale, y: now.y + y / now.scale });
  };

  // The wheel may only be held back by a listener that says beforehand that it will.
  useEffect(() => {
    const element = frame.current!;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const { left, top } = element.getBoundingClientRect();
      if (event.ctrlKey || event.metaKey)
        near(Math.exp(-event.deltaY / 300), [event.clientX - left, event.clientY - top]);
      else pan(event.deltaX, event.deltaY);
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, [near]);

  const hands = useRef(new Map<number, Point>());
  const moved = useRef(0);
  const at = (event: PointerEvent): Point => {
    const { left, top } = frame.current!.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  const onDown = (event: PointerEvent) => {
    if (event.button !== 0 || (event.target as Element).closest("button")) return;
    hands.current.set(event.pointerId, at(event));
    if (hands.current.size === 1) moved.current = 0;
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onMove = (event: PointerEvent) => {
    const before = hands.current.get(event.pointerId);
    if (!before) return;
    const now = at(event);
    const others = [...hands.current].filter(([id]) => id !== event.pointerId).map(([, point]) => point);
    moved.current += Math.hypot(now[0] - before[0], now[1] - before[1]);
    const other = others[0];
    if (other) {
      const apart = (point: Point): number => Math.max(1, Math.hypot(point[0] - other[0], point[1] - other[1]));
      near(apart(now) / apart(before), [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
    } else if (moved.current > STILL) pan(before[0] - now[0], before[1] - now[1]);
    hands.current.set(event.pointerId, now);
  };
  const onUp = (event: PointerEvent) => {
    const point = hands.current.get(event.pointerId);
    hands.current.delete(event.pointerId);
    if (!point || moved.current > STILL || !look || !cells || draft) return;
    const under = cellUnder(cells.grid, [look.x + point[0] / look.scale, look.y + point[1] / look.scale]);
    if (under) onChoose(under);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey) return;
    const arrow = ARROWS[event.key];
    if (event.key === "+" || event.key === "=") near(NEARER);
    else if (event.key === "-") near(1 / NEARER);
    else if (event.key === "0") fit("whole");
    else if (arrow && (event.altKey || !cells || draft)) pan(arrow[1] * 40, arrow[0] * 40);
    else if (arrow && !chosen && cells) {
      // Keys begin where she is looking, or where knitting does.
      const middle: Point | null = look && [
        look.x + view.width / look.scale / 2,
        look.y + view.height / look.scale / 2,
      ];
      onChoose((middle && cellUnder(cells.grid, middle)) ?? [cells.grid.rows - 1, cells.grid.columns - 1]);
    } else if (arrow && chosen && cells) {
      const row = Math.min(cells.grid.rows - 1, Math.max(0, chosen[0] + arrow[0]));
      const column = Math.min(cells.grid.columns - 1, Math.max(0, chosen[1] + arrow[1]));
      onChoose([row, column]);
    } else if (!onKey(event)) return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div className="sheet-view">
      <div
        ref={frame}
        className="sheet-frame"
        role="application"
        aria-label={label}
        tabIndex={0}
        onKeyDown={onKeyDown}
        onPointerDown={onDown}
        onPointerMove={onMove}
        onPointerUp={onUp}
        onPointerCancel={(event) => hands.current.delete(event.pointerId)}
      >
        <canvas
          ref={canvas}
          role="img"
          aria-label={name}
          width={Math.max(1, Math.round(view.width * view.ratio))}
          height={Math.max(1, Math.round(view.height * view.ratio))}
        />
        {look && children?.(look)}
      </div>
      <div className="sheet-tools">
        {tools}
        <div className="sheet-zoom tool-group" role="group" aria-label="How closely">
          <button
            type="button"
            className="tool"
            aria-label="Nearer"
            title="Nearer (+)"
            onClick={() => near(NEARER ** 2)}
          >
            <Icon name="bigger" />
          </button>
          <button
            type="button"
            className="tool"
            aria-label="From farther away"
            title="From farther away (−)"
            onClick={() => near(1 / NEARER ** 2)}
          >
            <Icon name="smaller" />
          </button>
          <button
            type="button"
            className="tool"
            aria-label="All of it"
            title="All of it (0)"
            onClick={() => fit("whole")}
          >
            <Icon name="whole" />
          </button>
          {grid && (
            <button type="button" className="tool sheet-on-chart" onClick={() => fit("chart")}>
              The chart
            </button>
          )}
        </div>
      </div>
    </div>
  );
}

const ARROWS: Readonly<Record<string, readonly [down: number, across: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

const centred = (scale: number, [x, y]: Point, { width, height }: ViewSize): Look => ({
  scale,
  x: x - width / scale / 2,
  y: y - height / scale / 2,
});

const wholeLook = ({ width, height }: SheetPictures, view: ViewSize): Look =>
  centred(Math.min(view.width / width, view.height / height) || 1, [width / 2, height / 2], view);

/** A little of what lies around is seen too: numbers, the key. Our choice. */
const AROUND = 1.12;

function boxLook({ corners }: ChartGrid, view: ViewSize): Look {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let at = 0; at < corners.length; at += 2) {
    left = Math.min(left, corners[at]!);
    right = Math.max(right, corners[at]!);
    top = Math.min(top, corners[at + 1]!);
    bottom = Math.max(bottom, corners[at + 1]!);
  }
  const scale = Math.min(
    MOST_SCALE,
    view.width / (AROUND * Math.max(1, right - left)),
    view.height / (AROUND * Math.max(1, bottom - top)),
  );
  return centred(scale, [(left + right) / 2, (top + bottom) / 2], view);
}

/** The place `at` of the view stays where it is. */
function nearer({ scale, x, y }: Look, by: number, [across, down]: Point, least: number): Look {
  const next = Math.min(MOST_SCALE, Math.max(least / 2, scale * by));
  return { scale: next, x: x + across / scale - across / next, y: y + down / scale - down / next };
}

function visiting(look: Look, grid: ChartGrid, [row, column]: ShownPlace, view: ViewSize): Look {
  const [[left, top], [right, bottom]] = [crossing(grid, row, column), crossing(grid, row + 1, column + 1)];
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  const size = Math.max(1e-6, Math.min(Math.abs(right - left), Math.abs(bottom - top)));
  if (size * look.scale < VISITED) return centred(Math.min(MOST_SCALE, VISITED / size), middle, view);
  const [x, y] = [(middle[0] - look.x) * look.scale, (middle[1] - look.y) * look.scale];
  const edge = Math.min(40, view.width / 4, view.height / 4);
  const isSeen = x > edge && y > edge && x < view.width - edge && y < view.height - edge;
  return isSeen ? look : centred(look.scale, middle, view);
}
