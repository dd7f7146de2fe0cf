/** Where on a page charts may be: pieces that touch one another or lie on one ground, with rows and columns through them. */
import { edgesOf } from "./edges.ts";
import { nearestLine, offSteps, stepsOfAll, stepsOfLines, type Steps } from "./lattice.ts";
import { boxAround, boxHeight, boxWidth, type Box, type Piece } from "./pieces.ts";

export interface Region {
  /** x of the lines between columns and y of those between rows, in order. */
  readonly across: readonly number[];
  readonly down: readonly number[];
}

/** From pieces in the order of painting; the page's own ground is no piece of a chart. */
export function regionsOf(
  pieces: readonly Piece[],
  page: { readonly width: number; readonly height: number },
): Region[] {
  const area = page.width * page.height;
  const built = pieces.filter(
    ({ kind, isSquare, dashed, box }) =>
      kind !== "stroke" && isSquare && !dashed && boxWidth(box) * boxHeight(box) < PAGE * area,
  );
  const grounds = groundsOf(built);
  const small = built.filter((piece) => !grounds.includes(piece));
  const regions: Region[] = [];
  const used = new Set<Piece>();
  // A ground with cells here and there on it is a chart as wide as the ground, if it goes by the same steps.
  for (const ground of grounds) {
    const inside = small.filter((piece) => !used.has(piece) && within(piece.box, ground.box));
    if (inside.length < LEAST_PIECES) continue;
    const region = regionOf([ground, ...inside]);
    if (!region || !fits(region, ground.box)) continue;
    regions.push(region);
    for (const piece of inside) used.add(piece);
  }
  for (const group of touching(small.filter((piece) => !used.has(piece)))) {
    const region = group.length < LEAST_PIECES ? null : regionOf(group);
    if (region) regions.push(region);
  }
  if (regions.length === 0) {
    const left = small.filter(({ kind, isBox }) => kind === "area" && isBox);
    for (const group of touching(left, SCATTERED)) {
      const region = group.length < LEAST_PIECES ? null : regionOf(group);
      if (region) regions.push(region);
    }
  }
  return regions.filter(
    (region, index) => !regions.some((other, at) => at !== index && holds(other, region, at < index)),
  );
}

function regionOf(pieces: readonly Piece[]): Region | null {
  const evidence = withoutSigns(pieces);
  const [x, y] = (["x", "y"] as const).map((axis) => axisSteps(evidence, axis)) as [Steps | null, Steps | null];
  if (!x || !y) return null;
  const shape = x.pitch / y.pitch;
  const [columns, rows] = [x.lines.length - 1, y.lines.length - 1];
  if (shape > WIDEST || shape < 1 / WIDEST || columns * rows < LEAST_CELLS) return null;
  // However cells are drawn together, each row and column has a corner somewhere.
  const corners = pieces.reduce((sum, { runs }) => sum + runs.reduce((points, run) => points + run.length, 0), 0);
  if (corners < columns + rows + LEAST_CELLS) return null;
  return { across: x.lines, down: y.lines };
}

function axisSteps(pieces: readonly Piece[], axis: "x" | "y"): Steps | null {
  const edges = edgesOf(pieces, axis);
  if (edges.length < 3) return null;
  const lines = stepsOfLines(edges);
  if (lines && offSteps(edgesOf(outsideCells(pieces, lines, axis), axis), lines) <= STRAY) return lines;
  return stepsOfAll(edges) ?? lines;
}

/** All but the pieces that stand in the middle of one step, which are signs. */
function outsideCells(pieces: readonly Piece[], { lines, pitch }: Steps, axis: "x" | "y"): Piece[] {
  return pieces.filter(({ box }) => {
    const [from, to] = axis === "x" ? [box.left, box.right] : [box.top, box.bottom];
    const size = to - from;
    if (size > 0.9 * pitch || size < 0.15 * pitch) return size > 0.15 * pitch || onLine((from + to) / 2, lines, pitch);
    const middle = (from + to) / 2;
    const line = nearestLine(lines, middle);
    return Math.abs(Math.abs(middle - lines[line]!) - pitch / 2) > 0.3 * pitch;
  });
}

const onLine = (at: number, lines: readonly number[], pitch: number): boolean =>
  Math.abs(at - lines[nearestLine(lines, at)]!) < 0.25 * pitch;

/** All but small pieces in the middle of a box that is painted before them. */
function withoutSigns(pieces: readonly Piece[]): Piece[] {
  const bins = binned(
    pieces.filter(({ isBox }) => isBox),
    0,
  );
  return pieces.filter((piece) => {
    const [width, height] = [boxWidth(piece.box), boxHeight(piece.box)];
    const [x, y] = middleOf(piece.box);
    return !bins.near(piece.box).some(({ box, order }) => {
      if (order > piece.order || !within(piece.box, box)) return false;
      const [wide, high] = [boxWidth(box), boxHeight(box)];
      const least = Math.min(wide, high);
      if (width > 0.9 * least || height > 0.9 * least || least > 5 * Math.max(width, height)) return false;
      const [midX, midY] = middleOf(box);
      return high <= wide ? Math.abs(y - midY) < 0.2 * high : Math.abs(x - midX) < 0.2 * wide;
    });
  });
}

const middleOf = ({ left, right, top, bottom }: Box): [number, number] => [(left + right) / 2, (top + bottom) / 2];

/** Boxes with many smaller pieces on them, the smallest first. */
function groundsOf(pieces: readonly Piece[]): Piece[] {
  const cells = pieces.filter(({ box }) => !isThin(box));
  const sides = cells.map(({ box }) => Math.min(boxWidth(box), boxHeight(box))).sort((one, other) => one - other);
  const usual = sides[Math.floor(sides.length / 2)] ?? 0;
  const large = pieces.filter(
    ({ kind, isBox, box }) => kind === "area" && isBox && Math.min(boxWidth(box), boxHeight(box)) >= 3 * usual,
  );
  if (large.length > MOST_GROUNDS) return [];
  return large
    .filter(({ box, order }) => {
      let inside = 0;
      for (const other of cells)
        if (other.order > order && within(other.box, box) && ++inside >= LEAST_ON_GROUND) return true;
      return false;
    })
    .sort((one, other) => boxWidth(one.box) * boxHeight(one.box) - boxWidth(other.box) * boxHeight(other.box));
}

const isThin = (box: Box): boolean =>
  Math.min(boxWidth(box), boxHeight(box)) < 0.1 * Math.max(boxWidth(box), boxHeight(box));

function within(inner: Box, outer: Box): boolean {
  const slack = 0.1 * Math.min(boxWidth(inner) + boxHeight(inner), boxWidth(outer), boxHeight(outer));
  return (
    inner.left >= outer.left - slack &&
    inner.right <= outer.right + slack &&
    inner.top >= outer.top - slack &&
    inner.bottom <= outer.bottom + slack
  );
}

/** Whether a ground ends where the chart's cells do. */
function fits({ across, down }: Region, ground: Box): boolean {
  const near = (lines: readonly number[], from: number, to: number): boolean => {
    const slack = (0.25 * (lines.at(-1)! - lines[0]!)) / (lines.length - 1);
    return Math.abs(lines[0]! - from) <= slack && Math.abs(lines.at(-1)! - to) <= slack;
  };
  return near(across, ground.left, ground.right) && near(down, ground.top, ground.bottom);
}

/** Whether most of the second lies in the first; of two alike the one that is named first stays. */
function holds(one: Region, other: Region, isFirst: boolean): boolean {
  const box = ({ across, down }: Region): Box => ({
    left: across[0]!,
    right: across.at(-1)!,
    top: down[0]!,
    bottom: down.at(-1)!,
  });
  const [a, b] = [box(one), box(other)];
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  if (width <= 0 || height <= 0) return false;
  const [mine, its] = [boxWidth(a) * boxHeight(a), boxWidth(b) * boxHeight(b)];
  return width * height > 0.5 * its && (mine > its || (mine === its && isFirst));
}

/** Groups of pieces that touch, or come within `reach` of their own size. */
function touching(pieces: readonly Piece[], reach = REACH): Piece[][] {
  const bins = binned(pieces, reach);
  const leader = pieces.map((_, index) => index);
  const lead = (index: number): number => {
    let at = index;
    while (leader[at] !== at) at = leader[at] = leader[leader[at]!]!;
    return at;
  };
  bins.pairs((one, other) => {
    leader[lead(one)] = lead(other);
  });
  const groups = new Map<number, Piece[]>();
  for (const [index, piece] of pieces.entries()) {
    const own = groups.get(lead(index));
    if (own) own.push(piece);
    else groups.set(lead(index), [piece]);
  }
  return [...groups.values()];
}

interface Bins {
  /** Pieces whose box may touch this one. */
  readonly near: (box: Box) => Piece[];
  /** Every pair that touches, or enough of them to tell what hangs together. */
  readonly pairs: (found: (one: number, other: number) => void) => void;
}

function binned(pieces: readonly Piece[], reach: number): Bins {
  const around = boxAround(pieces.map(({ box }) => box));
  // As large as the smaller pieces: then most lie in one bin or a few, and few share one.
  const extent = Math.max(boxWidth(around), boxHeight(around), 1e-6);
  const sides = pieces.map(({ box }) => Math.max(boxWidth(box), boxHeight(box))).sort((one, other) => one - other);
  const usual = sides[Math.floor(sides.length / 4)] ?? 0;
  const side = Math.min(extent / FEWEST_BINS, Math.max(extent / BINS_ACROSS, usual));
  const bins = new Map<number, number[]>();
  const grown = pieces.map(({ box }) => {
    const more = reach * Math.min(boxWidth(box), boxHeight(box), extent / FEWEST_BINS) + 1e-5 * extent;
    return { left: box.left - more, right: box.right + more, top: box.top - more, bottom: box.bottom + more };
  });
  const span = (low: number, high: number, from: number): [number, number] => [
    Math.floor((low - from) / side),
    Math.floor((high - from) / side),
  ];
  function* binsOf({ left, right, top, bottom }: Box): Generator<number> {
    const [x1, x2] = span(left, right, around.left);
    const [y1, y2] = span(top, bottom, around.top);
    for (let y = Math.max(-1, y1); y <= Math.min(BINS_ACROSS + 1, y2); y++)
      for (let x = Math.max(-1, x1); x <= Math.min(BINS_ACROSS + 1, x2); x++) yield y * 4 * BINS_ACROSS + x;
  }
  let room = MOST_ENTRIES;
  for (const [index, box] of grown.entries())
    for (const bin of binsOf(box)) {
      if (--room < 0) break;
      const list = bins.get(bin);
      if (list) list.push(index);
      else bins.set(bin, [index]);
    }
  const meet = (one: Box, other: Box): boolean =>
    one.left <= other.right && other.left <= one.right && one.top <= other.bottom && other.top <= one.bottom;
  return {
    near: (box) => {
      const found = new Set<number>();
      const [x, y] = middleOf(box);
      for (const bin of binsOf({ left: x, right: x, top: y, bottom: y }))
        for (const index of bins.get(bin) ?? []) found.add(index);
      return [...found].slice(0, MOST_IN_BIN).map((index) => pieces[index]!);
    },
    pairs: (found) => {
      for (const list of bins.values())
        for (let at = 1; at < list.length; at++)
          for (let before = Math.max(0, at - MOST_IN_BIN); before < at; before++)
            if (meet(grown[list[at]!]!, grown[list[before]!]!)) found(list[at]!, list[before]!);
    },
  };
}

/** Part of the page that only its own ground covers. */
const PAGE = 0.85;
const LEAST_PIECES = 4;
const LEAST_ON_GROUND = 8;
const LEAST_CELLS = 9;
/** Width to height of a cell: knitted stitches lie between 1 : 1 and 2 : 1. */
const WIDEST = 3;
/** Part of the edges that may lie off the lines before the lines are doubted. */
const STRAY = 0.03;
/** Part of its size by which a piece may stand away from the next; and cells drawn only where they differ from the page. */
const REACH = 0.15;
const SCATTERED = 2;
const MOST_GROUNDS = 60;
const BINS_ACROSS = 250;
const FEWEST_BINS = 12;
const MOST_IN_BIN = 60;
const MOST_ENTRIES = 4_000_000;
