/** The same picture read again on another grid: what she said of the old one, and what is the same in both, stays. */
import { deltaE2000 } from "../colour/difference.ts";
import type { Lab } from "../colour/lab.ts";
import type { CellLooks, CellsRead } from "./cellLooks.ts";
import { crossing, type ChartGrid, type Point } from "./chartGrid.ts";
import { startCorrecting, type Corrected } from "./correctChart.ts";
import { freeIds, type ReadColour, type ReadSymbol } from "./readChart.ts";

/**
 * How the old cells are found among the new: "place" by where they lie in the picture (corners moved, rows or columns added or
 * taken away at an edge), or by their numbers, row + `rows` and column + `columns` being the new ones (knitters' numbers).
 */
export type Regridding = "place" | { readonly rows: number; readonly columns: number };

/** The old state carried over to a fresh reading. Letters of colours stay what they were; a new colour gets a free letter. */
export function regrid(state: Corrected, fresh: CellsRead, how: Regridding): Corrected {
  const next = startCorrecting(fresh);
  const old = oldCells(state, next, how);
  const text = state.rows.join("");
  const read = next.rows.join("");
  const stays = Uint8Array.from(old, (from, cell) =>
    from < 0 ? 0 : state.touched.has(from) || looksAlike(state.looks, from, next.looks, cell) ? 1 : 0,
  );
  const { names, colours, symbols } = reconciled(state, next, old, stays);
  const touched = new Set<number>();
  const { columns } = next.looks;
  const rows = next.rows.map((row, index) =>
    Array.from(row, (_, column) => {
      const cell = index * columns + column;
      const from = old[cell]!;
      if (from >= 0 && state.touched.has(from)) touched.add(cell);
      return stays[cell] ? text[from]! : (names.get(read[cell]!) ?? "-");
    }).join(""),
  );
  return { ...next, rows, colours, symbols, touched };
}

/** ΔE00 within which two readings of one place are the same reading. */
const SAME_READING = 2.5;

/** Signs are numbered anew in each reading, so only whether there is one can be compared. */
function looksAlike(one: CellLooks, cell: number, other: CellLooks, otherCell: number): boolean {
  return (
    one.signs[cell]! < 0 === other.signs[otherCell]! < 0 &&
    deltaE2000(labAt(one, cell), labAt(other, otherCell)) < SAME_READING
  );
}

const labAt = ({ labs }: CellLooks, cell: number): Lab => [labs[cell * 3]!, labs[cell * 3 + 1]!, labs[cell * 3 + 2]!];

/** For each new cell the old one it was, −1 for none. */
function oldCells(state: Corrected, next: Corrected, how: Regridding): Int32Array {
  const was = state.looks;
  const now = next.looks;
  const old = new Int32Array(now.columns * now.rows).fill(-1);
  if (how === "place" && state.grid && next.grid) {
    for (let cell = 0, from = 0; cell < old.length; cell++) {
      const found = cellAt(state.grid, middleOf(next.grid, Math.floor(cell / now.columns), cell % now.columns), from);
      old[cell] = found;
      if (found >= 0) from = found;
    }
    return old;
  }
  const { rows, columns } = how === "place" ? { rows: 0, columns: 0 } : how;
  for (let cell = 0; cell < old.length; cell++) {
    const row = now.rows - Math.floor(cell / now.columns) - rows;
    const column = now.columns - (cell % now.columns) - columns;
    if (row >= 1 && row <= was.rows && column >= 1 && column <= was.columns)
      old[cell] = (was.rows - row) * was.columns + was.columns - column;
  }
  return old;
}

function middleOf(grid: ChartGrid, row: number, column: number): Point {
  const [a, b] = [crossing(grid, row, column), crossing(grid, row + 1, column + 1)];
  const [c, d] = [crossing(grid, row, column + 1), crossing(grid, row + 1, column)];
  return [(a[0] + b[0] + c[0] + d[0]) / 4, (a[1] + b[1] + c[1] + d[1]) / 4];
}

/** Walks from one cell towards a point until it is inside one; −1 where the point lies outside the grid. */
function cellAt(grid: ChartGrid, [x, y]: Point, from: number): number {
  let [row, column] = [Math.floor(from / grid.columns), from % grid.columns];
  for (let step = grid.columns + grid.rows; step >= 0; step--) {
    const [left, top] = crossing(grid, row, column);
    const [right, rightY] = crossing(grid, row, column + 1);
    const [downX, down] = crossing(grid, row + 1, column);
    const [ax, ay, bx, by] = [right - left, rightY - top, downX - left, down - top];
    const area = ax * by - ay * bx;
    if (area === 0) return -1;
    // How many cells of this one's size the point is to the right and below its top left corner.
    const across = Math.floor(((x - left) * by - (y - top) * bx) / area);
    const along = Math.floor(((y - top) * ax - (x - left) * ay) / area);
    if (across === 0 && along === 0) return row * grid.columns + column;
    const [nextRow, nextColumn] = [clamp(row + along, grid.rows), clamp(column + across, grid.columns)];
    if (nextRow === row && nextColumn === column) return -1;
    [row, column] = [nextRow, nextColumn];
  }
  return -1;
}

const clamp = (index: number, count: number): number => Math.min(count - 1, Math.max(0, index));

interface Reconciled {
  /** The letter of each colour of the fresh reading. */
  readonly names: ReadonlyMap<string, string>;
  readonly colours: Record<string, ReadColour>;
  readonly symbols: Record<string, ReadSymbol>;
}

/** Each fresh colour is the old one that most of its cells had, else the one it looks like, else a new one. */
function reconciled(state: Corrected, next: Corrected, old: Int32Array, stays: Uint8Array): Reconciled {
  const text = state.rows.join("");
  const read = next.rows.join("");
  const votes = new Map<string, Map<string, number>>();
  for (let cell = 0; cell < old.length; cell++) {
    if (!stays[cell] || state.touched.has(old[cell]!)) continue;
    const heard = votes.get(read[cell]!) ?? new Map<string, number>();
    votes.set(read[cell]!, heard.set(text[old[cell]!]!, (heard.get(text[old[cell]!]!) ?? 0) + 1));
  }
  const colours: Record<string, ReadColour> = { ...state.colours };
  const symbols: Record<string, ReadSymbol> = { ...state.symbols };
  const names = new Map<string, string>([["-", "-"]]);
  const free = freeIds(new Set([...Object.keys(state.colours)]));
  for (const [id, colour] of Object.entries(next.colours)) {
    const heard = [...(votes.get(id) ?? [])].filter(([name]) => name !== "-").sort((one, other) => other[1] - one[1]);
    const alike = heard[0]?.[0] ?? likeOf(state, colour.lab, next.symbols[id]);
    if (alike !== undefined) {
      names.set(id, alike);
      continue;
    }
    const name = free.shift();
    if (name === undefined) continue;
    names.set(id, name);
    colours[name] = colour;
    const symbol = next.symbols[id];
    if (symbol) symbols[name] = symbol;
  }
  return { names, colours, symbols };
}

function likeOf(state: Corrected, lab: Lab, symbol: ReadSymbol | undefined): string | undefined {
  // A sign is known by its cells only: two pictures of signs are not compared here.
  if (symbol) return undefined;
  return Object.entries(state.colours)
    .filter(([id]) => !state.symbols[id])
    .map(([id, colour]) => ({ id, apart: deltaE2000(colour.lab, lab) }))
    .filter(({ apart }) => apart < SAME_READING)
    .sort((one, other) => one.apart - other.apart)[0]?.id;
}
