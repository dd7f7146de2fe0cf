/** Cells that look alike are one chart colour: the same ground with the same sign on it. */
import type { Point } from "../chartGrid.ts";
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
      if (kind < 0) kind = looks.push(look) - 1;
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
  if (one.length !== other.length || lettering(one, colours) !== lettering(other, colours)) return false;
  const left = other.filter(({ kind }) => kind !== "letter");
  return one.every((mark) => {
    if (mark.kind === "letter") return true;
    const found = left.findIndex((its) => {
      if (mark.kind !== its.kind || mark.text !== its.text) return false;
      if (colours === "matter" && mark.colour !== its.colour) return false;
      const [a, b] = [boxOf(mark, one), boxOf(its, other)];
      const far = [a.left - b.left, a.right - b.right, a.top - b.top, a.bottom - b.bottom];
      return far.every((part) => Math.abs(part) <= near) && sameInk(mark, its);
    });
    if (found >= 0) left.splice(found, 1);
    return found >= 0;
  });
}

/** What is written in a cell, wherever in it; the same letter of two fonts may be two signs. */
const lettering = (marks: readonly Mark[], colours: "matter" | "whatever"): string =>
  marks
    .filter(({ kind }) => kind === "letter")
    .map(({ text, font, colour }) => `${text} ${font} ${colours === "matter" ? colour : ""}`)
    .join("|");

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
  if (one.kind === "bar" || one.kind === "picture" || samePoints(one, other)) return true;
  const [mine, its] = [inkOf(one), inkOf(other)];
  return mine.filter((ink, at) => ink !== its[at]).length <= FEW_INKED;
}

/** Whether two outlines go through the same points of their boxes in the same order. */
function samePoints(one: Mark, other: Mark): boolean {
  if (one.runs.length !== other.runs.length) return false;
  const inBox = ({ box }: Mark, [x, y]: Point): Point => [
    (x - box.left) / (boxWidth(box) || 1),
    (y - box.top) / (boxHeight(box) || 1),
  ];
  return one.runs.every((run, index) => {
    const its = other.runs[index]!;
    if (run.length !== its.length) return false;
    return run.every((point, at) => {
      const [a, b] = [inBox(one, point), inBox(other, its[at]!)];
      return Math.abs(a[0] - b[0]) < NEAR && Math.abs(a[1] - b[1]) < NEAR;
    });
  });
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
