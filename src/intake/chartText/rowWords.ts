/** The words of one row, "*k3 MC, k1 CC1; rep from * to end", as runs of stitches in the order in which they are worked. */

export interface Run {
  /** As it was written. */
  colour: string;
  stitches: number;
}

export interface RowWords {
  before: Run[];
  /** What is worked again and again until the row is full; null where the row says all its stitches. */
  repeat: Run[] | null;
  after: Run[];
  /** Stitches that stand after the repeat, by its own words "to last 3 sts"; null where it does not say. */
  last: number | null;
  /** Stitches that the row itself says it has, as in "(24 sts)". */
  stated: number | null;
  /** Whether every stitch is purled, every one knitted; null where it says neither, or both. */
  purled: boolean | null;
  /** Parts that were read for something they only nearly are. */
  notes: string[];
}

/** What stands where something else was expected. */
export interface RowFault {
  expected: string;
  got: string;
}

export interface WordOptions {
  /** What "rep from * 3 times" means: three times more, or three times in all. */
  readonly again: "more" | "in all";
}

/**
 * Reads the words after a row's number. Never throws; at most `MOST_STITCHES` stitches are laid out.
 * Source of the abbreviations: docs/trade.md, and common practice.
 */
export function readRowWords(text: string, { again }: WordOptions): { words: RowWords } | { fault: RowFault } {
  if (text.length > LONGEST_ROW)
    return { fault: { expected: "a row of stitches", got: "a text that is far too long" } };
  const body = tidied(text);
  if (/^no st(?:itche)?s$/i.test(body)) return { words: emptyWords() };
  const reader = new WordReader(body, again);
  const words = reader.readAll();
  return reader.fault ? { fault: reader.fault } : { words };
}

const emptyWords = (): RowWords => ({
  before: [],
  repeat: null,
  after: [],
  last: null,
  stated: null,
  purled: null,
  notes: [],
});

/** The full stop goes, and so do the stars of other alphabets. */
const tidied = (text: string): string =>
  text
    .trim()
    .replace(/[✱＊∗]/gu, "*")
    .replace(/\u00a0/g, " ")
    .replace(/(?<=\S)[.;,]+$/, "")
    .trim();

/** A list of runs that is being written, and where its "*" stood. */
interface Level {
  runs: Run[];
  star: number | null;
}

class WordReader {
  /** The first thing that could not be read; nothing is read after it. */
  fault: RowFault | null = null;
  #knits = 0;
  #purls = 0;
  #at = 0;
  /** Said by "with MC", and used where stitches name no colour. */
  #said: string | null = null;
  #laid = 0;
  #depth = 0;
  readonly #words = emptyWords();
  readonly #body: string;
  readonly #again: WordOptions["again"];

  constructor(body: string, again: WordOptions["again"]) {
    this.#body = body;
    this.#again = again;
  }

  readAll(): RowWords {
    const words = this.#words;
    const { runs } = this.#readLevel(false);
    if (words.repeat) words.after = runs;
    else words.before = runs;
    if (!words.repeat && runs.length === 0) this.#stop("stitches such as k3 MC");
    words.purled = this.#purls > 0 === this.#knits > 0 ? null : this.#purls > 0;
    return words;
  }

  #stop(expected: string): void {
    const rest = this.#body.slice(this.#at, this.#at + SHOWN).trim();
    this.fault ??= { expected, got: rest === "" ? "nothing more" : JSON.stringify(rest) };
    this.#at = this.#body.length;
  }

  /** @param pattern sticky */
  #take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.#at;
    const match = pattern.exec(this.#body);
    if (match) this.#at += match[0].length;
    return match;
  }

  #readLevel(inner: boolean): Level {
    if (this.#depth > DEEPEST) this.#stop(`brackets at most ${DEEPEST} deep`);
    const level: Level = { runs: [], star: null };
    for (;;) {
      this.#take(/(?:[\s,;:.–—]|(?:and|then)\b)+/iuy);
      if (this.#at >= this.#body.length) {
        if (inner) this.#stop("the bracket to close");
        return level;
      }
      if (inner && this.#take(/[)\]}]/iuy)) return level;
      this.#readPart(level, inner);
    }
  }

  #readPart(level: Level, inner: boolean): void {
    const stated = this.#take(
      /[([]\s*(\d{1,4})\s*(?:sts?|stitches)\s*[)\]]|(?:over|=|total(?: of)?)\s*(\d{1,4})\s*(?:sts?|stitches)\b/iuy,
    );
    if (stated) {
      this.#words.stated = Number(stated[1] ?? stated[2]);
      return;
    }
    // Markers and the handling of the strands leave no stitch.
    if (this.#take(/(?:sm|pm|slm|sl\s?m|bor|place marker|slip marker|(?:join|turn|drop|cut|break)\b[^,;.*()[\]]*)/iuy))
      return;
    const open = this.#take(/(?:(\d{1,3})\s*[x×]\s*)?[([{]/iuy);
    if (open) return this.#readBracket(level, open[1] === undefined ? null : Number(open[1]), inner);
    if (this.#take(/rep(?:eat)?\s+(?:from\s+)?[*†‡]+(?:\s+to\s+[*†‡]+)?/iuy)) return this.#readRepeat(level, inner);
    if (this.#take(/[*†‡]+/iuy)) {
      if (level.star === null) level.star = level.runs.length;
      else this.#readSecondStar(level, inner);
      return;
    }
    if (this.#take(/rep(?:eat)?(?=\s+(?:to\s+(?:the\s+)?(?:end|last)|across|a?round))/iuy)) {
      level.star ??= 0;
      return this.#readRepeat(level, inner);
    }
    if (this.#take(/end(?:ing)?\b(?:\s+(?:with|last|rep(?:eat)?))*/iuy)) return;
    if (this.#take(/(?:with|using)\s+/iuy)) {
      this.#said = this.#readColour();
      return;
    }
    this.#readStitches(level, inner);
  }

  #readBracket(level: Level, before: number | null, inner: boolean): void {
    this.#depth++;
    const { runs } = this.#readLevel(true);
    this.#depth--;
    const times = before ?? this.#readTimes();
    if (times !== null) this.#lay(level, runs, times);
    else if (this.#takeToEnd()) this.#openRepeat(level, runs, inner);
    // A bracket that says no number is only for the eye.
    else this.#lay(level, runs, 1);
  }

  /** "*k3 A, k1 B* 6 times", "*k3 A, k1 B*, rep from * to * to end". */
  #readSecondStar(level: Level, inner: boolean): void {
    const again = this.#take(
      /[\s;,.]*rep(?:eat)?\b(?:\s+from\s+[*†‡]+\s+to\s+[*†‡]+|\s+between\s+\*s?(?:\s+and\s+\*)?)?/iuy,
    );
    if (again) return this.#readRepeat(level, inner);
    const runs = level.runs.splice(level.star!);
    level.star = null;
    const times = this.#readTimes();
    if (times !== null) this.#lay(level, runs, times);
    else if (this.#takeToEnd()) this.#openRepeat(level, runs, inner);
    else this.#lay(level, runs, 1);
  }

  /** What follows "rep from *". */
  #readRepeat(level: Level, inner: boolean): void {
    if (level.star === null) return this.#stop('a "*" before "rep from *"');
    const runs = level.runs.splice(level.star);
    level.star = null;
    const times = this.#take(
      /\s*,?\s*(\d{1,3}|once|twice|thrice)\s*(more)?\s*(?:[x×]|times?)?\s*(more)?(\s+in all)?(?![\p{L}\d])/iuy,
    );
    if (times) {
      const number = COUNTS.get(times[1]!.toLowerCase()) ?? Number(times[1]);
      const more = times[2] ?? times[3];
      const inAll = times[4] !== undefined || (more === undefined && this.#again === "in all");
      return this.#lay(level, runs, inAll ? number : number + 1);
    }
    this.#takeToEnd();
    this.#openRepeat(level, runs, inner);
  }

  #readTimes(): number | null {
    const match = this.#take(
      /\s*(?:[x×]\s*(\d{1,3})|(\d{1,3})\s*(?:[x×]|times?\b|(?=\s*(?:[,;.)\]]|$)))|(once|twice|thrice)\b)(?:\s+in all\b)?/iuy,
    );
    if (!match) return null;
    return match[3] === undefined ? Number(match[1] ?? match[2]) : COUNTS.get(match[3].toLowerCase())!;
  }

  /** "to end", "across", "around", "to last 3 sts". */
  #takeToEnd(): boolean {
    const match = this.#take(TO_END);
    if (match) this.#noteLast(match);
    return match !== null;
  }

  #noteLast([whole, ...numbers]: RegExpExecArray): void {
    const number = numbers.find((one) => /^\d+$/.test(one ?? ""));
    if (number !== undefined) this.#words.last = Number(number);
    else if (/\blast\b/i.test(whole)) this.#words.last = 1;
  }

  #openRepeat(level: Level, runs: Run[], inner: boolean): void {
    if (runs.length === 0) return this.#stop("stitches to repeat");
    if (inner) return this.#stop("a number of times within brackets");
    if (this.#words.repeat) return this.#stop("one repeat to the end of the row");
    this.#words.before = level.runs;
    this.#words.repeat = runs;
    level.runs = [];
  }

  #lay(level: Level, runs: readonly Run[], times: number): void {
    const stitches = runs.reduce((sum, run) => sum + run.stitches, 0);
    this.#laid += stitches * (times - 1);
    if (this.#laid > MOST_STITCHES) return this.#stop(`at most ${MOST_STITCHES} stitches`);
    for (let time = 0; time < times; time++) level.runs.push(...runs.map((run) => ({ ...run })));
  }

  #readStitches(level: Level, inner: boolean): void {
    const shaping = this.#take(SHAPING);
    if (shaping) {
      this.#words.notes.push(shaping[0].toLowerCase());
      this.#knits++;
      this.#take(/\s*(?:(?:in|with|of)\s+)?/iuy);
      return this.#push(level, 1, this.#readColourOrSaid());
    }
    const all = this.#take(ALL);
    if (all) {
      this.#says(all[1]);
      this.#noteLast(all);
      return this.#openRepeat(level, [{ colour: this.#readColourOrSaid(), stitches: 1 }], inner);
    }
    const plain = this.#take(
      /(knit|purl|work|[kp])\s+(?:in|with|using)\s+|(knit|purl)(?=\s*(?:[,;]|$))|(knit|purl)\s+(?=\p{L}[\p{L}\p{N}]*\s*$)/iuy,
    );
    if (plain) {
      this.#says(plain[1] ?? plain[2] ?? plain[3]);
      const colour = plain[2] ? this.#readColourOrSaid() : this.#readColour();
      return this.#openRepeat(level, [{ colour, stitches: 1 }], inner);
    }
    const run = this.#take(
      /(knit|purl|[kp])?\s*(\d{1,4})(?:\s*[x×](?=\s*[\p{L}#])(?!\s*(?:[kp]\s?)?\d)|\s*(?:sts?|stitch(?:es)?)\b)?\s*(?:(?:in|with|of)\s+)?/iuy,
    );
    if (!run) return this.#readColourFirst(level, inner);
    this.#says(run[1]);
    this.#push(level, Number(run[2]), this.#readColourOrSaid());
  }

  /** "MC 3", "MC k3", "MC to end". */
  #readColourFirst(level: Level, inner: boolean): void {
    const match = this.#take(COLOUR_FIRST);
    if (!match || NO_COLOUR.test(match[1]!)) return this.#stop("stitches such as k3 MC");
    this.#says(match[2]);
    const colour = match[1]!;
    if (match[4] !== undefined) this.#openRepeat(level, [{ colour, stitches: 1 }], inner);
    else this.#push(level, Number(match[3]), colour);
  }

  #says(stitch: string | undefined): void {
    if (stitch === undefined || /^work$/i.test(stitch)) return;
    if (/^p/i.test(stitch)) this.#purls++;
    else this.#knits++;
  }

  #push(level: Level, stitches: number, colour: string): void {
    this.#laid += stitches;
    if (this.#laid > MOST_STITCHES) this.#stop(`at most ${MOST_STITCHES} stitches`);
    else if (stitches > 0) level.runs.push({ colour, stitches });
  }

  #readColourOrSaid(): string {
    const divides = /^\s*(?:[,;)\]]|$|rep\b|\*)/i.test(this.#body.slice(this.#at));
    return divides && this.#said !== null ? this.#said : this.#readColour();
  }

  /** Words up to the next sign that divides, the next count, or words of the row itself. */
  #readColour(): string {
    // A chart's own sign may stand for itself; one that also divides only where a dividing sign follows it.
    const sign = this.#take(/(?<=\s)(?:[,;.:*](?=[,;.)\]]|$)|[^\s\p{L}\p{N}()[\]{},;.:*"](?=[,;.)\]\s]|$))/iuy);
    if (sign) return sign[0];
    const found = this.#take(/\d{1,3}(?=\s*(?:[,;.)\]*]|$))/iuy) ?? this.#take(COLOUR);
    if (!found) {
      this.#stop("a colour");
      return "";
    }
    const end = ENDS.exec(found[0]);
    const name = end ? found[0].slice(0, end.index) : found[0];
    this.#at -= found[0].length - name.length;
    const colour = name
      .replace(/^(?:the|yarn|colou?r)\s+(?=\S)/i, "")
      .replace(/(?<=\S)\s+(?:only|yarn)\s*$/i, "")
      .trim();
    if (
      colour === "" ||
      /^[kp]\d+$/i.test(colour) ||
      colour.length > LONGEST_NAME ||
      colour.split(/\s+/).length > MOST_WORDS
    ) {
      this.#at -= name.length;
      this.#stop("a colour");
    }
    return colour;
  }
}

const COUNTS = new Map([
  ["once", 1],
  ["twice", 2],
  ["thrice", 3],
]);
/** Stitches of a row that are laid out; charts end at 400, garments at some 500. Our choice. */
const MOST_STITCHES = 4000;
/** Characters of a row in words; longer is something else. Our choice, past 400 stitches each of its own colour. */
export const LONGEST_ROW = 8000;
/** Brackets within brackets; patterns have two. Our choice. */
const DEEPEST = 8;
/** Characters of a text that is told of. Our choice. */
const SHOWN = 30;
/** Characters and words of a colour's name before it is taken for prose. Our choice. */
const LONGEST_NAME = 40;
const MOST_WORDS = 5;
const COLOUR = /[#\p{L}\p{S}&%][\p{L}\p{N}\p{M} \t'’#/&%-]*/iuy;
/** Where a colour's name is over although no sign divides: before the next count, and before words of the row itself. */
const ENDS =
  /\s+(?:(?:[kp]|knit|purl)?\s*\d+\s*(?![kp]\s?\d)(?=[\p{L}#])|(?:[kp]|knit|purl)\s*\d|(?:and|then|rep|repeat|to|across|around|sm|pm|work|with|knit|purl)\b|\d+\s*[x×])|(?<=^\p{L}{1,3})(?=\d+\p{L})|\s*$/iu;
const COLOUR_FIRST =
  /(\p{L}[\p{L}\p{N}'’-]*)\s*[x×:]?\s+(?:(?:([kp])\s*)?(\d{1,4})(?:\s*(?:sts?|stitches))?(?=[\s,;.)\]]|$)|(to (?:the )?end|across|around)\b)/iuy;
/** Words that begin an instruction and are no colour. */
const NO_COLOUR = /^(?:rows?|rnds?|rounds?|rep|repeat|cast|co|with|size|chart|work|row)$/i;
const TO_END =
  /[\s,]*(?:(?:to|until)\s+(?:the\s+)?(?:end|last(?:\s+(\d{1,3}))?(?:\s*(?:sts?|stitch(?:es)?)\b)?|(\d{1,3})\s+(?:sts?|stitches)\s+(?:remain|before end))|across|a?round)(?:\s+of\s+(?:the\s+)?(?:row|rnd|round))?(?![\p{L}\d])/iuy;
const ALL =
  /(?:(knit|purl|work|[kp])\s*)?(?<![\p{L}\p{N}])(?:all|every|even|across|around|to (?:the )?end|to (?:the )?last(?:\s+(\d{1,3}))?(?=\s*(?:sts?|stitch)))(?:\s+(?:the\s+)?(?:sts?|stitch(?:es)?)\b)?(?:\s+(?:in|with|using|of))?(?=\s|$)\s*/iuy;
/** Stitches that shape: where they stand, a chart has one stitch. */
const SHAPING = /(?:k2tog|p2tog|k3tog|ssk|skp|sssk|m1[lr]?p?|yo|kfb|inc\s?1?|dec\s?1?|sl\s?1)(?![\p{L}\d])/iuy;
