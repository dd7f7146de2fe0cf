/** Where rows and panes stand in the fabric's view, in CSS pixels from the top left of the whole cloth. */
import type { Chart } from "../../chart/chart.ts";
import type { Gauge } from "../../garment/gauge.ts";

export interface ViewSize {
  readonly width: number;
  readonly height: number;
}

export type Zoom = "width" | "whole" | number;

export interface Pane {
  readonly side: "now" | "then";
  /** Left edge of the gutter and of the cloth, and the cloth's width. */
  readonly gutter: number;
  readonly left: number;
  readonly width: number;
  /** How often the chart stands side by side; need not be whole. */
  readonly repeats: number;
}

export interface FabricGeometry {
  readonly stitch: number;
  readonly row: number;
  readonly rows: number;
  readonly top: number;
  readonly content: ViewSize;
  readonly panes: readonly Pane[];
  /** Width of the band names on the left; 0 where there is no room. */
  readonly names: number;
  readonly numbers: number;
}

/** CSS pixels a stitch. Below the least a row is no longer a mark, above the most a stitch is a picture of itself. */
export const STITCH_LEAST = 1.5;
export const STITCH_MOST = 48;
/** What reads as knitting without losing the band: the size "width" aims at. Our choice. */
const STITCH_COMFORT = 13;

const MARGIN = 14;
export const GUTTER = 30;
const NUMBERS = 34;
const NAMES = 104;
const BETWEEN = 14;
/** Under this width the band names would leave too little for the cloth. */
const ROOM_FOR_NAMES = 600;

export function fabricGeometry(input: {
  readonly chart: Chart;
  readonly gauge: Gauge;
  readonly view: ViewSize;
  readonly zoom: Zoom;
  readonly split: boolean;
}): FabricGeometry {
  const { chart, gauge, view, zoom, split } = input;
  const columns = Math.max(1, chart.rows[0]?.length ?? 1);
  const rows = chart.rows.length;
  const aspect = gauge.stitches / gauge.rows;
  const names = view.width >= ROOM_FOR_NAMES ? NAMES : 0;
  const panes = split ? 2 : 1;
  const around = names + NUMBERS + panes * GUTTER + (panes - 1) * BETWEEN + (names ? MARGIN : 4) * 2;
  const room = Math.max(60, (view.width - around) / panes);
  const stitch = stitchSize({
    zoom,
    columns,
    rows,
    aspect,
    room,
    height: view.height - 2 * MARGIN,
    tiles: chart.worked !== "flat",
  });
  // Knitted in the round, the chart goes on beside itself; knitted flat it ends at its edges.
  const width = chart.worked === "flat" ? columns * stitch : Math.max(columns * stitch, room);
  const row = stitch * aspect;
  const first = (names ? MARGIN : 4) + names;
  const step = width + GUTTER + BETWEEN;
  return {
    stitch,
    row,
    rows,
    top: MARGIN,
    names,
    numbers: NUMBERS,
    panes: (split ? (["now", "then"] as const) : (["now"] as const)).map((side, i) => ({
      side,
      gutter: first + i * step,
      left: first + i * step + GUTTER,
      width,
      repeats: width / (columns * stitch),
    })),
    content: {
      width: Math.max(view.width, first + panes * step - BETWEEN + NUMBERS + (names ? MARGIN : 4)),
      height: Math.max(view.height, MARGIN * 2 + rows * row),
    },
  };
}

function stitchSize(input: {
  readonly zoom: Zoom;
  readonly columns: number;
  readonly rows: number;
  readonly aspect: number;
  readonly room: number;
  readonly height: number;
  readonly tiles: boolean;
}): number {
  const { zoom, columns, rows, aspect, room, height, tiles } = input;
  const clamp = (size: number) => Math.min(STITCH_MOST, Math.max(STITCH_LEAST, size));
  if (typeof zoom === "number") return clamp(zoom);
  if (zoom === "whole") return clamp(Math.min(height / (rows * aspect), STITCH_COMFORT * 1.6));
  if (!tiles) return clamp(Math.min(room / columns, STITCH_COMFORT * 1.6));
  // As many whole repeats as come nearest to a comfortable stitch.
  const repeats = Math.max(1, Math.round(room / (columns * STITCH_COMFORT)));
  return clamp(room / (columns * repeats));
}

/** Top of a chart row, row 1 lowest. */
export const rowTop = (geometry: FabricGeometry, row: number): number =>
  geometry.top + (geometry.rows - row) * geometry.row;

/** Left edge of a pane's gutter when the cloth is scrolled sideways: it stays in view as long as its pane does. */
export const gutterInView = (pane: Pane, scrollX: number): number =>
  Math.max(pane.gutter, Math.min(scrollX, pane.left + pane.width - GUTTER));

/** Left edge of the row numbers: after the last pane, or at the edge of the view. */
export function numbersInView({ panes, numbers }: FabricGeometry, scrollX: number, viewWidth: number): number {
  const { left, width } = panes.at(-1)!;
  return Math.min(left + width, scrollX + viewWidth - numbers);
}

/** The chart row under a height, or null outside the cloth. */
export function rowAt(geometry: FabricGeometry, y: number): number | null {
  const row = geometry.rows - Math.floor((y - geometry.top) / geometry.row);
  return row >= 1 && row <= geometry.rows ? row : null;
}

/** The stitch column under a place across a pane, column 1 at the right edge of the chart's first repeat. */
export function columnAt(geometry: FabricGeometry, pane: Pane, x: number, columns: number): number | null {
  if (x < pane.left || x >= pane.left + pane.width) return null;
  const fromLeft = Math.floor((x - pane.left) / geometry.stitch) % columns;
  return columns - fromLeft;
}
