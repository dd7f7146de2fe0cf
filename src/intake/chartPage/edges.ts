/** Straight edges of a chart's pieces, gathered by where they lie: the evidence for its rows and columns. */
import type { Piece } from "./pieces.ts";

/** All the edges at one place of an axis. */
export interface Edge {
  readonly at: number;
  /** Length of all of them together. */
  readonly length: number;
  /** The longest stretch without a gap. */
  readonly chain: number;
}

interface Stretch {
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** Edges that run down the page (at their x) or across it (at their y), in order. */
export function edgesOf(pieces: readonly Piece[], axis: "x" | "y"): Edge[] {
  const stretches = pieces.filter(({ dashed }) => !dashed).flatMap((piece) => stretchesOf(piece, axis));
  stretches.sort((one, other) => one.at - other.at);
  const extent = stretches.length === 0 ? 0 : stretches.at(-1)!.at - stretches[0]!.at;
  const edges: Edge[] = [];
  for (let from = 0; from < stretches.length;) {
    let to = from + 1;
    while (to < stretches.length && stretches[to]!.at - stretches[from]!.at <= SAME_PLACE * extent) to++;
    edges.push(gathered(stretches.slice(from, to)));
    from = to;
  }
  return edges;
}

function stretchesOf({ runs }: Piece, axis: "x" | "y"): Stretch[] {
  const [own, other] = axis === "x" ? ([0, 1] as const) : ([1, 0] as const);
  return runs.flatMap((run) =>
    run.flatMap((point, index) => {
      const next = run[(index + 1) % run.length]!;
      const along = Math.abs(next[other] - point[other]);
      if (along === 0 || Math.abs(next[own] - point[own]) > LEVEL * along) return [];
      const at = (next[own] + point[own]) / 2;
      return [{ at, from: Math.min(point[other], next[other]), to: Math.max(point[other], next[other]) }];
    }),
  );
}

function gathered(stretches: readonly Stretch[]): Edge {
  const order = stretches.toSorted((one, other) => one.from - other.from);
  let [at, length, chain] = [0, 0, 0];
  let [from, to] = [order[0]!.from, order[0]!.to];
  for (const stretch of order) {
    const own = stretch.to - stretch.from;
    at += stretch.at * own;
    length += own;
    if (stretch.from <= to + GAP * own) to = Math.max(to, stretch.to);
    else [from, to] = [stretch.from, stretch.to];
    chain = Math.max(chain, to - from);
  }
  return { at: at / length, length, chain };
}

/** Part of an edge's length that it may slant, and of its own length that may be missing between it and the next. */
const LEVEL = 0.01;
const GAP = 0.05;
/** Part of the whole within which two edges are at one place. */
const SAME_PLACE = 1e-4;
