/** Where the letters of an SVG text stand, as nearly as can be told without its font. */
import type { Point } from "../chartGrid.ts";
import { moved, scaleOf, type Affine } from "../page/affine.ts";
import type { PageGlyph } from "../pagePrimitives.ts";
import { cssColour } from "./colour.ts";
import { lengthOf } from "./lengths.ts";
import { styleOf, type Style } from "./style.ts";
import type { SvgElement } from "./tree.ts";

type Rules = Parameters<typeof styleOf>[2];

interface Letter {
  readonly text: string;
  readonly style: Style;
  readonly size: number;
  readonly width: number;
  /** Where it is put, in user units; absent where it follows the one before. */
  readonly x?: number;
  readonly y?: number;
  readonly dx: number;
  readonly dy: number;
}

export function glyphsOfText(element: SvgElement, parent: Style, rules: Rules, at: Affine): PageGlyph[] {
  const letters = lettersOf(element, parent, rules);
  const glyphs: PageGlyph[] = [];
  let [x, y] = [0, 0];
  for (let from = 0; from < letters.length;) {
    let to = from + 1;
    while (to < letters.length && letters[to]!.x === undefined) to++;
    const chunk = letters.slice(from, to);
    const width = chunk.reduce((sum, letter) => sum + letter.width + letter.dx, 0);
    const anchor = chunk[0]!.style["text-anchor"];
    x = (chunk[0]!.x ?? x) - (anchor === "middle" ? width / 2 : anchor === "end" ? width : 0);
    y = chunk[0]!.y ?? y;
    for (const letter of chunk) {
      x += letter.dx;
      y = (letter.y ?? y) + letter.dy;
      const glyph = glyphOf(letter, [x, y], at);
      if (glyph) glyphs.push(glyph);
      x += letter.width;
    }
    from = to;
  }
  return glyphs;
}

function glyphOf({ text, style, size, width }: Letter, place: Point, at: Affine): PageGlyph | null {
  const colour = style.fill === "none" ? null : (cssColour(style.fill ?? "black")?.hex ?? "#000000");
  if (colour === null || text.trim() === "" || style.visibility === "hidden") return null;
  const baseline = style["dominant-baseline"];
  const down = baseline === "middle" || baseline === "central" ? 0.32 : baseline === "hanging" ? 0.72 : 0;
  const [x, y] = moved(at, [place[0], place[1] + down * size]);
  const scale = scaleOf(at);
  if (![x, y, scale].every(Number.isFinite)) return null;
  const turned = ((Math.atan2(at[1], at[0]) * 180) / Math.PI + 360) % 360;
  const font = (style["font-family"] ?? "").split(",")[0]!.replace(/["']/g, "").trim();
  return { text, x, y, size: size * scale, width: width * Math.hypot(at[0], at[1]), colour, font, turned };
}

function lettersOf(element: SvgElement, parent: Style, rules: Rules): Letter[] {
  const style = styleOf(element, parent, rules);
  if (style.display === "none") return [];
  const size = sizeOf(style["font-size"]);
  const lists = (["x", "y", "dx", "dy"] as const).map((name) =>
    (element.attributes[name] ?? "")
      .split(/[\s,]+/)
      .filter(Boolean)
      .map((part) => lengthOf(part, 0)),
  ) as [number[], number[], number[], number[]];
  const letters: Letter[] = [];
  for (const child of element.children) {
    if (typeof child !== "string") {
      if (child.name === "tspan" || child.name === "a") letters.push(...lettersOf(child, style, rules));
      continue;
    }
    const words = element.attributes.space === "preserve" ? child : child.replace(/\s+/g, " ");
    for (const text of words) letters.push({ text, style, size, width: widthOf(text) * size, dx: 0, dy: 0 });
  }
  const trimmed = element.name === "text" ? trimmedOf(letters) : letters;
  return trimmed.map((letter, index) => {
    const [x, y, dx, dy] = lists.map((list) => list[index]);
    return {
      ...letter,
      ...(x === undefined ? {} : { x: letter.x ?? x }),
      ...(y === undefined ? {} : { y: letter.y ?? y }),
      dx: letter.dx + (dx ?? 0),
      dy: letter.dy + (dy ?? 0),
    };
  });
}

function trimmedOf(letters: readonly Letter[]): Letter[] {
  const isWord = (letter: Letter): boolean => letter.text.trim() !== "";
  const [first, last] = [letters.findIndex(isWord), letters.findLastIndex(isWord)];
  return first < 0 ? [] : letters.slice(first, last + 1);
}

const sizeOf = (text: string | undefined): number => {
  const size = lengthOf(text, 16, 16);
  return size > 0 ? size : 16;
};

/** Ems. By kinds of letters of common text faces: an estimate, within about a fifth. */
function widthOf(letter: string): number {
  if (/[iljtfrI.,:;|!'()[\]\s]/.test(letter)) return 0.29;
  if (/[mwMW@%]/.test(letter)) return 0.86;
  return /[A-Z&]/.test(letter) ? 0.68 : 0.55;
}
