/** Letters of a page put together to lines of words. */
import type { PageGlyph } from "../pagePrimitives.ts";
import type { Box } from "./pieces.ts";

export interface Words {
  readonly text: string;
  readonly box: Box;
  readonly size: number;
  /** Its letters, from the left. */
  readonly glyphs: readonly PageGlyph[];
}

/** Stretches of words without a wide gap, from the top down and from the left; only upright text. */
export function wordsOf(glyphs: readonly PageGlyph[]): Words[] {
  const upright = glyphs.filter(({ turned }) => turned < 2 || turned > 358);
  const order = upright.toSorted((one, other) => one.y - other.y || one.x - other.x);
  const lines: PageGlyph[][] = [];
  for (const glyph of order) {
    const line = lines.at(-1);
    if (line && glyph.y - line[0]!.y <= LINE * Math.min(glyph.size, line[0]!.size)) line.push(glyph);
    else lines.push([glyph]);
  }
  return lines.flatMap((line) => stretches(line.toSorted((one, other) => one.x - other.x)));
}

function stretches(line: readonly PageGlyph[]): Words[] {
  const found: Words[] = [];
  let from = 0;
  for (let at = 1; at <= line.length; at++) {
    const before = line[at - 1]!;
    const next = line[at];
    const gap = next ? next.x - before.x - before.width : Infinity;
    if (gap <= WIDE * Math.max(before.size, next?.size ?? 0)) continue;
    found.push(words(line.slice(from, at)));
    from = at;
  }
  return found;
}

function words(glyphs: readonly PageGlyph[]): Words {
  let text = "";
  for (const [index, glyph] of glyphs.entries()) {
    const before = glyphs[index - 1];
    // The same letter at the same place is a heavy one drawn twice.
    if (before && before.text === glyph.text && Math.abs(before.x - glyph.x) < 0.1 * glyph.size) continue;
    if (before && glyph.x - before.x - before.width > SPACE * glyph.size) text += " ";
    text += glyph.text;
  }
  const size = Math.max(...glyphs.map((glyph) => glyph.size));
  const [first, last] = [glyphs[0]!, glyphs.at(-1)!];
  const box: Box = {
    left: first.x,
    right: last.x + last.width,
    top: first.y - 0.75 * size,
    bottom: first.y + 0.2 * size,
  };
  return { text: text.normalize("NFKC").trim(), box, size, glyphs };
}

/** Ems: letters of one line stand so nearly at one height; wider than a space; wider than between words. */
const LINE = 0.35;
const SPACE = 0.12;
const WIDE = 1.1;
