/** Cells that look alike are one chart colour: the same ground with the same sign on it. */
import { boxAround, boxHeight, boxWidth, type Box } from "./pieces.ts";
import { isOnMark } from "./signPicture.ts";
import { SAMPLES, type CellLook, type Mark } from "./paint.ts";

export interface Kinds {
  /** One of each kind, in the order met. */
  readonly looks: readonly CellLook[];
  /** The kind of every cell. */
  readonly of: Int32Array;
}

export function kindsOf(cells: readonly CellLook[]): Kinds {
  const looks: CellLook[] = [];
  const known = new Map<string, number>();
  const of = new Int32Array(cells.length);
  for (const [cell, look] of cells.entries()) {
    const key = keyOf(look);
    let kind = known.get(key);
    if (kind === undefined) {
      kind = looks.length > MOST_COMPARED ? -1 : looks.findIndex((other) => isAlike(other, look));
      if (kind < 0) kind = looks.push({ ...look, marks: inOrder(look.marks) }) - 1;
      known.set(key, kind);
    }
    of[cell] = kind;
  }
  return { looks, of };
}

/** Whether two looks are one, but for what rounding does to coordinates. */
function isAlike(one: CellLook, other: CellLook): boolean {
  if (one.ground !== other.ground || !samePattern(one.pattern, other.pattern, FEW_POINTS)) return false;
  return sameMarks(one.marks, other.marks, (mark) => mark.box, NEAR);
}

/** Whether a key's picture of a sign is this sign, whatever its size; grounds are compared by the caller. */
export function isSameSign(one: CellLook, other: CellLook, colours: "matter" | "whatever"): boolean {
  if (!samePattern(one.pattern, other.pattern, 2 * FEW_POINTS)) return false;
  return sameMarks(one.marks, other.marks, inOwnBox, 2 * NEAR, colours);
}

const samePattern = (one: CellLook["pattern"], other: CellLook["pattern"], most: number): boolean =>
  one === other || (one !== null && other !== null && one.filter((colour, at) => colour !== other[at]).length <= most);

function sameMarks(
  one: readonly Mark[],
  other: readonly Mark[],
  boxOf: (mark: Mark, marks: readonly Mark[]) => Box,
  near: number,
  colours: "matter" | "whatever" = "matter",
): boolean {
  if (one.length !== other.length) return false;
  const [mine, its] = [inOrder(one), inOrder(other)];
  return mine.every((mark, index) => {
    const its1 = its[index]!;
    if (mark.kind !== its1.kind || mark.text !== its1.text || mark.font !== its1.font) return false;
    if (colours === "matter" && mark.colour !== its1.colour) return false;
    // A letter is what it says, wherever in the cell it stands.
    if (mark.kind === "letter") return true;
    const [a, b] = [boxOf(mark, one), boxOf(its1, other)];
    const far = [a.left - b.left, a.right - b.right, a.top - b.top, a.bottom - b.bottom];
    return far.every((part) => Math.abs(part) <= near) && sameInk(mark, its1);
  });
}

/** In parts of the longer side of the box about the whole sign. */
function inOwnBox({ box }: Mark, marks: readonly Mark[]): Box {
  const around = boxAround(marks.map((mark) => mark.box));
  const side = Math.max(boxWidth(around), boxHeight(around)) || 1;
  return {
    left: (box.left - around.left) / side,
    right: (box.right - around.left) / side,
    top: (box.top - around.top) / side,
    bottom: (box.bottom - around.top) / side,
  };
}

/** Whether two shapes have their ink in the same places of their own boxes: a cross and a ring of one size have not. */
function sameInk(one: Mark, other: Mark): boolean {
  if (one.kind === "bar" || one.kind === "picture") return true;
  const [mine, its] = [inkOf(one), inkOf(other)];
  return mine.filter((ink, at) => ink !== its[at]).length <= FEW_INKED;
}

const inks = new WeakMap<Mark, readonly boolean[]>();

function inkOf(mark: Mark): readonly boolean[] {
  const known = inks.get(mark);
  if (known) return known;
  const { left, top } = mark.box;
  const [width, height] = [boxWidth(mark.box), boxHeight(mark.box)];
  const ink = Array.from({ length: INKED * INKED }, (_, at) => {
    // A little out of the middle, so that the slants of even shapes do not run through the points.
    const [x, y] = [((at % INKED) + 0.53) / INKED, (Math.floor(at / INKED) + 0.41) / INKED];
    return isOnMark(mark, [left + x * width, top + y * height], (0.7 / INKED) * Math.max(width, height));
  });
  inks.set(mark, ink);
  return ink;
}

/** By what they are and where, so that it does not matter which was painted first. */
const inOrder = (marks: readonly Mark[]): Mark[] =>
  marks.length < 2 ? [...marks] : marks.toSorted((one, other) => compare(rank(one), rank(other)));

const rank = ({ kind, text, colour, box, order }: Mark): readonly (string | number)[] => [
  kind,
  kind === "letter" ? order : 0,
  text,
  colour,
  coarse(box.left + box.right),
  coarse(box.top + box.bottom),
  coarse(boxWidth(box)),
];

const coarse = (value: number): number => Math.round(value * 3);

function compare(one: readonly (string | number)[], other: readonly (string | number)[]): number {
  for (const [at, part] of one.entries()) {
    if (part < other[at]!) return -1;
    if (part > other[at]!) return 1;
  }
  return 0;
}

function keyOf({ ground, pattern, marks }: CellLook): string {
  const fine = (value: number): number => Math.round(value * 100);
  const parts = marks.map(({ kind, text, font, colour, box, runs }) =>
    kind === "letter"
      ? `${kind}${text}${font}${colour}`
      : `${kind}${text}${colour}${fine(box.left)},${fine(box.right)},${fine(box.top)},${fine(box.bottom)},${runs[0]!.length}`,
  );
  return `${ground}|${pattern?.join() ?? ""}|${parts.join("|")}`;
}

/** Parts of a cell (or of the sign's own size), and points of `SAMPLES` squared, by which two of one kind may differ. */
const NEAR = 0.1;
const FEW_POINTS = Math.floor(SAMPLES / 2);
/** Points to a side at which the ink of a shape is looked for, and how many of them may differ: rounding moves an edge over some. */
const INKED = 14;
const FEW_INKED = 10;
/** Kinds from which on this is no chart and need not be looked into closely. */
const MOST_COMPARED = 300;
