/** What she does with a reading that is not right: every act gives a new state, and her word stays whatever comes after. */
import { din99FromLab } from "../colour/din99.ts";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import type { CellLooks, CellsRead } from "./cellLooks.ts";
import type { ChartGrid } from "./chartGrid.ts";
import { freeIds, type ReadChart, type ReadColour, type ReadSymbol } from "./readChart.ts";

export interface Corrected {
  /** Top row first, one character a stitch, "-" for no stitch. */
  readonly rows: readonly string[];
  readonly colours: Readonly<Record<string, ReadColour>>;
  readonly symbols: Readonly<Record<string, ReadSymbol>>;
  readonly looks: CellLooks;
  readonly grid: ChartGrid | null;
  /** "0" to "9" for each cell, in the shape of `rows`, as it was read. */
  readonly sureness: readonly string[];
  /** Cells that the reader wants looked at, numbered as in `touched`. */
  readonly doubtful: ReadonlySet<number>;
  /** Cells that she has set or found right: 0 is the top left one, counted along the rows. */
  readonly touched: ReadonlySet<number>;
}

/** Row (1 at the bottom) and column (1 at the right edge). */
export type CellPlace = readonly [row: number, column: number];

/** A reading as it came, with nothing touched. */
export function startCorrecting({ chart, looks }: CellsRead): Corrected {
  const { rows, columns } = looks;
  return {
    rows: chart.rows,
    colours: chart.colours,
    symbols: chart.symbols ?? {},
    looks,
    grid: chart.grid ?? null,
    sureness: chart.sureness ?? chart.rows.map((row) => "9".repeat(row.length)),
    doubtful: new Set(chart.uncertain.map(([row, column]) => (rows - row) * columns + columns - column)),
    touched: new Set(),
  };
}

/** The chart as she has corrected it; what she did not speak of (name, page, confidence) is as it was read. */
export function correctedChart(state: Corrected, read: ReadChart): ReadChart {
  const { symbols: _symbols, grid: _grid, ...rest } = read;
  return {
    ...rest,
    rows: [...state.rows],
    colours: { ...state.colours },
    uncertain: doubtfulCells(state).map(([row, column]) => [row, column]),
    sureness: surenessNow(state),
    ...(Object.keys(state.symbols).length > 0 ? { symbols: { ...state.symbols } } : {}),
    ...(state.grid ? { grid: state.grid } : {}),
  };
}

/** Where her word stands, there is no doubt. */
function surenessNow({ sureness, looks: { columns }, touched }: Corrected): string[] {
  return sureness.map((row, index) =>
    Array.from(row, (sure, column) => (touched.has(index * columns + column) ? "9" : sure)).join(""),
  );
}

/**
 * Cells set to a chart colour, or to "-" for no stitch. A cell set to what it is already counts as found right. Cells outside
 * the chart and colours it does not have change nothing.
 */
export function setCells(state: Corrected, cells: readonly CellPlace[], id: string): Corrected {
  if (id !== "-" && !state.colours[id]) return state;
  const { columns, rows } = state.looks;
  const touched = new Set(state.touched);
  const grid = state.rows.map((row) => Array.from(row));
  for (const [row, column] of cells) {
    if (!(row >= 1 && row <= rows && column >= 1 && column <= columns)) continue;
    grid[rows - row]![columns - column] = id;
    touched.add((rows - row) * columns + columns - column);
  }
  return { ...state, rows: grid.map((row) => row.join("")), touched };
}

/** A colour the chart does not have yet, for cells to be set to; its letter is the first free one. */
export function addColour(state: Corrected, colour: ReadColour): { state: Corrected; id: string } | null {
  const [id] = freeIds(new Set(Object.keys(state.colours)));
  return id === undefined ? null : { state: { ...state, colours: { ...state.colours, [id]: colour } }, id };
}

/**
 * All cells that look like this one, itself included: the same sign, and a ground that lies on this side of the widest gap in
 * colour. Row by row from the top left. Cells that are no stitch look only like one another.
 */
export function likeCells(state: Corrected, row: number, column: number): CellPlace[] {
  const { columns, rows, signs } = state.looks;
  if (!(row >= 1 && row <= rows && column >= 1 && column <= columns)) return [];
  const own = (rows - row) * columns + columns - column;
  const text = state.rows.join("");
  const { labs } = state.looks;
  const point = (cell: number): Lab => din99FromLab([labs[cell * 3]!, labs[cell * 3 + 1]!, labs[cell * 3 + 2]!]);
  const middle = point(own);
  const candidates: number[] = [];
  const away: number[] = [];
  for (let cell = 0; cell < rows * columns; cell++) {
    if (signs[cell] !== signs[own] || (text[cell] === "-") !== (text[own] === "-")) continue;
    if (
      Math.abs(labs[cell * 3]! - labs[own * 3]!) > FAR ||
      Math.abs(labs[cell * 3 + 1]! - labs[own * 3 + 1]!) > FAR ||
      Math.abs(labs[cell * 3 + 2]! - labs[own * 3 + 2]!) > FAR
    )
      continue;
    const [x, y, z] = point(cell);
    candidates.push(cell);
    away.push(Math.hypot(x - middle[0], y - middle[1], z - middle[2]));
  }
  const limit = widestGap(away);
  return candidates.filter((_, index) => away[index]! <= limit).map((cell) => placeOf(state.looks, cell));
}

/** CIELAB, along one axis: what lies so far off is another colour, however DIN99o draws in strong ones. */
const FAR = 60;

/** Distance (DIN99o) within which cells are alike whatever the gaps, and beyond which they are not. */
const SURELY_ALIKE = 1.2;
const SURELY_OTHER = 9;

/** Where the numbers leave the widest gap, for their size, between what is surely alike and what is surely not. */
function widestGap(distances: readonly number[]): number {
  const sorted = Float64Array.from(distances.filter((each) => each <= 2 * SURELY_OTHER)).sort();
  let [limit, widest] = [SURELY_ALIKE, 0];
  for (let index = 0; index < sorted.length; index++) {
    const here = Math.max(SURELY_ALIKE, sorted[index]!);
    if (here > SURELY_OTHER) break;
    const gap = Math.min(2 * SURELY_OTHER, sorted[index + 1] ?? Infinity) / here;
    if (gap > widest) [limit, widest] = [here, gap];
  }
  return limit;
}

/** Every stitch of one colour becomes the other; the first is gone. */
export function mergeColours(state: Corrected, from: string, into: string): Corrected {
  if (from === into || !state.colours[from] || !state.colours[into]) return state;
  const { [from]: _colour, ...colours } = state.colours;
  const { [from]: _symbol, ...symbols } = state.symbols;
  return { ...state, rows: state.rows.map((row) => row.replaceAll(from, () => into)), colours, symbols };
}

/**
 * One colour made two, by sign where its cells have several, else by the ground's colour. The smaller part gets the new
 * letter; null where its cells all look the same.
 */
export function splitColour(state: Corrected, id: string): { state: Corrected; id: string } | null {
  const text = state.rows.join("");
  const members: number[] = [];
  for (let cell = 0; cell < text.length; cell++) if (text[cell] === id) members.push(cell);
  const fresh = freeIds(new Set(Object.keys(state.colours)))[0];
  if (fresh === undefined || members.length < 2 || !state.colours[id]) return null;
  const parts = partsBySign(state.looks, members) ?? partsByColour(state.looks, members);
  if (!parts) return null;
  const [kept, split] = parts[0].length >= parts[1].length ? parts : [parts[1], parts[0]];
  const away = new Set(split);
  const { columns } = state.looks;
  const old = state.colours[id];
  const colour = (cells: readonly number[]): ReadColour => {
    const lab = meanLab(state.looks, cells);
    return { hex: hexFromLab(lab), lab };
  };
  const symbol = state.symbols[id];
  return {
    id: fresh,
    state: {
      ...state,
      rows: state.rows.map((row, index) =>
        Array.from(row, (was, column) => (away.has(index * columns + column) ? fresh : was)).join(""),
      ),
      colours: { ...state.colours, [id]: { ...old, ...colour(kept) }, [fresh]: colour(split) },
      symbols: symbol ? { ...state.symbols, [fresh]: symbol } : state.symbols,
    },
  };
}

/** The commonest sign among the cells, and all others; null where there is one. */
function partsBySign({ signs }: CellLooks, members: readonly number[]): [number[], number[]] | null {
  const counts = new Map<number, number>();
  for (const cell of members) counts.set(signs[cell]!, (counts.get(signs[cell]!) ?? 0) + 1);
  if (counts.size < 2) return null;
  const [[commonest]] = [...counts].sort((one, other) => other[1] - one[1] || one[0] - other[0]) as [[number, number]];
  return [members.filter((cell) => signs[cell] === commonest), members.filter((cell) => signs[cell] !== commonest)];
}

const SPLITTING_ROUNDS = 20;

/** Two heaps around two means, begun at the cell farthest from the mean and the one farthest from that. */
function partsByColour(looks: CellLooks, members: readonly number[]): [number[], number[]] | null {
  const points = pointsOf(looks);
  const point = (cell: number): number[] => [points[cell * 3]!, points[cell * 3 + 1]!, points[cell * 3 + 2]!];
  const mean = (cells: readonly number[]): number[] =>
    [0, 1, 2].map((axis) => cells.reduce((sum, cell) => sum + points[cell * 3 + axis]!, 0) / cells.length);
  const apart = (cell: number, [x, y, z]: number[]): number =>
    (points[cell * 3]! - x!) ** 2 + (points[cell * 3 + 1]! - y!) ** 2 + (points[cell * 3 + 2]! - z!) ** 2;
  const farthest = (from: number[]): number =>
    members.reduce((best, cell) => (apart(cell, from) > apart(best, from) ? cell : best), members[0]!);
  const first = farthest(mean(members));
  let seeds = [point(first), point(farthest(point(first)))] as const;
  let parts: [number[], number[]] = [[], []];
  for (let round = 0; round < SPLITTING_ROUNDS; round++) {
    const [one, other] = seeds;
    parts = [[], []];
    for (const cell of members) parts[apart(cell, one) <= apart(cell, other) ? 0 : 1].push(cell);
    if (parts[0].length === 0 || parts[1].length === 0) return null;
    seeds = [mean(parts[0]), mean(parts[1])];
  }
  return parts;
}

/** Cells to look at again, least sure first, then from the top left; those she has touched are left out. */
export function doubtfulCells(state: Corrected): CellPlace[] {
  const text = state.sureness.join("");
  return [...state.doubtful]
    .filter((cell) => !state.touched.has(cell))
    .sort((one, other) => text.charCodeAt(one) - text.charCodeAt(other) || one - other)
    .map((cell) => placeOf(state.looks, cell));
}

export function placeOf({ columns, rows }: Pick<CellLooks, "columns" | "rows">, cell: number): CellPlace {
  return [rows - Math.floor(cell / columns), columns - (cell % columns)];
}

/** The cells' grounds in DIN99o, where plain distance is about what the eye counts. */
export function pointsOf({ labs }: CellLooks): Float32Array {
  const points = new Float32Array(labs.length);
  for (let at = 0; at < labs.length; at += 3) points.set(din99FromLab([labs[at]!, labs[at + 1]!, labs[at + 2]!]), at);
  return points;
}

function meanLab({ labs }: CellLooks, cells: readonly number[]): Lab {
  const part = (axis: number): number => cells.reduce((sum, cell) => sum + labs[cell * 3 + axis]!, 0) / cells.length;
  return [part(0), part(1), part(2)];
}
