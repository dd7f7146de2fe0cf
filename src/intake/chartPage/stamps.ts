/** Charts whose cells stand apart or have a shape of their own (dots, rounded squares, stitches drawn as two leaves): found by how equal pieces recur. */
import { stepsOfAll, type Steps } from "./lattice.ts";
import { boxHeight, boxMiddle, boxWidth, boxAround, cornersOfBox, isThin, type Box, type Piece } from "./pieces.ts";
import { touching } from "./touching.ts";

export interface StampedRegion {
  readonly across: readonly number[];
  readonly down: readonly number[];
  /** Each fills its cell, however small it is drawn. */
  readonly stamps: ReadonlySet<Piece>;
}

/**
 * From pieces in the order of painting. Where `apart` is asked for, only those whose cells all stand a gap apart and which
 * nothing else is drawn among: their edges would mislead.
 */
export function regionsOfStamps(
  pieces: readonly Piece[],
  { apart }: { readonly apart: boolean },
): readonly StampedRegion[] {
  const areas = pieces.filter(({ kind, box, opacity }) => kind === "area" && opacity > 0 && !isThin(box));
  const sizes = sizesOf(areas);
  const regions: StampedRegion[] = [];
  for (const members of sizes.slice(0, MOST_SIZES))
    for (const group of largeGroups(members)) {
      const around = boxAround(group.map(({ box }) => box));
      if (regions.some((known) => overlaps(known, around))) continue;
      const among = pieces.filter(({ box }) => isAmong(box, around));
      if (apart && group.length < ALONE * among.length) continue;
      const region = regionOfGroup(group, sizes, { around, apart });
      if (region) regions.push(region);
    }
  return regions;
}

const largeGroups = (members: readonly Piece[]): Piece[][] =>
  members.length < LEAST_STAMPS
    ? []
    : touching(members, REACH)
        .filter(({ length }) => length >= LEAST_STAMPS)
        .toSorted((one, other) => other.length - one.length)
        .slice(0, MOST_GROUPS);

/** The pieces, with stamps as large as the cells they stand in. */
export function filledStamps(pieces: readonly Piece[], { across, down, stamps }: StampedRegion): Piece[] {
  return pieces.map((piece) => {
    if (!stamps.has(piece)) return piece;
    const [x, y] = boxMiddle(piece.box);
    const [column, row] = [across.findLastIndex((at) => at <= x), down.findLastIndex((at) => at <= y)];
    if (column < 0 || row < 0 || column + 1 >= across.length || row + 1 >= down.length) return piece;
    const box = { left: across[column]!, right: across[column + 1]!, top: down[row]!, bottom: down[row + 1]! };
    return { ...piece, box, runs: [cornersOfBox(box)], isBox: true, isSquare: true };
  });
}

/** Pieces of one size and slant together, the most first: the two leaves of a stitch lean to different sides. */
function sizesOf(areas: readonly Piece[]): Piece[][] {
  const sizes: { width: number; height: number; lean: number; members: Piece[] }[] = [];
  for (const piece of areas) {
    const [width, height, lean] = [boxWidth(piece.box), boxHeight(piece.box), leanOf(piece)];
    const own = sizes.find(
      (size) => isNear(size.width, width) && isNear(size.height, height) && Math.abs(size.lean - lean) <= SAME_LEAN,
    );
    if (own) own.members.push(piece);
    else if (sizes.length < MOST_KNOWN) sizes.push({ width, height, lean, members: [piece] });
  }
  return sizes.map(({ members }) => members).toSorted((one, other) => other.length - one.length);
}

/** How its corners lie about its middle: 0 where they do evenly, less or more where it leans to the right or left. */
function leanOf({ runs, box }: Piece): number {
  const [x, y] = boxMiddle(box);
  const corners = runs.flat();
  const sum = corners.reduce((all, corner) => all + (corner[0] - x) * (corner[1] - y), 0);
  return sum / corners.length / (boxWidth(box) * boxHeight(box));
}

const isNear = (one: number, other: number): boolean => Math.abs(one - other) <= SAME_SIZE * Math.max(one, other);

function regionOfGroup(
  group: readonly Piece[],
  sizes: readonly (readonly Piece[])[],
  { around, apart }: { readonly around: Box; readonly apart: boolean },
): StampedRegion | null {
  const [x, y] = [stepsOfMiddles(group, 0), stepsOfMiddles(group, 1)];
  if (!x || !y) return null;
  const shape = x.pitch / y.pitch;
  const cells = x.lines.length * y.lines.length;
  if (shape > WIDEST || shape < 1 / WIDEST || group.length < FULL * cells || group.length > cells) return null;
  const [first] = group;
  const gaps = [1 - boxWidth(first!.box) / x.pitch, 1 - boxHeight(first!.box) / y.pitch];
  if (apart && (Math.max(...gaps) < LEAST_GAP || Math.min(...gaps) < -NO_GAP || Math.max(...gaps) > MOST_GAP))
    return null;
  // A stitch of two leaves has two sizes, or one twice; all that recur in step fill the cells between them.
  const room: Box = {
    left: around.left - x.pitch,
    right: around.right + x.pitch,
    top: around.top - y.pitch,
    bottom: around.bottom + y.pitch,
  };
  const stamps = sizes
    .map((members) =>
      members.filter(
        ({ box }) => isAmong(box, room) && boxWidth(box) <= WHOLE * x.pitch && boxHeight(box) <= WHOLE * y.pitch,
      ),
    ) // prettier-ignore
    .filter((members) => members === group || members.length >= FULL * cells)
    .flat();
  const [across, down] = [linesAbout(stamps, x, 0), linesAbout(stamps, y, 1)];
  return { across, down, stamps: new Set(stamps) };
}

function stepsOfMiddles(group: readonly Piece[], axis: 0 | 1): Steps | null {
  const places = group.map(({ box }) => boxMiddle(box)[axis]).sort((one, other) => one - other);
  const size = axis === 0 ? boxWidth(group[0]!.box) : boxHeight(group[0]!.box);
  const edges: { at: number; length: number; chain: number }[] = [];
  let from = 0;
  for (let to = 1; to <= places.length; to++) {
    if (to < places.length && places[to]! - places[to - 1]! <= ONE_PLACE * size) continue;
    const own = places.slice(from, to);
    edges.push({ at: own.reduce((sum, at) => sum + at, 0) / own.length, length: own.length, chain: 0 });
    from = to;
  }
  return stepsOfAll(edges);
}

/** Lines between the cells: where the fewest pieces lie across, in the middle of the gap. */
function linesAbout(stamps: readonly Piece[], { lines, pitch }: Steps, axis: 0 | 1): number[] {
  const start = lines[0]!;
  const covered = new Float64Array(PHASES);
  for (const { box } of stamps) {
    const [from, to] = axis === 0 ? [box.left, box.right] : [box.top, box.bottom];
    const phase = (at: number): number => ((at - start) / pitch) * PHASES;
    for (let at = Math.ceil(phase(from) + EDGE); at <= phase(to) - EDGE; at++)
      covered[((at % PHASES) + PHASES) % PHASES]!++;
  }
  const least = Math.min(...covered);
  const isFree = (phase: number): boolean => covered[((phase % PHASES) + PHASES) % PHASES]! <= least + FEW * stamps.length; // prettier-ignore
  // The longest run of free phases, round the end as well.
  let best = { middle: PHASES / 2, length: 0 };
  for (let from = 0; from < PHASES; from++) {
    if (!isFree(from) || (isFree(from - 1) && least < stamps.length)) continue;
    let to = from;
    while (to - from < PHASES && isFree(to + 1)) to++;
    if (to - from + 1 > best.length) best = { middle: (from + to) / 2, length: to - from + 1 };
  }
  const middles = stamps.map(({ box }) => boxMiddle(box)[axis]);
  const offset = (best.middle / PHASES) * pitch;
  const before = Math.ceil((start + offset - Math.min(...middles)) / pitch - 1e-6);
  const after = Math.ceil((Math.max(...middles) - (lines.at(-1)! + offset)) / pitch - 1e-6);
  const all = lines.map((at) => at + offset);
  const led = [
    ...Array.from({ length: Math.max(0, before) }, (_, step) => all[0]! - (before - step) * pitch),
    ...all,
    ...Array.from({ length: Math.max(0, after) }, (_, step) => all.at(-1)! + (step + 1) * pitch),
  ];
  return led.slice(Math.max(0, -before), led.length - Math.max(0, -after));
}

const isAmong = ({ left, right, top, bottom }: Box, around: Box): boolean =>
  left < around.right && right > around.left && top < around.bottom && bottom > around.top;

const overlaps = ({ across, down }: StampedRegion, box: Box): boolean =>
  isAmong({ left: across[0]!, right: across.at(-1)!, top: down[0]!, bottom: down.at(-1)! }, box);

/** Sizes that are looked at, and kept at all. */
const MOST_SIZES = 3;
const MOST_KNOWN = 200;
const LEAST_STAMPS = 16;
/** Groups of a size that are looked at: a page has some charts, not hundreds. */
const MOST_GROUPS = 20;
/** Part of a size by which two are one, and of it within which middles are at one place. */
const SAME_SIZE = 0.03;
const SAME_LEAN = 0.05;
const ONE_PLACE = 0.05;
/** Part of its size by which a stamp may stand away, and the next one too. */
const REACH = 0.8;
/** Part of the cells that have a stamp; width to height of a cell; cells that a stamp may measure. */
const FULL = 0.5;
const WIDEST = 3;
const WHOLE = 1.05;
/** Of all that is drawn among them, where stamps stand apart. */
const ALONE = 0.9;
/** Cells left open between stamps that stand apart. */
const LEAST_GAP = 0.03;
const MOST_GAP = 0.45;
const NO_GAP = 0.01;
/** Places of a step at which what lies across is counted; what a piece does not cover at its ends; part of the pieces that may lie across by rounding. */
const PHASES = 60;
const EDGE = 0.7;
const FEW = 0.01;
