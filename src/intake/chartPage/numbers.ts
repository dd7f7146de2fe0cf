/** The numbers beside a chart: which row and which stitch it begins with. */
import type { Region } from "./regions.ts";
import { nearestLine } from "./lattice.ts";
import type { Words } from "./words.ts";

export interface Numbered {
  readonly firstRow?: number;
  readonly firstColumn?: number;
}

/** From the words about it: each number that stands by a row or column votes for what the first would be. */
export function numbersBeside({ across, down }: Region, words: readonly Words[]): Numbered {
  const [left, right, top, bottom] = [across[0]!, across.at(-1)!, down[0]!, down.at(-1)!];
  const pitch = { x: (right - left) / (across.length - 1), y: (bottom - top) / (down.length - 1) };
  const votes = { row: [] as Vote[], column: [] as Vote[] };
  for (const { text, box } of words.flatMap(singly)) {
    if (!/^\d{1,4}$/.test(text)) continue;
    const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    const beside = box.right <= left ? left - box.right : box.left >= right ? box.left - right : Infinity;
    const over =
      box.bottom <= top + pitch.y / 2
        ? top - box.bottom
        : box.top >= bottom - pitch.y / 2
          ? box.top - bottom
          : Infinity;
    if (y > top && y < bottom && beside < FAR * pitch.x)
      votes.row.push({ place: down.length - 1 - cellOf(down, y), number: Number(text) });
    if (x > left && x < right && over < FAR * pitch.y)
      votes.column.push({ place: across.length - 1 - cellOf(across, x), number: Number(text) });
  }
  const [firstRow, firstColumn] = [elected(votes.row), elected(votes.column)];
  return { ...(firstRow === null ? {} : { firstRow }), ...(firstColumn === null ? {} : { firstColumn }) };
}

/** Numbers that stand close together along a row of narrow cells are one by one. */
function singly(words: Words): Pick<Words, "text" | "box">[] {
  if (!/^\d+( \d+)+$/.test(words.text)) return [words];
  let from = 0;
  return words.text.split(" ").map((text) => {
    const glyphs = words.glyphs.slice(from, (from += text.length));
    const [first, last] = [glyphs[0], glyphs.at(-1)];
    return { text, box: first && last ? { ...words.box, left: first.x, right: last.x + last.width } : words.box };
  });
}

/** How many columns and rows of the chart's own grid hold its numbers, on each side. */
export function numberedSides(
  texts: readonly string[],
  columns: number,
  rows: number,
): Record<"left" | "right" | "top" | "bottom", number> {
  const column = (at: number): string[] => Array.from({ length: rows }, (_, row) => texts[row * columns + at]!);
  const row = (at: number): string[] => texts.slice(at * columns, (at + 1) * columns);
  return {
    left: countsUp(column(0)) ? 1 : 0,
    right: columns > 1 && countsUp(column(columns - 1)) ? 1 : 0,
    top: countsUp(row(0)) ? 1 : 0,
    bottom: rows > 1 && countsUp(row(rows - 1)) ? 1 : 0,
  };
}

interface Vote {
  /** From 1 at the bottom, or at the right. */
  readonly place: number;
  readonly number: number;
}

function elected(votes: readonly Vote[]): number | null {
  const counts = new Map<number, number>();
  for (const { place, number } of votes) counts.set(number - place + 1, (counts.get(number - place + 1) ?? 0) + 1);
  const [best] = [...counts].sort((one, other) => other[1] - one[1]);
  return best && best[0] >= 1 && best[1] >= 2 && best[1] > votes.length / 2 ? best[0] : null;
}

const cellOf = (lines: readonly number[], at: number): number => {
  const near = nearestLine(lines, at);
  return at < lines[near]! ? near - 1 : near;
};

/** Whether cells hold numbers that rise or fall with their places, and nothing else. */
function countsUp(texts: readonly string[]): boolean {
  const filled = texts.flatMap((text, at) => (text === "" ? [] : [[at, Number(text)] as const]));
  if (filled.length < 3 || filled.some(([, number]) => !Number.isInteger(number))) return false;
  const [first, second] = [filled[0]!, filled[1]!];
  const way = Math.sign(second[1] - first[1]);
  return way !== 0 && filled.every(([at, number]) => number - first[1] === way * (at - first[0]));
}

/** Cells: how far from the chart its numbers may stand. */
const FAR = 4;
