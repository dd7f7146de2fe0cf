/** Which cells are no stitch: grey, hatched, blank or missing where a chart narrows, or a decrease leaves a hole. */
import type { Lab } from "../../colour/lab.ts";
import type { SeenKind } from "./signs.ts";

export interface Narrowing {
  readonly columns: number;
  readonly rows: number;
  /** The page around the chart; null where it was not seen. */
  readonly page: Lab | null;
  /** Colours that the key has. */
  readonly legend: readonly Lab[];
  /** For each cell whether no line is drawn about it though others have theirs. */
  readonly bare: Uint8Array;
}

/** Kinds, by their number, that are no stitch. */
export function noStitchKinds(kinds: readonly SeenKind[], narrowing: Narrowing): number[] {
  if (kinds.length < 2) return [];
  return kinds.flatMap((kind, index) => (isNoStitch(kind, kinds, narrowing) ? [index] : []));
}

/** CIELAB: what is drawn as "no stitch" grey has hardly any chroma and is neither black nor white. */
const GREY_CHROMA = 9;
const GREY_FROM = 48;
const GREY_TO = 93;
/** CIE 1976 difference within which two colours of a picture are one. */
const SAME = 8;
/** Part of a kind's cells that must lie as what is left out of a chart lies. */
const LIES_SO = 0.97;
/** Part of the chart that may be left out. */
const MOST = 0.75;
const FEWEST = 4;
/** Part of its cells that have no lines about them, from which a kind is missing rather than blank. */
const BARE = 0.7;

function isNoStitch(kind: SeenKind, kinds: readonly SeenKind[], narrowing: Narrowing): boolean {
  const { columns, rows, page, legend, bare } = narrowing;
  const { cells, lab } = kind;
  if (cells.length < FEWEST || cells.length > MOST * columns * rows) return false;
  const chroma = Math.hypot(lab[1], lab[2]);
  const isPage = page !== null && apart(lab, page) < SAME;
  if (kind.signed && !kind.hatched) return false;
  const missing = cells.reduce((sum, cell) => sum + bare[cell]!, 0) > BARE * cells.length;
  if (!kind.hatched && legend.some((other) => apart(other, lab) < SAME) && !missing) return false;
  const grey = chroma < GREY_CHROMA && lab[0] > GREY_FROM && lab[0] < GREY_TO;
  if (!kind.hatched && !isPage && !grey) return false;
  // One other colour alone may be a figure on its ground.
  if (!missing && !kind.hatched && kinds.length < 3 && !grey) return false;
  return liesOutside(cells, columns, rows);
}

const apart = (one: Lab, other: Lab): number => Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);

/** Whether cells lie in columns that end at the top, or at both sides in rows that grow longer upwards (or all so downwards). */
function liesOutside(cells: readonly number[], columns: number, rows: number): boolean {
  const own = new Uint8Array(columns * rows);
  for (const cell of cells) own[cell] = 1;
  let full = 0;
  for (let row = 0; row < rows; row++) {
    let count = 0;
    for (let column = 0; column < columns; column++) count += own[row * columns + column]!;
    if (count === columns) full += count;
  }
  // Plain rows are rows of a colour.
  if (full > 0) return false;
  const upwards = explained(own, columns, rows, false);
  const downwards = explained(own, columns, rows, true);
  return Math.max(upwards, downwards) >= LIES_SO * cells.length;
}

/** Cells from which every cell to the chart's narrow end is left out too. */
function explained(own: Uint8Array, columns: number, rows: number, down: boolean): number {
  let count = 0;
  for (let column = 0; column < columns; column++)
    for (let step = 0; step < rows; step++) {
      const row = down ? rows - 1 - step : step;
      if (!own[row * columns + column]) break;
      count++;
    }
  return count;
}
