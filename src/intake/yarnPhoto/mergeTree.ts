/** Little pieces of a picture joined two by two, the least parted first, so that whatever is one thing is somewhere one piece. */
import type { Basins, Plane } from "../../raster/plane.ts";

/** Pieces are numbered from 0: first the basins, then each joined piece, the whole picture last. */
export interface MergeTree {
  readonly basins: number;
  /** Two for each joined piece, at (piece − basins). */
  readonly parts: Int32Array;
  /** The piece that each became part of; −1 for the whole. */
  readonly whole: Int32Array;
  /** How much parted the two were of which it was made; 0 for a basin. Never less than that of its parts. */
  readonly parted: Float32Array;
  /** Pixels. */
  readonly area: Int32Array;
  /** The means of the planes, one after the other. */
  readonly means: Float32Array;
  /** Pixels in such an order that every piece is one run of them, from its first on. */
  readonly order: Int32Array;
  readonly first: Int32Array;
}

export interface WeighedPlane {
  readonly plane: Plane;
  readonly weight: number;
}

/** A piece of fewer pixels is joined before others as surely parted: it is a speck or a strand. Our choice. */
const SPECK = 60;

/**
 * @param ridges how sharply the picture changes at each pixel
 * @param planes what each piece has a mean of
 */
export function mergeTree(basins: Basins, ridges: Plane, planes: readonly WeighedPlane[]): MergeTree {
  const most = 2 * basins.count - 1;
  const tree = {
    basins: basins.count,
    parts: new Int32Array(2 * (most - basins.count)),
    whole: new Int32Array(most).fill(-1),
    parted: new Float32Array(most),
    area: new Int32Array(most),
    means: new Float32Array(most * planes.length),
  };
  basins.of.forEach((basin) => tree.area[basin]!++);
  planes.forEach(({ plane }, which) => {
    const sums = new Float64Array(basins.count);
    basins.of.forEach((basin, at) => (sums[basin]! += plane.data[at]!));
    sums.forEach((sum, basin) => (tree.means[basin * planes.length + which] = sum / tree.area[basin]!));
  });
  const borders = bordersOf(basins, ridges);
  const partedBy = (one: number, other: number, { sum, count }: Border): number => {
    let apart = 0;
    planes.forEach(({ weight }, which) => {
      apart += weight * (tree.means[one * planes.length + which]! - tree.means[other * planes.length + which]!) ** 2;
    });
    const small = Math.min(1, Math.min(tree.area[one]!, tree.area[other]!) / SPECK) ** 0.35;
    return small * Math.sqrt((sum / count) * Math.sqrt(apart + 0.05));
  };
  const queue = new Queue();
  borders.forEach((beside, one) =>
    beside.forEach((border, other) => {
      if (one < other) queue.add({ parted: partedBy(one, other, border), one, other });
    }),
  );
  let piece = basins.count;
  for (let pair = queue.take(); pair && piece < most; pair = queue.take()) {
    const { one, other, parted } = pair;
    if (tree.whole[one] !== -1 || tree.whole[other] !== -1) continue;
    tree.whole[one] = tree.whole[other] = piece;
    tree.parts.set([one, other], 2 * (piece - basins.count));
    tree.parted[piece] = Math.max(parted, tree.parted[one]!, tree.parted[other]!);
    const [own, its] = [tree.area[one]!, tree.area[other]!];
    tree.area[piece] = own + its;
    for (let which = 0; which < planes.length; which++)
      tree.means[piece * planes.length + which] =
        (own * tree.means[one * planes.length + which]! + its * tree.means[other * planes.length + which]!) /
        (own + its);
    const [large, little] = borders[one]!.size >= borders[other]!.size ? [one, other] : [other, one];
    const beside = borders[large]!;
    borders[large] = borders[little]!;
    beside.delete(little);
    borders[little]!.forEach((border, third) => {
      if (third === large) return;
      const shared = beside.get(third);
      beside.set(third, shared ? { sum: shared.sum + border.sum, count: shared.count + border.count } : border);
      borders[third]!.delete(little);
    });
    borders.push(beside);
    beside.forEach((border, third) => {
      borders[third]!.delete(large);
      borders[third]!.set(piece, border);
      queue.add({ parted: partedBy(piece, third, border), one: piece, other: third });
    });
    piece++;
  }
  return { ...tree, ...ordered(tree, basins) };
}

interface Border {
  readonly sum: number;
  /** Pairs of pixels. */
  readonly count: number;
}

function bordersOf({ of, count }: Basins, { width, data }: Plane): Map<number, Border>[] {
  const borders = Array.from({ length: count }, () => new Map<number, { sum: number; count: number }>());
  const meet = (at: number, other: number): void => {
    const [one, two] = [of[at]!, of[other]!];
    if (one === two) return;
    const ridge = Math.max(data[at]!, data[other]!);
    let border = borders[one]!.get(two);
    if (!border) {
      border = { sum: 0, count: 0 };
      borders[one]!.set(two, border);
      borders[two]!.set(one, border);
    }
    border.sum += ridge;
    border.count++;
  };
  for (let at = 0; at < of.length; at++) {
    if ((at + 1) % width !== 0) meet(at, at + 1);
    if (at + width < of.length) meet(at, at + width);
  }
  return borders;
}

function ordered(
  tree: Pick<MergeTree, "basins" | "parts" | "area">,
  { of, count }: Basins,
): Pick<MergeTree, "order" | "first"> {
  const most = tree.area.length;
  const first = new Int32Array(most);
  for (let piece = most - 1; piece >= count; piece--) {
    const at = 2 * (piece - count);
    const [one, other] = [tree.parts[at]!, tree.parts[at + 1]!];
    first[one] = first[piece]!;
    first[other] = first[piece]! + tree.area[one]!;
  }
  const order = new Int32Array(of.length);
  const next = first.slice(0, count);
  of.forEach((basin, at) => (order[next[basin]!++] = at));
  return { order, first };
}

interface Pair {
  readonly parted: number;
  readonly one: number;
  readonly other: number;
}

/** The least parted pair first; of equals the one of the earlier pieces. */
class Queue {
  private readonly heap: Pair[] = [];

  add(pair: Pair): void {
    const { heap } = this;
    let at = heap.push(pair) - 1;
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!before(pair, heap[above]!)) break;
      heap[at] = heap[above]!;
      at = above;
    }
    heap[at] = pair;
  }

  take(): Pair | undefined {
    const { heap } = this;
    const top = heap[0];
    const last = heap.pop();
    if (top === undefined || last === undefined || heap.length === 0) return top;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= heap.length) break;
      if (below + 1 < heap.length && before(heap[below + 1]!, heap[below]!)) below++;
      if (!before(heap[below]!, last)) break;
      heap[at] = heap[below]!;
      at = below;
    }
    heap[at] = last;
    return top;
  }
}

const before = (one: Pair, other: Pair): boolean =>
  one.parted !== other.parted
    ? one.parted < other.parted
    : one.one !== other.one
      ? one.one < other.one
      : one.other < other.other;
