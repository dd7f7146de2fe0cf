/** Where stitches lie on the drawing desk, in CSS pixels from the top left of the whole chart with its margins. */
import type { Stitch } from "../../chart/draw.ts";

export interface DeskGeometry {
  readonly columns: number;
  readonly rows: number;
  /** Width and height of a stitch. */
  readonly stitch: number;
  readonly row: number;
  /** The chart's top left corner. */
  readonly left: number;
  readonly top: number;
  /** The chart with its margins; never smaller than the view. */
  readonly width: number;
  readonly height: number;
}

/** CSS pixels a stitch: below the least it is no mark any more, above the most nothing is gained. Our choice. */
const STITCH_LEAST = 1.5;
const STITCH_MOST = 64;
/** A stitch that a finger or a pen meets without looking twice. Our choice. */
const STITCH_COMFORT = 26;
/** Below this a chart is looked at, not drawn in: it begins larger than the view. Our choice. */
const STITCH_DRAWABLE = 7;
/** Room for the numbers at the right edge and below. */
export const NUMBERS = { width: 34, height: 20 };
const MARGIN = 8;

export const zoomWithin = (stitch: number): number => Math.min(STITCH_MOST, Math.max(STITCH_LEAST, stitch));

interface DeskSize {
  readonly columns: number;
  readonly rows: number;
  /** Height of a stitch over its width. */
  readonly aspect: number;
  readonly view: { readonly width: number; readonly height: number };
}

/** @param stitch CSS pixels wide */
export function deskGeometry({ columns, rows, aspect, view }: DeskSize, stitch: number): DeskGeometry {
  const row = stitch * aspect;
  const wide = columns * stitch + NUMBERS.width + 2 * MARGIN;
  const high = rows * row + NUMBERS.height + 2 * MARGIN;
  const [width, height] = [Math.max(view.width, wide), Math.max(view.height, high)];
  // A chart that is smaller than the view lies in its middle, on whole pixels so that its lines are sharp.
  const left = Math.round((width - wide) / 2) + MARGIN;
  const top = Math.round((height - high) / 2) + MARGIN;
  return { columns, rows, stitch, row, left, top, width, height };
}

/** The stitch at which all of the chart is in view. */
export function wholeStitch({ columns, rows, aspect, view }: DeskSize): number {
  const wide = (view.width - NUMBERS.width - 2 * MARGIN) / columns;
  const high = (view.height - NUMBERS.height - 2 * MARGIN) / (rows * aspect);
  return zoomWithin(Math.min(wide, high, STITCH_COMFORT));
}

/** Where she begins: the chart's width in view if stitches are then large enough to draw, otherwise larger. */
export function firstStitch(size: DeskSize): number {
  const wide = Math.floor((size.view.width - NUMBERS.width - 2 * MARGIN) / size.columns);
  return zoomWithin(Math.min(STITCH_COMFORT, wide >= STITCH_DRAWABLE ? wide : STITCH_DRAWABLE + 3));
}

/** The stitch under a point, which may lie off the chart. */
export function stitchAt({ columns, rows, stitch, row, left, top }: DeskGeometry, x: number, y: number): Stitch {
  return [rows - Math.floor((y - top) / row), columns - Math.floor((x - left) / stitch)];
}

export const leftOf = ({ columns, stitch, left }: DeskGeometry, column: number): number =>
  left + (columns - column) * stitch;
export const topOf = ({ rows, row, top }: DeskGeometry, at: number): number => top + (rows - at) * row;

/** Numbers of which each has room: 1, 2, 5, 10, 20 … @param room CSS pixels for one step */
export function everyNth(room: number, needed: number): number {
  for (let power = 1; ; power *= 10)
    for (const step of [power, 2 * power, 5 * power]) if (step * room >= needed) return step;
}
