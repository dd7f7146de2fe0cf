/** Tells the chart's cells from the page around it: margins, row numbers, titles and keys are not stitches. */
import { apart, type Cells } from "./cells.ts";
import { boxesOf } from "./chartRegions.ts";
import type { Edges } from "./edges.ts";
import type { Lattice, Sides } from "./grid.ts";

/** Columns and rows of the lattice from the left and top; the last ones are included. */
export interface CellBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface FoundBox {
  readonly box: CellBox;
  /** Whether lines are drawn between stitches of one colour. */
  readonly lined: boolean;
  /** Cells of the lattice that are page: 1 for page. */
  readonly page: Uint8Array;
  /** How many of a cell's four sides are drawn. */
  readonly sidesDrawn: Uint8Array;
  /** Whether the lines have another colour than the page, so that page without lines around it is no stitch. */
  readonly linesOnPage: boolean;
}

export function findBox(edges: Edges, lattice: Lattice, cells: Cells, sides: Sides): FoundBox | null {
  const { columns, rows } = cells;
  const whole: CellBox = { left: 0, right: columns - 1, top: 0, bottom: rows - 1 };
  const lined = linedness(cells, sides) > LINED;
  const { paper } = edges;
  const page = new Uint8Array(columns * rows);
  const sidesDrawn = new Uint8Array(columns * rows);
  const stitch = new Uint8Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      const blank = paper !== null && isColour(cells, cell, paper) && cells.even[cell]! >= EVEN;
      const drawn = drawnSides(cells, sides, row, column);
      page[cell] = blank ? 1 : 0;
      sidesDrawn[cell] = drawn;
      // Letters beside a chart fill no cell evenly; a blank cell is a stitch where lines go around it.
      const even = cells.even[cell]! >= EVEN && wholeCell(lattice, row, column);
      stitch[cell] = (even && !blank && (!lined || drawn >= 1)) || (lined && blank && drawn >= 3) ? 1 : 0;
    }
  }
  const coloured = stitch.map((is, cell) => (is && !page[cell] ? 1 : 0));
  for (let cell = 0; cell < stitch.length; cell++) {
    if (coloured[cell] && !bordered(cells, sides, page, cell)) stitch[cell] = 0;
  }
  const groups = boxesOf(stitch, columns, rows);
  const main = groups.toSorted((one, other) => other.size - one.size)[0];
  if (!main) return null;
  let box = trimmed(main, stitch, page, columns);
  const linesOnPage = lined && paper !== null && !linesArePaper(edges, lattice, cells, coloured, paper);
  if (!linesOnPage) {
    // Figures on bare paper hang together only by their lattice; what stands near in the same colours belongs to them.
    const known = coloursIn(cells, stitch, main);
    for (let grown = true; grown;) {
      grown = false;
      for (const group of groups) {
        if (inside(group, box) || !near(group, box) || strangers(cells, stitch, group, known) > STRANGE) continue;
        box = union(box, group);
        grown = true;
      }
    }
    if (!lined && (paper === null || isWhole(edges, lattice, box, whole))) box = whole;
  }
  return { box, lined, page, sidesDrawn, linesOnPage };
}

/** The mean part drawn of the sides between neighbours of one colour that is not the page's edge. */
function linedness({ columns, rows, colours, even }: Cells, sides: Sides): number {
  // Over the even cells only: in the middle of the picture lies the chart, whatever stands around it.
  let drawn = 0;
  let pairs = 0;
  const middle = (index: number, count: number): boolean => count < 8 || (index > count * 0.25 && index < count * 0.75);
  for (let row = 0; row < rows; row++) {
    if (!middle(row, rows)) continue;
    for (let column = 1; column < columns; column++) {
      if (!middle(column, columns)) continue;
      const cell = row * columns + column;
      if (even[cell]! < EVEN || even[cell - 1]! < EVEN || apart(colours, cell, cell - 1) > SAME) continue;
      drawn += sides.upright[column * rows + row]!;
      pairs++;
    }
  }
  return pairs === 0 ? 1 : drawn / pairs;
}

/** Whether the lines between coloured stitches are of the page's colour, as white lines on white paper are. */
function linesArePaper(
  { bytes, width }: Edges,
  { x, y }: Lattice,
  { columns, rows, colours }: Cells,
  stitch: Uint8Array,
  paper: readonly number[],
): boolean {
  const farFromPaper = (cell: number): boolean =>
    stitch[cell] === 1 &&
    paper.some((value, channel) => Math.abs(value - colours[cell * 3 + channel]!) > 1.5 * BLENDED);
  const distances: number[] = [];
  for (let row = 0; row < rows; row++) {
    const middle = Math.floor((y.begins[row]! + y.ends[row + 1]!) / 2);
    for (let column = 1; column < columns; column++) {
      if (!farFromPaper(row * columns + column) || !farFromPaper(row * columns + column - 1)) continue;
      let nearest = Infinity;
      for (let place = x.ends[column]! - 1; place <= x.begins[column]!; place++) {
        const at = (middle * width + Math.min(width - 1, Math.max(0, place))) * 4;
        nearest = Math.min(nearest, Math.max(...paper.map((value, channel) => Math.abs(value - bytes[at + channel]!))));
      }
      distances.push(nearest);
    }
  }
  distances.sort((one, other) => one - other);
  // A thin line is blended with the cells beside it, least with the light ones: the first quarter shows its colour best.
  return distances.length > 0 && distances[distances.length >> 2]! < BLENDED;
}

const isColour = ({ colours }: Cells, cell: number, colour: readonly number[]): boolean =>
  colour.every((value, channel) => Math.abs(value - colours[cell * 3 + channel]!) <= SAME);

/** A stitch beside the page ends at a border; the ink of a letter ends anywhere. */
function bordered({ columns, rows }: Cells, sides: Sides, page: Uint8Array, cell: number): boolean {
  const row = Math.floor(cell / columns);
  const column = cell % columns;
  const ends = (other: number, exists: boolean, drawn: number): boolean => !exists || !page[other] || drawn >= ENDED;
  return (
    ends(cell - 1, column > 0, sides.upright[column * rows + row]!) &&
    ends(cell + 1, column < columns - 1, sides.upright[(column + 1) * rows + row]!) &&
    ends(cell - columns, row > 0, sides.level[row * columns + column]!) &&
    ends(cell + columns, row < rows - 1, sides.level[(row + 1) * columns + column]!)
  );
}

function drawnSides({ columns, rows }: Cells, sides: Sides, row: number, column: number): number {
  const all = [
    sides.upright[column * rows + row]!,
    sides.upright[(column + 1) * rows + row]!,
    sides.level[row * columns + column]!,
    sides.level[(row + 1) * columns + column]!,
  ];
  return all.filter((part) => part >= DRAWN).length;
}

/** The strips that the picture's end cuts off the lattice are no cells. */
function wholeCell({ x, y }: Lattice, row: number, column: number): boolean {
  return x.at[column + 1]! - x.at[column]! > x.pitch * 0.6 && y.at[row + 1]! - y.at[row]! > y.pitch * 0.6;
}

/** A stray cell or two that touch the chart, or blanks between letters, do not widen it. */
function trimmed(box: CellBox, stitch: Uint8Array, page: Uint8Array, columns: number): CellBox {
  let { left, right, top, bottom } = box;
  const isStray = (cells: number[]): boolean => {
    const stitches = cells.filter((cell) => stitch[cell]);
    const wanted = stitches.every((cell) => page[cell]) ? BLANK_LINE : STRAY;
    return stitches.length < cells.length * wanted && stitches.length < cells.length - 1;
  };
  const column = (x: number): number[] =>
    Array.from({ length: bottom - top + 1 }, (_, index) => (top + index) * columns + x);
  const row = (y: number): number[] =>
    Array.from({ length: right - left + 1 }, (_, index) => y * columns + left + index);
  while (left < right && isStray(column(left))) left++;
  while (right > left && isStray(column(right))) right--;
  while (top < bottom && isStray(row(top))) top++;
  while (bottom > top && isStray(row(bottom))) bottom--;
  return { left, right, top, bottom };
}

/** The different colours of the stitches in a box, by one cell each. */
function coloursIn(cells: Cells, stitch: Uint8Array, box: CellBox): number[] {
  const known: number[] = [];
  for (let row = box.top; row <= box.bottom; row++) {
    for (let column = box.left; column <= box.right; column++) {
      const cell = row * cells.columns + column;
      if (stitch[cell] && !known.some((other) => apart(cells.colours, cell, other) <= SAME)) known.push(cell);
      if (known.length > MOST_KNOWN) return known;
    }
  }
  return known;
}

/** The part of a box's stitches that have none of the colours known. */
function strangers(cells: Cells, stitch: Uint8Array, box: CellBox, known: readonly number[]): number {
  let all = 0;
  let strange = 0;
  for (let row = box.top; row <= box.bottom; row++) {
    for (let column = box.left; column <= box.right; column++) {
      const cell = row * cells.columns + column;
      if (!stitch[cell]) continue;
      all++;
      if (!known.some((other) => apart(cells.colours, cell, other) <= SAME)) strange++;
    }
  }
  return strange / all;
}

const inside = (one: CellBox, other: CellBox): boolean =>
  one.left >= other.left && one.right <= other.right && one.top >= other.top && one.bottom <= other.bottom;

const union = (one: CellBox, other: CellBox): CellBox => ({
  left: Math.min(one.left, other.left),
  right: Math.max(one.right, other.right),
  top: Math.min(one.top, other.top),
  bottom: Math.max(one.bottom, other.bottom),
});

/** Within a few stitches, or within half of the chart's own size. */
function near(one: CellBox, other: CellBox): boolean {
  const gapX = Math.max(0, one.left - other.right, other.left - one.right) - 1;
  const gapY = Math.max(0, one.top - other.bottom, other.top - one.bottom) - 1;
  return (
    gapX <= Math.max(NEAR, (other.right - other.left + 1) / 2) &&
    gapY <= Math.max(NEAR, (other.bottom - other.top + 1) / 2)
  );
}

/**
 * Whether a chart without lines fills the picture, so that an outer ring of one colour is stitches. It does where the
 * lattice begins and ends with the picture and hardly a column at the sides is bare: plain rows above and below a motif
 * are common, plain columns beside it are not.
 */
function isWhole({ width, height }: Edges, { x, y }: Lattice, box: CellBox, whole: CellBox): boolean {
  const fits = (borders: Lattice["x"], length: number): boolean =>
    borders.at[0]! === 0 &&
    borders.at.at(-1)! === length &&
    Math.abs(borders.at[1]! - borders.pitch) < 1 &&
    Math.abs(length - borders.at.at(-2)! - borders.pitch) < 1;
  if (!fits(x, width) || !fits(y, height)) return false;
  return box.left <= 1 && whole.right - box.right <= 1;
}

/** Part of drawn sides from which on there are lines. */
const LINED = 0.5;
const DRAWN = 0.7;
const ENDED = 0.6;
/** Part of a cell that has its colour; a letter leaves less. */
const EVEN = 0.7;
/** Bytes between two cells of one colour, at most. */
const SAME = 10;
/** Bytes from the paper within which a line of its colour remains when it is drawn thin and soft. */
const BLENDED = 40;
/** Part of a side of the chart; fewer stray cells than this are none of it. */
const STRAY = 0.03;
/** Part of a line of blank stitches at the chart's rim that must be drawn around. */
const BLANK_LINE = 0.8;
/** Part of a figure's stitches that may have a colour of their own. */
const STRANGE = 0.34;
const MOST_KNOWN = 64;
/** Stitches. */
const NEAR = 3;
