/** Which pieces of a photograph are likely to be one yarn each. */
import type { MergeTree } from "./mergeTree.ts";
import { PLANES, type Look } from "./look.ts";
import { shapeOf, type PieceShape } from "./pieceShape.ts";

export interface Proposal {
  /** As row × width + column. */
  readonly pixels: Int32Array;
  readonly shape: PieceShape;
  /** 0 to 1. */
  readonly score: number;
  /** Means of the planes. */
  readonly seen: Float32Array;
  /** Where its shade is looked at, if not anywhere in it: a skein has a paper band. */
  readonly core?: Int32Array;
}

/** A yarn takes up at least and at most this part of the picture; our choice. */
export const LEAST_AREA = 0.0007;
const MOST_AREA = 0.6;
/** What is less likely is not proposed, and a larger piece is preferred to its parts as this power of its area. Our choice. */
const LEAST_SCORE = 0.15;
const SIZE_COUNTS = 0.8;

/** A picture of fewer basins has no grain, and a thing in it may be one basin; in a photograph of some thousand none is. Our choice. */
const DRAWN = 100;

/** From 0 at `none` to 1 at `full`, smoothly. */
function step(value: number, none: number, full: number): number {
  const part = Math.max(0, Math.min(1, (value - none) / (full - none)));
  return part * part * (3 - 2 * part);
}

/**
 * How likely a piece is one yarn, 0 to 1: without hollows, surely parted from what is around it, not cut by the picture's
 * edge, not like the table. What is as round and as large as the others may be like the table and less surely parted. All
 * limits are our choice, tried on painted tables.
 *
 * @param parted ln of how much more it is parted from its neighbours than its parts from each other
 * @param fits how far it is as large as the yarns that are sure, 0 to 1
 */
export function scoreOf(shape: PieceShape, parted: number, ground: number, fits: number): number {
  // Cut ends are long and a little bent.
  const isLong = step(shape.aspect, 3, 6);
  const form = step(shape.solidity, 0.76 - 0.4 * isLong, 0.95 - 0.2 * isLong);
  // A plank's joint runs out of the picture; cut ends seldom do.
  const edge =
    (1 - step(shape.atPictureEdge / shape.rim, 0.15, 0.4)) * (shape.atPictureEdge > 0 ? 1 - 0.7 * isLong : 1);
  const round = (1 - step(shape.unround, 1.04, 1.14)) * step(shape.solidity, 0.89, 0.955) * fits;
  return likelihood(form * edge, round, parted, ground);
}

function likelihood(form: number, round: number, parted: number, ground: number): number {
  const surely = Math.max(step(parted, 0, 0.7), 0.8 * round * step(parted, 0.03, 0.3));
  return form * surely * Math.max(1 - ground, 0.7 * round);
}

/**
 * The pieces of a tree, none within another, that are together most likely yarns.
 *
 * @param ground of each basin, how far it looks like the table
 * @param typical pixels of a yarn, where some are sure; 0 where not
 */
export function likelyPieces(look: Look, tree: MergeTree, ground: Float32Array, typical: number): Proposal[] {
  const proposals = proposalsOf(look, tree, ground, typical);
  const best = new Float64Array(tree.area.length);
  const isBest = new Uint8Array(tree.area.length);
  const partsOf = (piece: number): readonly [number, number] => {
    const at = 2 * (piece - tree.basins);
    return [tree.parts[at]!, tree.parts[at + 1]!];
  };
  for (let piece = 0; piece < tree.area.length; piece++) {
    const proposal = proposals[piece];
    const own = proposal ? Math.max(0, proposal.score - LEAST_SCORE) * tree.area[piece]! ** SIZE_COUNTS : 0;
    const [one, other] = piece < tree.basins ? [-1, -1] : partsOf(piece);
    const parts = piece < tree.basins ? 0 : best[one]! + best[other]!;
    isBest[piece] = own > parts ? 1 : 0;
    best[piece] = Math.max(own, parts);
  }
  const chosen: Proposal[] = [];
  const open = [tree.area.length - 1];
  for (let piece = open.pop(); piece !== undefined; piece = open.pop()) {
    if (isBest[piece]) chosen.push(proposals[piece]!);
    else if (piece >= tree.basins) open.push(...partsOf(piece));
  }
  return chosen;
}

function proposalsOf(look: Look, tree: MergeTree, ground: Float32Array, typical: number): (Proposal | null)[] {
  const total = look.width * look.height;
  const place = new Int32Array(total);
  tree.order.forEach((pixel, at) => (place[pixel] = at));
  const groundSum = new Float64Array(tree.area.length);
  return Array.from(tree.area, (area, piece) => {
    const at = 2 * (piece - tree.basins);
    groundSum[piece] =
      piece < tree.basins ? ground[piece]! * area : groundSum[tree.parts[at]!]! + groundSum[tree.parts[at + 1]!]!;
    const whole = tree.whole[piece]!;
    if (area < LEAST_AREA * total || area > MOST_AREA * total || whole < 0) return null;
    if (piece < tree.basins && tree.basins > DRAWN) return null;
    // Below a fifth of a unit of OKLab × 100 everything is noise.
    const parted = Math.log(tree.parted[whole]! / Math.max(0.2, tree.parted[piece]!));
    if (parted < 0.03) return null;
    const size = area / Math.max(1, typical);
    const fits = typical > 0 ? step(size, 0.25, 0.45) * (1 - step(size, 2, 3.5)) : 0;
    const table = groundSum[piece]! / area;
    // Most pieces cannot be likely whatever their form, which is dear to look at.
    if (likelihood(1, fits, parted, table) < LEAST_SCORE) return null;
    const from = tree.first[piece]!;
    const pixels = tree.order.subarray(from, from + area);
    const shape = shapeOf(pixels, (pixel) => place[pixel]! >= from && place[pixel]! < from + area, look);
    const score = scoreOf(shape, parted, table, fits);
    return { pixels, shape, score, seen: tree.means.subarray(PLANES * piece, PLANES * (piece + 1)) };
  });
}

/** The size, pixels, above and below which half of the yarns' area lies; `none` where there are no yarns. */
export function typicalSize(yarns: readonly Proposal[], none: number): number {
  const sizes = yarns.map(({ pixels, score }) => pixels.length * score).toSorted((one, other) => other - one);
  const half = sizes.reduce((sum, size) => sum + size, 0) / 2;
  let sum = 0;
  return sizes.find((size) => (sum += size) >= half) ?? none;
}

/** The part of a proposal's pixels that is marked. */
export function sharedPart({ pixels }: Proposal, marked: Uint8Array): number {
  let count = 0;
  for (const pixel of pixels) count += marked[pixel]!;
  return count / pixels.length;
}
