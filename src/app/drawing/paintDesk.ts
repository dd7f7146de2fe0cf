/** Paints the chart on the desk: stitches, lines and numbers, all of it or only the part that has changed. */
import type { Chart } from "../../chart/chart.ts";
import type { Region } from "../../chart/draw.ts";
import { everyNth, leftOf, rowNumbers, topOf } from "../pattern/laidChart.ts";
import { stitchWindow, type DeskGeometry } from "./deskGeometry.ts";

export interface DeskScene {
  readonly geometry: DeskGeometry;
  readonly scroll: { readonly x: number; readonly y: number };
  readonly view: { readonly width: number; readonly height: number };
  /** Device pixels a CSS pixel. */
  readonly density: number;
  /** A pixel a stitch. */
  readonly picture: HTMLCanvasElement;
  /** A thick line after so many stitches and rows; 0: none. */
  readonly thick: number;
  /** Round or flat: at which side rows are numbered. */
  readonly worked: Chart["worked"];
}

const ROOM = "#a8a8a8";
const HATCH = "#8f8f8f";
const QUIET = "#2e2e2e";
const INK = "#161616";
const PALE = "#ffffff";
/** Lines show on light and on dark wool: a middle grey thin, and thick a dark one beside a light one. */
const THIN = "rgb(118 118 118 / 0.85)";
const FONT = '"Bench", "Helvetica Neue", Arial, sans-serif';
/** CSS pixels below which thin lines would be all that one sees. */
const LINES_FROM = 6;

/** @param changed the stitches that have; null: everything in view */
export function paintDesk(context: CanvasRenderingContext2D, scene: DeskScene, changed: Region | null): void {
  const { geometry, scroll, view, density } = scene;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.save();
  const seen = stitchWindow(geometry, scroll, view);
  if (changed) {
    const snap = (value: number): number => Math.round(value * density) / density;
    const left = Math.max(seen.left, snap(leftOf(geometry, changed.columns[1]) - scroll.x));
    const top = snap(topOf(geometry, changed.rows[1]) - scroll.y);
    const right = Math.min(seen.right, snap(leftOf(geometry, changed.columns[0] - 1) - scroll.x) + 1);
    const bottom = Math.min(seen.bottom, snap(topOf(geometry, changed.rows[0] - 1) - scroll.y) + 1);
    if (right <= left || bottom <= top) return context.restore();
    context.beginPath();
    context.rect(left - 1, top - 1, right - left + 1, bottom - top + 1);
    context.clip();
  } else context.clearRect(0, 0, view.width, view.height);
  context.save();
  context.beginPath();
  context.rect(seen.left, 0, Math.max(0, seen.right + 1 - seen.left), Math.max(0, seen.bottom + 1));
  context.clip();
  paintStitches(context, scene);
  context.restore();
  if (!changed) {
    paintNumbers(context, scene);
  }
  context.restore();
}

function paintStitches(context: CanvasRenderingContext2D, scene: DeskScene): void {
  const { geometry, scroll, density, picture, thick } = scene;
  const { columns, rows, stitch, row } = geometry;
  const snap = (value: number): number => Math.round(value * density) / density;
  const left = snap(geometry.left - scroll.x);
  const top = snap(geometry.top - scroll.y);
  const [wide, high] = [columns * stitch, rows * row];
  context.fillStyle = hatch(context) ?? HATCH;
  context.fillRect(left, top, wide, high);
  context.imageSmoothingEnabled = stitch * density < 2;
  context.drawImage(picture, left, top, wide, high);
  const from = { column: firstSeen(scroll.x - geometry.left, stitch), row: firstSeen(scroll.y - geometry.top, row) };
  const to = {
    column: Math.min(columns, Math.ceil((scroll.x - geometry.left + scene.view.width) / stitch)),
    row: Math.min(rows, Math.ceil((scroll.y - geometry.top + scene.view.height) / row)),
  };
  const hair = 1 / density;
  const lines = (step: number, offset: number, width: number): void => {
    for (let at = from.column; at <= to.column; at++)
      if ((columns - at) % step === 0) context.fillRect(snap(left + at * stitch) + offset, top, width, high);
    for (let at = from.row; at <= to.row; at++)
      if ((rows - at) % step === 0) context.fillRect(left, snap(top + at * row) + offset, wide, width);
  };
  if (stitch >= LINES_FROM) {
    context.fillStyle = THIN;
    lines(1, 0, hair);
  }
  if (thick === 0 || thick * stitch < 2 * LINES_FROM) return;
  if (stitch >= LINES_FROM) {
    context.fillStyle = PALE;
    lines(thick, 1, hair);
  }
  context.fillStyle = INK;
  lines(thick, stitch >= LINES_FROM ? -hair : 0, stitch >= LINES_FROM ? 1 + hair : hair);
}

const firstSeen = (from: number, step: number): number => Math.max(0, Math.floor(from / step));

let hatching: CanvasPattern | null = null;

/** Where there is no stitch, the room's grey is hatched. */
function hatch(context: CanvasRenderingContext2D): CanvasPattern | null {
  if (hatching) return hatching;
  const tile = document.createElement("canvas");
  tile.width = tile.height = 6;
  const pen = tile.getContext("2d")!;
  pen.fillStyle = ROOM;
  pen.fillRect(0, 0, 6, 6);
  pen.strokeStyle = HATCH;
  pen.lineWidth = 1.4;
  for (const shift of [-6, 0, 6]) {
    pen.beginPath();
    pen.moveTo(shift - 1, 7);
    pen.lineTo(shift + 7, -1);
    pen.stroke();
  }
  return (hatching = context.createPattern(tile, "repeat"));
}

/** Beside the chart, or at the edge of the view where the chart goes on. */
function paintNumbers(context: CanvasRenderingContext2D, scene: DeskScene): void {
  const { geometry, scroll, view, worked } = scene;
  const { columns, rows, stitch, row } = geometry;
  const seen = stitchWindow(geometry, scroll, view);
  const y = seen.bottom + 2;
  context.font = `500 11px ${FONT}`;
  context.fontVariantCaps = "normal";
  context.fillStyle = QUIET;
  context.textBaseline = "middle";
  const side = rowNumbers(geometry, worked, 13);
  for (let at = 1; at <= rows; at++) {
    const middle = topOf(geometry, at) + row / 2 - scroll.y;
    const where = side(at);
    if (where === null || middle < 4 || middle > y) continue;
    context.textAlign = where === "left" ? "right" : "left";
    context.fillText(String(at), where === "left" ? seen.left - 6 : seen.right + 6, middle + 0.5);
  }
  context.textAlign = "center";
  const everyColumn = everyNth(stitch, columns > 99 ? 28 : 22);
  for (let at = 1; at <= columns; at++) {
    const middle = leftOf(geometry, at) + stitch / 2 - scroll.x;
    if ((at !== 1 && at % everyColumn !== 0) || middle < seen.left + 4 || middle > seen.right + 2) continue;
    context.fillText(String(at), middle, y + 9);
  }
}
