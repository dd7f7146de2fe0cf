/** Rows in words, numbered or not, laid out as a chart: the width found, repeats filled, each row turned as it is seen. */
import type { Problem, Severity } from "../../base/problem.ts";
import type { RowLabel } from "./rowLabel.ts";
import type { RowWords, Run } from "./rowWords.ts";
import { NO_CELL, type TokenChart, type TokenRow } from "./tokenChart.ts";

/** One line of words, read. */
export interface WordLine {
  line: number;
  /** Null where rows have no numbers. */
  label: RowLabel | null;
  /**
   * The row's words as "rep from * 3 times" may mean: three times more, or three in all; the same where nothing is open.
   * None where the words could not be read, which has been told.
   */
  readings: readonly RowWords[];
  /** "as row 3", "rep rows 1–6": the rows that it is like, in order. */
  like: readonly number[] | null;
  /** Its stitches stand as they are seen, from left to right, and not in the order of working. */
  seen: boolean;
}

/** Rows that look as they were knitted, or as they are seen. */
export interface WordBlock {
  name: string | null;
  lines: WordLine[];
  /** Stitches to a row as the text says elsewhere ("Cast on 24"), null where it does not. */
  width: number | null;
}

interface Placed {
  number: number;
  source: WordLine;
  side: "RS" | "WS" | null;
}

/** The chart, and what in it is a choice between readings. Rows of `block` are all numbered, or none is. */
export function chartOfWords(block: WordBlock, problems: Problem[]): TokenChart | null {
  const tell = (line: number, where: string, expected: string, got: string, severity: Severity): void => {
    problems.push({ where, expected, got, severity, ...(line > 0 ? { line } : {}) });
  };
  const numbered = block.lines.some(({ label }) => label !== null);
  const stitched = block.lines.some(({ readings }) => readings.some((words) => words.purled !== null));
  const { width, settled } = widthOf(block);
  const placed = numbered ? byNumber(block.lines, tell) : inOrder(block.lines, stitched);
  if (placed.size === 0) return null;
  const numbers = [...placed.keys()];
  const [first, last] = [Math.min(...numbers), Math.max(...numbers)];
  if ((last - first + 1) * width > MOST_CELLS) {
    tell(
      block.lines[0]!.line,
      "the rows",
      `at most ${MOST_CELLS} stitches in all`,
      `${last - first + 1} rows of ${width}`,
      "fault",
    );
    return null;
  }
  const ways = waysOf(placed);
  const uncertain: [number, number][] = [];
  const rows: TokenRow[] = [];
  let [turned, seen] = [false, false];
  for (let number = last; number >= first; number--) {
    const row = placed.get(number);
    const chartRow = number - first + 1;
    if (!row || row.source.readings.length === 0) {
      if (!row) tell(0, `row ${number}`, "its stitches", "nothing; it is left without stitches", "doubt");
      for (let column = 1; column <= width; column++) uncertain.push([chartRow, column]);
      rows.push({ cells: Array<string>(width).fill(NO_CELL), line: 0 });
      continue;
    }
    const { worked, said } = filled(row.source, width, settled);
    if (said) tell(row.source.line, `row ${number}`, said.expected, said.got, said.severity);
    const way = ways.get(number)!;
    const cells = [...worked, ...Array<string>(Math.max(0, width - worked.length)).fill(NO_CELL)].slice(0, width);
    if (said && said.severity !== "note" && worked.length > 0)
      for (let step = Math.min(worked.length, width - 1); step < width; step++)
        uncertain.push([chartRow, way === "left-to-right" ? width - step : step + 1]);
    if (row.source.seen && row.source.label && cells.join() !== cells.toReversed().join()) seen = true;
    if (way === null && cells.some((cell, index) => cell !== cells[width - 1 - index])) turned = true;
    const leftToRight = way === "left-to-right";
    rows.push({ cells: leftToRight ? cells : cells.toReversed(), line: row.source.line });
  }
  const top = block.lines[0]!.line;
  if (turned) {
    const got = "neither, so every row is read from right to left, as rounds are worked";
    tell(top, "the rows", '"RS" and "WS", or "Rnd", which say in which direction they are read', got, "note");
  }
  if (seen) {
    const got = "neither, so signs stand as they are seen, from left to right";
    tell(top, "the rows", "stitches in words, or a grid", got, "note");
  }
  if (!numbered && rows.length > 1 && !isSame(rows, rows.toReversed())) {
    const got = stitched
      ? "none, so the first line is taken for row 1, the bottom"
      : "none, so the first line is the top";
    tell(top, "the rows", "numbers", got, "note");
  }
  const shaped = [...new Set(block.lines.flatMap(({ readings }) => readings[0]?.notes ?? []))];
  if (shaped.length > 0)
    tell(top, "the rows", "stitches that do not shape", `${shaped.join(", ")}, read as one stitch each`, "note");
  return { name: block.name, rows, firstRow: first, uncertain };
}

type Tell = (line: number, where: string, expected: string, got: string, severity: Severity) => void;

const isSame = (one: readonly TokenRow[], other: readonly TokenRow[]): boolean =>
  one.every(({ cells }, index) => cells.join("\n") === other[index]!.cells.join("\n"));

function inOrder(lines: readonly WordLine[], stitched: boolean): Map<number, Placed> {
  const upwards = stitched ? lines : lines.toReversed();
  return new Map(
    upwards.map((source, index) => [index + 1, { number: index + 1, source, side: null } satisfies Placed]),
  );
}

function byNumber(lines: readonly WordLine[], tell: Tell): Map<number, Placed> {
  const placed = new Map<number, Placed>();
  const others: WordLine[] = [];
  const place = (number: number, source: WordLine, side: Placed["side"]): void => {
    const before = placed.get(number);
    if (before) {
      const got = `a second one; that of line ${before.source.line} is kept`;
      tell(source.line, `row ${number}`, "one row of that number", got, "doubt");
    } else placed.set(number, { number, source, side });
  };
  // Rows that are like others come after those, wherever they stand.
  for (const source of lines) {
    if (!source.label) {
      tell(source.line, `line ${source.line}`, "a row with its number", "one without, left out", "doubt");
      continue;
    }
    if (source.label.others) others.push(source);
    if (!source.like) for (const number of source.label.numbers) place(number, source, source.label.side);
  }
  const last = Math.max(0, ...lines.flatMap(({ label }) => label?.numbers ?? []));
  for (const source of others) {
    const start = source.label!.numbers[0]!;
    for (let number = start + 2; number <= last; number += 2)
      if (!placed.has(number)) place(number, source, source.label!.side);
  }
  for (const source of lines) {
    if (!source.like || !source.label) continue;
    for (const [index, number] of source.label.numbers.entries()) {
      const model = placed.get(source.like[index % source.like.length]!);
      if (model) place(number, model.source, source.label.side ?? null);
      else tell(source.line, `row ${number}`, "a row that it is like", "none of that number", "doubt");
    }
  }
  return placed;
}

/** In which direction each row's words run; null where nothing tells. */
function waysOf(placed: ReadonlyMap<number, Placed>): Map<number, "right-to-left" | "left-to-right" | null> {
  const rows = [...placed.values()];
  const sided = rows.filter(({ side }) => side !== null);
  const wrong = sided.find(({ side }) => side === "WS") ?? null;
  const purled = rows.filter(({ source }) => source.readings[0]?.purled === true);
  // Purled rows among knitted ones are wrong-side rows, and every second row is one.
  const parity =
    wrong !== null
      ? wrong.number % 2
      : sided.length > 0
        ? (sided[0]!.number + 1) % 2
        : purled.length > 0 && rows.some(({ source }) => source.readings[0]?.purled === false)
          ? purled[0]!.number % 2
          : null;
  return new Map(
    rows.map(({ number, source, side }) => {
      const label = source.label;
      if (source.seen) return [number, "left-to-right"];
      if (label?.way) return [number, label.way];
      if (label?.kind === "round") return [number, "right-to-left"];
      if (side !== null) return [number, side === "WS" ? "left-to-right" : "right-to-left"];
      if (parity !== null) return [number, number % 2 === parity ? "left-to-right" : "right-to-left"];
      return [number, null];
    }),
  );
}

const lengthOf = (runs: readonly Run[]): number => runs.reduce((sum, { stitches }) => sum + stitches, 0);

/** The width that most rows say; where only repeats do, the least that all of them fill. Not settled where only open times say it. */
function widthOf({ lines, width }: WordBlock): { width: number; settled: boolean } {
  if (width !== null && lines.some(({ readings }) => readings.some((words) => fits(words, width))))
    return { width, settled: true };
  const said = new Map<number, number>();
  const unclear = new Map<number, number>();
  const open: RowWords[] = [];
  for (const { readings } of lines) {
    const [words, other] = readings;
    if (!words) continue;
    const length = words.stated ?? (words.repeat ? null : lengthOf(words.before));
    if (length === null) open.push(words);
    else if (other && words.stated === null && lengthOf(other.before) !== length) unclear.set(length, 1);
    else if (length > 0) said.set(length, (said.get(length) ?? 0) + 1);
  }
  const settled = said.size > 0 || open.length > 0;
  if (!settled) for (const [length, rows] of unclear) said.set(length, rows);
  const common = [...said].sort((one, other) => other[1] - one[1] || other[0] - one[0])[0];
  if (common) return { width: common[0], settled };
  const least = Math.max(
    1,
    ...open.map((words) => lengthOf(words.before) + lengthOf(words.repeat!) + lengthOf(words.after)),
  );
  let [best, most] = [least, -1];
  for (let tried = least; tried <= Math.max(least, WIDEST); tried++) {
    const many = open.filter((words) => fits(words, tried)).length;
    if (many > most) [best, most] = [tried, many];
    if (most === open.length) break;
  }
  return { width: best, settled };
}

function fits({ before, repeat, after }: RowWords, width: number): boolean {
  const fixed = lengthOf(before) + lengthOf(after);
  if (!repeat) return fixed === width || fixed === 0;
  return width > fixed && (width - fixed) % lengthOf(repeat) === 0;
}

const laidOut = (runs: readonly Run[]): string[] =>
  runs.flatMap(({ colour, stitches }) => Array<string>(stitches).fill(colour));

/** The row's stitches in the order of working, at most `width`, and what is wrong with them. */
function filled(
  { readings }: WordLine,
  width: number,
  settled: boolean,
): { worked: string[]; said: { expected: string; got: string; severity: Severity } | null } {
  const words = readings.find((reading) => fits(reading, width)) ?? readings[0]!;
  const { before, repeat, after, last, stated } = words;
  const fixed = lengthOf(before) + lengthOf(after);
  const open = readings.length > 1 && lengthOf(readings[0]!.before) !== lengthOf(readings[1]!.before);
  if (last !== null && lengthOf(after) !== last && repeat) {
    const got = `${lengthOf(after)} for them`;
    return {
      worked: stretched(words, width),
      said: { expected: `${counted(last)} after the repeat`, got, severity: "doubt" },
    };
  }
  if (!fits(words, width)) {
    const expected = stated === null || stated === fixed ? counted(width) : `${counted(stated)}, as it says`;
    const got = !repeat
      ? `${fixed}, ${fixed < width ? "filled up with no stitch where it ends" : "cut where it ends"}`
      : `repeats of ${lengthOf(repeat)}${fixed > 0 ? ` beside ${counted(fixed)}` : ""}, which do not come out`;
    return { worked: stretched(words, width), said: { expected, got, severity: "doubt" } };
  }
  if (open && !settled) {
    const said = {
      expected: '"more" or "in all" beside the times',
      got: "neither; read as so many times more",
      severity: "doubt" as const,
    };
    return { worked: stretched(words, width), said };
  }
  return { worked: stretched(words, width), said: null };
}

function stretched({ before, repeat, after }: RowWords, width: number): string[] {
  if (!repeat) return laidOut(before).slice(0, width);
  const room = Math.max(0, width - lengthOf(before) - lengthOf(after));
  const whole = Math.max(1, Math.floor(room / lengthOf(repeat)));
  const middle = Array.from({ length: whole }, () => laidOut(repeat)).flat();
  return [...laidOut(before), ...middle, ...laidOut(after)].slice(0, width);
}

const counted = (stitches: number): string => `${stitches} ${stitches === 1 ? "stitch" : "stitches"}`;

/** Stitches of a chart in words; the largest charts have 160,000. Our choice. */
const MOST_CELLS = 1_000_000;
/** The widest chart that repeats are filled to where no row says its width. Our choice, as wide as charts come. */
const WIDEST = 400;
