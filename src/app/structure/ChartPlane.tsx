/** The chart with its structure drawn on it: scrolled, made larger, pressed for a band or a stitch. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState, type ReactNode } from "react";
import type { Chart } from "../../chart/chart.ts";
import type { Gauge } from "../../garment/gauge.ts";
import type { BuiltBand, BuiltChart } from "../worker/api.ts";
import { Icon } from "../ui/Icon.tsx";
import { topOf } from "../pattern/laidChart.ts";
import { useViewSize } from "../ui/useViewSize.ts";
import { placeAt, planeOf } from "./planeGeometry.ts";
import { chartPicture, paintPlane, type PlaneScene } from "./planePaint.ts";

interface ChartPlaneProps {
  readonly chart: Chart;
  readonly gauge: Gauge;
  readonly hexOf: ReadonlyMap<string, string>;
  readonly built: BuiltChart | null;
  readonly framed: readonly BuiltBand[];
  readonly marks: PlaneScene["marks"];
  readonly stitch: { readonly row: number; readonly column: number } | null;
  /** A row that should be in view; it is brought there whenever it is another. */
  readonly toRow: number | null;
  readonly label: string;
  readonly onPress: (place: { readonly row: number; readonly column: number }) => void;
}

const ZOOM_STEP = Math.SQRT2;
const ZOOMS = [1, 32] as const;

export function ChartPlane({
  chart,
  gauge,
  hexOf,
  built,
  framed,
  marks,
  stitch,
  toRow,
  label,
  onPress,
}: ChartPlaneProps): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const { size, density } = useViewSize(scroller);
  const [scroll, setScroll] = useState({ x: 0, y: 0 });
  const [zoom, setZoom] = useState(1);
  const plane = useMemo(
    () =>
      size && size.width > 0
        ? planeOf(
            { columns: chart.rows[0]!.length, rows: chart.rows.length, ...(chart.worked && { worked: chart.worked }) },
            gauge,
            { view: size.width, zoom },
          )
        : null,
    [chart, gauge, size, zoom],
  );
  const picture = useMemo(() => chartPicture(chart.rows, hexOf), [chart, hexOf]);
  // A larger chart keeps its middle where it was.
  const middle = useRef({ x: 0.5, y: 0.5 });
  useLayoutEffect(() => {
    const element = scroller.current;
    if (!element || !plane) return;
    element.scrollLeft = middle.current.x * plane.width - element.clientWidth / 2;
    element.scrollTop = middle.current.y * plane.height - element.clientHeight / 2;
  }, [plane?.width, plane?.height]);
  useEffect(() => {
    const element = scroller.current;
    if (!element || !plane || toRow === null) return;
    const top = topOf(plane, Math.min(toRow, plane.rows));
    const margin = Math.min(80, element.clientHeight / 4);
    if (top < element.scrollTop + margin || top > element.scrollTop + element.clientHeight - margin)
      element.scrollTop = top - element.clientHeight / 2;
  }, [toRow, plane]);

  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (context && plane && size)
      paintPlane(context, {
        plane,
        chart: picture,
        hexOf,
        built,
        framed,
        marks,
        stitch,
        scroll,
        size,
        density,
        worked: chart.worked,
      });
  });

  return (
    <div className="structure-plane">
      <div className="structure-zoom tool-group" role="group" aria-label="Size of the chart">
        <button
          type="button"
          className="tool"
          aria-label="Smaller stitches"
          disabled={zoom <= ZOOMS[0]}
          onClick={() => setZoom(Math.max(ZOOMS[0], zoom / ZOOM_STEP))}
        >
          <Icon name="smaller" />
        </button>
        <button
          type="button"
          className="tool"
          aria-label="Larger stitches"
          disabled={zoom >= ZOOMS[1]}
          onClick={() => setZoom(Math.min(ZOOMS[1], zoom * ZOOM_STEP))}
        >
          <Icon name="bigger" />
        </button>
      </div>
      <div
        ref={scroller}
        className="structure-scroll"
        role="region"
        aria-label={label}
        tabIndex={0}
        onScroll={({ currentTarget: element }) => {
          setScroll({ x: element.scrollLeft, y: element.scrollTop });
          if (plane)
            middle.current = {
              x: (element.scrollLeft + element.clientWidth / 2) / plane.width,
              y: (element.scrollTop + element.clientHeight / 2) / plane.height,
            };
        }}
        onClick={({ clientX, clientY }) => {
          if (!plane || !canvas.current) return;
          const box = canvas.current.getBoundingClientRect();
          const place = placeAt(plane, clientX - box.left + scroll.x, clientY - box.top + scroll.y);
          if (place) onPress(place);
        }}
      >
        <div className="structure-size" style={plane ? { width: plane.width, height: plane.height } : {}}>
          <canvas
            ref={canvas}
            aria-hidden="true"
            width={Math.round((size?.width ?? 1) * density)}
            height={Math.round((size?.height ?? 1) * density)}
            style={size ? { width: size.width, height: size.height } : {}}
          />
        </div>
      </div>
    </div>
  );
}
