/** The bytes of a file as text: which encoding a spreadsheet has written is told from the bytes themselves. */
import type { Problem } from "../base/problem.ts";

export interface TableText {
  text: string;
  encoding: Encoding;
}

export type Encoding = (typeof ENCODINGS)[number];
export const ENCODINGS = ["utf-8", "utf-16le", "utf-16be", "windows-1252"] as const;

/**
 * Text of a table's file, without its byte order mark; `encoding` where she knows better. A workbook, a picture or a
 * paper is refused with a sentence that says what to do. Bytes that stand for nothing become "\uFFFD", and that is told.
 */
export function textOfTable(bytes: Uint8Array, encoding?: Encoding): { value: TableText | null; problems: Problem[] } {
  const stranger = STRANGERS.find(({ opening }) => opening.every((byte, at) => bytes[at] === byte));
  if (stranger) {
    const { got, expected } = stranger;
    return { value: null, problems: [{ where: "the file", expected, got, severity: "fault" }] };
  }
  const found = encoding ?? encodingOf(bytes);
  const text = decoded(bytes, found).replace(/^\uFEFF/, "");
  const lost = text.includes("\uFFFD") ? text.split("\uFFFD").length - 1 : 0;
  const problems: Problem[] =
    lost === 0
      ? []
      : [
          {
            where: "the file's letters",
            expected: `text in ${found.toUpperCase()}`,
            got: `${lost === 1 ? "a letter" : `${lost} letters`} that cannot be read, shown as \uFFFD`,
            severity: "doubt",
          },
        ];
  return { value: { text, encoding: found }, problems };
}

function encodingOf(bytes: Uint8Array): Encoding {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return "utf-8";
  return wideOrder(bytes) ?? (looksLikeUtf8(bytes) ? "utf-8" : "windows-1252");
}

/** In UTF-16 every second byte of a western text is zero, which no other text of a table has. */
function wideOrder(bytes: Uint8Array): Encoding | null {
  const zeros = [0, 0];
  const length = Math.min(bytes.length, LOOKED_AT);
  for (let at = 0; at < length; at++) if (bytes[at] === 0) zeros[at % 2]!++;
  const [even, odd] = zeros as [number, number];
  const many = (length / 2) * MANY_ZEROS;
  if (odd > many && even < odd / 10) return "utf-16le";
  return even > many && odd < even / 10 ? "utf-16be" : null;
}

/** A text with more good sequences than broken ones was written as UTF-8 and damaged later. */
function looksLikeUtf8(bytes: Uint8Array): boolean {
  let good = 0;
  let broken = 0;
  for (let at = 0; at < bytes.length;) {
    const length = sequenceAt(bytes, at);
    if (length === 0) broken++;
    else if (length > 1) good++;
    at += Math.max(1, length);
  }
  return broken === 0 || good > broken * 3;
}

/** Bytes of the character that begins here; 0 where none does (Unicode 15, table 3-7). */
function sequenceAt(bytes: Uint8Array, at: number): number {
  const first = bytes[at]!;
  if (first < 0x80) return 1;
  const length = first >= 0xc2 && first < 0xe0 ? 2 : first >= 0xe0 && first < 0xf0 ? 3 : first < 0xf5 ? 4 : 0;
  if (first < 0xc2 || length === 0) return 0;
  for (let next = 1; next < length; next++) {
    const byte = bytes[at + next];
    if (byte === undefined || byte < 0x80 || byte > 0xbf) return 0;
  }
  const second = bytes[at + 1]!;
  const short = (first === 0xe0 && second < 0xa0) || (first === 0xf0 && second < 0x90);
  const beyond = (first === 0xed && second > 0x9f) || (first === 0xf4 && second > 0x8f);
  return short || beyond ? 0 : length;
}

function decoded(bytes: Uint8Array, encoding: Encoding): string {
  const parts: string[] = [];
  let units: number[] = [];
  const give = (unit: number): void => {
    units.push(unit);
    if (units.length < AT_ONCE) return;
    parts.push(String.fromCharCode(...units));
    units = [];
  };
  if (encoding === "windows-1252") {
    for (const byte of bytes) give(byte >= 0x80 && byte < 0xa0 ? WINDOWS_1252.charCodeAt(byte - 0x80) : byte);
  } else if (encoding === "utf-8") {
    for (let at = 0; at < bytes.length;) {
      const length = sequenceAt(bytes, at);
      const point = length === 0 ? 0xfffd : pointAt(bytes, at, length);
      if (point > 0xffff) give(0xd7c0 + (point >> 10));
      give(point > 0xffff ? 0xdc00 + (point & 0x3ff) : point);
      at += Math.max(1, length);
    }
  } else {
    const [high, low] = encoding === "utf-16be" ? [0, 1] : [1, 0];
    for (let at = 0; at + 1 < bytes.length; at += 2) give((bytes[at + high]! << 8) | bytes[at + low]!);
    if (bytes.length % 2 === 1) give(0xfffd);
  }
  return parts.join("") + String.fromCharCode(...units);
}

function pointAt(bytes: Uint8Array, at: number, length: number): number {
  let point = length === 1 ? bytes[at]! : bytes[at]! & (0xff >> (length + 1));
  for (let next = 1; next < length; next++) point = (point << 6) | (bytes[at + next]! & 0x3f);
  return point;
}

/** Bytes 0x80 to 0x9f of Windows-1252 as the WHATWG Encoding Standard has them; the others are those of Latin-1. */
const WINDOWS_1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

const AS_TEXT =
  "a table saved as text (in the spreadsheet: Save as or Export, CSV; the kind called “CSV UTF-8” keeps every letter)";
/** Openings of files that are no text, by their formats' own specifications. */
const STRANGERS: readonly { opening: readonly number[]; got: string; expected: string }[] = [
  { opening: [0x50, 0x4b, 0x03, 0x04], got: "a spreadsheet's workbook (such as xlsx or ods)", expected: AS_TEXT },
  { opening: [0xd0, 0xcf, 0x11, 0xe0], got: "an old spreadsheet's workbook (xls)", expected: AS_TEXT },
  { opening: [0x25, 0x50, 0x44, 0x46], got: "a PDF", expected: AS_TEXT },
  { opening: [0x89, 0x50, 0x4e, 0x47], got: "a picture", expected: AS_TEXT },
  { opening: [0xff, 0xd8, 0xff], got: "a picture", expected: AS_TEXT },
  { opening: [0x1f, 0x8b], got: "a packed file (gzip)", expected: AS_TEXT },
];

/** Bytes that are enough to see an order in; our choice. */
const LOOKED_AT = 4096;
/** Share of a text's units that are below U+0100 in any western language, with room for others; our choice. */
const MANY_ZEROS = 0.3;
/** Units of UTF-16 that one call may be handed. */
const AT_ONCE = 4096;
