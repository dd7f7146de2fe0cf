/** Text for people: names made harmless, numbers with their units, paragraphs and tables that fit a terminal. */
/** A terminal of 80 columns, the width that every terminal has. */
export const WIDTH = 80;

/**
 * Escape sequences of ECMA-48: control sequences (CSI), strings such as a window's title (OSC, DCS, SOS, PM, APC) to
 * their end, and the short ones; each in its 7-bit and 8-bit form.
 */
const ESCAPES =
  /(?:\u001b\[|\u009b)[0-?]*[ -/]*[@-~]|(?:\u001b[\]PX^_]|[\u009d\u0090\u0098\u009e\u009f])[^\u0007\u001b\u009c]*(?:\u0007|\u001b\\|\u009c)|\u001b[ -/]*[0-~]/gu;

/**
 * A name from a file, safe to print: no escape sequences, no other control characters, none that turn the direction of
 * writing or hide.
 */
export const plain = (text: string): string =>
  text
    .replace(ESCAPES, "")
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]+/gu, " ")
    .replace(/\s+/gu, " ")
    .trim();

/** Columns that a text takes on a terminal: marks take none, East Asian letters and pictures two. */
export function columnsOf(text: string): number {
  let columns = 0;
  for (const character of text) {
    if (/\p{M}/u.test(character)) continue;
    columns +=
      /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uff01-\uff60]/u.test(
        character,
      )
        ? 2
        : 1;
  }
  return columns;
}

/** Cut to so many columns, with "…" where something went. */
export function fitted(text: string, columns: number): string {
  if (columnsOf(text) <= columns) return text;
  let cut = "";
  for (const character of text) {
    if (columnsOf(cut + character) > columns - 1) break;
    cut += character;
  }
  return `${cut.trimEnd()}…`;
}

/** A paragraph in lines of at most `WIDTH` columns; `first` stands before it and the other lines are set in as deep. */
export function paragraph(text: string, first = ""): string {
  const indent = " ".repeat(columnsOf(first));
  const room = WIDTH - indent.length;
  const lines: string[] = [];
  let line = "";
  for (const word of plain(text)
    .split(" ")
    .map((long) => fitted(long, room))) {
    if (line !== "" && columnsOf(line) + 1 + columnsOf(word) > room) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((content, index) => (index === 0 ? first : indent) + content).join("\n");
}

export interface Column {
  readonly heading: string;
  readonly align?: "right";
  /** Gives way first where the table is too wide. */
  readonly elastic?: true;
}

/** A table set in by two; what does not fit is taken from the elastic columns, the widest first. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const shown = rows.map((row) => row.map(plain));
  const widths = columns.map(({ heading }, index) =>
    Math.max(columnsOf(heading), ...shown.map((row) => columnsOf(row[index] ?? ""))),
  );
  const room = WIDTH - 2 * columns.length;
  for (let over = widths.reduce((sum, width) => sum + width, 0) - room; over > 0; over--) {
    const widest = columns.reduce(
      (best, { elastic }, index) =>
        elastic && widths[index]! > 8 && widths[index]! > (widths[best] ?? 0) ? index : best,
      -1,
    );
    if (widest < 0) break;
    widths[widest]!--;
  }
  const line = (cells: readonly string[]): string =>
    columns
      .map(({ align }, index) => {
        const cell = fitted(cells[index] ?? "", widths[index]!);
        const space = " ".repeat(widths[index]! - columnsOf(cell));
        return `  ${align === "right" ? space + cell : cell + space}`;
      })
      .join("")
      .trimEnd();
  return [line(columns.map(({ heading }) => heading)), ...shown.map(line)].join("\n");
}

/** "1 fault", "3 faults". */
export const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? "" : "s"}`;

/** "rows 3 to 7", "row 9". */
export const rowsWords = ([from, to]: readonly [number, number]): string =>
  from === to ? `row ${from}` : `rows ${from} to ${to}`;

/** 1, 3, 4, 5 → "1, 3 to 5". */
export function rowList(rows: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const row of rows.toSorted((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && row <= last[1] + 1) last[1] = row;
    else runs.push([row, row]);
  }
  return runs
    .map(([from, to]) => (from === to ? `${from}` : to === from + 1 ? `${from}, ${to}` : `${from} to ${to}`))
    .join(", ");
}
