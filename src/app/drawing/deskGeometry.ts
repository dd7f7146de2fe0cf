/** How large stitches are on the drawing desk, and where the chart lies in its window, in CSS pixels. */
import type { Chart } from "../../chart/chart.ts";
import { isNumberedLeft, leftOf, topOf, type LaidChart } from "../pattern/laidChart.ts";

export interface DeskGeometry extends LaidChart {
  /** Room for numbers at the left edge; 0 where none stand there. */
  readonly before: number;
}

/** CSS pixels a stitch: below the least it is no mark any more, above the most nothing is gained. Our choice. */
const STITCH_LEAST = 1.5;
const STITCH_MOST = 64;
/** A stitch that a finger or a pen meets without looking twice. Our choice. */
const STITCH_COMFORT = 26;
/** Below this a chart is looked at, not drawn in: it begins larger than the view. Our choice. */
const STITCH_DRAWABLE = 7;
/** Room for the numbers at an edge and below. */
export const NUMBERS = { width: 34, height: 20 };
const MARGIN = 8;

export const zoomWithin = (stitch: number): number => Math.min(STITCH_MOST, Math.max(STITCH_LEAST, stitch));

interface DeskSize {
  readonly columns: number;
  readonly rows: number;
  /** Height of a stitch over its width. */
  readonly aspect: number;
  readonly view: { readonly width: number; readonly height: number };
  readonly worked?: Chart["worked"];
}

const numbersBefore = ({ worked }: DeskSize): number => (isNumberedLeft(worked) ? NUMBERS.width : 0);

/** @param stitch CSS pixels wide */
export function deskGeometry(size: DeskSize, stitch: number): DeskGeometry {
  const { columns, rows, aspect, view } = size;
  const before = numbersBefore(size);
  const row = stitch * aspect;
  const wide = before + columns * stitch + NUMBERS.width + 2 * MARGIN;
  const high = rows * row + NUMBERS.height + 2 * MARGIN;
  const [width, height] = [Math.max(view.width, wide), Math.max(view.height, high)];
  // A chart that is smaller than the view lies in its middle, on whole pixels so that its lines are sharp.
  const left = Math.round((width - wide) / 2) + MARGIN + before;
  const top = Math.round((height - high) / 2) + MARGIN;
  return { columns, rows, stitch, row, left, top, width, height, before };
}

/** The stitch at which the chart's whole width is in view. */
const wideStitch = (size: DeskSize): number =>
  (size.view.width - numbersBefore(size) - NUMBERS.width - 2 * MARGIN) / size.columns;

/** The stitch at which all of the chart is in view. */
export function wholeStitch(size: DeskSize): number {
  const high = (size.view.height - NUMBERS.height - 2 * MARGIN) / (size.rows * size.aspect);
  return zoomWithin(Math.min(wideStitch(size), high, STITCH_COMFORT));
}

/** The stitch at which its width is in view, no larger than need be. */
export const widthStitch = (size: DeskSize): number => Math.min(firstStitch(size), wideStitch(size));

/** Where she begins: the chart's width in view if stitches are then large enough to draw, otherwise larger. */
export function firstStitch(size: DeskSize): number {
  const wide = Math.floor(wideStitch(size));
  return zoomWithin(Math.min(STITCH_COMFORT, wide >= STITCH_DRAWABLE ? wide : STITCH_DRAWABLE + 3));
}

/** The part of the window in which stitches are seen: what its numbers leave, and no more than the chart fills. */
export function stitchWindow(
  geometry: DeskGeometry,
  scroll: { readonly x: number; readonly y: number },
  view: { readonly width: number; readonly height: number },
): { readonly left: number; readonly right: number; readonly bottom: number } {
  return {
    left: geometry.before === 0 ? 0 : Math.max(geometry.before, geometry.left - scroll.x),
    right: Math.min(view.width - NUMBERS.width, leftOf(geometry, 0) - scroll.x),
    bottom: Math.min(view.height - NUMBERS.height, topOf(geometry, 0) - scroll.y),
  };
}
