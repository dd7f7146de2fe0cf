/** Reads every cell of a chart whose grid is known: its ground's colour, its sign, and how sure that is. */
import { hexFromLab, labFromLinear, linearFromLab, type Lab } from "../colour/lab.ts";
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
import { noStitchKinds } from "./readCells/noStitch.ts";
import { seenKinds, type SeenKind } from "./readCells/signs.ts";
import { surenessOf } from "./readCells/sureness.ts";
import { bareCells } from "./readCells/bareCells.ts";
import { cellSize, takePatches } from "./readCells/patches.ts";
import { settledGrid } from "./readCells/settledGrid.ts";
import { widerGrid } from "./readCells/widerGrid.ts";
import { ID_ORDER, type ReadColour, type ReadSymbol } from "./readChart.ts";

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

/** Cells that are too few to be sure of in a photograph, and how sure they are at most. */
const LONE = 2;
const LONE_SURE = 0.35;
/** Pixels to a cell from which a sample between pixels lies in one cell all the same. */
const SHARP = 6;
/** Part of a cell's inside from which it has one colour, and part of all cells that may be otherwise by chance where there are no signs. */
const PLAIN = 0.9;
const SPECKS = 0.0005;
/** Sureness, 0 to 9, below which a cell is to be looked at again. */
const DOUBTFUL = 4;

const middleOf = (numbers: number[]): number => numbers.sort((one, other) => one - other)[numbers.length >> 1]!;

/** What is not of one colour says little of the light, unless hardly any cell is. */
function trustOf(even: Float32Array): Float32Array {
  const strict = even.map((part) => Math.min(1, Math.max(0, (part - HALF) / (WHOLE - HALF))) ** 2);
  return strict.reduce((sum, part) => sum + part, 0) > LEAST_EVEN * even.length ? strict : even;
}

const plainly = (part: number): number => Math.min(1, Math.max(0, (part - NEARLY) / (WHOLLY - NEARLY)));

/** Cells beyond which the light is seen well enough from cell to cell. */
const MOST_SLOPING = 10_000;
/** Part of a cell's inside that has its ground: to tell by how it slopes, of no use up to the first, of full use from the second. */
const NEARLY = 0.85;
const WHOLLY = 0.95;
/** Part of a cell's inside that has its ground: of no use up to the first, of full use from the second. */
const HALF = 0.55;
const WHOLE = 0.9;
/** Part of the cells that must be of use. */
const LEAST_EVEN = 0.12;

/** A letter for each kind; "-" for what is no stitch, and for what is beyond all letters. */
function namesOf(kinds: readonly SeenKind[], none: ReadonlySet<number>): string[] {
  let next = 0;
  return kinds.map((_, kind) => (none.has(kind) ? "-" : (ID_ORDER[next++] ?? "-")));
}

/** Cells around the chart that are looked at for the page. */
const BORDER = 2;

export function readCells(pixels: Pixels, grid: ChartGrid, options: CellOptions = {}): CellsRead {
  const { columns, rows } = grid;
  const wider = widerGrid(options.exact ? grid : settledGrid(pixels, grid), BORDER);
  const patches = takePatches(pixels, wider, { blended: !options.exact || Math.min(...cellSize(wider)) >= SHARP });
  options.onStep?.(0.5);
  const around = groundsOf(patches);
  const light = Float32Array.from(around.colours, (byte) => decodeSrgb(byte / 255));
  const trust = trustOf(around.even);
  const page = paperOf(pixels, wider, BORDER, around, light);
  // On a page without grain no lamp has shone.
  const drawn = options.exact || (page !== null && !page.grainy);
  // Beside a sign its blur is a slope too; very many cells are too small to slope.
  const slopes =
    drawn || trust.length > MOST_SLOPING ? null : lightFromSlopes(patches, around, around.even.map(plainly));
  const flat = drawn ? light : evenLight({ columns: wider.columns, rows: wider.rows, light, trust }, slopes).light;
  const paper = drawn ? page : paperOf(pixels, wider, BORDER, around, flat);
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
  const gains = new Float32Array(inside.length * 3);
  for (const [index, cell] of inside.entries())
    for (let channel = 0; channel < 3; channel++) {
      const at = cell * 3 + channel;
      gains[index * 3 + channel] = light[at]! > 0 ? flat[at]! / light[at]! / white[channel]! : 1 / white[channel]!;
    }
  // The key is lit about as most of the chart is.
  const usual = [0, 1, 2].map((channel) => middleOf(inside.map((_, index) => gains[index * 3 + channel]!)));
  const key = (options.legend?.entries ?? []).flatMap(({ lab }): Lab[] =>
    lab ? [labFromLinear(linearFromLab(lab).map((part, channel) => part * usual[channel]!) as unknown as Lab)] : [],
  );
  const uneven = grounds.even.reduce((sum, part) => sum + (part < PLAIN ? 1 : 0), 0);
  const marks = uneven <= SPECKS * inside.length ? null : marksOf(patches, around, inside, gains);
  const seen = { looking: { patches, inside, gains }, noise: middleOf([...grounds.spread]) };
  const found = kindsOf(labs, marks, { count: options.colours, key }, seen);
  const { of, sure } = surenessOf(found, labs, marks, grounds.even, seen);
  // With grain, what is met once or twice may be a smudge; where all is drawn exactly, it is what it is.
  if (!options.exact && paper?.grainy !== false)
    for (const { cells } of found)
      if (cells.length <= LONE) for (const cell of cells) sure[cell] = Math.min(sure[cell]!, LONE_SURE);
  const kinds = seenKinds(found, seen.looking);
  const none = new Set(
    noStitchKinds(kinds, {
      columns,
      rows,
      page:
        paper && labFromLinear([0, 1, 2].map((channel) => paper.light[channel]! / white[channel]!) as unknown as Lab),
      spread: grounds.spread,
      legend: key,
      bare: options.lined === false ? new Uint8Array(columns * rows) : bareCells(patches, BORDER),
    }),
  );
  const names = namesOf(kinds, none);
  const digits = Array.from(sure, (share) => Math.max(0, Math.min(9, Math.floor(10 * share))));
  const lines = (letter: (cell: number) => string): string[] =>
    Array.from({ length: rows }, (_, row) =>
      Array.from({ length: columns }, (_, column) => letter(row * columns + column)).join(""),
    );
  const uncertain = digits.flatMap((digit, cell): [number, number][] =>
    digit < DOUBTFUL ? [[rows - Math.floor(cell / columns), columns - (cell % columns)]] : [],
  );
  const colours: Record<string, ReadColour> = {};
  const symbols: Record<string, ReadSymbol> = {};
  for (const [kind, { lab, picture }] of kinds.entries()) {
    const id = names[kind]!;
    if (id === "-") continue;
    colours[id] = { hex: hexFromLab(lab), lab };
    if (picture) symbols[id] = { text: null, picture };
  }
  options.onStep?.(1);
  return {
    chart: {
      rows: lines((cell) => names[of[cell]!]!),
      colours,
      confidence: 1 - uncertain.length / (rows * columns),
      box: cornersOfGrid(grid).map(([x, y]) => [x, y]),
      page: 1,
      uncertain,
      sureness: lines((cell) => String(digits[cell])),
      ...(Object.keys(symbols).length > 0 ? { symbols } : {}),
      grid,
    },
    looks: {
      columns,
      rows,
      labs: Float32Array.from(labs.flat()),
      spread: grounds.spread,
      signs: Int16Array.from(of, (kind) => (kinds[kind]!.picture ? kind : -1)),
      evenness: grounds.even,
    },
  };
}
