/** Draws a chart with what is known of it: bands and rows' roles beside it, and on it lines of mirroring, middles, catches or one stitch. */
import type { BuiltBand, BuiltChart } from "../worker/api.ts";
import type { Chart } from "../../chart/chart.ts";
import { leftOf, rowNumbers, topOf } from "../pattern/laidChart.ts";
import { NUMBER, type Plane } from "./planeGeometry.ts";

export interface PlaneScene {
  readonly plane: Plane;
  /** A pixel a stitch. */
  readonly chart: HTMLCanvasElement | null;
  readonly hexOf: ReadonlyMap<string, string>;
  readonly built: BuiltChart | null;
  /** Bands that are framed: the first as chosen, others as what it is told of with. */
  readonly framed: readonly BuiltBand[];
  readonly marks: "axes" | "middles" | "strands" | "stitch";
  readonly stitch: { readonly row: number; readonly column: number } | null;
  readonly scroll: { readonly x: number; readonly y: number };
  readonly size: { readonly width: number; readonly height: number };
  readonly density: number;
  /** Round or flat: at which side rows are numbered. */
  readonly worked: Chart["worked"];
}

const ROOM = "#d4d4d4";
const INK = "#161616";

export function paintPlane(context: CanvasRenderingContext2D, scene: PlaneScene): void {
  const { plane, chart, built, scroll, size, density } = scene;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.fillStyle = ROOM;
  context.fillRect(0, 0, size.width, size.height);
  context.translate(-scroll.x, -scroll.y);
  const { columns, rows } = plane;
  const [width, height] = [columns * plane.stitch, rows * plane.row];
  if (chart) {
    context.imageSmoothingEnabled = plane.stitch * density < 1;
    context.drawImage(chart, plane.left, plane.top, width, height);
  }
  paintLines(context, scene);
  if (built) {
    paintBands(context, scene, built.bands);
    paintRoles(context, scene, built);
  }
  paintNumbers(context, scene);
  for (const [index, band] of scene.framed.entries()) frame(context, plane, band, index > 0);
  if (scene.marks === "axes" && scene.framed[0]) paintAxes(context, plane, scene.framed[0]);
  if (scene.marks === "middles") for (const band of scene.framed) paintMiddles(context, plane, band);
  if (scene.marks === "strands" && built) paintStrands(context, scene, built);
  if (scene.marks === "stitch" && scene.stitch) {
    const { row, column } = scene.stitch;
    haloed(context, [], () => {
      const grow = Math.max(0, (9 - plane.stitch) / 2);
      context.strokeRect(
        leftOf(plane, column) - grow,
        topOf(plane, row) - grow,
        plane.stitch + 2 * grow,
        plane.row + 2 * grow,
      );
    });
  }
}

/** Rows that are in view, so that a chart of hundreds is drawn as fast as a small one. */
function rowsInView({ plane, scroll, size }: PlaneScene): readonly [number, number] {
  const at = (y: number): number => plane.rows - Math.floor((y - plane.top) / plane.row);
  return [Math.max(1, at(scroll.y + size.height)), Math.min(plane.rows, at(scroll.y))];
}

/** Stitches smaller than this have no lines between them. CSS pixels. */
const LINED_FROM = 7;

function paintLines(context: CanvasRenderingContext2D, scene: PlaneScene): void {
  const { plane } = scene;
  if (plane.stitch < LINED_FROM) return;
  const [from, to] = rowsInView(scene);
  context.fillStyle = "rgb(110 110 110 / 0.45)";
  for (let row = from; row <= to; row++)
    context.fillRect(plane.left, topOf(plane, row), plane.columns * plane.stitch, 1);
  for (let column = 0; column <= plane.columns; column++)
    context.fillRect(leftOf(plane, column), topOf(plane, to), 1, topOf(plane, from - 1) - topOf(plane, to));
}

const BAR = 14;
const GAP = 6;

function paintBands(
  context: CanvasRenderingContext2D,
  { plane, framed }: PlaneScene,
  bands: readonly BuiltBand[],
): void {
  const left = plane.left - plane.before - GAP - BAR;
  bands.forEach((band) => {
    const [top, bottom] = [topOf(plane, band.rows[1]), topOf(plane, band.rows[0] - 1)];
    const height = Math.max(1, bottom - top - (bottom - top > 4 ? 1 : 0));
    const isChosen = framed[0]?.id === band.id;
    if (band.kind === "plain") {
      context.fillStyle = isChosen ? INK : "#9a9a9a";
      context.fillRect(left + BAR - 4, top, 4, height);
    } else {
      context.fillStyle = isChosen ? INK : "#6f6f6f";
      context.fillRect(left, top, BAR, height);
      // Her own word has a notch.
      if (band.said && height >= 5) {
        context.fillStyle = "#fff";
        context.fillRect(left + BAR / 2 - 1.5, top + height / 2 - 1.5, 3, 3);
      }
    }
  });
}

/** Beside each row its ground and what lies on it, and a sign of what it is. */
function paintRoles(context: CanvasRenderingContext2D, scene: PlaneScene, { rows, bands }: BuiltChart): void {
  const { plane, hexOf } = scene;
  const [from, to] = rowsInView(scene);
  const left = plane.left + plane.columns * plane.stitch + NUMBER + GAP;
  const crossed = new Set(bands.flatMap((band) => band.crossed));
  for (const { row, kind, ground, pattern } of rows.slice(from - 1, to)) {
    const top = topOf(plane, row);
    const height = Math.max(1, plane.row - (plane.row >= 4 ? 1 : 0));
    if (ground !== null) {
      context.fillStyle = hexOf.get(ground) ?? ROOM;
      context.fillRect(left, top, 9, height);
    }
    pattern.forEach((colour, index) => {
      context.fillStyle = hexOf.get(colour) ?? ROOM;
      context.fillRect(left + 9 + (index * 9) / pattern.length, top, 9 / pattern.length, height);
    });
    const middle = top + plane.row / 2;
    context.fillStyle = INK;
    if (kind === "seeding") context.fillRect(left + 22, middle - 1, 2, 2);
    if (kind === "dashes") {
      context.fillRect(left + 20, middle - 0.5, 3, 1);
      context.fillRect(left + 25, middle - 0.5, 3, 1);
    }
    if (crossed.has(row)) {
      context.strokeStyle = INK;
      context.lineWidth = 1.4;
      const reach = Math.min(3, plane.row / 2);
      context.beginPath();
      context.moveTo(left + 31, middle - reach);
      context.lineTo(left + 31 + 2 * reach, middle + reach);
      context.moveTo(left + 31, middle + reach);
      context.lineTo(left + 31 + 2 * reach, middle - reach);
      context.stroke();
    }
  }
}

/** Numbers nearer together than this cannot be read. CSS pixels. */
const NUMBER_APART = 14;

function paintNumbers(context: CanvasRenderingContext2D, scene: PlaneScene): void {
  const { plane, worked } = scene;
  const [from, to] = rowsInView(scene);
  const side = rowNumbers(plane, worked, NUMBER_APART);
  context.fillStyle = INK;
  context.font = "11px Bench, sans-serif";
  context.textBaseline = "middle";
  for (let row = from; row <= to; row++) {
    const where = side(row);
    if (where === null) continue;
    context.textAlign = where === "left" ? "right" : "left";
    const x = where === "left" ? plane.left - 5 : leftOf(plane, 0) + 5;
    context.fillText(String(row), x, topOf(plane, row) + plane.row / 2);
  }
}

/** Black with white around it: seen on any colour. */
function haloed(context: CanvasRenderingContext2D, dash: readonly number[], draw: () => void): void {
  context.setLineDash([...dash]);
  context.lineWidth = 4;
  context.strokeStyle = "rgb(255 255 255 / 0.9)";
  draw();
  context.lineWidth = 1.8;
  context.strokeStyle = "#000";
  draw();
  context.setLineDash([]);
}

function frame(context: CanvasRenderingContext2D, plane: Plane, { rows }: BuiltBand, isOther: boolean): void {
  const [top, bottom] = [topOf(plane, rows[1]), topOf(plane, rows[0] - 1)];
  haloed(context, isOther ? [5, 4] : [], () =>
    context.strokeRect(plane.left - 1, top - 1, plane.columns * plane.stitch + 2, bottom - top + 2),
  );
}

/** Lines of mirroring, and where the repeat begins anew. */
function paintAxes(context: CanvasRenderingContext2D, plane: Plane, { rows, repeat, axes }: BuiltBand): void {
  const [top, bottom] = [topOf(plane, rows[1]), topOf(plane, rows[0] - 1)];
  for (const axis of axes.across)
    for (let column = axis; column < plane.columns + 1; column += repeat.stitches) {
      const x = leftOf(plane, column) + plane.stitch / 2;
      line(context, [4, 3], [x, top - 5], [x, bottom + 5]);
    }
  for (const row of axes.up) {
    const y = topOf(plane, row) + plane.row / 2;
    line(context, [4, 3], [plane.left - 4, y], [plane.left + plane.columns * plane.stitch + 4, y]);
  }
  for (let column = repeat.stitches; column < plane.columns; column += repeat.stitches) {
    const x = leftOf(plane, column);
    line(context, [], [x, top - 6], [x, top + 3]);
    line(context, [], [x, bottom - 3], [x, bottom + 6]);
  }
}

function line(
  context: CanvasRenderingContext2D,
  dash: readonly number[],
  from: readonly [number, number],
  to: readonly [number, number],
): void {
  haloed(context, dash, () => {
    context.beginPath();
    context.moveTo(...from);
    context.lineTo(...to);
    context.stroke();
  });
}

function paintMiddles(context: CanvasRenderingContext2D, plane: Plane, { rows, middle, repeat }: BuiltBand): void {
  if (middle === null) return;
  const [top, bottom] = [topOf(plane, rows[1]), topOf(plane, rows[0] - 1)];
  const first = ((((middle - 1) % repeat.stitches) + repeat.stitches) % repeat.stitches) + 1;
  for (let column = first; column < plane.columns + 1; column += repeat.stitches) {
    const x = leftOf(plane, column) + plane.stitch / 2;
    line(context, [], [x, top], [x, bottom]);
  }
}

function paintStrands(context: CanvasRenderingContext2D, scene: PlaneScene, { rows }: BuiltChart): void {
  const { plane } = scene;
  const [from, to] = rowsInView(scene);
  const radius = Math.min(4, Math.max(2, plane.stitch / 4));
  for (const { row, catches, ladders } of rows.slice(from - 1, to)) {
    const y = topOf(plane, row) + plane.row / 2;
    for (const column of catches)
      haloed(context, [], () => {
        context.beginPath();
        context.arc(leftOf(plane, column) + plane.stitch / 2, y, radius, 0, 2 * Math.PI);
        context.stroke();
      });
    for (const column of ladders) {
      const x = leftOf(plane, column) + plane.stitch / 2;
      line(context, [], [x - 1.5, y - plane.row / 2], [x - 1.5, y + plane.row / 2]);
      line(context, [], [x + 2, y - plane.row / 2], [x + 2, y + plane.row / 2]);
    }
  }
}

/** The chart at a pixel a stitch; stitches that are none stay clear. */
export function chartPicture(rows: readonly string[], hexOf: ReadonlyMap<string, string>): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [rows[0]!.length, rows.length];
  const context = canvas.getContext("2d")!;
  const image = context.createImageData(canvas.width, canvas.height);
  const bytes = new Map(
    [...hexOf].map(([id, hex]) => [id, [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16))]),
  );
  let at = 0;
  for (const text of rows)
    for (const colour of text) {
      const rgb = bytes.get(colour);
      if (rgb) image.data.set([...rgb, 255], at);
      at += 4;
    }
  context.putImageData(image, 0, 0);
  return canvas;
}
