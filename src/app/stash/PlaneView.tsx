/** A picture of the shelf in which every yarn has its place: drawn at once however many there are, walked by arrow keys, pointed at by hand. */
import {
  memo,
  useEffect,
  useId,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  type PointerEvent,
  type ReactNode,
} from "react";
import type { Area, Placed, Spot } from "./layouts.ts";
import { useCursorKeys, type Cursor } from "./cursor.ts";
import type { StashLine } from "./lines.ts";
import { paintBall } from "./paintBall.ts";
import { lineWords } from "./yarnWords.ts";

interface PlaneViewProps {
  readonly label: string;
  readonly cursor: Cursor;
  readonly place: (area: Area) => Placed;
  /** Where the upper and the lower end of what its range leaves open lie, for the yarn she is at. */
  readonly reach?: (line: StashLine, area: Area) => readonly [number, number];
  /** What lies behind the yarns. */
  readonly ground: (area: Area) => ReactNode;
}

/** CSS pixels beside a ball at which a finger still means it. */
const NEAR = 8;

export function PlaneView({ label, cursor, place, reach, ground }: PlaneViewProps): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const area = useArea(frame);
  const [hovered, setHovered] = useState<string | null>(null);
  const onKeyDown = useCursorKeys(cursor);
  const activeId = useId();
  const { lines, active, chosen } = cursor;
  const placed = useMemo(() => (area ? place(area) : null), [area, place]);
  const byId = useMemo(() => new Map(placed?.spots.map((spot) => [spot.id, spot])), [placed]);
  const spot = active === null ? undefined : byId.get(active);
  const shown = hovered === null ? undefined : byId.get(hovered);
  const at = lines.findIndex(({ id }) => id === active);

  const near = (event: PointerEvent): Spot | null => {
    if (!placed) return null;
    const box = frame.current!.getBoundingClientRect();
    return nearestSpot(placed, event.clientX - box.left, event.clientY - box.top);
  };
  return (
    <div
      ref={frame}
      className="plane"
      role="listbox"
      aria-multiselectable="true"
      aria-label={label}
      tabIndex={0}
      {...(spot && { "aria-activedescendant": activeId })}
      onKeyDown={onKeyDown}
      onFocus={() => {
        if (!spot && lines[0]) cursor.onActive(lines[0].id);
      }}
      onPointerMove={(event) => event.pointerType !== "touch" && setHovered(near(event)?.id ?? null)}
      onPointerLeave={() => setHovered(null)}
      onClick={(event) => {
        const found = near(event as unknown as PointerEvent);
        if (!found) return;
        if (event.ctrlKey || event.metaKey || event.shiftKey) cursor.onChoose(found.id);
        else cursor.onOpen(found.id);
      }}
    >
      {area && ground(area)}
      {spot && area && reach && <Reach at={spot.x} ends={reach(lines[at]!, area)} />}
      {area && placed && <Marks area={area} placed={placed} cursor={cursor} />}
      {shown && shown.id !== active && !shown.name && (
        <NameTag spot={shown} radius={placed!.radius} area={area!} name={nameOf(cursor, shown.id)} />
      )}
      {spot && (
        <span
          id={activeId}
          role="option"
          className="plane-active"
          aria-selected={chosen.has(active!)}
          aria-setsize={lines.length}
          aria-posinset={at + 1}
          aria-label={lineWords(lines[at]!)}
          style={{ left: spot.x, top: spot.y, width: 2 * placed!.radius + 8, height: 2 * placed!.radius + 8 }}
        />
      )}
      {spot && !spot.name && (
        <NameTag spot={spot} radius={placed!.radius} area={area!} name={nameOf(cursor, spot.id)} />
      )}
    </div>
  );
}

const nameOf = ({ lines }: Cursor, id: string): string => lines.find((line) => line.id === id)?.yarn.name ?? "";

function Reach({ at, ends }: { readonly at: number; readonly ends: readonly [number, number] }): ReactNode {
  const [top, bottom] = ends;
  return (
    <span className="plane-range" aria-hidden="true" style={{ left: at, top, height: Math.max(4, bottom - top) }} />
  );
}

interface NameTagProps {
  readonly spot: Spot;
  readonly radius: number;
  readonly area: Area;
  readonly name: string;
}

/** The name of a ball that has no room for it, for as long as it is pointed at. */
function NameTag({ spot, radius, area, name }: NameTagProps): ReactNode {
  const isRight = spot.x > area.width * 0.6;
  return (
    <span
      className="plane-tag"
      aria-hidden="true"
      style={{
        top: spot.y,
        ...(isRight ? { right: area.width - spot.x + radius + 7 } : { left: spot.x + radius + 7 }),
      }}
    >
      {name}
    </span>
  );
}

interface MarksProps {
  readonly area: Area;
  readonly placed: Placed;
  readonly cursor: Cursor;
}

/** The yarns themselves on one canvas, and their names. Drawn again only when they, their places or the choice have changed. */
const Marks = memo(
  function Marks({ area, placed, cursor: { lines, chosen } }: MarksProps): ReactNode {
    const canvas = useRef<HTMLCanvasElement>(null);
    const byId = new Map(lines.map((line) => [line.id, line]));
    useLayoutEffect(() => {
      const context = canvas.current?.getContext("2d");
      if (!context || !canvas.current) return;
      const density = Math.min(2, window.devicePixelRatio || 1);
      canvas.current.width = Math.round(area.width * density);
      canvas.current.height = Math.round(area.height * density);
      context.scale(density, density);
      for (const { id, x, y } of placed.spots) {
        const line = byId.get(id);
        if (!line) continue;
        paintBall(context, line.yarn, line.hex, { x, y, radius: placed.radius });
        if (chosen.has(id)) paintChosen(context, x, y, placed.radius);
      }
    });
    return (
      <>
        <canvas ref={canvas} aria-hidden="true" style={{ width: area.width, height: area.height }} />
        {placed.spots.map(
          ({ id, y, name }) =>
            name && (
              <span
                key={id}
                className="plane-name"
                aria-hidden="true"
                style={{ left: name.x, top: y, maxWidth: name.width + 2, textAlign: name.align }}
              >
                {byId.get(id)?.yarn.name}
              </span>
            ),
        )}
      </>
    );
  },
  (before, now) =>
    before.area === now.area &&
    before.placed === now.placed &&
    before.cursor.lines === now.cursor.lines &&
    before.cursor.chosen === now.cursor.chosen,
);

/** White within black, seen on any wool. */
function paintChosen(context: CanvasRenderingContext2D, x: number, y: number, radius: number): void {
  for (const [width, colour, away] of [
    [4, "#000", 2],
    [1.5, "#fff", 1.5],
  ] as const) {
    context.beginPath();
    context.arc(x, y, radius + away, 0, 2 * Math.PI);
    context.lineWidth = width;
    context.strokeStyle = colour;
    context.stroke();
  }
}

function nearestSpot({ spots, radius }: Placed, x: number, y: number): Spot | null {
  let best: Spot | null = null;
  let least = radius + NEAR;
  for (const spot of spots) {
    const distance = Math.hypot(spot.x - x, spot.y - y);
    if (distance < least) [best, least] = [spot, distance];
  }
  if (best) return best;
  return (
    spots.find(
      ({ name, y: middle }) => name && Math.abs(middle - y) < 10 && x >= name.x - 6 && x <= name.x + name.width,
    ) ?? null
  );
}

function useArea(frame: { readonly current: HTMLElement | null }): Area | null {
  const [area, setArea] = useState<Area | null>(null);
  useEffect(() => {
    const element = frame.current!;
    const measure = (): void => {
      const { clientWidth: width, clientHeight: height } = element;
      setArea((now) => (now?.width === width && now.height === height ? now : { width, height }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [frame]);
  return area;
}
