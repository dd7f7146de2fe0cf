/** Packed parts of a PDF that would unpack to more than a page can be: found before anything reads them. */
import type { Problem } from "../../base/problem.ts";

/** Unpacks zlib data piece by piece; ends, or throws, where the data end or are none. */
export type Unpack = (packed: Uint8Array) => AsyncIterable<Uint8Array>;

/**
 * Goes through every part that could be one, whatever the file says of it: the file may lie. Packed twice is looked
 * into twice. Only a part long enough to be a danger is unpacked, as deflate makes at most 1032 bytes of one.
 */
export async function unpacksTooFar(file: Uint8Array, unpack: Unpack): Promise<Problem | null> {
  let work = 0;
  for (const { from, to, isPicture } of packedParts(file)) {
    const most = isPicture ? MOST_PICTURE_BYTES : MOST_BYTES;
    const packed = file.subarray(from, to);
    const twice = (packed.length * DEFLATE_MOST * DEFLATE_MOST) / 2 > most;
    if (packed.length * DEFLATE_MOST <= most && !twice) continue;
    const size = await unpackedSize(packed, most, unpack, 0);
    work += size;
    if (size > most || work > MOST_WORK) return tooMuch(size > most ? most : MOST_WORK);
  }
  return null;
}

const tooMuch = (most: number): Problem => ({
  where: "the PDF file",
  expected: `parts that unpack to at most ${most / 1e6} MB`,
  got: "one that unpacks to more, so it was not opened",
  severity: "fault",
});

/** Bytes, or more than `most` where it goes on. */
async function unpackedSize(packed: Uint8Array, most: number, unpack: Unpack, depth: number): Promise<number> {
  let size = 0;
  let head: Uint8Array | null = null;
  try {
    for await (const piece of unpack(packed)) {
      head ??= piece;
      size += piece.length;
      if (size > most) return size;
    }
  } catch {
    // What follows the packed data, or is none, is not our business here.
  }
  if (head === null || depth >= 2 || !isZlib(head, 0) || size > most) return size;
  const inner = new Uint8Array(size);
  let at = 0;
  try {
    for await (const piece of unpack(packed)) {
      inner.set(piece, at);
      at += piece.length;
    }
  } catch {
    // As above.
  }
  return Math.max(size, await unpackedSize(inner.subarray(0, at), most, unpack, depth + 1));
}

interface Part {
  readonly from: number;
  readonly to: number;
  readonly isPicture: boolean;
}

/** Data after each "stream" that begin as zlib does, to where they end at the latest. */
function* packedParts(file: Uint8Array): Generator<Part> {
  for (let at = find(file, STREAM, 0); at >= 0; at = find(file, STREAM, at + STREAM.length)) {
    let from = at + STREAM.length;
    if (file[from] === 13) from++;
    if (file[from] === 10) from++;
    if (!isZlib(file, from)) continue;
    const about = latin(file, Math.max(0, at - DICTIONARY), at);
    const own = about.slice(Math.max(0, about.lastIndexOf(" obj")));
    const stated = /\/Length\s+(\d+)(?!\d*\s+\d+\s+R)/.exec(own);
    const end = find(file, END, from);
    const length = stated ? Number(stated[1]) : 0;
    yield {
      from,
      to: Math.min(file.length, Math.max(from + length, end < 0 ? file.length : end)),
      isPicture: /\/Subtype\s*\/Image/.test(own),
    };
  }
}

/** Source: RFC 1950, 2.2. */
const isZlib = (bytes: Uint8Array, at: number): boolean =>
  (bytes[at]! & 15) === 8 && bytes[at]! >> 4 <= 7 && ((bytes[at]! << 8) | bytes[at + 1]!) % 31 === 0;

const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const STREAM = bytesOf("stream");
const END = bytesOf("endstream");
const latin = (bytes: Uint8Array, from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));

function find(bytes: Uint8Array, wanted: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(wanted[0]!, from); at >= 0; at = bytes.indexOf(wanted[0]!, at + 1)) {
    let same = 1;
    while (same < wanted.length && bytes[at + same] === wanted[same]) same++;
    if (same === wanted.length) return at;
  }
  return -1;
}

/** Source: zlib's technical details (the format's greatest ratio, 1032 : 1). */
const DEFLATE_MOST = 1032;
/** Bytes: the orders of a very full page; a picture of 100 million pixels in four channels; and all that is tried in one file. Our choice. */
const MOST_BYTES = 60e6;
const MOST_PICTURE_BYTES = 400e6;
const MOST_WORK = 2e9;
/** Bytes before "stream" in which its dictionary is looked for. */
const DICTIONARY = 2000;
