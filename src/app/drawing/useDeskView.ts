/** How the chart is looked at on the desk: its size, what is in view, and how both are changed. */
import { useCallback, useLayoutEffect, useMemo, useRef, useState, type RefObject } from "react";
import type { Stitch } from "../../chart/draw.ts";
import type { Chart } from "../../chart/chart.ts";
import { leftOf, topOf } from "../pattern/laidChart.ts";
import { useViewSize } from "../ui/useViewSize.ts";
import {
  deskGeometry,
  firstStitch,
  NUMBERS,
  wholeStitch,
  widthStitch,
  zoomWithin,
  type DeskGeometry,
} from "./deskGeometry.ts";

export interface DeskView {
  readonly scroller: RefObject<HTMLDivElement | null>;
  /** null until the size of the view is known. */
  readonly geometry: DeskGeometry | null;
  readonly size: { readonly width: number; readonly height: number } | null;
  /** Device pixels a CSS pixel. */
  readonly density: number;
  /** Keeps the point of the page where it is on the chart; without one the middle of the view. */
  readonly zoomBy: (factor: number, at?: PagePoint) => void;
  readonly seeWhole: () => void;
  readonly seeWidth: () => void;
  /** Puts a place of the chart under a point of the page, at a size. */
  readonly hold: (place: ChartPoint, stitch: number, at: PagePoint) => void;
  readonly placeUnder: (at: PagePoint) => ChartPoint | null;
  readonly bringIntoView: (stitch: Stitch) => void;
}

export interface PagePoint {
  readonly x: number;
  readonly y: number;
}

/** In stitches from the left and in rows from the top. */
export interface ChartPoint {
  readonly across: number;
  readonly down: number;
}

/** Under this a stitch may be any part of a pixel wide. CSS pixels. */
const SHARP_FROM = 4;

export function useDeskView(chart: {
  readonly columns: number;
  readonly rows: number;
  readonly aspect: number;
  readonly worked: Chart["worked"];
}): DeskView {
  const { columns, rows, aspect, worked } = chart;
  const scroller = useRef<HTMLDivElement>(null);
  const { size, density } = useViewSize(scroller);
  const [zoom, setZoom] = useState<number | null>(null);

  const whole = useMemo(
    () => (size && size.width > 0 ? { columns, rows, aspect, view: size, ...(worked && { worked }) } : null),
    [columns, rows, aspect, worked, size],
  );
  const geometry = useMemo(() => whole && deskGeometry(whole, zoom ?? firstStitch(whole)), [whole, zoom]);
  const now = useRef(geometry);
  now.current = geometry;

  // What is to be where, once the chart has its new size.
  const pending = useRef<{ readonly place: ChartPoint; readonly at: PagePoint } | null>(null);
  const settle = useCallback(() => {
    const element = scroller.current;
    if (!element || !now.current || !pending.current) return;
    const { place, at } = pending.current;
    const box = element.getBoundingClientRect();
    element.scrollLeft = now.current.left + place.across * now.current.stitch - (at.x - box.left);
    element.scrollTop = now.current.top + place.down * now.current.row - (at.y - box.top);
    pending.current = null;
  }, []);
  useLayoutEffect(settle, [geometry, settle]);

  // Knitting begins at the bottom right, and so does drawing.
  const isPlaced = useRef(false);
  useLayoutEffect(() => {
    if (!geometry || isPlaced.current) return;
    isPlaced.current = true;
    scroller.current!.scrollLeft = geometry.width;
    scroller.current!.scrollTop = geometry.height;
  }, [geometry]);

  const placeUnder = useCallback((at: PagePoint): ChartPoint | null => {
    const element = scroller.current;
    if (!element || !now.current) return null;
    const box = element.getBoundingClientRect();
    const { left, top, stitch, row } = now.current;
    return {
      across: (at.x - box.left + element.scrollLeft - left) / stitch,
      down: (at.y - box.top + element.scrollTop - top) / row,
    };
  }, []);
  const hold = useCallback(
    (place: ChartPoint, stitch: number, at: PagePoint) => {
      pending.current = { place, at };
      const next = sharp(zoomWithin(stitch), window.devicePixelRatio || 1);
      if (next === now.current?.stitch) settle();
      else setZoom(next);
    },
    [settle],
  );
  const middle = (): PagePoint => {
    const box = scroller.current!.getBoundingClientRect();
    return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
  };
  const zoomBy = useCallback(
    (factor: number, at?: PagePoint) => {
      const from = now.current;
      if (!from) return;
      const point = at ?? middle();
      const place = placeUnder(point)!;
      const wanted = from.stitch * factor;
      const step = 1 / (window.devicePixelRatio || 1);
      // Rounding must not swallow a small step.
      const moved = sharp(wanted, 1 / step) === from.stitch ? from.stitch + Math.sign(factor - 1) * step : wanted;
      hold(place, moved, point);
    },
    [hold, placeUnder],
  );
  const fit = (stitch: (size: Parameters<typeof wholeStitch>[0]) => number): void => {
    const place = whole && placeUnder(middle());
    if (place) hold(place, stitch(whole), middle());
  };
  const bringIntoView = useCallback((stitch: Stitch) => {
    const element = scroller.current;
    if (!element || !now.current) return;
    const { stitch: wide, row: high } = now.current;
    const [x, y] = [leftOf(now.current, stitch[1]), topOf(now.current, stitch[0])];
    const into = (from: number, view: number, start: number, length: number, before: number): number =>
      Math.max(start + 2 * length - view, Math.min(from, start - length - before));
    element.scrollLeft = into(element.scrollLeft, element.clientWidth - NUMBERS.width, x, wide, now.current.before);
    element.scrollTop = into(element.scrollTop, element.clientHeight - NUMBERS.height, y, high, 0);
  }, []);

  return {
    scroller,
    geometry,
    size,
    density,
    zoomBy,
    seeWhole: () => fit(wholeStitch),
    seeWidth: () => fit(widthStitch),
    hold,
    placeUnder,
    bringIntoView,
  };
}

/** On whole device pixels, so that every stitch is as wide as the next. */
const sharp = (stitch: number, density: number): number =>
  stitch < SHARP_FROM ? stitch : Math.round(stitch * density) / density;
