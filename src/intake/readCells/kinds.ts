/** Which cells are of one chart colour: the same ground, and the same sign on it. */
import type { Lab } from "../../colour/lab.ts";
import { clusterColours } from "../../raster/cluster.ts";
import { heapOf, joinHeaps, piecesOf, separation, type Heap, type Nearness } from "./heaps.ts";
import { splitByKey } from "./keySplit.ts";
import type { Marks } from "./marks.ts";
import { shapeOf, unlike, type Looking } from "./shapes.ts";

export interface Kind {
  readonly cells: readonly number[];
  /** The usual colour of their grounds. */
  readonly lab: Lab;
  /** Mean of its cells' marks; null where cells are too small for any. */
  readonly mark: Float64Array | null;
  /** Whether there is a sign in it. */
  readonly signed: boolean;
  /** Cells of it that may be of a kind of their own. */
  readonly apart: readonly number[];
}

/** Root mean square in bytes: marks that differ less are the same, and what is less is no sign. */
const LEAST_MARK = 6;

/** Kinds of cells, most cells first. `labs` are the cells' grounds, `marks` what stands on them. */
export function kindsOf(labs: readonly Lab[], marks: Marks | null, told: Told, seen: Seen): Kind[] {
  const members = groundsApart(labs, told.key, marks ? undefined : told.count);
  const plain = (cells: readonly number[]): Gathered => ({ cells, apart: [] });
  const alike = marks ? signsApart(members, marks, { least: LEAST_MARK, ...seen }) : members.map(plain);
  const right = told.count === undefined || alike.length === told.count;
  // With a number told, cells without signs are gathered into so many; signs are as many as they are.
  const joined =
    right || alike.some(({ cells }) => isSigned(marks, cells)) ? alike : groundsApart(labs, [], told.count).map(plain);
  return joined
    .map((gathered) => kindOf(labs, marks, gathered, seen))
    .sort((one, other) => other.cells.length - one.cells.length || one.cells[0]! - other.cells[0]!);
}

export interface Seen {
  readonly looking: Looking;
  /** Bytes by which what is of one colour differs from sample to sample. */
  readonly noise: number;
}

/** Cells of one ground each, parted by what stands in them; whatever has the same look comes together again. */
function signsApart(grounds: readonly (readonly number[])[], marks: Marks, nearness: Nearness): Gathered[] {
  const points = { length: marks.length, values: marks.values };
  const describe = (cells: readonly number[]): Heap => heapOf(points, nearness, cells);
  const pieces = grounds.map((cells) => piecesOf(points, cells, LEAST_MARK).map(describe));
  const isPrinted = printed(pieces.flat(), marks, nearness);
  const apart = (one: Heap, other: Heap): number => {
    const byPlace = separation(points, one, other, nearness);
    if (byPlace < 0.5) return byPlace;
    const byShape = unlike(one.shape, other.shape, nearness);
    // No hand draws one sign as unlike as that; else what scatters without a gap is one.
    return isPrinted || byShape > BY_HAND ? byShape : Math.min(byPlace, byShape);
  };
  const signedCells = pieces.flat().reduce((sum, { cells }) => sum + (isSigned(marks, cells) ? cells.length : 0), 0);
  const heaps = pieces.flatMap((list) => joinHollow(joinHeaps(list, describe, apart), marks, describe));
  return joinAlike(heaps, marks, nearness, isPrinted).map((heap) => ({
    cells: heap.cells,
    apart: isPrinted || heap.cells.length > STRAY * signedCells ? partsApart(heap, nearness) : heap.cells,
  }));
}

interface Gathered {
  readonly cells: readonly number[];
  readonly apart: readonly number[];
}

/** How unlike two shapes may be that are one sign drawn by hand; see `unlike`. */
const BY_HAND = 2;
/** Part of all signs that a sign drawn by hand is at least; fewer may be one drawn badly. */
const STRAY = 0.04;
/** From which two shapes of one kind may be two, and up to which two kinds may be one. */
const NEARLY_TWO = 0.85;

/** Cells of those parts of a heap that look hardly like the rest of it. */
function partsApart({ cells, joined = [] }: Heap, nearness: Nearness): number[] {
  return joined.flatMap((part) => {
    const own = new Set(part);
    const rest = cells.filter((cell) => !own.has(cell));
    if (rest.length < part.length) return [];
    const [one, other] = [shapeOf(nearness.looking, part), shapeOf(nearness.looking, rest)];
    return unlike(one, other, nearness) > NEARLY_TWO ? [...part] : [];
  });
}

/** Cells that are asked whether each sign is always drawn the same, and part of them of which it must be true. */
const ASKED = 150;
const SAME = 0.9;

/** Whether signs are drawn by a machine: each is like those that look most like it, as strokes by hand are not. */
function printed(pieces: readonly Heap[], marks: Marks, nearness: Nearness): boolean {
  let [same, asked] = [0, 0];
  const signed = pieces.filter(({ cells }) => cells.length > 1 && isSigned(marks, cells));
  const stride = Math.max(1, Math.floor(signed.reduce((sum, { cells }) => sum + cells.length, 0) / ASKED));
  let next = 0;
  for (const { cells } of signed)
    for (const cell of cells) {
      if (next++ % stride !== 0) continue;
      asked++;
      const [own, others] = [shapeOf(nearness.looking, [cell]), shapeOf(nearness.looking, cells.filter((each) => each !== cell))]; // prettier-ignore
      if (unlike(own, others, nearness) < 1) same++;
    }
  return same >= SAME * asked;
}

export interface Told {
  /** How many colours there are, where she knows. */
  readonly count: number | undefined;
  /** The key's colours in the light of the cells. */
  readonly key: readonly Lab[];
}

function groundsApart(labs: readonly Lab[], key: readonly Lab[], count: number | undefined): number[][] {
  const { centres, assignment } = clusterColours(labs, count === undefined ? {} : { count });
  const members: number[][] = centres.map(() => []);
  for (let cell = 0; cell < labs.length; cell++) members[assignment[cell]!]!.push(cell);
  return count === undefined ? splitByKey(members, labs, key) : members;
}

const isSigned = (marks: Marks | null, cells: readonly number[]): boolean =>
  marks !== null && Math.hypot(...meanOf(marks.values, marks.length, cells)) > LEAST_MARK;

function kindOf(labs: readonly Lab[], marks: Marks | null, { cells, apart }: Gathered, { looking }: Seen): Kind {
  const mark = marks && meanOf(marks.values, marks.length, cells);
  const signed =
    isSigned(marks, cells) || (marks !== null && cells.length > FEW && shapeOf(looking, cells).size > FAINT);
  return { cells, lab: medianLab(labs, cells), mark, signed, apart };
}

/** Root mean square in bytes, over the middle of the mean of several cells, from which even a thin stroke is a sign. */
const FAINT = 10;
const FEW = 3;

/** Heaps that differ only near the cells' sides differ by what is beside them: every sign has its middle. */
function joinHollow(heaps: readonly Heap[], marks: Marks, describe: (cells: readonly number[]) => Heap): Heap[] {
  const joined: Heap[] = [];
  for (const heap of heaps.toSorted((one, other) => other.cells.length - one.cells.length)) {
    const same = joined.findIndex(
      ({ mean }) => marks.core.reduce((sum, at) => sum + (heap.mean[at]! - mean[at]!) ** 2, 0) < LEAST_CORE ** 2,
    );
    if (same < 0) joined.push(heap);
    else {
      const other = joined[same]!;
      joined[same] = {
        ...describe([...other.cells, ...heap.cells]),
        mean: other.mean,
        joined: [...(other.joined ?? []), ...(heap.joined ?? [])],
      };
    }
  }
  return joined;
}

/** Root mean square in bytes, of the middle's part in it. */
const LEAST_CORE = 4.5;

/** Root mean square in bytes beyond which two heaps do not look alike, whatever their scatter. */
const UNLIKE = 30;
/** Bytes by which the whole of two cells may differ in colour and be one, and how many times the scatter. */
const LEAST_TONE = 4;
const TONE_IN_SCATTER = 4.5;

/** A large sign may be taken for the ground, and the ground for a sign: such cells look alike all the same. */
function joinAlike(heaps: readonly Heap[], marks: Marks, nearness: Nearness, isPrinted: boolean): Heap[] {
  const points = { length: marks.length, values: marks.looks };
  const describe = (cells: readonly number[]): Heap => heapOf(points, nearness, cells);
  const apart = (one: Heap, other: Heap): number => {
    const [first, second] = [isSigned(marks, one.cells), isSigned(marks, other.cells)];
    if (!first && !second) return Infinity;
    if (Math.hypot(...one.mean.map((value, at) => value - other.mean[at]!)) > UNLIKE) return Infinity;
    const byPlace = separation(points, one, other, nearness);
    // What is hardly a sign may be none at one place and one at another.
    if (first !== second) return Math.max(2 * byPlace, tonesApart(marks, one, other));
    if (byPlace < 0.5 || !isPrinted) return byPlace;
    return Math.max(tonesApart(marks, one, other), unlike(one.shape, other.shape, nearness));
  };
  const seen = heaps.map(({ cells, joined = [] }): Heap => ({ ...describe(cells), joined }));
  return joinHeaps(seen, describe, apart);
}

/** How surely two heaps are two by the colour of their cells as a whole, wherever in them it lies. */
function tonesApart({ tones }: Marks, one: Heap, other: Heap): number {
  const [first, second] = [one, other].map(({ cells }) => {
    const mean = [0, 1, 2].map((axis) => cells.reduce((sum, cell) => sum + tones[cell * 3 + axis]!, 0) / cells.length);
    const squares = cells.reduce(
      (sum, cell) => sum + mean.reduce((inner, value, axis) => inner + (tones[cell * 3 + axis]! - value) ** 2, 0),
      0,
    );
    return { mean, scatter: Math.sqrt(squares / cells.length / 3) };
  }) as [{ mean: number[]; scatter: number }, { mean: number[]; scatter: number }];
  const distance = Math.hypot(...first.mean.map((value, axis) => value - second.mean[axis]!));
  return distance / Math.max(LEAST_TONE, (TONE_IN_SCATTER * (first.scatter + second.scatter)) / 2);
}

function meanOf(values: Float32Array, length: number, cells: readonly number[]): Float64Array {
  const mean = new Float64Array(length);
  for (const cell of cells) for (let at = 0; at < length; at++) mean[at]! += values[cell * length + at]! / cells.length;
  return mean;
}

function medianLab(labs: readonly Lab[], cells: readonly number[]): Lab {
  const middle = (axis: 0 | 1 | 2): number => {
    const sorted = cells.map((cell) => labs[cell]![axis]).sort((one, other) => one - other);
    return sorted[sorted.length >> 1]!;
  };
  return [middle(0), middle(1), middle(2)];
}
