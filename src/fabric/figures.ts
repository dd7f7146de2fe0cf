/** Parts of a figure: connected shapes of one colour within another, which the figure as a whole may hide when they are lost. */
import { oncePer } from "../base/oncePer.ts";
import { NO_STITCH } from "../chart/chart.ts";
import type { Piece } from "./spectra.ts";

/** Equal shapes of one area that lie in the same rows of a piece and are surrounded by one other area. */
export interface FigurePart {
  readonly area: number;
  readonly against: number;
  /** Rows of the piece from 0 at its bottom, inclusive. */
  readonly rows: readonly [number, number];
  /** How many of them there are across the repeat. */
  readonly times: number;
  /** Two areas: 1 is these shapes, 0 all else. */
  readonly piece: Piece;
}

/** Smaller parts of a band than this are a stitch or two, which no band is read by. Our choice. */
const SMALLEST_PART = 0.01;

/** A shape of more stitches than this is no small one: the figure as a whole speaks for it. Our choice. */
const LARGEST_SHAPE = 60;

/**
 * The parts of a piece's figures: shapes connected by sides, the piece repeating sideways, that touch one other area alone. None that goes
 * all the way round, none that is the whole of its area, none of more than sixty stitches, and no equals that are together less than
 * a hundredth of the piece.
 */
export const figureParts = oncePer((piece: Piece): readonly FigurePart[] => {
  const groups = new Map<string, { shape: Shape; places: number[]; times: number }>();
  for (const shape of shapesOf(piece)) {
    if (shape.against === null || shape.goesRound || shape.places.length > LARGEST_SHAPE) continue;
    const key = `${shape.area}/${shape.against} ${shape.outline}`;
    const group = groups.get(key);
    if (group) {
      group.places.push(...shape.places);
      group.times += 1;
    } else groups.set(key, { shape, places: [...shape.places], times: 1 });
  }
  const stitches = new Array<number>(piece.count).fill(0);
  for (const area of Array.from(piece.cells)) if (area !== NO_STITCH) stitches[area]! += 1;
  const all = stitches.reduce((sum, count) => sum + count, 0);
  return [...groups.values()].flatMap(({ shape, places, times }) => {
    const { area, against, rows } = shape;
    if (against === null || places.length === stitches[area] || places.length < SMALLEST_PART * all) return [];
    const cells = Uint8Array.from(piece.cells, (cell) => (cell === NO_STITCH ? NO_STITCH : 0));
    for (const at of places) cells[at] = 1;
    return [{ area, against, rows, times, piece: { ...piece, cells, count: 2 } }];
  });
});

interface Shape {
  readonly area: number;
  /** The one area that it touches; null where it touches several, or none. */
  readonly against: number | null;
  readonly rows: readonly [number, number];
  readonly goesRound: boolean;
  readonly places: readonly number[];
  /** Equal for shapes that differ by a shift sideways. */
  readonly outline: string;
}

function shapesOf({ width, height, cells }: Piece): Shape[] {
  // The column in which a stitch was first met, counted on past the edges.
  const columnOf = new Int32Array(width * height);
  const met = new Uint8Array(width * height);
  const shapes: Shape[] = [];
  for (let start = 0; start < width * height; start++) {
    const area = cells[start]!;
    if (area === NO_STITCH || met[start]) continue;
    met[start] = 1;
    columnOf[start] = start % width;
    const places = [start];
    const touched = new Set<number>();
    let goesRound = false;
    for (const at of places) {
      const column = columnOf[at]!;
      const row = Math.floor(at / width);
      for (const [across, up] of SIDES) {
        if (row + up < 0 || row + up >= height) continue;
        const next = (row + up) * width + ((((column + across) % width) + width) % width);
        if (cells[next] !== area) {
          if (cells[next] !== NO_STITCH) touched.add(cells[next]!);
          continue;
        }
        if (!met[next]) {
          met[next] = 1;
          columnOf[next] = column + across;
          places.push(next);
        } else if (columnOf[next] !== column + across) goesRound = true;
      }
    }
    shapes.push(shapeOf(area, places, columnOf, width, touched, goesRound));
  }
  return shapes;
}

const SIDES = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

function shapeOf(
  area: number,
  places: readonly number[],
  columnOf: ArrayLike<number>,
  width: number,
  touched: ReadonlySet<number>,
  goesRound: boolean,
): Shape {
  const cells = places.map((at) => ({ row: Math.floor(at / width), column: columnOf[at]! }));
  const left = cells.reduce((least, { column }) => Math.min(least, column), Infinity);
  const rows = cells.map(({ row }) => row);
  const [against] = touched;
  return {
    area,
    against: touched.size === 1 ? against! : null,
    rows: [rows.reduce((a, b) => Math.min(a, b)), rows.reduce((a, b) => Math.max(a, b))],
    goesRound,
    places,
    outline: cells
      .map(({ row, column }) => `${row},${column - left}`)
      .sort()
      .join(" "),
  };
}
