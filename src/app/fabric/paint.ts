/** Draws what is in view: the cloth, the gutter that marks each row by shape, row numbers, band names, frames. */
import type { BandLine, RowLine, Word } from "../worker/api.ts";
import { GUTTER, gutterInView, numbersInView, rowTop, type FabricGeometry, type Pane } from "./geometry.ts";

export interface Scene {
  readonly geometry: FabricGeometry;
  readonly scroll: { readonly x: number; readonly y: number };
  readonly size: { readonly width: number; readonly height: number };
  readonly panes: readonly ScenePane[];
  readonly bands: readonly BandLine[];
  readonly spot: readonly [number, number] | null;
  readonly cursor: number | null;
}

export interface ScenePane {
  readonly pane: Pane;
  readonly rows: ReadonlyMap<number, RowLine>;
  /** Pictures that cover rows, the best last. */
  readonly pictures: readonly {
    readonly rows: readonly [number, number];
    readonly picture: ImageBitmap | HTMLCanvasElement;
    readonly repeats: number;
    /** Metres it is seen from; null as it lies. */
    readonly seenFrom: number | null;
  }[];
}

const INK = "#161616";
const PALE = "#ffffff";
const QUIET = "#2e2e2e";
const EMPTY = "#9b9b9b";
const ROOM = "#a8a8a8";
const FONT = '"Bench", "Helvetica Neue", Arial, sans-serif';

/** `density` is device pixels a CSS pixel. */
export function paintScene(context: CanvasRenderingContext2D, scene: Scene, density: number): void {
  const { geometry, scroll, size } = scene;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.clearRect(0, 0, size.width, size.height);
  context.translate(-scroll.x, -scroll.y);
  const from = Math.max(1, geometry.rows - Math.ceil((scroll.y + size.height - geometry.top) / geometry.row));
  const to = Math.min(geometry.rows, geometry.rows - Math.floor((scroll.y - geometry.top) / geometry.row));
  for (const pane of scene.panes) paintCloth(context, scene, pane, density);
  const frame = (rows: readonly [number, number], weight: number) => {
    for (const { pane } of scene.panes) paintFrame(context, geometry, pane, rows, weight);
  };
  if (scene.cursor !== null) frame([scene.cursor, scene.cursor], 1);
  if (scene.spot) frame(scene.spot, 2);
  for (const pane of scene.panes) {
    const gutter = gutterInView(pane.pane, scroll.x);
    if (gutter > pane.pane.gutter) paintStrip(context, scene, gutter, GUTTER);
    for (let row = from; row <= to; row++) {
      const shows = pane.rows.get(row)?.shows;
      if (shows) paintMark(context, shows, gutter + 12, rowTop(geometry, row), geometry.row);
    }
  }
  const numbers = numbersInView(geometry, scroll.x, size.width);
  const last = geometry.panes.at(-1)!;
  if (numbers < last.left + last.width) paintStrip(context, scene, numbers, geometry.numbers);
  paintNumbers(context, geometry, numbers + 7, [from, to]);
  if (geometry.names > 0) paintBands(context, scene);
}

function paintCloth(
  context: CanvasRenderingContext2D,
  { geometry }: Scene,
  { pane, pictures }: ScenePane,
  density: number,
): void {
  // Edges on whole device pixels, so that no seam shows between two pictures.
  const snap = (value: number) => Math.round(value * density) / density;
  const left = snap(pane.left);
  const right = snap(pane.left + pane.width);
  context.save();
  context.beginPath();
  context.rect(left, geometry.top, right - left, geometry.rows * geometry.row);
  context.clip();
  context.fillStyle = EMPTY;
  context.fillRect(left, geometry.top, right - left, geometry.rows * geometry.row);
  const repeat = pane.width / pane.repeats;
  for (const { rows, picture, repeats } of pictures) {
    const top = snap(rowTop(geometry, rows[1]));
    const bottom = snap(rowTop(geometry, rows[0]) + geometry.row);
    for (let x = pane.left; x < right - 0.5; x += repeat * repeats) {
      const start = snap(x);
      context.drawImage(picture, start, top, snap(x + repeat * repeats) - start, bottom - top);
    }
  }
  context.restore();
}

/** Wide bar strong, short bar clear, hollow faint, cross lost: told apart by shape alone. */
export function paintMark(context: CanvasRenderingContext2D, shows: Word, x: number, top: number, row: number): void {
  const middle = top + row / 2;
  const height = Math.max(1, Math.min(row - (row > 4 ? 2.5 : 0.5), 8));
  context.fillStyle = INK;
  context.strokeStyle = INK;
  if (shows === "strong") context.fillRect(x - 9, middle - height / 2, 18, height);
  else if (shows === "clear") context.fillRect(x - 3.5, middle - height / 2, 7, height);
  else if (shows === "faint") {
    const box = Math.max(2, height - 1.2);
    context.lineWidth = row > 5 ? 1.25 : 0.75;
    context.strokeRect(x - 6, middle - box / 2, 12, box);
  } else {
    const arm = Math.max(2, Math.min(5, row / 2 - 0.5));
    context.lineWidth = row > 5 ? 1.9 : 1.1;
    context.beginPath();
    context.moveTo(x - arm * 1.3, middle - arm);
    context.lineTo(x + arm * 1.3, middle + arm);
    context.moveTo(x + arm * 1.3, middle - arm);
    context.lineTo(x - arm * 1.3, middle + arm);
    context.stroke();
  }
}

/** What stays in view beside a cloth that is scrolled sideways lies on the room's grey. */
function paintStrip(context: CanvasRenderingContext2D, { scroll, size }: Scene, x: number, width: number): void {
  context.fillStyle = ROOM;
  context.fillRect(x, scroll.y, width, size.height);
}

function paintNumbers(
  context: CanvasRenderingContext2D,
  geometry: FabricGeometry,
  x: number,
  [from, to]: readonly [number, number],
): void {
  const every = [1, 2, 5, 10, 20, 50].find((step) => step * geometry.row >= 13) ?? 100;
  context.font = `500 11px ${FONT}`;
  context.fontVariantCaps = "normal";
  context.textAlign = "left";
  context.textBaseline = "middle";
  context.fillStyle = QUIET;
  for (let row = from; row <= to; row++) {
    if (row !== 1 && row % every !== 0) continue;
    context.fillText(String(row), x, rowTop(geometry, row) + geometry.row / 2 + 0.5);
  }
}

function paintBands(context: CanvasRenderingContext2D, { geometry, bands }: Scene): void {
  const right = geometry.panes[0]!.gutter - 5;
  const left = right - geometry.names + 10;
  context.textAlign = "right";
  context.textBaseline = "middle";
  for (const { rows, name, id, shows } of bands) {
    // A plain band that nobody named has nothing to be found by.
    if (name === null && shows === null) continue;
    const top = rowTop(geometry, rows[1]) + 1.5;
    const bottom = rowTop(geometry, rows[0]) + geometry.row - 1.5;
    if (bottom - top < 3) continue;
    context.strokeStyle = QUIET;
    context.lineWidth = 1;
    context.beginPath();
    context.moveTo(right - 4, top);
    context.lineTo(right, top);
    context.lineTo(right, bottom);
    context.lineTo(right - 4, bottom);
    context.stroke();
    if (bottom - top < 12) continue;
    context.font = `500 12px ${FONT}`;
    context.fillStyle = INK;
    const label = fitted(context, name ?? `band ${id.replace(/^b/, "")}`, right - 10 - left);
    context.fillText(label, right - 9, (top + bottom) / 2 + 0.5);
  }
}

function fitted(context: CanvasRenderingContext2D, text: string, width: number): string {
  if (context.measureText(text).width <= width) return text;
  let end = text.length - 1;
  while (end > 1 && context.measureText(`${text.slice(0, end)}…`).width > width) end--;
  return `${text.slice(0, end)}…`;
}

/** White inside black: seen on any yarn. */
function paintFrame(
  context: CanvasRenderingContext2D,
  geometry: FabricGeometry,
  pane: Pane,
  [from, to]: readonly [number, number],
  weight: number,
): void {
  const top = rowTop(geometry, to);
  const height = (to - from + 1) * geometry.row;
  const outset = (by: number) => context.strokeRect(pane.left - by, top - by, pane.width + 2 * by, height + 2 * by);
  context.lineWidth = weight;
  context.strokeStyle = PALE;
  outset(weight / 2);
  context.strokeStyle = INK;
  outset(weight * 1.5);
}
