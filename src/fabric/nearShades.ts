/** The cloth with near colours taken as one where they lie together: a small difference is seen apart from the large ones beside it. */
import { NO_STITCH } from "../chart/chart.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labFromLinear, linearFromLab } from "../colour/lab.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import type { Cloth, Ink } from "./cloth.ts";

/** A cloth parted into its large differences and its small ones. */
export interface PartedShades {
  /** Each piece of near inks in its mean colour. */
  readonly merged: Cloth;
  /** The pieces alone, going on over whatever lies between them, so that only what is within a piece makes a pattern. */
  readonly pieces: Cloth;
  /** For each ink of `pieces` what it adds to the mean colour of its piece, in linear light. */
  readonly differences: readonly LinearRgb[];
  /** Its first ink is not in any piece, its second is. */
  readonly covers: Cloth;
}

/**
 * A piece is all cloth in near inks that is connected by sides of stitches. Its mean colour is by area and in linear light, the same for
 * all pieces of the same inks. The nearest two inks that touch go together first; no two that go together are farther apart than `NEAR`.
 * @returns null where no two are near, or all are: then no difference stands beside a larger one
 */
export function partedShades(cloth: Cloth): PartedShades | null {
  const groupOf = nearGroups(cloth);
  if (new Set(groupOf.values()).size === 1) return null;
  const mixed = new Map<string, { readonly inks: readonly number[]; readonly cells: number[] }>();
  for (const cells of piecesOf(cloth, groupOf)) {
    const inks = [...new Set(cells.map((at) => cloth.cells[at]!))].sort((a, b) => a - b);
    if (inks.length < 2) continue;
    const key = inks.join();
    const known = mixed.get(key) ?? { inks, cells: [] };
    for (const at of cells) known.cells.push(at);
    mixed.set(key, known);
  }
  if (mixed.size === 0 || mixed.size * cloth.inks.length > NO_STITCH - cloth.inks.length) return null;
  const inks: Ink[] = [...cloth.inks];
  const cells = Uint8Array.from(cloth.cells);
  const covered = new Uint8Array(cells.length);
  // One ink for every ink of every kind of piece.
  const own: Ink[] = [];
  const differences: LinearRgb[] = [];
  const parts = new Uint8Array(cells.length);
  for (const { inks: members, cells: places } of mixed.values()) {
    const mean = meanOf(places, cloth);
    const first = own.length;
    for (const at of places) {
      parts[at] = first + members.indexOf(cloth.cells[at]!);
      cells[at] = inks.length;
      covered[at] = 1;
    }
    for (const member of members) {
      const [red, green, blue] = linearFromLab(cloth.inks[member]!.lab);
      differences.push([red - mean[0], green - mean[1], blue - mean[2]]);
      own.push(cloth.inks[member]!);
    }
    inks.push({ ...cloth.inks[members[0]!]!, lab: labFromLinear(mean) });
  }
  const nearest = nearestOf(covered, cloth.grid.width);
  return {
    merged: { ...cloth, inks, cells },
    pieces: { ...cloth, inks: own, cells: Uint8Array.from(nearest, (at) => parts[at]!), lines: [] },
    differences,
    covers: { ...cloth, inks: [inks[0]!, inks[0]!], cells: covered, lines: [] },
  };
}

/** For every stitch the nearest that is covered, going by sides of stitches, across the seam too. */
function nearestOf(covered: Uint8Array, width: number): Int32Array {
  const nearest = new Int32Array(covered.length).fill(-1);
  let reached = [...covered.keys()].filter((at) => covered[at] === 1);
  for (const at of reached) nearest[at] = at;
  while (reached.length > 0) {
    const next: number[] = [];
    for (const at of reached) {
      const right = at % width === width - 1 ? at + 1 - width : at + 1;
      const left = at % width === 0 ? at - 1 + width : at - 1;
      for (const beside of [right, left, at + width, at - width]) {
        if (beside < 0 || beside >= nearest.length || nearest[beside]! >= 0) continue;
        nearest[beside] = nearest[at]!;
        next.push(beside);
      }
    }
    reached = next;
  }
  return nearest;
}

/** ΔE00 up to which a fine pattern is faint at best: the trade's whisper ends at 15 in L*, about 12 to 15 here. Our choice. */
const NEAR = 12;

function meanOf(places: readonly number[], { inks, cells }: Cloth): LinearRgb {
  const linear = inks.map(({ lab }) => linearFromLab(lab));
  const sum: [number, number, number] = [0, 0, 0];
  for (const at of places) linear[cells[at]!]!.forEach((light, channel) => (sum[channel]! += light / places.length));
  return sum;
}

/** The group that each ink in use belongs to, told by one of its inks. */
function nearGroups(cloth: Cloth): Map<number, number> {
  const { inks, cells } = cloth;
  const pairs = new Set<number>();
  forEachMeeting(cloth, (at, other) => {
    const [a, b] = [cells[at]!, cells[other]!];
    if (a !== b) pairs.add(Math.min(a, b) * 256 + Math.max(a, b));
  });
  const near = [...pairs]
    .map((pair) => [pair >> 8, pair & 255] as const)
    .map(([a, b]) => ({ a, b, far: deltaE2000(inks[a]!.lab, inks[b]!.lab) }))
    .sort((one, other) => one.far - other.far || one.a - other.a || one.b - other.b);
  const groups = new Map<number, readonly number[]>();
  for (const cell of cells) if (cell !== NO_STITCH) groups.set(cell, [cell]);
  for (const { a, b } of near) {
    const [one, other] = [groups.get(a)!, groups.get(b)!];
    if (one === other) continue;
    const fits = one.every((x) => other.every((y) => deltaE2000(inks[x]!.lab, inks[y]!.lab) <= NEAR));
    const joined = [...one, ...other];
    if (fits) for (const ink of joined) groups.set(ink, joined);
  }
  return new Map([...groups].map(([ink, group]) => [ink, Math.min(...group)]));
}

/** Stitches of one group, piece by piece: connected by sides, across the seam of the repeat too. */
function piecesOf(cloth: Cloth, groupOf: ReadonlyMap<number, number>): number[][] {
  const { cells } = cloth;
  const above = Int32Array.from(cells.keys());
  const root = (at: number): number => {
    let place = at;
    while (above[place] !== place) place = above[place] = above[above[place]!]!;
    return place;
  };
  forEachMeeting(cloth, (at, other) => {
    if (groupOf.get(cells[at]!) === groupOf.get(cells[other]!)) above[root(at)] = root(other);
  });
  const pieces = new Map<number, number[]>();
  cells.forEach((cell, at) => {
    if (cell === NO_STITCH) return;
    const piece = pieces.get(root(at));
    if (piece) piece.push(at);
    else pieces.set(root(at), [at]);
  });
  return [...pieces.values()];
}

function forEachMeeting({ grid: { width }, cells }: Cloth, take: (at: number, other: number) => void): void {
  for (let at = 0; at < cells.length; at++) {
    if (cells[at] === NO_STITCH) continue;
    const beside = at % width === width - 1 ? at + 1 - width : at + 1;
    if (beside !== at && cells[beside] !== NO_STITCH) take(at, beside);
    if (at + width < cells.length && cells[at + width] !== NO_STITCH) take(at, at + width);
  }
}
