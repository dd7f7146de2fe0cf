/** The key beside a chart: what its swatches and signs are called. */
import type { PageGlyph, PagePicture } from "../pagePrimitives.ts";
import { isSameSign } from "./kinds.ts";
import { paintCells, type CellLook } from "./paint.ts";
import { boxAround, boxHeight, boxWidth, distanceBetween, type Box, type Piece } from "./pieces.ts";
import type { Words } from "./words.ts";

export interface KeyEntry {
  readonly look: CellLook;
  readonly words: string;
  readonly box: Box;
}

export interface AroundCharts {
  readonly pieces: readonly Piece[];
  readonly glyphs: readonly PageGlyph[];
  readonly pictures: readonly PagePicture[];
  readonly words: readonly Words[];
  /** Width and height of a usual cell of the page's charts. */
  readonly cell: { readonly width: number; readonly height: number };
}

/** Swatches and drawn signs with the words that stand by them. */
export function keyOf({ pieces, glyphs, pictures, words, cell }: AroundCharts): KeyEntry[] {
  // A swatch goes by the size of the cells, or by that of the words beside it where the cells are small.
  const sizes = words
    .filter(({ text }) => /\p{L}{3}/u.test(text))
    .map(({ size }) => size)
    .sort((one, other) => one - other);
  const side = Math.max(Math.min(cell.width, cell.height), sizes[Math.floor(sizes.length / 2)] ?? 0);
  const small = pieces.filter(({ box }) => Math.max(boxWidth(box), boxHeight(box)) <= LARGEST * side);
  const entries: KeyEntry[] = [];
  for (const box of swatchesOf(small, side)) {
    const label = labelOf(box, words);
    if (label === null) continue;
    const frame = paintCells(
      { across: [box.left, box.right], down: [box.top, box.bottom] },
      { pieces, glyphs, pictures },
    );
    entries.push({ look: frame.cells[0]!, words: label, box });
  }
  return entries;
}

/** Words of the form "× = rust": the sign as it is written, and what it is. */
export function keyWordsOf(
  words: readonly Words[],
): { readonly sign: string; readonly words: string; readonly box: Box }[] {
  return words.flatMap(({ text, box }) =>
    text.split(/\s*[;,]\s+(?=\S{1,2}\s*[=:–—]|(?:blank|empty)\b)/i).flatMap((part) => {
      const found =
        /^(?:(blank|empty|no (?:sign|symbol|mark)|white|plain)(?: (?:square|cell|box)s?)?|(\S{1,2}))\s*[=:–—]\s*(\S.*)$/i.exec(
          part,
        );
      return found ? [{ sign: found[2] ?? "", words: found[3]!, box }] : [];
    }),
  );
}

/** Boxes about what may be a swatch or a sign: pieces that lie on or in one another are one. */
function swatchesOf(pieces: readonly Piece[], side: number): Box[] {
  const order = pieces.toSorted((one, other) => one.box.top - other.box.top || one.box.left - other.box.left);
  const groups: Box[][] = [];
  let open: { box: Box; group: Box[] }[] = [];
  for (const { box } of order) {
    open = open.filter((one) => one.box.bottom > box.top - TOUCH * side);
    const own = open.find((one) => overlap(one.box, box, TOUCH * side));
    if (own) {
      own.group.push(box);
      own.box = boxAround([own.box, box]);
    } else {
      const group = [box];
      groups.push(group);
      open.push({ box, group });
    }
  }
  return groups.flatMap((group) => swatchBoxes(group, side));
}

/** A group that is one box and what lies in it; or boxes that stand edge to edge, each a swatch. */
function swatchBoxes(group: readonly Box[], side: number): Box[] {
  const around = boxAround(group);
  const fits = (box: Box): boolean =>
    boxWidth(box) <= LARGEST * side &&
    boxHeight(box) <= 2.5 * side &&
    Math.max(boxWidth(box), boxHeight(box)) >= SMALLEST * side;
  if (fits(around) && !stacked(group, side)) return [around];
  const large = group.filter((box) => fits(box) && boxWidth(box) >= 0.5 * side && boxHeight(box) >= 0.5 * side);
  return large.filter(
    (box, index) =>
      !large.some((other, at) => at !== index && inside(box, other) && (!inside(other, box) || at < index)),
  );
}

/** Whether boxes stand one above or beside another instead of lying on one another. */
function stacked(group: readonly Box[], side: number): boolean {
  const cells = group.filter((box) => boxWidth(box) >= 0.5 * side && boxHeight(box) >= 0.5 * side);
  return cells.some((one) => cells.some((other) => !overlap(one, other, -0.25 * side)));
}

const overlap = (one: Box, other: Box, slack: number): boolean =>
  one.left <= other.right + slack &&
  other.left <= one.right + slack &&
  one.top <= other.bottom + slack &&
  other.top <= one.bottom + slack;

const inside = (inner: Box, outer: Box): boolean =>
  inner.left >= outer.left - 0.01 &&
  inner.right <= outer.right + 0.01 &&
  inner.top >= outer.top - 0.01 &&
  inner.bottom <= outer.bottom + 0.01;

/** The words to the right of a swatch on its line; else those right below it, else those to its left. */
function labelOf(box: Box, words: readonly Words[]): string | null {
  const middle = (box.top + box.bottom) / 2;
  const [width, height] = [boxWidth(box), boxHeight(box)];
  const beside = words.filter((one) => {
    const own = (one.box.top + one.box.bottom) / 2;
    return Math.abs(own - middle) <= Math.max(0.5 * height, 0.45 * one.size);
  });
  const right = beside
    .filter((one) => one.box.left >= box.right - 0.1 * width)
    .sort((one, other) => one.box.left - other.box.left);
  const reached: Words[] = [];
  let edge = box.right;
  for (const one of right) {
    if (one.box.left - edge > REACH * one.size) break;
    reached.push(one);
    edge = one.box.right;
  }
  const named = reached.find(({ text }) => /\p{L}{3}/u.test(text)) ?? reached.find(({ text }) => /\p{L}/u.test(text));
  if (named) {
    // A code such as "MC" or "A" stands before the name.
    const code = reached[0] !== named && /^\S{1,3}$/.test(reached[0]!.text) ? `${reached[0]!.text} ` : "";
    return tidied(code + named.text);
  }
  const below = words.find(
    (one) =>
      one.box.top >= box.bottom - 0.1 * height &&
      one.box.top - box.bottom <= one.size &&
      Math.abs((one.box.left + one.box.right) / 2 - (box.left + box.right) / 2) <= Math.max(width, 2 * one.size) &&
      /\p{L}/u.test(one.text),
  );
  if (below) return tidied(below.text);
  const left = beside.filter(
    (one) => one.box.right <= box.left && box.left - one.box.right <= 2 * one.size && /\p{L}/u.test(one.text),
  );
  return left.length === 1 ? tidied(left[0]!.text) : null;
}

const tidied = (text: string): string => text.replace(/^[=:–—\s]+|[=:–—\s]+$/g, "").slice(0, LONGEST);

/** Whether words say that there is no stitch. In English; German, French, Norwegian, Danish, Swedish, Dutch and Finnish from memory. */
export const saysNoStitch = (words: string): boolean =>
  /\bno[\s-]?st(?:itch(?:es)?|s)?\b|not a stitch|keine masche|pas de maille|ingen maske|inga? maskor?|geen steek|ei silmukkaa/i.test(
    words,
  );

/** The kind that an entry of the key speaks of: by ground and sign, or by one of them where that is enough to tell. */
export function kindOfEntry(entry: CellLook, kinds: readonly CellLook[], page: string): number | null {
  const groundOf = ({ ground }: CellLook): string => ground ?? page;
  const both = kinds.flatMap((look, kind) =>
    groundOf(look) === groundOf(entry) && isSameSign(look, entry, "matter") ? [kind] : [],
  );
  if (both.length > 0) return both[0]!;
  const bare = entry.marks.length === 0 && entry.pattern === null;
  if (!bare) {
    const signs = kinds.flatMap((look, kind) => (hasSign(look) && isSameSign(look, entry, "whatever") ? [kind] : []));
    if (signs.length === 1 && (entry.ground === null || groundOf(entry) === page)) return signs[0]!;
  }
  if (entry.ground === null) return null;
  const grounds = kinds.flatMap((look, kind) => (groundOf(look) === entry.ground ? [kind] : []));
  return grounds.length === 1 && (bare || groundOf(entry) !== page) ? grounds[0]! : null;
}

export const hasSign = ({ marks, pattern }: CellLook): boolean => marks.length > 0 || pattern !== null;

/** Nearest first: where a page has several charts each may have its own key. */
export const nearestFirst = <T extends { readonly box: Box }>(entries: readonly T[], chart: Box): T[] =>
  entries.toSorted((one, other) => distanceBetween(one.box, chart) - distanceBetween(other.box, chart));

/** Cells of a chart that a swatch may measure at most and at least, and by which its parts may stand apart. */
const LARGEST = 4.5;
const SMALLEST = 0.2;
const TOUCH = 0.08;
/** Ems between a swatch and its words, and between words of one entry. */
const REACH = 5;
/** Letters of a name. */
const LONGEST = 60;
