/** Where her yarns lie in a picture of the shelf: along the ladder, or around the circle of hues, none upon another as long as there is room. */

export interface Spot {
  readonly id: string;
  /** CSS pixels of the ball's middle. */
  readonly x: number;
  readonly y: number;
  /** Where its name begins, and how wide it may be; null: there is no room for it. */
  readonly name: { readonly x: number; readonly width: number; readonly align: "left" | "right" } | null;
}

export interface Placed {
  /** CSS pixels of a ball. */
  readonly radius: number;
  readonly spots: readonly Spot[];
}

export interface Area {
  readonly width: number;
  readonly height: number;
}

/** CSS pixels. Our choice: a ball that a finger meets, down to one that is only a mark. */
const RADII = [16, 13, 10, 7, 5, 3.5, 2.5];
const NAME_AWAY = 6;
const GAP = 3;
const NAME_GAP = 14;
const NAME_HEIGHT = 18;

export interface LadderItem {
  readonly id: string;
  readonly L: number;
  /** CSS pixels of its name, written in full. */
  readonly nameWidth: number;
}

export interface LadderSpan {
  /** L* at the upper and the lower end. */
  readonly top: number;
  readonly bottom: number;
}

/** CSS pixels above and below the ends of the axis. */
export const LADDER_MARGIN = 16;

export const heightOf = (L: number, { top, bottom }: LadderSpan, height: number): number =>
  LADDER_MARGIN + ((top - L) / (top - bottom)) * (height - 2 * LADDER_MARGIN);

/** Above so many, names would hide more than they tell. Our choice. */
const NAMED = 90;

/** Every yarn at the height of its own L*, as far to the left as those beside it leave room; with its name where that fits. */
export function alongLadder(items: readonly LadderItem[], span: LadderSpan, area: Area): Placed {
  const sorted = items.toSorted((one, other) => other.L - one.L || (one.id < other.id ? -1 : 1));
  const tries = RADII.map((radius) => ({ radius, names: NONE }));
  if (items.length <= NAMED)
    tries.unshift(...NAMES.flatMap((names) => RADII.slice(0, 2).map((radius) => ({ radius, names }))));
  for (const { radius, names } of tries) {
    const spots = packed(sorted, span, area, radius, names);
    if (spots) return { radius, spots };
  }
  const radius = RADII.at(-1)!;
  return { radius, spots: packed(sorted, span, { ...area, width: Infinity }, radius, NONE)!.map(foldedInto(area)) };
}

interface Names {
  /** CSS pixels; longer ones are cut. */
  readonly longest: number;
  /** Whether each must have its name, or may go without. */
  readonly all: boolean;
}

const NONE: Names = { longest: 0, all: false };
const NAMES: readonly Names[] = [
  { longest: 150, all: true },
  { longest: 96, all: true },
  { longest: 96, all: false },
];

function packed(
  sorted: readonly LadderItem[],
  span: LadderSpan,
  area: Area,
  radius: number,
  names: Names,
): Spot[] | null {
  const tall = Math.max(2 * radius + GAP, names.longest > 0 ? NAME_HEIGHT : 0);
  const spots: Spot[] = [];
  // Those whose height still touches the next one's, from left to right.
  let beside: { readonly y: number; readonly from: number; readonly to: number }[] = [];
  for (const { id, L, nameWidth } of sorted) {
    const y = heightOf(L, span, area.height);
    beside = beside.filter((one) => y - one.y < tall);
    const name = Math.min(nameWidth, names.longest);
    const gap = names.longest > 0 ? NAME_GAP : GAP;
    const fits = (width: number): number | null => {
      const from = firstGap(beside, width + gap);
      return from + width <= area.width ? from : null;
    };
    const named = name > 0 ? fits(2 * radius + NAME_AWAY + name) : null;
    const from = named ?? (name > 0 && names.all ? null : fits(2 * radius));
    if (from === null) return null;
    const to = from + 2 * radius + gap + (named === null ? 0 : NAME_AWAY + name);
    const place = beside.findIndex((one) => one.from >= from);
    beside.splice(place < 0 ? beside.length : place, 0, { y, from, to });
    const x = from + radius;
    spots.push({ id, x, y, name: named === null ? null : { x: x + radius + NAME_AWAY, width: name, align: "left" } });
  }
  return spots;
}

/** Where the first room of so many pixels begins. */
function firstGap(beside: readonly { readonly from: number; readonly to: number }[], width: number): number {
  let from = 0;
  for (const one of beside) {
    if (one.from - from >= width) break;
    from = Math.max(from, one.to);
  }
  return from;
}

/** Where there is room for no more, they lie upon each other, as in a full drawer. */
const foldedInto = ({ width }: Area) => {
  return (spot: Spot): Spot => ({ ...spot, x: spot.x <= width ? spot.x : spot.x % width });
};

export interface HueItem {
  readonly id: string;
  /** CIELAB. */
  readonly a: number;
  readonly b: number;
  readonly nameWidth: number;
}

export interface Circle {
  readonly middle: readonly [number, number];
  readonly radius: number;
  /** Chroma at the rim. */
  readonly rim: number;
}

/** CSS pixels around the circle, for the words of its hues. */
const RIM_ROOM = 34;

export function circleIn({ width, height }: Area, largestChroma: number): Circle {
  return {
    middle: [width / 2, height / 2],
    radius: Math.max(40, Math.min(width, height) / 2 - RIM_ROOM),
    // Rings every 20; a shelf of greys is not spread out into colours.
    rim: Math.max(40, Math.ceil(largestChroma / 20) * 20),
  };
}

/** So many balls at most for each radius, so that most of them lie where their colour is. Our choice. */
const CROWDS = [20, 60, 140, 320, 800, 2000, Infinity];

/** Every yarn at its hue and chroma, moved aside just as far as its neighbours make it; names where they hide nothing. */
export function aroundCircle(items: readonly HueItem[], circle: Circle, area: Area): Placed {
  const radius = RADII[CROWDS.findIndex((most) => items.length <= most)]!;
  const [middleX, middleY] = circle.middle;
  const scale = circle.radius / circle.rim;
  const points = items.map(({ a, b }) => ({ x: middleX + a * scale, y: middleY - b * scale }));
  pushApart(points, 2 * radius + 1, area);
  for (const point of points) {
    point.x = Math.min(area.width - radius, Math.max(radius, point.x));
    point.y = Math.min(area.height - radius, Math.max(radius, point.y));
  }
  const names = items.length <= NAMED ? namesBeside(items, points, radius, area) : null;
  return {
    radius,
    spots: items.map(({ id }, at) => ({ id, ...points[at]!, name: names?.[at] ?? null })),
  };
}

interface Point {
  x: number;
  y: number;
}

/** Rounds in which neighbours move aside; more move nothing that is seen, and in a great crowd fewer will do. */
const ROUNDS = 30;
const ROUNDS_IN_A_CROWD = 6;
const CROWD = 800;

function pushApart(points: Point[], apart: number, area: Area): void {
  // One column more on either side, so that a neighbour's cell is a step in the list.
  const columns = Math.ceil(area.width / apart) + 3;
  const rows = Math.ceil(area.height / apart) + 3;
  const cellOf = ({ x, y }: Point): number => {
    const column = Math.min(columns - 2, Math.max(1, Math.floor(x / apart) + 1));
    const row = Math.min(rows - 2, Math.max(1, Math.floor(y / apart) + 1));
    return row * columns + column;
  };
  const first = new Int32Array(columns * rows);
  const next = new Int32Array(points.length);
  const rounds = points.length > CROWD ? ROUNDS_IN_A_CROWD : ROUNDS;
  for (let round = 0; round < rounds; round++) {
    first.fill(-1);
    // From the last, so that each cell's chain runs from the first.
    for (let at = points.length - 1; at >= 0; at--) {
      const cell = cellOf(points[at]!);
      next[at] = first[cell]!;
      first[cell] = at;
    }
    let moved = false;
    points.forEach((point, at) => {
      const cell = cellOf(point);
      for (let down = -columns; down <= columns; down += columns)
        for (let across = -1; across <= 1; across++)
          for (let other = first[cell + down + across]!; other >= 0; other = next[other]!)
            if (other > at) moved = parted(point, points[other]!, apart, at + other) || moved;
    });
    if (!moved) return;
  }
}

/** Each gives way by half; two in one spot part in a direction of their own, so that a heap opens like a fan. */
function parted(one: Point, other: Point, apart: number, turn: number): boolean {
  const [dx, dy] = [other.x - one.x, other.y - one.y];
  const distance = Math.hypot(dx, dy);
  if (distance >= apart) return false;
  const [wayX, wayY] =
    distance > 0.01 ? [dx / distance, dy / distance] : [Math.cos(turn * GOLDEN), Math.sin(turn * GOLDEN)];
  const step = (apart - distance) / 2;
  one.x -= wayX * step;
  one.y -= wayY * step;
  other.x += wayX * step;
  other.y += wayY * step;
  return true;
}

/** The golden angle in radians: no two turns of it point the same way. */
const GOLDEN = 2.399963;

function namesBeside(items: readonly HueItem[], points: readonly Point[], radius: number, area: Area): Spot["name"][] {
  const taken = points.map(({ x, y }) => ({
    left: x - radius,
    right: x + radius,
    top: y - radius,
    bottom: y + radius,
  }));
  const half = NAME_HEIGHT / 2;
  return items.map(({ nameWidth: width }, at) => {
    const { x, y } = points[at]!;
    for (const align of ["left", "right"] as const) {
      const from = align === "left" ? x + radius + NAME_AWAY : x - radius - NAME_AWAY - width;
      const box = { left: from, right: from + width, top: y - half, bottom: y + half };
      if (from < 0 || box.right > area.width) continue;
      const isFree = taken.every(
        (other) =>
          other.right <= box.left || other.left >= box.right || other.bottom <= box.top || other.top >= box.bottom,
      );
      if (!isFree) continue;
      taken.push(box);
      return { x: from, width, align };
    }
    return null;
  });
}
