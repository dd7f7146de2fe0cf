/** Charts set in letters alone, as fonts of chart signs do: each letter is a cell, and they stand in even rows. */
import type { PageGlyph } from "../pagePrimitives.ts";
import { stepsOfAll } from "./lattice.ts";
import type { Region } from "./regions.ts";

export function regionsOfLetters(glyphs: readonly PageGlyph[]): Region[] {
  const groups = new Map<string, PageGlyph[]>();
  for (const glyph of glyphs) {
    if (glyph.turned > 2 && glyph.turned < 358) continue;
    const key = `${glyph.font} ${glyph.size.toFixed(2)}`;
    const group = groups.get(key);
    if (group) group.push(glyph);
    else groups.set(key, [glyph]);
  }
  return [...groups.values()].flatMap((group) => blocks(group)).flatMap((block) => regionOfBlock(block) ?? []);
}

/** Lines of letters apart by more than two of their own height belong to different charts. */
function blocks(glyphs: readonly PageGlyph[]): PageGlyph[][] {
  const order = glyphs.toSorted((one, other) => one.y - other.y);
  const found: PageGlyph[][] = [];
  for (const glyph of order) {
    const open = found.at(-1);
    if (open && glyph.y - open.at(-1)!.y <= 2.2 * glyph.size) open.push(glyph);
    else found.push([glyph]);
  }
  return found;
}

function regionOfBlock(glyphs: readonly PageGlyph[]): Region | null {
  if (glyphs.length < LEAST_LETTERS || new Set(glyphs.map(({ text }) => text)).size > MOST_SIGNS) return null;
  const across = stepsAlong(glyphs.map(({ x }) => x));
  const down = stepsAlong(glyphs.map(({ y }) => y));
  if (!across || !down || across.share < EXACT || down.share < EXACT) return null;
  const shape = across.pitch / down.pitch;
  if (shape < 0.4 || shape > 2.5 || glyphs.length < FULL * across.lines.length * down.lines.length) return null;
  // A letter begins at its cell's left side and stands a little above its foot.
  const foot = FOOT * down.pitch;
  return {
    across: [...across.lines, across.lines.at(-1)! + across.pitch],
    down: [down.lines[0]! - down.pitch + foot, ...down.lines.map((y) => y + foot)],
  };
}

function stepsAlong(places: readonly number[]) {
  const counts = new Map<number, number>();
  for (const at of places) counts.set(Math.round(at * 100) / 100, (counts.get(Math.round(at * 100) / 100) ?? 0) + 1);
  const edges = [...counts].map(([at, length]) => ({ at, length, chain: 0 })).sort((one, other) => one.at - other.at);
  return stepsOfAll(edges);
}

const LEAST_LETTERS = 24;
const MOST_SIGNS = 24;
/** Part of the letters that stand in step, and of the places that have one: text has gaps between its words. */
const EXACT = 0.997;
const FULL = 0.85;
/** Part of a line's height by which letters stand above its foot. */
const FOOT = 0.22;
