/** Parts of a figure: connected shapes of one colour within another, which the figure as a whole may hide when they are lost. */
import { oncePer } from "../base/oncePer.ts";
import type { Band } from "../chart/bands.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { figureVisibility, gainsIn, type ChannelVisibility } from "../vision/visibility.ts";
import { areasOf, type Area } from "./areas.ts";
import type { Cloth } from "./cloth.ts";
import {
  figureContrast,
  partedIn,
  sceneOf,
  spectrumFor,
  UNTUNED,
  viewFrom,
  type FigureContrast,
  type SpectrumMemory,
  type Viewing,
} from "./contrast.ts";
import type { Piece } from "./spectra.ts";
import type { Scene } from "./visibility.ts";

/** What is lost if these shapes alone were knitted in the colour that surrounds them. */
export interface PartContrast extends FigureContrast {
  /** Rows of the chart. */
  readonly rows: readonly [number, number];
  /** How many equal ones there are across the repeat. */
  readonly times: number;
}

/**
 * How each part of a band's figures shows on its own: V of its indicator alone, in the band's mean, light and patch, capped by its own
 * contrast. Source: vision.md B8 with the part for the area. A row's parts are its own stitches, which are judged as the row.
 */
export function partContrasts(
  cloth: Cloth,
  band: Pick<Band, "rows">,
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt = UNTUNED,
): PartContrast[] {
  const [from, to] = band.rows;
  const areaPiece = areasOf(cloth, from, to);
  if (from === to || areaPiece.areas.length < 2) return [];
  const sceneIn = (areas: readonly Area[]): Scene => sceneOf({ ...areaPiece, areas }, cloth, viewing, memory);
  const scene = sceneIn(areaPiece.areas);
  return figureParts(areaPiece.piece).map(({ area, against, rows, times, piece }) => {
    const alone = spectrumFor({ piece, areas: [] }, cloth, memory);
    const seenIn = ({ field, eye }: Scene): ChannelVisibility =>
      figureVisibility(
        alone,
        { ...field, responses: [field.responses[against]!, field.responses[area]!] },
        gainsIn(viewFrom(alone, viewing, memory), field.luminance),
        { area: 1, against: 0 },
        eye.contrastCap,
      );
    const pair = [areaPiece.areas[area]!, areaPiece.areas[against]!] as const;
    return {
      ...figureContrast(pair, seenIn(scene), doubt, () => seenIn(sceneIn(partedIn(areaPiece.areas, pair)))),
      rows: [from + rows[0], from + rows[1]],
      times,
    };
  });
}

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

/** No band is read by more parts than these; the largest are measured. Our choice, to be quick in charts without a repeat. */
const MOST_PARTS = 12;

/**
 * The parts of a piece's figures: shapes connected by sides, the piece repeating sideways, that touch one other area alone. None that goes
 * all the way round, none that is the whole of its area, none of more than sixty stitches, and no equals that are together less than
 * a hundredth of the piece; of those at most twelve, the largest.
 */
export const figureParts = oncePer((piece: Piece): readonly FigurePart[] => {
  const groups = new Map<string, { shape: Shape; places: number[]; times: number }>();
  for (const shape of shapesOf(piece)) {
    if (shape.against === null || shape.goesRound || shape.places.length > LARGEST_SHAPE) continue;
    const key = nameOf(shape);
    const group = groups.get(key);
    if (group) {
      group.places.push(...shape.places);
      group.times += 1;
    } else groups.set(key, { shape, places: [...shape.places], times: 1 });
  }
  const stitches = new Array<number>(piece.count).fill(0);
  for (const area of Array.from(piece.cells)) if (area !== NO_STITCH) stitches[area]! += 1;
  const all = stitches.reduce((sum, count) => sum + count, 0);
  const parts = [...groups.values()].filter(
    ({ shape, places }) => places.length < stitches[shape.area]! && places.length >= SMALLEST_PART * all,
  );
  // Where many are as large, which are measured must not hang on where the repeat begins.
  const largest = parts
    .sort((a, b) => b.places.length - a.places.length || (nameOf(a.shape) < nameOf(b.shape) ? -1 : 1))
    .slice(0, MOST_PARTS);
  return largest.flatMap(({ shape: { area, against, rows }, places, times }) => {
    if (against === null) return [];
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

const nameOf = ({ area, against, outline }: Shape): string => `${area}/${against} ${outline}`;

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
