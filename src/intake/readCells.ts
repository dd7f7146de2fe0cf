/** Reads every cell of a chart whose grid is known: its ground's colour, its sign, and how sure that is. */
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, labFromLinear, type Lab } from "../colour/lab.ts";
import { linearFromBytes } from "../colour/srgb.ts";
import { clusterColours } from "../raster/cluster.ts";
import type { Pixels } from "../raster/pixels.ts";
import type { CellsRead, Legend } from "./cellLooks.ts";
import { cornersOfGrid, type ChartGrid } from "./chartGrid.ts";
import { groundsOf } from "./readCells/grounds.ts";
import { takePatches } from "./readCells/patches.ts";
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

export function readCells(pixels: Pixels, grid: ChartGrid, options: CellOptions = {}): CellsRead {
  const { columns, rows } = grid;
  const patches = takePatches(pixels, grid);
  options.onStep?.(0.5);
  const grounds = groundsOf(patches);
  const labs: Lab[] = [];
  for (let at = 0; at < grounds.colours.length; at += 3)
    labs.push(labFromLinear(linearFromBytes(grounds.colours[at]!, grounds.colours[at + 1]!, grounds.colours[at + 2]!)));
  const { centres, assignment } = clusterColours(labs, options.colours === undefined ? {} : { count: options.colours });
  const text: string[] = [];
  const sure: string[] = [];
  const uncertain: [number, number][] = [];
  for (let row = 0; row < rows; row++) {
    let [line, sureness] = ["", ""];
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      const kind = assignment[cell]!;
      const own = deltaE2000(labs[cell]!, centres[kind]!);
      const other = Math.min(
        ...centres.map((lab, index) => (index === kind ? Infinity : deltaE2000(labs[cell]!, lab))),
      );
      const share = Math.max(0, Math.min(1, 1 - (2 * own) / (own + other)));
      const digit = Math.floor(Math.min(9, 10 * (other === Infinity ? 1 : share)));
      line += ID_ORDER[kind]!;
      sureness += String(digit);
      if (digit < 3) uncertain.push([rows - row, columns - column]);
    }
    text.push(line);
    sure.push(sureness);
  }
  const colours = Object.fromEntries(
    centres.map((lab, kind): [string, ReadColour] => [ID_ORDER[kind]!, { hex: hexFromLab(lab), lab }]),
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
