/** Which cells are of one chart colour: the same ground, and the same sign on it. */
import type { Lab } from "../../colour/lab.ts";
import { clusterColours } from "../../raster/cluster.ts";
import { heapsOf } from "./heaps.ts";
import type { Marks } from "./marks.ts";

export interface Kinds {
  /** For each cell its kind, from 0, most cells first. */
  readonly of: Int32Array;
  readonly list: readonly Kind[];
}

export interface Kind {
  readonly cells: readonly number[];
  readonly lab: Lab;
  /** The heap of grounds it belongs to. */
  readonly ground: number;
  /** Mean of its cells' marks; null where cells are too small for any. */
  readonly mark: Float64Array | null;
  /** Whether there is a sign in it. */
  readonly signed: boolean;
}

/** Root mean square in bytes: marks that differ less are the same, and what is less is no sign. */
const LEAST_MARK = 6;

export function kindsOf(
  labs: readonly Lab[],
  trust: Float32Array,
  marks: Marks | null,
  count: number | undefined,
): Kinds {
  const grounds = clusterColours(labs, { ...(count === undefined || marks ? {} : { count }) });
  const heaps: { cells: number[]; ground: number }[] = [];
  for (let ground = 0; ground < grounds.centres.length; ground++) {
    const cells = labs.flatMap((_, cell) => (grounds.assignment[cell] === ground ? [cell] : []));
    if (!marks) {
      heaps.push({ cells, ground });
      continue;
    }
    const { of, count: parts } = heapsOf(marks, cells, LEAST_MARK);
    for (let part = 0; part < parts; part++)
      heaps.push({ cells: cells.filter((_, index) => of[index] === part), ground });
  }
  const list = heaps
    .map(({ cells, ground }): Kind => {
      const mark = marks && meanMark(marks, cells);
      return {
        cells,
        ground,
        lab: medianLab(labs, cells),
        mark,
        signed: mark !== null && Math.hypot(...mark) > LEAST_MARK,
      };
    })
    .sort((one, other) => other.cells.length - one.cells.length || one.cells[0]! - other.cells[0]!);
  const of = new Int32Array(labs.length);
  for (const [kind, { cells }] of list.entries()) for (const cell of cells) of[cell] = kind;
  return { of, list };
}

function meanMark({ length, values }: Marks, cells: readonly number[]): Float64Array {
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
