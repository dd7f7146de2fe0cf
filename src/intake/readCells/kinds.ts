/** Which cells are of one chart colour: the same ground, and the same sign on it. */
import type { Lab } from "../../colour/lab.ts";
import { clusterColours } from "../../raster/cluster.ts";
import { heapsOf, separation, type Nearness } from "./heaps.ts";
import { splitByKey } from "./keySplit.ts";
import type { Marks } from "./marks.ts";

export interface Kind {
  readonly cells: readonly number[];
  /** The usual colour of their grounds. */
  readonly lab: Lab;
  /** Mean of its cells' marks; null where cells are too small for any. */
  readonly mark: Float64Array | null;
  /** Whether there is a sign in it. */
  readonly signed: boolean;
}

/** Root mean square in bytes: marks that differ less are the same, and what is less is no sign. */
const LEAST_MARK = 6;

/** Kinds of cells, most cells first. `labs` are the cells' grounds, `marks` what stands on them. */
export function kindsOf(labs: readonly Lab[], marks: Marks | null, told: Told): Kind[] {
  const nearness: Nearness = { least: LEAST_MARK, scatters: SCATTERS };
  const members = groundsApart(labs, told.key, marks ? undefined : told.count);
  const heaps = members.flatMap((cells) => {
    if (!marks) return [cells];
    const { of, count: parts } = heapsOf(marks, cells, nearness);
    return joinHollow(
      Array.from({ length: parts }, (_, part) => cells.filter((_, index) => of[index] === part)),
      marks,
    );
  });
  const alike = marks ? joinAlike(heaps, marks, nearness) : heaps;
  const right = told.count === undefined || alike.length === told.count;
  // With a number told, cells without signs are gathered into so many; signs are as many as they are.
  const joined = right || alike.some((cells) => isSigned(marks, cells)) ? alike : groundsApart(labs, [], told.count);
  return joined
    .map((cells) => kindOf(labs, marks, cells))
    .sort((one, other) => other.cells.length - one.cells.length || one.cells[0]! - other.cells[0]!);
}

/** Part of its size by which a sign is another each time, between pixels and before a camera: ours, on two painters' charts of signs. */
const SCATTERS = 0.07;

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

function kindOf(labs: readonly Lab[], marks: Marks | null, cells: readonly number[]): Kind {
  const mark = marks && meanOf(marks.values, marks.length, cells);
  return { cells, lab: medianLab(labs, cells), mark, signed: isSigned(marks, cells) };
}

/** Heaps that differ only near the cells' sides differ by what is beside them: every sign has its middle. */
function joinHollow(heaps: number[][], marks: Marks): number[][] {
  const joined: { cells: number[]; mean: Float64Array }[] = [];
  for (const cells of heaps.toSorted((one, other) => other.length - one.length)) {
    const mean = meanOf(marks.values, marks.length, cells);
    const same = joined.find(
      (other) => marks.core.reduce((sum, at) => sum + (mean[at]! - other.mean[at]!) ** 2, 0) < LEAST_CORE ** 2,
    );
    if (same) same.cells.push(...cells);
    else joined.push({ cells: [...cells], mean });
  }
  return joined.map(({ cells }) => cells);
}

/** Root mean square in bytes, of the middle's part in it. */
const LEAST_CORE = 4.5;

/** Root mean square in bytes beyond which two heaps do not look alike, whatever their scatter. */
const UNLIKE = 30;

/** A large sign may be taken for the ground, and the ground for a sign: such cells look alike all the same. */
function joinAlike(heaps: readonly number[][], marks: Marks, nearness: Nearness): number[][] {
  const { length, looks } = marks;
  const sized = (cells: number[]) => {
    const size = Math.hypot(...meanOf(marks.values, length, cells));
    return { cells, size, signed: size > LEAST_MARK, mean: meanOf(looks, length, cells) };
  };
  const list = heaps.map(sized);
  for (;;) {
    let [into, from, least] = [-1, -1, 1];
    for (const [one, first] of list.entries())
      for (const [other, second] of list.slice(0, one).entries()) {
        if (!first.signed || !second.signed) continue;
        const distance = Math.hypot(...first.mean.map((value, at) => value - second.mean[at]!));
        if (distance > UNLIKE) continue;
        const apart = separation(marks, looks, first, second, nearness);
        if (apart < least) [into, from, least] = [other, one, apart];
      }
    if (from < 0) return list.map(({ cells }) => cells);
    list[into] = { ...sized([...list[into]!.cells, ...list[from]!.cells]), signed: true };
    list.splice(from, 1);
  }
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
