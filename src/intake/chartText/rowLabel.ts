/** What stands before a row's stitches: "Rnd 12:", "Rows 3–5 (RS):", "Row 2 and all WS rows". */

export interface RowLabel {
  /** From 1 at the bottom, in the order written. */
  numbers: number[];
  kind: "row" | "round";
  side: "RS" | "WS" | null;
  /** An arrow or words that say which way the row is to be read. */
  way: "right-to-left" | "left-to-right" | null;
  /** "and all even rows": the rows of this side that nothing else is said of. */
  others: boolean;
  /** What follows. */
  body: string;
}

/** Null where a line begins with no such words. Rows beyond `MOST_ROWS` are none: so long a list is something else. */
export function rowLabelOf(text: string): RowLabel | null {
  const [ordinal, nth, what] = ORDINAL.exec(text) ?? [];
  if (ordinal !== undefined) return rowLabelOf(`${what!} ${nth!}${text.slice(ordinal.length)}`);
  const match = LABEL.exec(text);
  if (!match) return null;
  const [full, word] = match as unknown as [string, string, string];
  // "R1 - 4 MC": the dash stands for a colon where no sign follows the second number.
  const dashed = /^\s*\S*?\s*#?\s*\d+(?=\s+[-–—]\s+\d+\s+\p{L})/iu.exec(text);
  const whole = dashed && !/^\s*[:.)(]/.test(text.slice(full.length)) ? dashed[0] : full;
  const numbers = numbersOf(/\d[^]*$/.exec(whole)![0]);
  if (!numbers) return null;
  let rest = text.slice(whole.length);
  const label: RowLabel = {
    numbers,
    kind: /^r(?:n|oun|d)/i.test(word) ? "round" : "row",
    side: null,
    way: null,
    others: false,
    body: "",
  };
  for (;;) {
    const others = OTHERS.exec(rest);
    const aside = ASIDE.exec(rest);
    const found = others ?? aside;
    if (!found) break;
    if (others) label.others = true;
    const words = found[0].toLowerCase();
    if (/\bws\b|wrong/.test(words)) label.side = "WS";
    else if (/\brs\b|right side/.test(words)) label.side = "RS";
    if (/→|left to right/.test(words)) label.way = "left-to-right";
    else if (/←|right to left/.test(words)) label.way = "right-to-left";
    rest = rest.slice(found[0].length);
  }
  const sign = /^\s*[:.)–—=-]+\s*|^\s+|$/.exec(rest);
  if (!sign) return null;
  label.body = rest.slice(sign[0].length).trim();
  // "Row 1: (RS) …"
  const [after] = label.side === null ? (/^[([]\s*(?:rs|ws)\s*[)\]]\s*:?\s*/i.exec(label.body) ?? []) : [];
  if (after !== undefined) {
    label.side = /ws/i.test(after) ? "WS" : "RS";
    label.body = label.body.slice(after.length);
  }
  return label;
}

/** "3", "3-5", "1, 3 and 5"; null where a range runs backwards or is too long. */
function numbersOf(list: string): number[] | null {
  const numbers: number[] = [];
  for (const part of list.split(/\s*(?:,|&|\+|\band\b)\s*/i)) {
    const [, from, to] = /^(\d{1,4})(?:\s*(?:-|–|—|\bto\b)\s*(\d{1,4}))?$/i.exec(part.trim()) ?? [];
    if (from === undefined) return null;
    const [first, last] = [Number(from), Number(to ?? from)];
    if (first < 1 || last < first || last > MOST_ROWS) return null;
    for (let number = first; number <= last; number++) numbers.push(number);
  }
  return numbers;
}

/** "1st rnd", "12th row". */
const ORDINAL = /^\s*(\d{1,4})(?:st|nd|rd|th)\s+(row|rnd|round)\b/i;
/** "Row" and what shortens it; a bare "R" only right before its number. */
const LABEL =
  /^\s*(rows?|rnds?\.?|rounds?|rds?\.?|r(?=\d))\s*#?\s*(\d{1,4}(?:\s*(?:-|–|—|,|&|\+|\bto\b|\band\b)\s*\d{1,4}(?![\d]*\s*[x×]))*)(?![\p{L}\d])/iu;
const OTHERS =
  /^\s*(?:,?\s*(?:and|&)\s+)(?:all|every)\s+(?:other\s+|following\s+|foll\.?\s+|alternate\s+|alt\.?\s+)?(?:even|odd|ws|rs|wrong[- ]side|right[- ]side)?(?:[- ]numbered)?\s*(?:rows?|rnds?|rounds?)\b/i;
const ASIDE =
  /^\s*(?:[([]\s*(?:rs|ws|right side|wrong side|(?:read\s+)?(?:from\s+)?(?:left to right|right to left))(?:\s+(?:facing|row))?\s*[)\]]|[←→]|,?\s*(?:rs|ws)(?=\s*[:,.)]))/i;
/** The longest chart, twice over: garments have no more rounds than that. Our choice. */
const MOST_ROWS = 1000;
