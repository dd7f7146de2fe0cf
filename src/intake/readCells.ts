/** Reads every cell of a chart whose grid is known: its ground's colour, its sign, and how sure that is. */
import { hexFromLab, labFromLinear, type Lab } from "../colour/lab.ts";
import { decodeSrgb } from "../colour/srgb.ts";
import type { Pixels } from "../raster/pixels.ts";
import type { CellsRead, Legend } from "./cellLooks.ts";
import { cornersOfGrid, type ChartGrid } from "./chartGrid.ts";
import { groundsOf } from "./readCells/grounds.ts";
import { lightFromSlopes } from "./readCells/innerSlopes.ts";
import { kindsOf } from "./readCells/kinds.ts";
import { evenLight } from "./readCells/lightField.ts";
import { marksOf } from "./readCells/marks.ts";
import { paperOf } from "./readCells/paper.ts";
import { takePatches } from "./readCells/patches.ts";
import { widerGrid } from "./readCells/widerGrid.ts";
import { ID_ORDER, type ReadColour } from "./readChart.ts";

export interface CellOptions {
  /** How many colours the chart has, where she knows; otherwise it is found. */
  readonly colours?: number;
  /** Whether lines are drawn between the cells; where not told, it is seen. */
  readonly lined?: boolean;
  /** Whether cells are of one colour to the last pixel and upright. */
  readonly exact?: boolean;
  /** The key beside the chart. */
  readonly legend?: Legend;
  /** Told the share that is done, 0 to 1. */
  readonly onStep?: (share: number) => void;
}

const luma = (light: ArrayLike<number>, cell: number): number =>
  0.3 * light[cell * 3]! + 0.6 * light[cell * 3 + 1]! + 0.1 * light[cell * 3 + 2]!;

/** Cells around the chart that are looked at for the page. */
const BORDER = 2;

export function readCells(pixels: Pixels, grid: ChartGrid, options: CellOptions = {}): CellsRead {
  const { columns, rows } = grid;
  const wider = widerGrid(grid, BORDER);
  const patches = takePatches(pixels, wider);
  options.onStep?.(0.5);
  const around = groundsOf(patches);
  const light = Float32Array.from(around.colours, (byte) => decodeSrgb(byte / 255));
  const flat = options.exact
    ? light
    : evenLight(
        { columns: wider.columns, rows: wider.rows, light, trust: around.even },
        lightFromSlopes(patches, around, around.even),
      ).light;
  const paper = paperOf(pixels, wider, BORDER, around, flat);
  const white = paper?.grainy && paper.white ? paper.light : [1, 1, 1];
  const inside = Array.from(
    { length: columns * rows },
    (_, cell) => (Math.floor(cell / columns) + BORDER) * wider.columns + (cell % columns) + BORDER,
  );
  const grounds = {
    even: Float32Array.from(inside, (cell) => around.even[cell]!),
    spread: Float32Array.from(inside, (cell) => around.spread[cell]!),
  };
  const labs = inside.map((cell): Lab =>
    labFromLinear([0, 1, 2].map((channel) => flat[cell * 3 + channel]! / white[channel]!) as unknown as Lab),
  );
  const gain = Float32Array.from(inside, (cell) =>
    Math.pow(luma(flat, cell) / Math.max(1e-4, luma(light, cell)) / luma(white, 0), 1 / 2.2),
  );
  const marks = marksOf(patches, around, inside, gain);
  const list = kindsOf(labs, marks, options.colours);
  const of = new Int32Array(labs.length);
  for (const [kind, { cells }] of list.entries()) for (const cell of cells) of[cell] = kind;
  const text: string[] = [];
  const sure: string[] = [];
  const uncertain: [number, number][] = [];
  for (let row = 0; row < rows; row++) {
    let [line, sureness] = ["", ""];
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      line += ID_ORDER[of[cell]!]!;
      sureness += "9";
    }
    text.push(line);
    sure.push(sureness);
  }
  const colours = Object.fromEntries(
    list.map(({ lab }, kind): [string, ReadColour] => [ID_ORDER[kind]!, { hex: hexFromLab(lab), lab }]),
  );
  options.onStep?.(1);
  return {
    chart: {
      rows: text,
      colours,
      confidence: 1 - uncertain.length / (rows * columns),
      box: cornersOfGrid(grid).map(([x, y]) => [x, y]),
      page: 1,
      uncertain,
      sureness: sure,
      grid,
    },
    looks: {
      columns,
      rows,
      labs: Float32Array.from(labs.flat()),
      spread: grounds.spread,
      signs: new Int16Array(columns * rows).fill(-1),
      evenness: grounds.even,
    },
  };
}
