/** Rows typed as they are seen: a sign for each stitch, close together or divided, perhaps framed, numbered and with a heading. */
import type { Problem } from "../../base/problem.ts";
import { BLANK, type Key } from "./keyLines.ts";
import { isNumbering, LEAST_NUMBERS, meaningOfBlanks, withoutEdges } from "./tableCells.ts";
import { isWordy, leftOut, NO_CELL, titleOf, type TextLine, type TokenChart, type TokenRow } from "./tokenChart.ts";

/** A block of lines that stand together. Without rows it is a heading, which the next block may take over. */
export function chartOfGrid(
  written: readonly TextLine[],
  heading: string | null,
  key: Key,
  problems: Problem[],
): TokenChart {
  const { name, lines } = takeHeading(written);
  const framed = unquoted(withoutFrame(lines));
  const texts = framed.map(({ text }) => text);
  const table = tableOf(texts);
  const { bare, numbers: beside, kept } = table ? { bare: texts, numbers: null, kept: null } : withoutNumbers(texts);
  const split = table ? null : cellsOf(bare, texts);
  const edges = table ? withoutEdges(table) : null;
  const cells: (string[] | null)[] = edges ? acceptable(edges.cells) : split!.cells;
  const numbers = edges ? edges.numbers : beside;
  const lineAt = (index: number): number => framed[edges ? edges.kept[index]! : kept![index]!]!.line;
  const read = cells.filter((row) => row !== null);
  const blanks = meaningOfBlanks(read);
  const rows: TokenRow[] = [];
  for (const [index, row] of cells.entries()) {
    const line = lineAt(index);
    if (!row) {
      problems.push(leftOut(framed.find((one) => one.line === line)!));
      continue;
    }
    const none = key.has("-") ? NO_CELL : "-";
    rows.push({
      line,
      cells: row.map((cell) => (cell === "" ? (blanks === BLANK ? BLANK : NO_CELL) : cell === none ? NO_CELL : cell)),
    });
  }
  const whole = rows.length === cells.length ? numbers : null;
  const upwards = whole && isUpwards(whole) && !edges?.spreadsheet;
  const title = name ?? heading;
  if (rows.length > 0) tellReadings(title, rows[0]!.line, { upwards: upwards === true, blanks }, problems);
  const firstRow = whole && !edges?.spreadsheet ? lowest(whole) : 1;
  return { name: title, rows: upwards ? rows.toReversed() : rows, firstRow, uncertain: [] };
}

function tellReadings(
  name: string | null,
  line: number,
  { upwards, blanks }: { upwards: boolean; blanks: ReturnType<typeof meaningOfBlanks> },
  problems: Problem[],
): void {
  const where = name === null ? "the chart" : `chart "${name}"`;
  if (upwards) {
    const got = "row numbers that begin at the top; the chart is turned so that its first row is at the bottom";
    problems.push({ where, expected: "the first row at the bottom", got, severity: "note", line });
  }
  if (blanks !== null) {
    const got = blanks === BLANK ? "empty cells, read as a ground left blank" : "empty cells, read as no stitch";
    problems.push({ where, expected: "a sign in every cell", got, severity: "note", line });
  }
}

const statedIn = (numbers: readonly (number | null)[]): [number, number][] =>
  numbers.flatMap((number, index): [number, number][] => (number === null ? [] : [[index, number]]));

function isUpwards(numbers: readonly (number | null)[]): boolean {
  const [first, second] = statedIn(numbers);
  return first !== undefined && second !== undefined && second[1] > first[1];
}

/** The number of the bottom row, from any that is stated. */
function lowest(numbers: readonly (number | null)[]): number {
  const [index, number] = statedIn(numbers)[0]!;
  return isUpwards(numbers) ? number - index : number - (numbers.length - 1 - index);
}

/** A first line of words, or one word whose letters the rows do not use, is the chart's name. */
function takeHeading(written: readonly TextLine[]): { name: string | null; lines: readonly TextLine[] } {
  const [first, ...others] = written;
  const text = first!.text.trim();
  const letters = new Set(others.map((line) => line.text).join(""));
  const strange = Array.from(text).filter((letter) => !letters.has(letter)).length * 2 > Array.from(text).length;
  const short = text.length <= LONGEST_TITLE && !/[.!?]$/.test(text);
  const worded = isWordy(text) || /\p{L}{3,}:$|^#+\s+\p{L}/u.test(text);
  const words = short && worded && !/[,;\t]/.test(text);
  const oneWord =
    /^\p{L}{3,}[\p{L}\d]*:?$/u.test(text) &&
    others.length > 1 &&
    strange &&
    others.every((line) => line.text.trim().length !== text.length);
  const title = others.length === 0 && /^\p{Lu}\p{Ll}{3,}:?$/u.test(text);
  if (!(words && strange) && !(words && others.every((line) => isWordy(line.text))) && !oneWord && !title)
    return { name: null, lines: written };
  return { name: titleOf(text), lines: others };
}

/** Rows in quotes, as programs list them: "AAB", */
function unquoted(lines: readonly TextLine[]): readonly TextLine[] {
  const rows = lines.filter(({ text }) => !/^\s*[[\](){},;]\s*$/.test(text));
  const inner = rows.map(({ text }) => /^\s*(["'])([^"']*)\1\s*,?\s*$/.exec(text)?.[2]);
  if (rows.length === 0 || inner.includes(undefined)) return lines;
  return rows.map(({ line }, index) => ({ line, text: inner[index]! }));
}

/** "|A B|" on every line is a frame. */
function withoutFrame(lines: readonly TextLine[]): readonly TextLine[] {
  if (lines.length === 0 || !lines.every(({ text }) => /^\s*\|.*\|\s*$/.test(text))) return lines;
  const inner = lines.filter(({ text }) => !/^[\s|:=-]*-{3,}[\s|:=-]*$/.test(text));
  return inner.map(({ line, text }) => {
    const bare = text.trim().slice(1, -1);
    return { line, text: bare.includes("|") ? bare.split("|").join("\t") : bare };
  });
}

/** Row numbers beside the rows, at the left, the right or both, and column numbers above or below. */
function withoutNumbers(texts: readonly string[]): {
  bare: string[];
  numbers: (number | null)[] | null;
  kept: number[];
} {
  let kept = texts.map((_, index) => index);
  let bare = [...texts];
  for (const index of [0, texts.length - 1]) {
    const at = kept.indexOf(index);
    if (at < 0 || bare.length < 3 || !isColumnNumbers(bare[at]!, bare)) continue;
    bare = bare.filter((_, other) => other !== at);
    kept = kept.filter((_, other) => other !== at);
  }
  for (const patterns of NUMBERED) {
    const beside = bare.map((text) => numberBeside(text, patterns));
    if (beside.some((number) => number === "two")) continue;
    const left = bare.map((text) => patterns.reduce((rest, pattern) => rest.replace(pattern, ""), text));
    const numbers = beside as (number | null)[];
    if (
      isNumbering(numbers, {
        digits: left.every((text) => /^[\d\s]*$/.test(text)),
        least: kept.length < texts.length ? 1 : LEAST_NUMBERS,
      })
    )
      return { bare: left, numbers, kept };
  }
  return { bare, numbers: null, kept };
}

/** The number at a line's sides; "two" where they say different ones. */
function numberBeside(text: string, patterns: readonly RegExp[]): number | "two" | null {
  const found = patterns.map((pattern) => pattern.exec(text)?.[1]).filter((one) => one !== undefined);
  return found.length === 0 ? null : new Set(found.map(Number)).size > 1 ? "two" : Number(found[0]);
}

const LEFT_APART = /^\s*(\d{1,4})\s*[:.)|]?[\s,;]+(?=\S)/;
const LEFT_CLOSE = /^\s*(\d{1,4})\s*[:)|](?=\S)/;
const RIGHT = /(?<=\S)[\s,;|:]+(\d{1,4})\s*$/;
/** Where numbers may stand: at both sides, or by turns, as flat rows have them; else at one. */
const NUMBERED = [[LEFT_APART, RIGHT], [LEFT_CLOSE, RIGHT], [LEFT_APART], [LEFT_CLOSE], [RIGHT]];

/** "10 9 8 …", "0987654321" or "10    5    1" above or below rows of other signs. */
function isColumnNumbers(text: string, all: readonly string[]): boolean {
  if (!/^[\d\s]+$/.test(text)) return false;
  // Numbers at both sides of a row are digits too; its stitches are not.
  if (all.filter((other) => /[^\d\s]/.test(other)).length * 2 < all.length) return false;
  const tokens = text.trim().split(/\s+/).map(Number);
  const falls = tokens.every((number, index) => index === 0 || number < tokens[index - 1]!);
  const rises = tokens.every((number, index) => index === 0 || number > tokens[index - 1]!);
  if (tokens.length > 1) return falls || rises;
  const digits = Array.from(text.trim()).map(Number);
  const step = (digits[1]! - digits[0]! + 10) % 10;
  return (
    (step === 1 || step === 9) &&
    digits.every((digit, index) => index === 0 || (digit - digits[index - 1]! + 10) % 10 === step)
  );
}

/** The cells of lines that a tab, semicolon or comma divides; null where none does. */
function tableOf(texts: readonly string[]): string[][] | null {
  const bare = texts.map((text) => text.trim().replace(/^'(.*)'$/, "$1"));
  for (const divider of ["\t", ";", ","]) {
    // A tab at the edge of a line stands for an empty cell there.
    const lines = divider === "\t" ? texts.map((text) => text.replace(/^ +/, "")) : bare;
    const divided = lines.filter((text) => text.includes(divider)).length;
    if (divided * 2 <= lines.length) continue;
    const cells = lines.map((text) => cellsOfLine(text, divider));
    // A sign that is itself the divider leaves empty cells everywhere, as in "A,,A,": then it is a stitch.
    const gaps = cells.every((row) => row.slice(0, -1).some((cell) => cell === ""));
    const even =
      new Set(cells.map((row) => row.length)).size === 1 && new Set(lines.map((text) => text.length)).size > 1;
    if (gaps && !even && divider !== "\t") continue;
    return cells;
  }
  return null;
}

/** A cell in quotes may hold the divider; two quotes in it are one (RFC 4180). */
function cellsOfLine(text: string, divider: string): string[] {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    const quoted = /^ *"((?:[^"]|"")*)" */.exec(text.slice(at));
    const after = quoted ? text[at + quoted[0].length] : undefined;
    if (quoted && (after === undefined || after === divider)) {
      cells.push(quoted[1]!.replaceAll('""', '"').trim());
      at += quoted[0].length;
    } else {
      const next = text.indexOf(divider, at);
      const end = next < 0 ? text.length : next;
      cells.push(text.slice(at, end).trim());
      at = end;
    }
    if (at >= text.length) return cells;
    at += 1;
  }
}

/** Rows of a table whose cells are codes; words are codes too where few of them come again and again. */
function acceptable(cells: readonly string[][]): (string[] | null)[] {
  const all = cells.flat().filter(Boolean);
  const kinds = new Set(all);
  const again = kinds.size <= MOST_CODES && all.length > kinds.size * 2;
  const longest = again ? LONGEST_WORD : LONGEST_CODE;
  return cells.map((row) => (row.every((cell) => Array.from(cell).length <= longest) ? row : null));
}

/** Each line's cells, null where the line is no row. The block as a whole decides how cells are divided. */
export function cellsOf(lines: readonly string[], untrimmed: readonly string[]): { cells: (string[] | null)[] } {
  const texts = lines.map((text) => text.trim().replace(/^["'](.*)["'],?$/, "$1"));
  const spaced = texts.filter((text) => /\s/.test(text));
  if (spaced.length === 0 && !isDrawn(lines)) return { cells: texts.map((text) => Array.from(text)) };
  if (isDrawn(lines) && lines.every((text, index) => text === untrimmed[index])) return { cells: drawnCells(lines) };
  const tokens = texts.map((text) => text.split(/\s+/));
  const kinds = new Set(tokens.flat());
  const single = tokens.filter((row) => row.every((token) => Array.from(token).length === 1)).length;
  // Groups such as "AABB AABB" are rows with a gap for the eye; codes such as MC and CC1 are cells.
  const coded = [...kinds].every((token) => CODE.test(token)) && kinds.size <= MOST_CODES;
  if (single * 2 > texts.length || coded) {
    return {
      cells: tokens.map((row) => (row.every((token) => Array.from(token).length <= LONGEST_CODE) ? row : null)),
    };
  }
  return {
    cells: tokens.map((row, index) => {
      if (row.length === 1) return Array.from(row[0]!);
      const letters = new Set(row.join("").toLowerCase());
      const wordy =
        letters.size >= WORDY_LETTERS &&
        row.some((token) => /\p{L}{3,}/u.test(token) && new Set(token.toLowerCase()).size * 2 > token.length + 1);
      return wordy || !texts[index] ? null : Array.from(row.join(""));
    }),
  };
}

/** Marks on a ground of spaces: one sign only, and rows that would else be of different lengths. */
function isDrawn(lines: readonly string[]): boolean {
  const signs = new Set(lines.join("").replace(/\s/g, ""));
  if (signs.size !== 1 || lines.length < 2 || lines.some((text) => text.includes("\t"))) return false;
  const marks = lines.map((text) => text.replace(/\s/g, "").length);
  return new Set(marks).size > 1 && lines.some((text) => /\S\s+\S|^\s/.test(text));
}

function drawnCells(lines: readonly string[]): string[][] {
  const [indent, width] = [
    Math.min(...lines.map((text) => text.search(/\S/))),
    Math.max(...lines.map((text) => text.trimEnd().length)),
  ];
  return lines.map((text) =>
    Array.from(text.trimEnd().padEnd(width).slice(indent), (sign) => (sign === " " ? "" : sign)),
  );
}

/** Characters of a chart's name; longer lines are prose. Our choice. */
const LONGEST_TITLE = 80;
/** Letters of the longest colour code, such as "CC12": common practice, no source. */
const LONGEST_CODE = 4;
/** Letters of a word that stands in a table's cell for a colour. Our choice. */
const LONGEST_WORD = 24;
/** What a code of more than one letter looks like where only spaces divide the cells: MC, CC1, b12. */
const CODE = /^(?:.|MC|CC\d{0,2}|[A-Za-z]\d{1,2})$/u;
/** Different signs of a row in groups, from which on it may be words instead. Our choice. */
const WORDY_LETTERS = 5;
/** More different codes than this in a text without commas are words. Our choice. */
const MOST_CODES = 24;
