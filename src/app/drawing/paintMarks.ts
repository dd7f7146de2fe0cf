/** Paints what lies over the chart: what is chosen, the line of mirroring, and where the keys are. */
import { holds, type Region, type Selection, type Stitch } from "../../chart/draw.ts";
import type { Grid } from "../../chart/chart.ts";
import { leftOf, topOf } from "../pattern/laidChart.ts";
import { stitchWindow, type DeskGeometry } from "./deskGeometry.ts";
import type { DeskScene } from "./paintDesk.ts";

export interface DeskMarks {
  readonly grid: Grid;
  readonly selection: Selection | null;
  /** A piece in the hand, not yet laid down. */
  readonly held: Region | null;
  /** The column of the line about which she draws on both sides. */
  readonly mirror: number | null;
  readonly cursor: Stitch | null;
}

const INK = "#161616";
const PALE = "#ffffff";

export function paintMarks(context: CanvasRenderingContext2D, scene: DeskScene, marks: DeskMarks): void {
  const { geometry, scroll, view, density } = scene;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.clearRect(0, 0, view.width, view.height);
  context.save();
  context.beginPath();
  const seen = stitchWindow(geometry, scroll, view);
  const from = Math.max(0, seen.left - 3);
  context.rect(from, 0, seen.right + 3 - from, seen.bottom + 3);
  context.clip();
  context.translate(-scroll.x, -scroll.y);
  const { grid, selection, held, mirror, cursor } = marks;
  if (mirror !== null) {
    const x = leftOf(geometry, mirror) + geometry.stitch / 2;
    const path = new Path2D();
    path.moveTo(x, geometry.top);
    path.lineTo(x, topOf(geometry, 0));
    twoTone(context, path, 1.5, [2, 5]);
  }
  // Many small outlines would be nothing but dashes.
  if (selection?.mask) twoTone(context, outline(grid, geometry, selection, scene), 1, []);
  else if (selection) twoTone(context, rectangle(geometry, selection, 0), 1.5, [5, 4]);
  if (held) twoTone(context, rectangle(geometry, held, 0), 2, [8, 3]);
  if (cursor) twoTone(context, rectangle(geometry, regionOfStitch(cursor), 1), 1.75, []);
  context.restore();
}

const regionOfStitch = ([row, column]: Stitch): Region => ({ rows: [row, row], columns: [column, column] });

/** Black on white: seen on any yarn. */
function twoTone(context: CanvasRenderingContext2D, path: Path2D, width: number, dashes: number[]): void {
  context.setLineDash([]);
  context.lineWidth = width + 2;
  context.strokeStyle = PALE;
  context.stroke(path);
  context.setLineDash(dashes);
  context.lineWidth = width;
  context.strokeStyle = INK;
  context.stroke(path);
}

function rectangle(geometry: DeskGeometry, { rows, columns }: Region, outset: number): Path2D {
  const path = new Path2D();
  const [x, y] = [leftOf(geometry, columns[1]), topOf(geometry, rows[1])];
  const width = (columns[1] - columns[0] + 1) * geometry.stitch;
  const height = (rows[1] - rows[0] + 1) * geometry.row;
  path.rect(x - outset, y - outset, width + 2 * outset, height + 2 * outset);
  return path;
}

/** The edges of stitches that are chosen one by one, as far as they are in view. */
function outline(grid: Grid, geometry: DeskGeometry, selection: Selection, { scroll, view }: DeskScene): Path2D {
  const path = new Path2D();
  const { stitch, row: high, columns: wide, rows: tall } = geometry;
  const rows = [
    Math.max(selection.rows[0], tall - Math.floor((scroll.y + view.height - geometry.top) / high)),
    Math.min(selection.rows[1], tall - Math.floor((scroll.y - geometry.top) / high)),
  ] as const;
  const columns = [
    Math.max(selection.columns[0], wide - Math.floor((scroll.x + view.width - geometry.left) / stitch)),
    Math.min(selection.columns[1], wide - Math.floor((scroll.x - geometry.left) / stitch)),
  ] as const;
  const isIn = (row: number, column: number): boolean =>
    row >= 1 && row <= tall && column >= 1 && column <= wide && holds(grid, selection, [row, column]);
  for (let row = rows[0]; row <= rows[1]; row++)
    for (let column = columns[0]; column <= columns[1]; column++) {
      if (!isIn(row, column)) continue;
      const [x, y] = [leftOf(geometry, column), topOf(geometry, row)];
      const side = (fromX: number, fromY: number, toX: number, toY: number): void => {
        path.moveTo(fromX, fromY);
        path.lineTo(toX, toY);
      };
      if (!isIn(row + 1, column)) side(x, y, x + stitch, y);
      if (!isIn(row - 1, column)) side(x, y + high, x + stitch, y + high);
      if (!isIn(row, column + 1)) side(x, y, x, y + high);
      if (!isIn(row, column - 1)) side(x + stitch, y, x + stitch, y + high);
    }
  return path;
}
