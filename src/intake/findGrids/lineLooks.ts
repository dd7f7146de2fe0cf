/** What a chart's own lines look like in a picture, and so which sides of its stitches are drawn. */
import type { Sides } from "./sides.ts";
import { HARDLY_SEEN } from "./straight.ts";

/** Lines have the colour of what is beside them. */
export const UNKNOWN = 2;

export interface Drawn {
  /** (columns + 1) to the row: 1 where something is drawn, 0 where nothing is, `UNKNOWN` where a line could not be seen. */
  readonly upright: Uint8Array;
  /** Columns to the line, rows + 1 lines. */
  readonly level: Uint8Array;
}

export interface Contrast {
  /** Part of the sides between like stitches that is drawn. */
  readonly linedness: number;
  /** How far the lines usually are from what is beside them, in bytes. */
  readonly line: number;
  /** How much darker than what is beside it a line is, in bytes: so many times its lightness, and so much more. */
  readonly slope: number;
  readonly offset: number;
}

/** Of the cells for which `isIn` holds. */
export function contrastOf(sides: Sides, isIn: (row: number, column: number) => boolean, noise: number): Contrast {
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
  for (let row = 0; row < sides.rows; row++)
    for (let column = 0; column < columns; column++) {
      if (!isIn(row, column)) continue;
      const upright = row * (columns + 1) + column;
      const level = row * columns + column;
      if (column > 0 && isIn(row, column - 1))
        look(uprightLine[upright]!, uprightStep[upright]!, uprightLight[upright]!, uprightBeside[upright]!);
      if (row > 0 && isIn(row - 1, column))
        look(levelLine[level]!, levelStep[level]!, levelLight[level]!, levelBeside[level]!);
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
export function drawnSides(sides: Sides, seen: Uint8Array, noise: number, lines: Contrast | null): Drawn {
  const { columns, rows } = sides;
  const { uprightLine, uprightStep, uprightLight, uprightBeside, levelLine, levelStep, levelLight, levelBeside } =
    sides;
  const leastStep = lines ? Math.max(noise, LEAST_OF_STEP * lines.line) : noise;
  const isDrawn = (line: number, step: number, light: number, beside: number): 0 | 1 | 2 => {
    if (step > leastStep) return 1;
    if (!lines) return line > noise ? 1 : 0;
    const expected = lines.slope * beside + lines.offset;
    if (Math.abs(expected) <= noise) return UNKNOWN;
    return line > noise && expected > 0 === beside > light && line > LEAST_OF_LINE * Math.abs(expected) ? 1 : 0;
  };
  const drawn: Drawn = {
    upright: Uint8Array.from(uprightLine, (line, at) =>
      isDrawn(line, uprightStep[at]!, uprightLight[at]!, uprightBeside[at]!),
    ),
    level: Uint8Array.from(levelLine, (line, at) => isDrawn(line, levelStep[at]!, levelLight[at]!, levelBeside[at]!)),
  };
  // Where the picture ends at a side, nobody sees whether a line was there.
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      if (seen[row * columns + column] !== HARDLY_SEEN) continue;
      drawn.upright[row * (columns + 1) + column] = drawn.upright[row * (columns + 1) + column + 1] = UNKNOWN;
      drawn.level[row * columns + column] = drawn.level[(row + 1) * columns + column] = UNKNOWN;
    }
  return drawn;
}

/** Ours, on painted charts: parts of what the lines usually are. */
const LEAST_OF_LINE = 0.4;
const LEAST_OF_STEP = 0.5;
/** Lightnesses that are told apart. */
const SHADES = 16;
