/** Sorts the lines of a typed chart into rows, key and what is only said, and rows into cells. */
import type { Problem } from "../base/problem.ts";
import type { KeyEntry } from "./chartText.ts";
import { findShade } from "./statedShade.ts";

export interface TextLine {
  /** From 1 at the top of the text. */
  line: number;
  cells: string[];
}

export interface TextBlock {
  name: string | null;
  lines: TextLine[];
}

interface RawLine {
  line: number;
  text: string;
}

/** Blocks of rows, divided by blank lines, and the key. */
export function linesOfText(text: string, problems: Problem[]): { blocks: TextBlock[]; keys: Map<string, KeyEntry> } {
  const keys = new Map<string, KeyEntry>();
  const raw: RawLine[][] = [[]];
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n|\f/);
  for (const [index, written] of lines.entries()) {
    const line = { line: index + 1, text: written.trimEnd() };
    if (line.text.trim() === "") raw.push([]);
    else if (!takeKey(line, keys, problems) && !/^\s*\+[-+=\s]*\+$/.test(line.text)) raw.at(-1)!.push(line);
  }
  const blocks: TextBlock[] = [];
  let heading: string | null = null;
  for (const part of raw.filter((lines) => lines.length > 0)) {
    const block = blockOf(part, heading, problems);
    heading = block.lines.length === 0 ? block.name : null;
    if (block.lines.length > 0) blocks.push(block);
  }
  return { blocks, keys };
}

function blockOf(written: readonly RawLine[], heading: string | null, problems: Problem[]): TextBlock {
  const { name, lines } = takeHeading(written);
  const bare = withoutRowNumbers(withoutFrame(lines));
  const split = cellsOf(bare);
  const rows: TextLine[] = [];
  for (const [index, line] of bare.entries()) {
    const cells = split[index];
    if (cells) rows.push({ line: line.line, cells });
    else {
      problems.push({
        where: `line ${line.line}`,
        expected: "a row of stitches or a key line",
        got: `${JSON.stringify(short(line.text.trim()))}, left out`,
        severity: "note",
        line: line.line,
      });
    }
  }
  return { name: name ?? heading, lines: rows };
}

/** "A = #e8e2d2 hoar", "A: hoar #e8e2d2", "MC hoar #e8e2d2", "A = hoar". */
function takeKey({ line, text }: RawLine, keys: Map<string, KeyEntry>, problems: Problem[]): boolean {
  const match =
    /^\s*["']?(\S|[A-Za-z]{1,4}\d{0,3})["']?\s*(?:=>?|:|→|->|[–—])\s*(\S.*)$/u.exec(text) ??
    /^\s*["']?(\S|[A-Za-z]{1,4}\d{0,3})["']?\s+(\S.*)$/u.exec(text);
  if (!match) return false;
  const [, id, rest] = match as unknown as [string, string, string];
  const shade = findShade(rest);
  // Without a colour only a spaced sign and words make a key: "A=B=A=" may well be a row.
  const worded = /^\s*\S+\s*(?:=>?|:|→|->|[–—])\s+\S/u.test(text) && /\p{L}{2,}/u.test(rest) && !/\d\s*:/.test(text);
  if (!shade && !worded) return false;
  if (shade && shade.rest.trim() === "" && !/[\s=:→>–—]/u.test(text.slice(0, text.indexOf(rest)))) return false;
  const bad = shade ? null : /#[0-9a-z]*/i.exec(rest);
  if (bad) {
    problems.push({
      where: `the key of ${id}`,
      expected: "a colour such as #e8e2d2",
      got: bad[0],
      severity: "doubt",
      line,
    });
  }
  const name = (shade ? shade.rest : rest.replace(/#[0-9a-z]*/i, " "))
    .replace(/\s+/g, " ")
    .replace(/^[\s,;:()=–—-]+|[\s,;:()=–—-]+$/gu, "");
  const before = keys.get(id);
  if (before) {
    if (before.hex !== (shade?.hex ?? before.hex)) {
      problems.push({
        where: `the key of ${id}`,
        expected: "one colour",
        got: `a second one, ${shade!.hex}, left out`,
        severity: "doubt",
        line,
      });
    }
    return true;
  }
  keys.set(id, { name: name === "" ? null : name, hex: shade?.hex ?? null, lab: shade?.lab ?? null });
  return true;
}

/** A first line of words, or one word whose letters the rows do not use, is the chart's name. */
function takeHeading(written: readonly RawLine[]): { name: string | null; lines: readonly RawLine[] } {
  const [first, ...others] = written;
  const text = first!.text.trim();
  const letters = new Set(others.map((line) => line.text).join(""));
  const strange = Array.from(text).filter((letter) => !letters.has(letter)).length * 2 > Array.from(text).length;
  const words = /\p{L}{3,}.*\s.*\p{L}{2,}|\p{L}{3,}.*:$|^#+\s+\p{L}/u.test(text) && !/[,;\t]/.test(text);
  const oneWord =
    /^\p{L}{3,}[\p{L}\d]*:?$/u.test(text) &&
    others.length > 1 &&
    strange &&
    others.every((line) => line.text.trim().length !== text.length);
  if (!(words && strange) && !(words && others.length === 0) && !oneWord) return { name: null, lines: written };
  return { name: text.replace(/^#+\s*/, "").replace(/:$/, ""), lines: others };
}

/** "|A B|" on every line is a frame. */
function withoutFrame(lines: readonly RawLine[]): readonly RawLine[] {
  if (lines.length === 0 || !lines.every(({ text }) => /^\s*\|.*\|$/.test(text))) return lines;
  const inner = lines.filter(({ text }) => !/^[\s|:=-]*-{3,}[\s|:=-]*$/.test(text));
  return inner.map(({ line, text }) => {
    const bare = text.trim().slice(1, -1);
    return {
      line,
      text: bare.includes("|")
        ? bare
            .split("|")
            .map((cell) => cell.trim())
            .join("\t")
        : bare,
    };
  });
}

/** Row numbers beside the rows, which count down to 1 at the bottom or up from 1 at the top, at the left, the right or both. */
function withoutRowNumbers(lines: readonly RawLine[]): readonly RawLine[] {
  let bare = lines;
  for (const pattern of [
    /^\s*(\d{1,4})\s*[:.)|]?[\s,;]+(?=\S)/,
    /^\s*(\d{1,4})\s*[:)|](?=\S)/,
    /(?<=\S)[\s,;|:]+(\d{1,4})\s*$/,
  ]) {
    const numbers = bare.map(({ text }) => pattern.exec(text)?.[1]).map((found) => (found ? Number(found) : null));
    const stated = numbers.filter((number) => number !== null).length;
    // A chart worked flat is numbered on alternate sides; fewer than three numbers may be stitches.
    if (stated < 3 || stated * 2 < bare.length - 1) continue;
    const down = numbers.every((number, index) => number === null || number === bare.length - index);
    const up = numbers.every((number, index) => number === null || number === index + 1);
    if (down || up) bare = bare.map(({ line, text }) => ({ line, text: text.replace(pattern, "") }));
  }
  return bare;
}

/** Each line's cells, null where the line is no row. The block as a whole decides how cells are divided. */
function cellsOf(lines: readonly RawLine[]): (string[] | null)[] {
  const texts = lines.map(({ text }) => text.trim().replace(/^["'](.*)["'],?$/, "$1"));
  for (const divider of ["\t", ";", ","]) {
    const divided = texts.filter((text) => text.includes(divider)).length;
    if (divided * 2 <= texts.length) continue;
    const cells = texts.map((text) => text.split(divider).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1")));
    // A sign that is itself the divider leaves empty cells everywhere, as in "A,,A,": then it is a stitch.
    if (cells.every((row) => row.slice(0, -1).some((cell) => cell === "")) && divider !== "\t") continue;
    return cells.map((row) => {
      if (row.length > 1 && row.at(-1) === "") row.pop();
      return row.every((cell) => Array.from(cell).length <= LONGEST_CODE) ? row.map((cell) => cell || "-") : null;
    });
  }
  const spaced = texts.filter((text) => /\s/.test(text));
  if (spaced.length === 0) return texts.map((text) => Array.from(text));
  const tokens = texts.map((text) => text.split(/\s+/));
  const kinds = new Set(tokens.flat());
  const single = tokens.filter((row) => row.every((token) => Array.from(token).length === 1)).length;
  // Groups such as "AABB AABB" are rows with a gap for the eye; codes such as MC and CC1 are cells.
  const coded = [...kinds].every((token) => CODE.test(token)) && kinds.size <= MOST_CODES;
  if (single * 2 > texts.length || coded) {
    return tokens.map((row) => (row.every((token) => Array.from(token).length <= LONGEST_CODE) ? row : null));
  }
  return tokens.map((row, index) => {
    if (row.length === 1) return Array.from(row[0]!);
    const wordy = row.some(
      (token) => /\p{L}{3,}/u.test(token) && new Set(token.toLowerCase()).size * 2 > token.length + 1,
    );
    return wordy || !texts[index] ? null : Array.from(row.join(""));
  });
}

/** Letters of the longest colour code, such as "CC12": common practice, no source. */
const LONGEST_CODE = 4;
/** What a code of more than one letter looks like where only spaces divide the cells: MC, CC1, b12. */
const CODE = /^(?:.|MC|CC\d{0,2}|[A-Za-z]\d{1,2})$/u;
/** More different codes than this in a text without commas are words. Our choice. */
const MOST_CODES = 24;

const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);
