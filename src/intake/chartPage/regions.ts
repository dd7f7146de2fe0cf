/** Where on a page charts may be: pieces that touch one another or lie on one ground, with rows and columns through them. */
import { edgesOf } from "./edges.ts";
import { nearestLine, offSteps, stepsOfAll, stepsOfLines, type Steps } from "./lattice.ts";
import { boxHeight, boxMiddle, boxWidth, isThin, type Box, type Piece } from "./pieces.ts";
import { withScattered } from "./scattered.ts";
import { regionsOfStamps } from "./stamps.ts";
import { binned, touching } from "./touching.ts";

export interface Region {
  /** x of the lines between columns and y of those between rows, in order. */
  readonly across: readonly number[];
  readonly down: readonly number[];
  /** Pieces that fill their cells however small they are drawn; none where left out. */
  readonly stamps?: ReadonlySet<Piece>;
  /** Its ground is drawn, and ends where it does. */
  readonly isOnGround?: true;
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
  const upright = pieces.filter(({ box }) => boxWidth(box) * boxHeight(box) < PAGE * area);
  const regions: Region[] = [...regionsOfStamps(upright, { apart: true })];
  const used = new Set<Piece>(built.filter(({ box }) => regions.some((region) => lies(box, region))));
  // A ground with cells here and there on it is a chart as wide as the ground, if it goes by the same steps.
  let room = GROUND_LOOKS * small.length;
  for (const ground of grounds) {
    const inside = small.filter((piece) => !used.has(piece) && within(piece.box, ground.box));
    // Grounds within grounds are few on an honest page.
    if (inside.length < LEAST_PIECES || (room -= inside.length) < 0) continue;
    const region = regionOnGround(
      ground,
      inside.filter(({ box }) => !isFrameOf(ground.box, box)),
    );
    if (!region) continue;
    regions.push({ ...region, isOnGround: true });
    for (const piece of inside) used.add(piece);
  }
  for (const group of largest(touching(small.filter((piece) => !used.has(piece))))) {
    const region = group.length < LEAST_PIECES ? null : regionOf(group);
    if (region) regions.push(region);
  }
  if (regions.length === 0) regions.push(...regionsOfStamps(upright, { apart: false }));
  if (regions.length === 0) {
    const left = small.filter(({ kind, isBox }) => kind === "area" && isBox);
    for (const group of largest(touching(left, SCATTERED))) {
      const region = group.length < LEAST_PIECES ? null : regionOf(group);
      if (region) regions.push(region);
    }
  }
  const whole = regions.map((region) => (region.isOnGround || region.stamps ? region : withScattered(region, small)));
  return whole.filter((region, index) => !whole.some((other, at) => at !== index && holds(other, region, at < index)));
}

/** A page of many small drawings is none of charts, and is not to be looked through for ever. */
const largest = (groups: readonly Piece[][]): Piece[][] =>
  groups.length <= MOST_GROUPS
    ? [...groups]
    : groups.toSorted((one, other) => other.length - one.length).slice(0, MOST_GROUPS);

/** Whether most of a piece lies in a chart that is found. */
function lies(box: Box, { across, down }: Region): boolean {
  const [x, y] = boxMiddle(box);
  return x > across[0]! && x < across.at(-1)! && y > down[0]! && y < down.at(-1)!;
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
  const stray = lines ? offSteps(edgesOf(outsideCells(pieces, lines, axis), axis), lines) : 1;
  if (lines && stray <= STRAY) return lines;
  const all = stepsOfAll(edges);
  // A frame or a shadow beside the chart makes a step or two of smaller ones; rows and columns of a chart make many.
  return all && lines && stray <= STRAY_FRAMES && takenBetween(all, lines) < FRAMES ? lines : (all ?? lines);
}

/** Part of the smaller steps' places, those of the larger ones left out, at which an edge lies. */
function takenBetween(small: Steps, large: Steps): number {
  const places = small.lines.length - large.lines.length;
  const taken = small.taken * small.lines.length - large.taken * large.lines.length;
  return places <= 0 ? 1 : taken / places;
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
    const [x, y] = boxMiddle(piece.box);
    return !bins.near(piece.box).some(({ box, order }) => {
      if (order > piece.order || !within(piece.box, box)) return false;
      const [wide, high] = [boxWidth(box), boxHeight(box)];
      const least = Math.min(wide, high);
      if (width > 0.9 * least || height > 0.9 * least || least > 5 * Math.max(width, height)) return false;
      const [midX, midY] = boxMiddle(box);
      return high <= wide ? Math.abs(y - midY) < 0.2 * high : Math.abs(x - midX) < 0.2 * wide;
    });
  });
}

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

function within(inner: Box, outer: Box): boolean {
  const slack = 0.1 * Math.min(boxWidth(inner) + boxHeight(inner), boxWidth(outer), boxHeight(outer));
  return (
    inner.left >= outer.left - slack &&
    inner.right <= outer.right + slack &&
    inner.top >= outer.top - slack &&
    inner.bottom <= outer.bottom + slack
  );
}

/** The chart that is as large as its ground; null where cells only lie on one, as on a card. */
function regionOnGround(ground: Piece, inside: readonly Piece[]): Region | null {
  const region = regionOf(inside);
  if (!region) {
    const together = regionOf([ground, ...inside]);
    return together && endsWith(together.across, ground.box.left, ground.box.right) && endsWith(together.down, ground.box.top, ground.box.bottom) ? together : null; // prettier-ignore
  }
  const across = grownTo(region.across, ground.box.left, ground.box.right);
  const down = grownTo(region.down, ground.box.top, ground.box.bottom);
  return across && down && { across, down };
}

/** Whether a line is one side of a ground's own frame. */
const isFrameOf = (ground: Box, box: Box): boolean =>
  isThin(box) &&
  (boxWidth(box) > FRAME * boxWidth(ground)
    ? Math.min(Math.abs(box.top - ground.top), Math.abs(box.bottom - ground.bottom)) <= boxHeight(box)
    : boxHeight(box) > FRAME * boxHeight(ground) &&
      Math.min(Math.abs(box.left - ground.left), Math.abs(box.right - ground.right)) <= boxWidth(box));

/** Whether a ground ends where the chart's cells do. */
function endsWith(lines: readonly number[], from: number, to: number): boolean {
  const slack = END * pitchOf(lines);
  return Math.abs(lines[0]! - from) <= slack && Math.abs(lines.at(-1)! - to) <= slack;
}

/** Lines led on to the ends of a ground on which rows and columns of bare ground lie about the cells; null where it ends between two. */
function grownTo(lines: readonly number[], from: number, to: number): number[] | null {
  const pitch = pitchOf(lines);
  const more = (distance: number): number | null => {
    const steps = Math.round(distance / pitch);
    // Next to the cells a line's own width may lie between; further off it must be whole steps, and no margin.
    const slack = (steps === 0 ? END : WHOLE_STEPS) * pitch;
    return steps >= 0 && Math.abs(distance - steps * pitch) <= slack ? steps : null;
  };
  const [before, after] = [more(lines[0]! - from), more(to - lines.at(-1)!)];
  if (before === null || after === null) return null;
  return [
    ...Array.from({ length: before }, (_, step) => from + ((lines[0]! - from) * step) / before),
    ...lines,
    ...Array.from({ length: after }, (_, step) => to - ((to - lines.at(-1)!) * (after - 1 - step)) / after),
  ];
}

const pitchOf = (lines: readonly number[]): number => (lines.at(-1)! - lines[0]!) / (lines.length - 1);

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

/** Part of the page that only its own ground covers. */
const PAGE = 0.85;
const LEAST_PIECES = 4;
const LEAST_ON_GROUND = 8;
const LEAST_CELLS = 9;
/** Width to height of a cell: knitted stitches lie between 1 : 1 and 2 : 1. */
const WIDEST = 3;
/** Part of the edges that may lie off the lines before the lines are doubted. */
const STRAY = 0.03;
/** The same where frames are the reason, and how few of the smaller steps' places they take. */
const STRAY_FRAMES = 0.15;
const FRAMES = 0.1;
/** Steps by which a ground may end beside the chart's last line, and beside the lines led on from it. */
const END = 0.25;
const WHOLE_STEPS = 0.06;
/** Part of a ground's side that a side of its frame takes. */
const FRAME = 0.95;
/** Part of its size by which a piece may stand away from the next where cells are drawn only where they differ from the page. */
const SCATTERED = 2;
const MOST_GROUNDS = 60;
/** How often the pieces of a page may be looked at as lying on some ground. */
const GROUND_LOOKS = 4;
const MOST_GROUPS = 60;
