/** Which pieces of a page touch or come near one another, without looking at every pair. */
import { boxAround, boxHeight, boxMiddle, boxWidth, type Box, type Piece } from "./pieces.ts";

/** Groups of pieces that touch, or come within `reach` of their own size. */
export function touching(pieces: readonly Piece[], reach = REACH): Piece[][] {
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

export function binned(pieces: readonly Piece[], reach: number): Bins {
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
      const found: Piece[] = [];
      const [x, y] = boxMiddle(box);
      for (const bin of binsOf({ left: x, right: x, top: y, bottom: y }))
        for (const index of bins.get(bin) ?? []) {
          if (found.length >= MOST_IN_BIN) return found;
          found.push(pieces[index]!);
        }
      return found;
    },
    pairs: (found) => {
      for (const list of bins.values())
        for (let at = 1; at < list.length; at++)
          for (let before = Math.max(0, at - MOST_IN_BIN); before < at; before++)
            if (meet(grown[list[at]!]!, grown[list[before]!]!)) found(list[at]!, list[before]!);
    },
  };
}

/** Part of its size by which a piece may stand away from the next. */
const REACH = 0.15;
const BINS_ACROSS = 250;
const FEWEST_BINS = 12;
/** Pieces of a bin held against one another, and entries of all bins: what lies thicker is no chart. */
const MOST_IN_BIN = 24;
const MOST_ENTRIES = 2_000_000;
