/** Parts of a picture that may be a chart: what hangs together on the page, the largest first, then all that is on it. */
import type { Box } from "../raster/raster.ts";
import type { Edges } from "./edges.ts";

export function regionsOf(edges: Edges): Box[] {
  const { width, height } = edges;
  const whole: Box = { x: 0, y: 0, width, height };
  if (!edges.paper) return [whole];
  const block = Math.max(1, Math.floor(Math.max(width, height) / BLOCKS));
  const ink = inkOf(edges, edges.paper, block);
  const wide = widened(ink.cells, ink.columns, ink.rows);
  const boxes = [ink.cells, wide, widened(wide, ink.columns, ink.rows)].flatMap((marked, reach) =>
    boxesOf(marked, ink.columns, ink.rows)
      .map(({ left, right, top, bottom }): Box => {
        // What was widened is narrowed again, but at the picture's edge it could not widen.
        const x = left === 0 ? 0 : (left + reach) * block;
        const y = top === 0 ? 0 : (top + reach) * block;
        return {
          x,
          y,
          width: (right === ink.columns - 1 ? width : (right + 1 - reach) * block) - x,
          height: (bottom === ink.rows - 1 ? height : (bottom + 1 - reach) * block) - y,
        };
      })
      .filter(
        (box) => box.width * box.height > LEAST_PART * width * height && Math.min(box.width, box.height) >= LEAST_SIDE,
      )
      .sort((one, other) => other.width * other.height - one.width * one.height)
      .slice(0, MOST_REGIONS),
  );
  const inked = boundsOf(ink.cells, ink.columns, ink.rows, block, whole);
  const regions = inked ? [...boxes, inked] : [];
  return regions.filter((one, index) => !regions.slice(0, index).some((other) => sameBox(one, other)));
}

/** Everything that is not paper; null on an empty page. */
function boundsOf(marked: Uint8Array, columns: number, rows: number, block: number, whole: Box): Box | null {
  let [left, right, top, bottom] = [columns, -1, rows, -1];
  for (let row = 0, cell = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, cell++) {
      if (!marked[cell]) continue;
      left = Math.min(left, column);
      right = Math.max(right, column);
      top = Math.min(top, row);
      bottom = row;
    }
  }
  if (right < 0) return null;
  const width = Math.min(whole.width, (right + 1) * block) - left * block;
  const height = Math.min(whole.height, (bottom + 1) * block) - top * block;
  return { x: left * block, y: top * block, width, height };
}

const sameBox = (one: Box, other: Box): boolean =>
  Math.abs(one.x - other.x) +
    Math.abs(one.y - other.y) +
    Math.abs(one.width - other.width) +
    Math.abs(one.height - other.height) <
  8;

/** Marks the neighbours of what is marked, so that thin paper-coloured lines do not part the stitches. */
function widened(marked: Uint8Array, columns: number, rows: number): Uint8Array {
  const out = new Uint8Array(marked.length);
  for (let row = 0, cell = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, cell++) {
      if (!marked[cell]) continue;
      for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++) {
        for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++) out[y * columns + x] = 1;
      }
    }
  }
  return out;
}

/** Blocks of pixels with anything in them that is not paper. */
function inkOf(
  { bytes, width, height }: Edges,
  paper: readonly [number, number, number],
  block: number,
): { cells: Uint8Array; columns: number; rows: number } {
  const columns = Math.ceil(width / block);
  const rows = Math.ceil(height / block);
  const cells = new Uint8Array(columns * rows);
  for (let y = 0; y < height; y++) {
    const row = Math.floor(y / block) * columns;
    for (let x = 0, at = y * width * 4; x < width; x++, at += 4) {
      if (
        Math.abs(bytes[at]! - paper[0]) > PAPER ||
        Math.abs(bytes[at + 1]! - paper[1]) > PAPER ||
        Math.abs(bytes[at + 2]! - paper[2]) > PAPER
      ) {
        cells[row + Math.floor(x / block)] = 1;
      }
    }
  }
  return { cells, columns, rows };
}

export interface Extent {
  left: number;
  right: number;
  top: number;
  bottom: number;
  size: number;
}

/** The extents of marked cells that touch, corners included. */
export function boxesOf(marked: Uint8Array, columns: number, rows: number): Extent[] {
  const seen = new Uint8Array(marked.length);
  const boxes: Extent[] = [];
  const stack: number[] = [];
  for (let start = 0; start < marked.length; start++) {
    if (seen[start] || !marked[start]) continue;
    const box: Extent = { left: columns, right: -1, top: rows, bottom: -1, size: 0 };
    stack.push(start);
    seen[start] = 1;
    while (stack.length > 0) {
      const cell = stack.pop()!;
      const row = Math.floor(cell / columns);
      const column = cell % columns;
      box.size++;
      box.left = Math.min(box.left, column);
      box.right = Math.max(box.right, column);
      box.top = Math.min(box.top, row);
      box.bottom = Math.max(box.bottom, row);
      for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++) {
        for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++) {
          const other = y * columns + x;
          if (seen[other] || !marked[other]) continue;
          seen[other] = 1;
          stack.push(other);
        }
      }
    }
    boxes.push(box);
  }
  return boxes;
}

/** Blocks along the longer side: fine enough to part a chart from the numbers beside it. */
const BLOCKS = 1000;
/** Bytes from the paper's colour that are still paper. */
const PAPER = 14;
/** Part of the picture; pixels; a chart that is read alone is no smaller. */
const LEAST_PART = 0.03;
const LEAST_SIDE = 8;
const MOST_REGIONS = 2;
