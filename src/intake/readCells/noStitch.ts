/** Which cells are no stitch: grey, hatched, blank or missing where a chart narrows, or a decrease leaves a hole. */
import type { Lab } from "../../colour/lab.ts";
import type { SeenKind } from "./signs.ts";

export interface Narrowing {
  readonly columns: number;
  readonly rows: number;
  /** The page around the chart; null where it was not seen. */
  readonly page: Lab | null;
  /** How much each cell's ground varies in it, bytes. */
  readonly spread: Float32Array;
  /** Colours that the key has. */
  readonly legend: readonly Lab[];
  /** For each cell whether no line is drawn about it though others have theirs. */
  readonly bare: Uint8Array;
}

/** Kinds, by their number, that are no stitch. */
export function noStitchKinds(kinds: readonly SeenKind[], narrowing: Narrowing): number[] {
  const none: number[] = [];
  if (kinds.length < 2) return none;
  // What is left out may have fallen into several kinds, by what is beside it: one begins where another ends.
  for (let before = -1; before !== none.length;) {
    before = none.length;
    for (const index of kinds.keys())
      if (!none.includes(index) && isNoStitch(index, kinds, none, narrowing)) none.push(index);
  }
  return none;
}

/** CIELAB: what is drawn as "no stitch" grey has hardly any chroma and is neither black nor white. */
const GREY_CHROMA = 9;
const GREY_FROM = 48;
const GREY_TO = 95;
/** CIE 1976 difference within which two colours of a picture are one. */
const SAME = 6;
const WHITE: Lab = [100, 0, 0];
/** Part of a kind's cells that must lie as what is left out of a chart lies. */
const LIES_SO = 0.97;
/** Part of the chart that may be left out. */
const MOST = 0.75;
/** Part of its cells that have no lines about them, from which a kind is missing rather than blank. */
const BARE = 0.85;

function isNoStitch(index: number, kinds: readonly SeenKind[], none: readonly number[], narrowing: Narrowing): boolean {
  const { columns, rows, page, legend, bare } = narrowing;
  const { cells, lab, signed } = kinds[index]!;
  const hatched = kinds[index]!.hatched || (kinds[index]!.allOver && isRough(index, kinds, narrowing));
  if (cells.length > MOST * columns * rows) return false;
  const known = none.map((other) => kinds[other]!);
  const likeKnown = known.some((other) => apart(other.lab, lab) < 1.5 * SAME);
  if (signed && !hatched && !likeKnown) return false;
  const missing = cells.reduce((sum, cell) => sum + bare[cell]!, 0) > BARE * cells.length;
  if (!hatched && !missing && legend.some((other) => apart(other, lab) < SAME)) return false;
  const grey = Math.hypot(lab[1], lab[2]) < GREY_CHROMA && lab[0] > GREY_FROM && lab[0] < GREY_TO;
  // Where the picture ends with the chart, a page is taken to be white.
  const isPage = apart(lab, page ?? WHITE) < SAME;
  if (!hatched && !isPage && !grey && !likeKnown) return false;
  // One other colour alone may be a figure on its ground.
  if (!missing && !hatched && !grey && kinds.length < 3) return false;
  const own = new Uint8Array(columns * rows);
  for (const cell of cells) own[cell] = 1;
  for (const other of known) for (const cell of other.cells) own[cell] = 2;
  if (hasFullRow(own, columns, rows)) return false;
  const least = hatched || likeKnown ? 1 : missing ? 2 : DEEP;
  return (
    Math.max(
      explained(own, columns, rows, false, least),
      missing || hatched ? explained(own, columns, rows, true, least) : 0,
    ) >=
    LIES_SO * cells.length
  );
}

const apart = (one: Lab, other: Lab): number => Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);

/** Fine hatching is seen as a light grey that is not even. */
function isRough(index: number, kinds: readonly SeenKind[], { spread }: Narrowing): boolean {
  const rough = ({ cells }: SeenKind): number => cells.reduce((sum, cell) => sum + spread[cell]!, 0) / cells.length;
  const others = kinds.filter((_, other) => other !== index).map(rough);
  const { lab } = kinds[index]!;
  return (
    Math.hypot(lab[1], lab[2]) < GREY_CHROMA &&
    rough(kinds[index]!) >
      Math.max(
        ROUGH,
        ROUGHER * Math.max(...others.sort((one, other) => one - other).slice(0, Math.ceil(others.length / 2))),
      )
  );
}

/** Bytes, and how many times rougher than half of the other kinds. */
const ROUGH = 4;
const ROUGHER = 2.5;

/** Plain rows are rows of a colour. */
function hasFullRow(own: Uint8Array, columns: number, rows: number): boolean {
  for (let row = 0; row < rows; row++)
    if (own.subarray(row * columns, (row + 1) * columns).every((each) => each > 0)) return true;
  return false;
}

/** Rows that the deepest column left out goes down at least, where nothing but its place tells that it is no stitch. */
const DEEP = 3;

/** Cells of a kind (1) from which all up to the chart's narrow end are left out too (1 or 2). */
function explained(own: Uint8Array, columns: number, rows: number, down: boolean, least: number): number {
  let [count, deepest] = [0, 0];
  for (let column = 0; column < columns; column++)
    for (let step = 0; step < rows; step++) {
      const each = own[(down ? rows - 1 - step : step) * columns + column]!;
      if (each === 0) break;
      deepest = Math.max(deepest, step + 1);
      if (each === 1) count++;
    }
  return deepest < least ? 0 : count;
}
