/** What a picture file says of itself before it is decoded: its kind, its size, and whether it brings a colour profile. */
import type { Problem } from "../../base/problem.ts";

export type PictureKind =
  "JPEG" | "PNG" | "WebP" | "AVIF" | "HEIC" | "TIFF" | "raw" | "JPEG XL" | "PDF" | "SVG" | "nothing" | "other";

export interface PictureHead {
  readonly kind: PictureKind;
  /** Pixels as stored, before it is turned upright; null where the beginning of the file does not say. */
  readonly size: { readonly width: number; readonly height: number } | null;
  /** Its numbers may mean other colours than sRGB. */
  readonly hasProfile: boolean;
  /** Its colours are four inks of a printing press. */
  readonly isInks?: boolean;
}

/** As much of a file as `pictureHead` wants to see, bytes: cameras put previews before the size. Our choice. */
export const HEAD_BYTES = 1_000_000;

/** Sources: the magic numbers and headers of the formats' own specifications (JFIF/Exif, PNG, RIFF WebP, ISO 14496-12, TIFF 6). */
export function pictureHead(bytes: Uint8Array): PictureHead {
  const plain = (kind: PictureKind): PictureHead => ({ kind, size: null, hasProfile: true });
  const start = latin(bytes, 0, 64);
  if (bytes.length === 0) return plain("nothing");
  if (start.startsWith("\xff\xd8\xff")) return jpegHead(bytes);
  if (start.startsWith("\x89PNG\r\n\x1a\n")) return pngHead(bytes);
  if (start.startsWith("RIFF") && start.slice(8, 12) === "WEBP") return webpHead(bytes);
  if (start.slice(4, 8) === "ftyp") return boxedHead(bytes, start);
  if (/^(II\*\0|MM\0\*)/.test(start)) return plain(/^II\*\0.{4}CR/s.test(start) ? "raw" : "TIFF");
  if (/^(FUJIFILMCCD-RAW|IIRO|IIRS|IIU\0|\0MRM|FOVb)/.test(start)) return plain("raw");
  if (/^(\xff\x0a|\0\0\0\x0cJXL )/.test(start)) return plain("JPEG XL");
  if (start.startsWith("%PDF-")) return plain("PDF");
  if (/<svg[\s>]/.test(latin(bytes, 0, 1000))) return plain("SVG");
  return plain("other");
}

/** Pixels. A picture of more would take half a gigabyte when it is opened; our choice. */
export const MOST_PIXELS = 100_000_000;

/** Two good readers of the same inks were seen to differ by more than 5 ΔE00: a shade told by either would be a guess. */
export function inInks({ isInks }: PictureHead): Problem | null {
  if (!isInks) return null;
  return fault(
    "a photograph as a camera makes it",
    "CMYK, made over for print, with its colours moved; take the original, or save it as RGB and do not trust its shades far",
  );
}

export function tooLarge({ size }: PictureHead): Problem | null {
  if (!size || size.width * size.height <= MOST_PIXELS) return null;
  const megapixels = Math.round((size.width * size.height) / 1e6);
  return fault(
    `at most ${MOST_PIXELS / 1e6} megapixels`,
    `${size.width} × ${size.height}, which is ${megapixels} megapixels: save it at half its width and height and try that`,
  );
}

/** Why the browser could not open it, and what she can do. */
export function unopened({ kind }: PictureHead): Problem {
  const openable = "a picture that this browser can open, such as JPEG, PNG, WebP or AVIF";
  return fault(openable, WAYS_OUT[kind]);
}

const DAMAGED = "a file that breaks off or is damaged; copy it from the camera once more, or save it anew as JPEG";
const WAYS_OUT: Readonly<Record<PictureKind, string>> = {
  JPEG: DAMAGED,
  PNG: DAMAGED,
  WebP: DAMAGED,
  AVIF: `AVIF, which it cannot open, or ${DAMAGED}`,
  HEIC: "HEIC, as many phones keep photographs; share or export it from the phone as JPEG (phones call that “most compatible”) and try that",
  TIFF: "TIFF or a camera’s raw file; export it from a photo program as JPEG, whole, and try that",
  raw: "a camera’s raw file; export it from the camera’s own or another photo program as JPEG, and try that",
  "JPEG XL": "JPEG XL; save it as JPEG and try that",
  PDF: "a PDF, which is pages; take the photograph out of it as JPEG and try that",
  SVG: "a drawing (SVG), which no camera made; only a photograph tells shades",
  nothing: "an empty file; copy it once more",
  other: "something else; if a picture program can show it, save it there as JPEG and try that",
};

const fault = (expected: string, got: string): Problem => ({
  where: "the photograph",
  expected,
  got,
  severity: "fault",
});

const latin = (bytes: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, Math.min(bytes.length, to)));

function jpegHead(bytes: Uint8Array): PictureHead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let hasProfile = false;
  for (let at = 2; at + 9 < bytes.length && bytes[at] === 0xff;) {
    const marker = bytes[at + 1]!;
    // 0xC0 to 0xCF start a frame and tell its size, but for three that bring tables.
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      const size = { width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
      return { kind: "JPEG", size, hasProfile, ...(bytes[at + 9] === 4 ? { isInks: true } : {}) };
    }
    if (marker === 0xe2 && latin(bytes, at + 4, at + 15) === "ICC_PROFILE") hasProfile = true;
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return { kind: "JPEG", size: null, hasProfile };
}

function pngHead(bytes: Uint8Array): PictureHead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const size = bytes.length >= 24 ? { width: view.getUint32(16), height: view.getUint32(20) } : null;
  let hasProfile = false;
  for (let at = 8; at + 8 <= bytes.length; at += 12 + view.getUint32(at)) {
    const chunk = latin(bytes, at + 4, at + 8);
    if (["iCCP", "cICP", "gAMA", "cHRM"].includes(chunk)) hasProfile = true;
    if (chunk === "IDAT") break;
  }
  return { kind: "PNG", size, hasProfile };
}

function webpHead(bytes: Uint8Array): PictureHead {
  const kind = "WebP";
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const chunk = latin(bytes, 12, 16);
  if (bytes.length < 30) return { kind, size: null, hasProfile: false };
  if (chunk === "VP8X") {
    const three = (at: number): number => bytes[at]! + (bytes[at + 1]! << 8) + (bytes[at + 2]! << 16) + 1;
    return { kind, size: { width: three(24), height: three(27) }, hasProfile: (bytes[20]! & 0x20) !== 0 };
  }
  if (chunk === "VP8L") {
    const bits = view.getUint32(21, true);
    return { kind, size: { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 }, hasProfile: false };
  }
  const size = { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff };
  return { kind, size, hasProfile: false };
}

/** Pictures in boxes: AVIF, HEIC and a raw kind. The largest image told of is the photograph; others are its previews. */
function boxedHead(bytes: Uint8Array, start: string): PictureHead {
  const brands = start.slice(8, 8 + 40);
  const kind = /avi[fs]/.test(brands) ? "AVIF" : brands.startsWith("crx ") ? "raw" : "HEIC";
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let size: PictureHead["size"] = null;
  for (let at = 0; at + 16 <= bytes.length && at < 100_000; at++) {
    if (bytes[at] !== 0x69 || latin(bytes, at, at + 4) !== "ispe") continue;
    const told = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
    if (!size || told.width * told.height > size.width * size.height) size = told;
  }
  return { kind, size, hasProfile: true };
}
