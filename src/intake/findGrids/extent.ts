/** Which columns and rows of a laid-out sheet are the chart: numbers, title, key and page are left out. */
import type { Sides } from "./sides.ts";
import { HARDLY_SEEN, SEEN } from "./straight.ts";

export interface Extent {
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
  readonly lined: boolean;
  /** 0 to 1: how much of what is told of a chart is so here. */
  readonly trust: number;
  /** The part of sides between like stitches that is drawn. */
  readonly linedness: number;
  /** The part of stitches that is of one colour. */
  readonly evenPart: number;
  readonly members: Uint8Array;
  /** For the left, top, right and bottom end of the chart the part of its outermost stitches that end in something drawn. */
  readonly ends: readonly [number, number, number, number];
}

/** The largest chart of the sheet; null where there is none. `core` tells cells where the grid was seen. */
export function extentOf(sides: Sides, seen: Uint8Array, core: Box): Extent | null {
  const least = sides.noise < CLEAN ? LEAST_CLEAN_STEP : LEAST_STEP;
  const noise = Math.max(least, Math.min(MOST_NOISE, NOISE_TIMES * sides.noise));
  const first = contrastOf(sides, core, noise);
  if (first.linedness > PERHAPS_LINED) {
    const box = boxOf(sides, ...membersOf(sides, seen, noise, first), true);
    const again = box && contrastOf(sides, box, noise);
    if (again && again.linedness > LINED) {
      const [members, drawn] = membersOf(sides, seen, noise, again);
      const exact = boxOf(sides, members, drawn, true);
      if (exact) return { ...exact, lined: true, ...trustOf(sides, exact, members, drawn, again.linedness, noise) };
    }
  }
  const [members, drawn] = membersOf(sides, seen, noise, null);
  const box = boxOf(sides, members, drawn, false);
  return box && { ...box, lined: false, ...trustOf(sides, box, members, drawn, 0, noise) };
}

function membersOf(sides: Sides, seen: Uint8Array, noise: number, lines: Contrast | null): [Uint8Array, Drawn] {
  const drawn = drawnSides(sides, seen, noise, lines);
  return [unpaged(sides, drawn, seen, noise, lines), drawn];
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
}

interface Drawn {
  readonly upright: Uint8Array;
  readonly level: Uint8Array;
}

interface Contrast {
  /** Part of the sides between like stitches that is drawn. */
  readonly linedness: number;
  /** How far the lines usually are from what is beside them, in bytes. */
  readonly line: number;
  /** How much darker than what is beside it a line is, in bytes: so many times its lightness, and so much more. */
  readonly slope: number;
  readonly offset: number;
}

function contrastOf(sides: Sides, core: Box, noise: number): Contrast {
  const { columns, uprightLine, uprightStep, levelLine, levelStep } = sides;
  const { uprightLight, uprightBeside, levelLight, levelBeside } = sides;
  const lines: number[] = [];
  const darker: number[][] = Array.from({ length: SHADES }, () => []);
  let [drawn, like] = [0, 0];
  const look = (line: number, step: number, light: number, beside: number): void => {
    if (line > noise && line > step * 0.5) lines.push(line);
    if (step > noise) return;
    like++;
    if (line <= noise) return;
    drawn++;
    darker[Math.min(SHADES - 1, Math.floor((beside / 256) * SHADES))]!.push(beside - light);
  };
  for (let row = core.top; row < core.top + core.rows; row++)
    for (let column = core.left; column < core.left + core.columns; column++) {
      const upright = row * (columns + 1) + column;
      const level = row * columns + column;
      if (column > core.left)
        look(uprightLine[upright]!, uprightStep[upright]!, uprightLight[upright]!, uprightBeside[upright]!);
      if (row > core.top) look(levelLine[level]!, levelStep[level]!, levelLight[level]!, levelBeside[level]!);
    }
  return { linedness: like === 0 ? 0 : drawn / like, line: middleOf(lines), ...straightThrough(darker) };
}

const middleOf = (values: number[]): number => values.sort((one, other) => one - other)[values.length >> 1] ?? 0;

/** A thin line is a mixture of its own colour and what is beside it, so its contrast goes straight with the lightness beside it. */
function straightThrough(darker: readonly number[][]): { slope: number; offset: number } {
  const points = darker.flatMap((values, shade) =>
    values.length < 4 ? [] : [{ at: ((shade + 0.5) * 256) / SHADES, value: middleOf(values), weight: values.length }],
  );
  const total = points.reduce((sum, { weight }) => sum + weight, 0);
  if (total === 0) return { slope: 0, offset: 0 };
  const at = points.reduce((sum, point) => sum + point.weight * point.at, 0) / total;
  const value = points.reduce((sum, point) => sum + point.weight * point.value, 0) / total;
  const square = points.reduce((sum, point) => sum + point.weight * (point.at - at) ** 2, 0) / total;
  const product =
    points.reduce((sum, point) => sum + point.weight * (point.at - at) * (point.value - value), 0) / total;
  // Of stitches of one lightness only the lines can be black or white at most.
  const least = value > 0 ? value / Math.max(at, 1) : -value / Math.max(255 - at, 1);
  const slope = square > 500 ? Math.max(product / square, 0) : least;
  return { slope, offset: value - slope * at };
}

/** With lines, a light gap between dark letters is none of them where the lines are dark, nor is a faint stripe. */
function drawnSides(sides: Sides, seen: Uint8Array, noise: number, lines: Contrast | null): Drawn {
  const { columns, rows } = sides;
  const { uprightLine, uprightStep, uprightLight, uprightBeside, levelLine, levelStep, levelLight, levelBeside } =
    sides;
  const leastStep = lines ? Math.max(noise, LEAST_OF_STEP * lines.line) : noise;
  const isDrawn = (line: number, step: number, light: number, beside: number): 0 | 1 => {
    if (step > leastStep) return 1;
    if (line <= noise) return 0;
    if (!lines) return 1;
    const expected = lines.slope * beside + lines.offset;
    if (Math.abs(expected) <= noise) return 1;
    return expected > 0 === beside > light && line > LEAST_OF_LINE * Math.abs(expected) ? 1 : 0;
  };
  const drawn: Drawn = {
    upright: Uint8Array.from(uprightLine, (line, at) =>
      isDrawn(line, uprightStep[at]!, uprightLight[at]!, uprightBeside[at]!),
    ),
    level: Uint8Array.from(levelLine, (line, at) => isDrawn(line, levelStep[at]!, levelLight[at]!, levelBeside[at]!)),
  };
  // Where the picture ends at a side, the chart may end with it.
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      if (seen[row * columns + column] !== HARDLY_SEEN) continue;
      drawn.upright[row * (columns + 1) + column] = drawn.upright[row * (columns + 1) + column + 1] = 1;
      drawn.level[row * columns + column] = drawn.level[(row + 1) * columns + column] = 1;
    }
  return drawn;
}

const sidesDrawn = ({ columns }: Sides, { upright, level }: Drawn, row: number, column: number): number =>
  upright[row * (columns + 1) + column]! +
  upright[row * (columns + 1) + column + 1]! +
  level[row * columns + column]! +
  level[(row + 1) * columns + column]!;

/**
 * Cells of one colour that hang together are page where they reach the end of what is seen, or hold what is drawn across the
 * grid: writing, the page's end, the desk. All others are stitches.
 */
function unpaged(sides: Sides, drawn: Drawn, seen: Uint8Array, noise: number, lines: Contrast | null): Uint8Array {
  const lined = lines !== null;
  const { columns, rows, spread } = sides;
  const uneven = Math.max(LEAST_UNEVEN, 2 * noise);
  const out = new Uint8Array(columns * rows);
  const known = new Uint8Array(columns * rows);
  const parts: { cells: number[]; isPage: boolean; colour: number[] }[] = [];
  for (let start = 0; start < known.length; start++) {
    if (known[start]) continue;
    const region: number[] = [start];
    known[start] = 1;
    let [ends, broken] = [false, 0];
    const rims = new Set<string>();
    for (const cell of region) {
      const row = Math.floor(cell / columns);
      const column = cell % columns;
      if (row === 0 || column === 0 || row === rows - 1 || column === columns - 1 || seen[cell] !== SEEN) ends = true;
      if (spread[cell]! > uneven) broken++;
      if (seen[cell - 1] === HARDLY_SEEN) rims.add("left");
      if (seen[cell + 1] === HARDLY_SEEN) rims.add("right");
      if (seen[cell - columns] === HARDLY_SEEN) rims.add("top");
      if (seen[cell + columns] === HARDLY_SEEN) rims.add("bottom");
      const visit = (other: number): void => {
        if (known[other]) return;
        known[other] = 1;
        region.push(other);
      };
      if (column > 0 && !drawn.upright[row * (columns + 1) + column]) visit(cell - 1);
      if (column < columns - 1 && !drawn.upright[row * (columns + 1) + column + 1]) visit(cell + 1);
      if (row > 0 && !drawn.level[row * columns + column]) visit(cell - columns);
      if (row < rows - 1 && !drawn.level[(row + 1) * columns + column]) visit(cell + columns);
    }
    const colour = meanOf(sides, region);
    // Signs break cells as well, but where there are lines they part the cells: what they would part and do not is page.
    const light = (colour[0]! + colour[1]! + colour[2]!) / 3;
    const isOpen = lines
      ? Math.abs(lines.slope * light + lines.offset) > SHOWN * noise || broken > BROKEN * region.length
      : broken > BROKEN * region.length;
    // What goes around to three ends of the picture is page, though it end there as if with a stitch.
    const isPage = ends || rims.size >= 3 || (region.length > (lined ? MOST_JOINED : 0) && isOpen);
    parts.push({ cells: region, isPage, colour });
  }
  // Page that a chart, a shadow or the page's own end cuts off is still page.
  const pages = parts.filter(({ cells, isPage }) => isPage && cells.length >= LEAST_PAGE);
  for (const { cells, isPage, colour } of parts) {
    const likePage =
      isPage ||
      ((!lined || cells.length >= LEAST_PIECE) &&
        pages.some((page) => page.colour.every((value, channel) => Math.abs(value - colour[channel]!) < SAME_PAGE)));
    for (const cell of cells) {
      const row = Math.floor(cell / columns);
      if (!likePage || (lined && seen[cell] === SEEN && sidesDrawn(sides, drawn, row, cell % columns) >= 3))
        out[cell] = 1;
    }
  }
  return out;
}

/** The middle colour of some cells, channel by channel. */
function meanOf({ means }: Sides, cells: readonly number[]): number[] {
  return [0, 1, 2].map((channel) => middleOf(cells.map((cell) => means[cell * 3 + channel]!)));
}

/** The box around the largest group of members and, without lines, of groups near it. */
function boxOf(sides: Sides, members: Uint8Array, drawn: Drawn, lined: boolean): Box | null {
  const { columns, rows } = sides;
  const groups = groupsOf(members, columns, rows, lined ? 1 : 2);
  const main = groups.sort((one, other) => other.size - one.size)[0];
  if (!main) return null;
  let { left, right, top, bottom } = main;
  if (!lined)
    for (let grown = true; grown;) {
      grown = false;
      for (const group of groups) {
        if (group.left >= left && group.right <= right && group.top >= top && group.bottom <= bottom) continue;
        const gapX = Math.max(0, left - group.right, group.left - right) - 1;
        const gapY = Math.max(0, top - group.bottom, group.top - bottom) - 1;
        if (gapX > NEAR || gapY > NEAR || group.size < 3 || isStrange(sides, members, group, main)) continue;
        left = Math.min(left, group.left);
        right = Math.max(right, group.right);
        top = Math.min(top, group.top);
        bottom = Math.max(bottom, group.bottom);
        grown = true;
      }
    }
  const isWhole = (cell: number): boolean => sidesDrawn(sides, drawn, Math.floor(cell / columns), cell % columns) === 4;
  let [all, whole] = [0, 0];
  for (let y = top; y <= bottom; y++)
    for (let x = left; x <= right; x++) {
      if (!members[y * columns + x]) continue;
      all++;
      if (isWhole(y * columns + x)) whole++;
    }
  const usual = whole / Math.max(1, all);
  // A rim of few cells is one where lines go wholly around them; a number beside the chart is none.
  const isRim = (cells: readonly number[]): boolean => {
    const inside = cells.filter((cell) => members[cell]).length;
    if (!lined) return inside >= Math.min(cells.length * RIM, 3);
    const wholes = cells.map((cell) => members[cell] === 1 && isWhole(cell));
    const good = wholes.filter((is) => is).length;
    if (good < 0.6 * usual * inside) return false;
    if (good >= RIM * usual * cells.length) return true;
    // Numbers stand one by one, stitches side by side.
    return wholes.some((is, at) => is && (wholes[at + 1] || sides.ring[cells[at]!]! < UNEVEN_RING));
  };
  const column = (x: number): number[] =>
    Array.from({ length: bottom - top + 1 }, (_, index) => (top + index) * columns + x);
  const row = (y: number): number[] =>
    Array.from({ length: right - left + 1 }, (_, index) => y * columns + left + index);
  for (let cut = true; cut && left < right && top < bottom;) {
    cut = true;
    if (!isRim(column(left))) left++;
    else if (!isRim(column(right))) right--;
    else if (!isRim(row(top))) top++;
    else if (!isRim(row(bottom))) bottom--;
    else cut = false;
  }
  return { left, top, columns: right - left + 1, rows: bottom - top + 1 };
}

/** Whether most of a group's cells have colours that the chart has nowhere: a desk, a hand, a picture beside it. */
function isStrange({ columns, means }: Sides, members: Uint8Array, group: Group, main: Group): boolean {
  const cellsOf = ({ left, right, top, bottom }: Group, most: number): number[] => {
    const cells: number[] = [];
    const every = Math.max(1, Math.floor(((right - left + 1) * (bottom - top + 1)) / most));
    for (let at = 0; at < (right - left + 1) * (bottom - top + 1); at += every) {
      const cell = (top + Math.floor(at / (right - left + 1))) * columns + left + (at % (right - left + 1));
      if (members[cell]) cells.push(cell);
    }
    return cells;
  };
  const known = cellsOf(main, 400);
  const asked = cellsOf(group, 60);
  const strange = asked.filter(
    (cell) =>
      !known.some((other) =>
        [0, 1, 2].every((channel) => Math.abs(means[cell * 3 + channel]! - means[other * 3 + channel]!) < SAME_PAGE),
      ),
  );
  return strange.length > STRANGE * asked.length;
}

interface Group {
  left: number;
  right: number;
  top: number;
  bottom: number;
  size: number;
}

function groupsOf(members: Uint8Array, columns: number, rows: number, reach: number): Group[] {
  const seen = new Uint8Array(members.length);
  const groups: Group[] = [];
  for (let start = 0; start < members.length; start++) {
    if (seen[start] || !members[start]) continue;
    const group: Group = { left: columns, right: 0, top: rows, bottom: 0, size: 0 };
    const stack = [start];
    seen[start] = 1;
    while (stack.length > 0) {
      const cell = stack.pop()!;
      const [row, column] = [Math.floor(cell / columns), cell % columns];
      group.size++;
      group.left = Math.min(group.left, column);
      group.right = Math.max(group.right, column);
      group.top = Math.min(group.top, row);
      group.bottom = Math.max(group.bottom, row);
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          if (reach === 1 && dx !== 0 && dy !== 0) continue;
          const [y, x] = [row + dy, column + dx];
          if (y < 0 || x < 0 || y >= rows || x >= columns || seen[y * columns + x] || !members[y * columns + x])
            continue;
          seen[y * columns + x] = 1;
          stack.push(y * columns + x);
        }
    }
    groups.push(group);
  }
  return groups;
}

function trustOf(
  sides: Sides,
  box: Box,
  members: Uint8Array,
  drawn: Drawn,
  linedness: number,
  noise: number,
): Pick<Extent, "trust" | "linedness" | "evenPart" | "members" | "ends"> {
  const { columns, spread } = sides;
  let [cells, whole, even] = [0, 0, 0];
  for (let row = box.top; row < box.top + box.rows; row++)
    for (let column = box.left; column < box.left + box.columns; column++) {
      const cell = row * columns + column;
      if (!members[cell]) continue;
      cells++;
      if (sidesDrawn(sides, drawn, row, column) >= 3) whole++;
      if (spread[cell]! < Math.max(LEAST_UNEVEN, 2 * noise)) even++;
    }
  const evenPart = cells === 0 ? 0 : even / cells;
  const trust = linedness > LINED ? whole / Math.max(1, cells) : evenPart;
  return { trust, linedness, evenPart, members, ends: endsOf(sides, box, members, drawn) };
}

function endsOf(
  { columns }: Sides,
  { left, top, columns: wide, rows: high }: Box,
  members: Uint8Array,
  { upright, level }: Drawn,
): [number, number, number, number] {
  const part = (count: number, cellAt: (index: number) => number, sideAt: (index: number) => number): number => {
    let [all, drawn] = [0, 0];
    for (let index = 0; index < count; index++) {
      if (!members[cellAt(index)]) continue;
      all++;
      drawn += sideAt(index);
    }
    return all === 0 ? 0 : drawn / all;
  };
  const [right, bottom] = [left + wide - 1, top + high - 1];
  const across = (row: number, line: number): number =>
    part(
      wide,
      (index) => row * columns + left + index,
      (index) => level[line * columns + left + index]!,
    );
  const along = (column: number, line: number): number =>
    part(
      high,
      (index) => (top + index) * columns + column,
      (index) => upright[(top + index) * (columns + 1) + line]!,
    );
  return [along(left, left), across(top, top), along(right, right + 1), across(bottom, bottom + 1)];
}

/** Part of the sides between like stitches. */
const LINED = 0.55;
const PERHAPS_LINED = 0.25;
/** Bytes. */
const LEAST_CLEAN_STEP = 3;
const LEAST_STEP = 5;
const CLEAN = 0.5;
/** Times the noise: a contrast that is seen wherever it is. */
const SHOWN = 1.5;
const MOST_NOISE = 40;
/** A side's part is a mean over some samples; three of its own deviations are met by chance hardly ever. */
const NOISE_TIMES = 2;
const LEAST_OF_LINE = 0.4;
const LEAST_OF_STEP = 0.5;
/** Lightnesses that are told apart. */
const SHADES = 16;
const RIM = 0.5;
/** Bytes. */
const UNEVEN_RING = 12;
/** Bytes. */
const LEAST_UNEVEN = 20;
/** Cells that hang together where single sides of a lined chart were not seen. */
const MOST_JOINED = 8;
/** Cells of a page, and of a piece of it. */
const LEAST_PAGE = 12;
const LEAST_PIECE = 6;
/** Bytes; a page is not lit evenly. */
const SAME_PAGE = 20;
/** Part of a region's cells. */
const BROKEN = 0.06;
/** Stitches. */
const NEAR = 3;
/** Part of a group's cells. */
const STRANGE = 0.34;
