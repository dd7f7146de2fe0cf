/** Bars with words in them that lie right on a chart, as wide as it: headings, and no rows of it. */
import type { PageGlyph } from "../pagePrimitives.ts";
import { glyphMiddle } from "./paint.ts";
import type { Piece } from "./pieces.ts";
import type { Region } from "./regions.ts";
import { wordsOf } from "./words.ts";

/** How many rows of the region are such a bar, above and below. */
export function titleBars(
  { across, down }: Region,
  { pieces, glyphs }: { readonly pieces: readonly Piece[]; readonly glyphs: readonly PageGlyph[] },
): { readonly top: number; readonly bottom: number } {
  const [left, right, high, low] = [across[0]!, across.at(-1)!, down[0]!, down.at(-1)!];
  const [stepX, stepY] = [(right - left) / (across.length - 1), (low - high) / (down.length - 1)];
  const rowsOf = (isAbove: boolean): number => {
    for (const { kind, isBox, box } of pieces) {
      if (kind !== "area" || !isBox) continue;
      if (Math.abs(box.left - left) > NEAR * stepX || Math.abs(box.right - right) > NEAR * stepX) continue;
      const atEnd = isAbove ? Math.abs(box.top - high) : Math.abs(box.bottom - low);
      const rows = Math.round((box.bottom - box.top) / stepY);
      if (atEnd > NEAR * stepY || rows < 1 || rows > MOST_ROWS || rows > (down.length - 1) / 3) continue;
      const inside = glyphs.filter((glyph) => {
        const [x, y] = glyphMiddle(glyph);
        return x > box.left && x < box.right && y > box.top && y < box.bottom;
      });
      if (wordsOf(inside).some(({ text }) => isHeading(text))) return rows;
    }
    return 0;
  };
  return { top: rowsOf(true), bottom: rowsOf(false) };
}

/** Letters enough, and enough different ones, to be no signs of a row. */
const isHeading = (text: string): boolean =>
  /\p{L}{3}/u.test(text) && new Set(text.toLowerCase().match(/\p{L}/gu)).size >= 4;

/** Cells by which the bar's sides may lie off the chart's; rows that it is high. */
const NEAR = 0.3;
const MOST_ROWS = 6;
