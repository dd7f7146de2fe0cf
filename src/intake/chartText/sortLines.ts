/** Sorts the lines of a typed text: rows in words, rows as they are seen, the key, and what is only said. */
import type { Problem } from "../../base/problem.ts";
import { cellsOf } from "./gridRows.ts";
import { takeKeyLine, type Key } from "./keyLines.ts";
import { rowLabelOf, type RowLabel } from "./rowLabel.ts";
import { LONGEST_ROW, readRowWords, type RowFault, type RowWords } from "./rowWords.ts";
import { isWordy, leftOut, titleOf, type TextLine } from "./tokenChart.ts";
import type { WordBlock, WordLine } from "./wordRows.ts";

export type Block = { kind: "words"; block: WordBlock } | { kind: "grid"; lines: TextLine[] };

interface Labelled {
  line: number;
  label: RowLabel;
}

/** Blocks in the order of the text. Key lines go into `key`; rows that cannot be read are told. */
export function sortLines(text: string, key: Key, problems: Problem[]): Block[] {
  const blocks: Block[] = [];
  let said: TextLine[] = [];
  let words: WordBlock | null = null;
  let labelled: Labelled | null = null;
  let blank = true;
  const endSaid = (): void => {
    if (said.length > 0) blocks.push({ kind: "grid", lines: said });
    said = [];
  };
  const endLabelled = (): void => {
    if (labelled && words) words.lines.push(...rowOfLabel(labelled, problems));
    labelled = null;
  };
  const endWords = (): void => {
    endLabelled();
    // What was said between its rows is told; what was said after them may be the next chart's name.
    if (words && words.lines.length > 0) blocks.push({ kind: "words", block: words });
    words = null;
  };
  const openWords = (): WordBlock => {
    if (words) return words;
    const { name, width, rest } = headingOf(said);
    said = rest;
    endSaid();
    words = { name, lines: [], width };
    return words;
  };
  for (const line of linesOf(text)) {
    if (line.text.trim() === "") {
      endLabelled();
      // Rows in words often stand with a blank line between each; grids are divided by them.
      if (
        words &&
        (words as WordBlock).lines.every(({ label }) => label === null) &&
        (words as WordBlock).lines.length > 1
      )
        endWords();
      // What is only said may be the name of what comes, and how wide it is.
      if (!said.every(({ text: one }) => isSaid(one))) {
        endWords();
        endSaid();
      }
      blank = true;
      continue;
    }
    const label = labelOf(line.text);
    if (label) {
      endLabelled();
      const restarts = words !== null && startsAgain(words, label);
      if (restarts) endWords();
      if (words) for (const one of said.splice(0)) problems.push(leftOut(one));
      openWords();
      labelled = { line: line.line, label };
    } else if (!blank && labelled !== null && goesOn(labelled, line.text)) {
      const before: Labelled = labelled;
      labelled = { ...before, label: { ...before.label, body: `${before.label.body} ${line.text.trim()}` } };
    } else if (takeKeyLine(line, key, problems) || /^\s*\+[-+=\s]*\+$/.test(line.text)) {
      endLabelled();
    } else {
      endLabelled();
      if (blank && said.length > 0 && !isSaid(line.text)) {
        endWords();
        endSaid();
      }
      const rows = unlabelledRows(line);
      if (rows && said.every(({ text: before }) => isSaid(before))) openWords().lines.push(...rows);
      else said.push(line);
    }
    blank = false;
  }
  endWords();
  endSaid();
  return blocks.flatMap((block) => (block.kind === "grid" ? runsOf(block.lines) : [block]));
}

/** Lines with their numbers; "Row 1: … Row 2: …" on one line are two. */
function linesOf(text: string): TextLine[] {
  return text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\r|\n|\f/)
    .flatMap((written, index) =>
      written
        .trimEnd()
        .split(/(?<=[.;])\s+(?=(?:rows?|rnds?|rounds?)\s+\d{1,4}[^.;]{0,20}:)/i)
        .map((part) => ({ line: index + 1, text: part })),
    );
}

/** A row's label, or a bare number before words that can be nothing but stitches. */
function labelOf(text: string): RowLabel | null {
  const label = rowLabelOf(text);
  // "R1 = #e8e2d2" is a key.
  if (label) return /^\s*r\d+\s*(?:[=→–—]|:\s*#)/i.test(text) ? null : label;
  const [, number, sign, rest] = /^\s*(\d{1,4})\s*([:.)]?)\s+(\S.*)$/.exec(text) ?? [];
  if (number === undefined || rest === undefined || Number(number) < 1) return null;
  const plain = rowLabelOf(`Row ${number}: ${rest}`);
  if (!plain || !("words" in readRowWords(plain.body, { again: "more" }))) return null;
  return STITCHES.test(rest) || (sign !== "" && /^\d+\s*\p{L}/u.test(rest)) ? plain : null;
}

/** Numbering begins anew: another chart. */
function startsAgain(words: WordBlock, label: RowLabel): boolean {
  const numbers = words.lines.flatMap((line) => line.label?.numbers ?? []);
  return numbers.length > 1 && label.numbers[0] === Math.min(...numbers) && numbers.includes(label.numbers[0]);
}

/** Whether a line without a number is the rest of the row above it. */
function goesOn({ label }: Labelled, text: string): boolean {
  if (/[:=]/.test(text)) return false;
  if (label.body === "") return true;
  if ("words" in readRowWords(`${label.body} ${text}`, { again: "more" }))
    return STITCHES.test(label.body) || /\brep\b/i.test(text);
  return false;
}

function rowOfLabel({ line, label }: Labelled, problems: Problem[]): WordLine[] {
  const like = LIKE.exec(label.body);
  const models = like ? rowLabelOf(`rows ${like[1]!}:`) : null;
  if (models) return [{ line, label, readings: [], like: models.numbers, seen: false }];
  const read = readBoth(label.body);
  if ("readings" in read) return [{ line, label, readings: read.readings, like: null, seen: false }];
  const cells = STITCHES.test(label.body) ? null : cellsOf([label.body], [""]).cells[0];
  if (cells && label.body !== "" && !isWordy(label.body)) {
    const before = cells.map((colour) => ({ colour, stitches: 1 }));
    const words: RowWords = { before, repeat: null, after: [], last: null, stated: null, purled: null, notes: [] };
    return [{ line, label, readings: [words], like: null, seen: true }];
  }
  const [first] = label.numbers;
  problems.push({
    where: label.numbers.length > 1 ? `rows ${first} to ${label.numbers.at(-1)!}` : `row ${first}`,
    ...read.fault,
    severity: "doubt",
    line,
  });
  return [{ line, label, readings: [], like: null, seen: false }];
}

function readBoth(text: string): { readings: RowWords[] } | { fault: RowFault } {
  const more = readRowWords(text, { again: "more" });
  if ("fault" in more) return more;
  const inAll = readRowWords(text, { again: "in all" });
  return { readings: "fault" in inAll ? [more.words] : [more.words, inAll.words] };
}

/** A line of stitches in the trade's words without a number; "Knit 3 rounds in MC" is three. */
function unlabelledRows({ line, text }: TextLine): WordLine[] | null {
  const [, many, colour] =
    /^\s*(?:knit|work|k)\s+(\d{1,3})\s+(?:plain\s+)?(?:rows?|rnds?|rounds?)\s+(?:in|with|of)\s+(.+)$/i.exec(text) ?? [];
  const read = colour === undefined ? (STITCHES.test(text) ? readBoth(text) : null) : readBoth(`knit in ${colour}`);
  if (!read || !("readings" in read)) return null;
  return Array.from({ length: Number(many ?? 1) }, () => ({
    line,
    label: null,
    readings: read.readings,
    like: null,
    seen: false,
  }));
}

/** Words, and no row of signs. */
const isSaid = (text: string): boolean =>
  isWordy(text) || /\p{L}{3,}:\s*$|^#+\s+\p{L}|^\s*\p{L}{4,} [\p{L}\d]$|^\s*\p{Lu}\p{Ll}{3,}$/u.test(text);

/** "2MC 1CC 2MC" in every line of a block: rows in words as they are seen, and no row numbers before letters. */
function runsOf(lines: TextLine[]): Block[] {
  const rest = lines.length > 1 && !isRuns(lines[0]!.text) ? lines.slice(1) : lines;
  if (!rest.every(({ text }) => isRuns(text))) return [{ kind: "grid", lines }];
  const read = rest.map(({ line, text }) => ({ line, read: readBoth(text) }));
  const rows = read.flatMap(({ line, read: one }): WordLine[] =>
    "readings" in one ? [{ line, label: null, readings: one.readings, like: null, seen: true }] : [],
  );
  const runs = rows.filter(({ readings }) => readings[0]!.before.length > 1).length;
  if (rows.length < rest.length || runs * 2 <= rows.length) return [{ kind: "grid", lines }];
  const { name, width, rest: left } = headingOf(lines.slice(0, lines.length - rest.length));
  const block: Block = { kind: "words", block: { name, lines: rows, width } };
  return left.length > 0 ? [{ kind: "grid", lines: left }, block] : [block];
}

/** Counts and colours by turns, with nothing else: "2MC 1CC", "3 rust, 1 cream", "3A2B3A". */
const isRuns = (text: string): boolean =>
  text.length <= LONGEST_ROW &&
  /^\s*(?:\d{1,3}\s*[x×]?\s*[\p{L}#][\p{L}'’-]*\d{0,2}(?:[\s,;]+|(?=\d)|$))+\s*$/u.test(text);

/** The words before rows: a name, and perhaps over how many stitches they are worked. */
function headingOf(said: readonly TextLine[]): { name: string | null; width: number | null; rest: TextLine[] } {
  let width: number | null = null;
  let name: string | null = null;
  const rest: TextLine[] = [];
  for (const line of said) {
    const [, over, multiple, plus] = WIDTH.exec(line.text) ?? [];
    if (over !== undefined) width = Number(over);
    else if (multiple !== undefined) width = Number(multiple) + Number(plus ?? 0);
    const text = line.text.trim().replace(WIDTH_CLAUSE, "");
    if (name === null && text.length <= LONGEST_TITLE && /\p{L}{3}/u.test(text) && !/[.;,]$/.test(text))
      name = titleOf(text);
    else if (over === undefined && multiple === undefined) rest.push(line);
  }
  return { name, width, rest };
}

/** "k3", "p all", "knit with": stitches in the trade's words. */
const STITCHES = /(?:^|[\s*([{,;])(?:[kp]\s?\d|(?:knit|purl|[kp])\s+(?:all|to|in|with|every)\b|(?:knit|purl)\s+\d)/i;
const LIKE =
  /^(?:(?:work|knit|k)\s+)?(?:as|same as|like|as for|rep(?:eat)?)\s+(?:for\s+)?(?:rows?|rnds?|rounds?|rds?)?\.?\s*(\d{1,4}(?:\s*(?:-|–|—|to|,|and)\s*\d{1,4})*)(?:\s+(?:once more|again))?\s*\.?$/i;
const WIDTH =
  /\b(?:over|repeat of|rep of)\s+(\d{1,3})\s*(?:sts?|stitches)\b|\bmultiple of\s+(\d{1,3})(?:\s*(?:sts?|stitches))?(?:\s*(?:\+|plus)\s*(\d{1,3}))?/i;
/** The same with all that stands around it. */
const WIDTH_CLAUSE = /[\s,;:(–—-]*(?:(?:is\s+)?worked\s+)?(?:\bover|\b(?:a\s+)?(?:multiple|repeat|rep)\s+of)\s+\d.*$/i;
/** Characters of a line that may be a chart's name. Our choice. */
const LONGEST_TITLE = 60;
